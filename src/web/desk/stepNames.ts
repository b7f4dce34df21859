/** What the desk's lists call a step, in a word or two. */
import type { StepKind } from "../../plan/types.ts";

export const STEP_NAMES: Readonly<Record<StepKind, string>> = {
  screening: "Questions",
  rescreening: "Questions again",
  shipping: "Post the kit",
  arrival: "Kit arrives",
  application: "Test on",
  removal: "Test off",
  reading: "Look",
  result: "Result",
};
