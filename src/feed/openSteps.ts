/** Which standings still ask for steps. One place, so that feeds and page can never disagree about a stop. */
import type { Plan, Step } from "../plan/types.ts";

/** Whether a stop holds, or held when the appointment passed. */
export const isStopped = ({ standing, why }: Plan): boolean =>
  standing === "stop" || (standing === "past" && why.some(({ code }) => code === "stop"));

/** Whether she is to hear of the stop: of an appointment that has passed only where it concerns that one (plan.alarm). */
export const tellsOfStop = (plan: Plan): boolean =>
  isStopped(plan) && (plan.standing !== "past" || plan.alarm?.kind === "stop");

/** Whether all that the colour waits for is recorded, or was when the appointment passed. */
export const isReady = ({ standing, why }: Plan): boolean =>
  standing === "ready" || (standing === "past" && why.some(({ code }) => code === "ready"));

/**
 * Whether open steps are still to be done. Not under a stop, whatever the plan keeps, nor where no test fits any more: then
 * only the telephone helps.
 */
export const asksForSteps = (plan: Plan): boolean =>
  !isStopped(plan) && plan.standing !== "no-time" && plan.standing !== "cancelled";

/** Whether a kit that was left behind may still be on the skin, so that its removal and looks are told. */
export const tellsOfLeftKit = (plan: Plan): boolean => asksForSteps(plan) || plan.standing === "no-time";

/** Whether the test that is on is not enough any more, so that she must hear of a new one first. */
export const needsNewTest = ({ alarm }: Plan): boolean => alarm?.kind === "new-test";

/** Whether her appointment's event asks her to telephone, and for nothing else. */
export const asksToTelephone = (plan: Plan): boolean =>
  isStopped(plan) || needsNewTest(plan) || plan.standing === "no-time";

/**
 * Whether nothing is recorded of a test and none fits any more: until the salon knows, all hangs on her answer (counting.md
 * 22), and her appointment's event asks for it, since the test's own stands in the past.
 */
export const asksWhetherOn = (plan: Plan): boolean =>
  plan.standing === "late" &&
  !plan.routes.some(({ fits }) => fits) &&
  plan.steps.some(({ kind, state }) => kind === "application" && state === "planned");

/** Whether a test that the plan does not count on is recorded and not off again. */
export const isTestOnBeside = ({ leftBehind }: Plan): boolean => {
  const worn = leftBehind.filter(({ counted }) => counted?.recorded);
  const removal = worn.find(({ kind }) => kind === "removal");
  return removal ? removal.state === "planned" : worn.some(({ state }) => state === "planned");
};

/** The health questions, asked or asked again. */
export const isOfQuestions = ({ kind }: Step): boolean => kind === "screening" || kind === "rescreening";

/** Whether her newest answers wait for a person at the salon (the plan's `person-decides`). */
export const isUndecided = ({ why }: Plan): boolean => why.some(({ code }) => code === "person-decides");

/** Answered, and yet open until a person has decided. */
export const isWithSalon = (step: Step, plan: Plan): boolean =>
  isOfQuestions(step) && step.state === "planned" && isUndecided(plan);
