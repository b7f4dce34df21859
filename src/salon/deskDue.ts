/** What is to be done at the desk before the salon next opens, read off the plans. Pure; makes no words. */
import { asksForSteps, isOfQuestions, isReady, isWithSalon, tellsOfLeftKit } from "../feed/openSteps.ts";
import type { Plan, Step } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";

/**
 * `post`: to hand to the post; `walk-in`: a test to put on at the salon; `kit`: one that did not come, or is not told to be on;
 * `removal`, `look`: of a test that is on; `confirm`: a result that only a person's word is wanting to; `decide`: answers that
 * wait for a person; `questions`: not answered yet.
 */
export const DUE_KINDS = ["decide", "post", "walk-in", "kit", "removal", "look", "confirm", "questions"] as const;
export type DueKind = (typeof DUE_KINDS)[number];

export interface Due {
  readonly kind: DueKind;
  /** By `booking.uid`. */
  readonly booking: string;
  readonly step: Step;
  /** When it is to be done by: a look or a removal from its opening on. */
  readonly at: Instant;
  /** Whether that has passed. */
  readonly isLate: boolean;
}

/** What of these plans falls due before `until`, or did and is not recorded; the earliest first. */
export const dueOf = (plans: readonly Plan[], now: Instant, until: Instant): readonly Due[] =>
  plans
    .flatMap((plan) => stepsOf(plan).flatMap((step) => dueAs(step, plan, now, until) ?? []))
    .sort((one, other) => one.at - other.at);

const stepsOf = (plan: Plan): readonly Step[] => [
  ...(asksForSteps(plan) ? plan.steps : []),
  ...(tellsOfLeftKit(plan) ? plan.leftBehind : []),
];

const dueAs = (step: Step, plan: Plan, now: Instant, until: Instant): Due | undefined => {
  const kind = kindOf(step, plan, now, until);
  if (kind === undefined) return undefined;
  const at = kind === "removal" || kind === "look" ? step.opens : step.due;
  return { kind, booking: plan.booking.uid, step, at, isLate: step.state === "planned" && step.due < now };
};

const kindOf = (step: Step, plan: Plan, now: Instant, until: Instant): DueKind | undefined => {
  if (isConfirmedBy(step, plan)) return isOnlyToConfirm(plan) ? "confirm" : undefined;
  if (isOfQuestions(step) && isWithSalon(step, plan)) return "decide";
  if (step.state !== "planned" || step.kind === "result") return undefined;
  const isDue = step.due <= until;
  switch (step.kind) {
    case "screening":
    case "rescreening":
      return isDue ? "questions" : undefined;
    case "shipping":
      return isDue ? "post" : undefined;
    case "arrival":
      return step.due < now && isPosted(plan) ? "kit" : undefined;
    case "application":
      if (plan.route === "home-kit") return step.due < now && isPosted(plan) ? "kit" : undefined;
      return isDue ? "walk-in" : undefined;
    case "removal":
    case "reading":
      if (step.counted?.recorded !== true || step.opens > until) return undefined;
      return step.kind === "removal" ? "removal" : "look";
  }
};

/** The step whose row asks for the confirmation: the result, or on file the questions asked again. */
const isConfirmedBy = ({ kind, state }: Step, { route }: Plan): boolean =>
  kind === "result" || (kind === "rescreening" && route === "on-file" && state === "done");

/** Whether a person's word is all that is missing: pressed before the questions are answered it would count for nothing. */
const isOnlyToConfirm = (plan: Plan): boolean =>
  !isReady(plan) &&
  !plan.steps.some((step) => isOfQuestions(step) && step.state === "planned") &&
  (plan.steps.some(({ kind, state }) => kind === "result" && state === "done") ||
    plan.why.some(({ code }) => code === "not-confirmed"));

const isPosted = ({ steps }: Plan): boolean => steps.some(({ kind, state }) => kind === "shipping" && state === "done");
