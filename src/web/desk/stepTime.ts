/** When a step is to be done, with its dates, for paper and for the telephone; of one that is open already only by when. */
import type { StepLine } from "../../feed/nextToDo.ts";
import type { FeedContext } from "../../feed/types.ts";
import type { Plan } from "../../plan/types.ts";
import { minuteIn } from "../minuteIn.ts";

/** Null where its times hang on a test that nobody recorded. */
export const stepTime = (plan: Plan, { uid, when }: StepLine, context: FeedContext): string | null => {
  const step = plan.steps.find((each) => each.uid === uid);
  if (when === null || !step || step.opens > plan.asOf) return when;
  return `by ${minuteIn(step.due, context)}`;
};
