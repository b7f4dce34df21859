/** The steps of a plan as events, for either feed. Decides which of them a standing calls off, and nothing else. */
import type { Plan, RouteName, Step } from "../plan/types.ts";
import { stepAlarms } from "./alarms.ts";
import { cancelContent } from "./cancelContent.ts";
import { clientStepDescription, salonStepDescription } from "./descriptions.ts";
import { isDoneFrom, stepTime } from "./eventTime.ts";
import { asksForSteps, isOfQuestions, isStopped, needsNewTest, tellsOfLeftKit } from "./openSteps.ts";
import type { EventContent, FeedContext } from "./types.ts";
import { isUnconfirmed, moodOf, plainMoodOf, type Reader, stepSummary } from "./words.ts";

/**
 * The event of a step, called off where it does not stay. `before` names the colour it must be finished before, with the
 * rule's hours where the rule counts to the colour; the questions count to the step that waits for them, a removal or a look
 * from the test, and a late look that comes after the colour has none.
 */
const stepEvent = (
  step: Step,
  route: RouteName | null,
  plan: Plan,
  context: FeedContext,
  reader: Reader,
  stays: boolean,
): EventContent => {
  const describe = reader === "client" ? clientStepDescription : salonStepDescription;
  const isKept = stays && step.state !== "cancelled";
  const mood = isKept ? moodOf(step, plan) : plainMoodOf(step);
  const time = stepTime(step, context.settings, context.zone);
  const event: EventContent = {
    uid: step.uid,
    kind: step.kind,
    time: { allDay: false, ...time },
    summary: stepSummary(step, route, plan, context, reader, mood),
    description: describe(step, route, plan, context),
    url: context.pageUrl,
    before:
      step.due <= plan.booking.start
        ? {
            uid: context.uidOf(plan.booking.uid, "colour", null),
            gap: isDoneFrom(step) || isOfQuestions(step) ? null : step.rule.duration,
          }
        : null,
    alarms: stepAlarms(step, time, plan, reader, context),
    task: {
      due: isDoneFrom(step) ? step.due : null,
      done: mood === "done" && !(reader === "salon" && isUnconfirmed(step, plan)),
    },
    cancelled: false,
  };
  return isKept ? event : cancelContent(event);
};

/** The events of every step that this reader sees, and of a kit left behind, as the plan's standing has them. */
export const stepEvents = (plan: Plan, context: FeedContext, reader: Reader): readonly EventContent[] => [
  ...plan.steps
    .filter(({ who }) => reader === "salon" || who === "client")
    .map((step) => {
      const isKept = plan.standing !== "cancelled" && !(reader === "client" && isStopped(plan));
      // Looks that are told do not make a result of what is stopped, or not enough.
      const isVoid = isUnconfirmed(step, plan) && (isStopped(plan) || needsNewTest(plan));
      const stays = step.state === "done" ? isKept && !isVoid : asksForSteps(plan) && !isVoid;
      return stepEvent(step, plan.route, plan, context, reader, stays);
    }),
  ...plan.leftBehind.map((step) => stepEvent(step, plan.leftRoute, plan, context, reader, tellsOfLeftKit(plan))),
];
