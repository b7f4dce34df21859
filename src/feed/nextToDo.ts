/**
 * The words of a client's page: the one next thing to do, and every step with its state. Makes no HTML, and asks for
 * nothing that her feed does not ask for.
 */
import type { Instant } from "../time/instant.ts";
import type { Plan, Step } from "../plan/types.ts";
import { hasShown, stepHow, stepNotes, stepWhenIf } from "./descriptions.ts";
import { fill } from "./fill.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import { asksForSteps, isOfQuestions, isUndecided, isWithSalon, needsNewTest, tellsOfLeftKit } from "./openSteps.ts";
import type { FeedContext } from "./types.ts";
import { type Reader, moodOf, namesIn, plainMoodOf, stepNameOf, stepSummary, stepWhen } from "./words.ts";

export interface NextToDo {
  /** One sentence. */
  readonly headline: string;
  /** How, until when, and what is reported so far; paragraphs parted by an empty line. */
  readonly detail: string;
  /** Whether it is to answer the salon's questions, and the time for it has come. */
  readonly isQuestions: boolean;
}

export interface StepLine {
  readonly uid: string;
  readonly kind: Step["kind"];
  readonly n: number | null;
  readonly who: Step["who"];
  /** That it belongs to. */
  readonly route: Plan["route"];
  /** What to do and by when. */
  readonly text: string;
  /** The exact times with their dates; null while they hang on a test nobody recorded. */
  readonly when: string | null;
  /** While they hang on one: the times, had it gone on as planned. */
  readonly whenIf: string | null;
  /** How to do it, what to look for, and the rule behind it; a paragraph each. */
  readonly notes: readonly string[];
  /** For machines: `open` not begun, `now` open, `asked` past its time and not recorded. */
  readonly state: "open" | "now" | "asked" | "done" | "off";
  /** The same in words. */
  readonly stateWords: string;
}

/** The next thing for the client to do: a question where its time has passed, the telephone where nothing else helps. */
export const nextToDo = (plan: Plan, context: FeedContext): NextToDo => {
  const catalogue = catalogueOf(context.settings.language);
  const { page, colour, says, questions } = catalogue;
  const names = namesIn(plan, context, catalogue);
  const dated = { ...names, at: names["longAt"] ?? "" };
  const say = (headline: string, ...detail: readonly string[]): NextToDo => ({
    headline: fill(headline, dated),
    detail: detail.map((text) => fill(text, dated)).join("\n\n"),
    isQuestions: false,
  });
  const reported = reportedSoFar(plan, context);
  switch (plan.standing) {
    case "cancelled":
      return say(page.cancelled, page.cancelledDetail);
    case "past":
      return say(page.past, page.pastDetail);
    case "stop":
      return say(colour.stop, hasShown(plan) ? colour.stopShownHow : colour.stopHow);
    case "no-time":
      if (needsNewTest(plan)) return say(colour.newTest, colour.newTestHow, reported);
      return say(colour.noTime, colour.noTimeHow, reported);
    case "ready":
      return say(page.ready, page.readyDetail, says.notCertain);
    case "on-track":
    case "due":
    case "late": {
      if (needsNewTest(plan)) return say(colour.newTest, colour.newTestHow, reported);
      const step = nextStep(plan);
      if (isUndecided(plan) && !(step?.kind === "application" && moodOf(step, plan) === "late")) {
        return say(questions.looking, questions.lookingDetail, reported);
      }
      if (!step) return say(page.waiting, page.waitingDetail, reported);
      const mood = moodOf(step, plan);
      const when = mood === "late" ? null : stepWhen(step, plan, context);
      const detail = [
        stepHow(step, plan.route, plan, context),
        when === null ? null : fill(says.when, { span: when }),
        reported,
      ];
      return {
        headline: stepSummary(step, plan.route, plan, context, "client", mood, plan.asOf),
        detail: detail.filter((text) => text !== null).join("\n\n"),
        isQuestions: isOfQuestions(step) && step.opens <= plan.asOf,
      };
    }
  }
};

/** When and where her colour is, in one sentence. */
export const appointmentWords = (plan: Plan, context: FeedContext): string => {
  const catalogue = catalogueOf(context.settings.language);
  const names = namesIn(plan, context, catalogue);
  return fill(catalogue.says.appointment, { ...names, at: names["longAt"] ?? "" });
};

/** Whether the salon's questions are still to be answered for this appointment, so that a page may ask for it. */
export const asksQuestions = (plan: Plan): boolean =>
  asksForSteps(plan) &&
  !isUndecided(plan) &&
  plan.steps.some((step) => isOfQuestions(step) && step.state === "planned");

/** A step as far as it has come, with the route it belongs to. */
export interface ShownStep {
  readonly step: Step;
  readonly route: Plan["route"];
  readonly state: StepLine["state"];
}

/** Every step of the plan that is done or still asked for, then those of a kit left behind. */
export const shownSteps = (plan: Plan): readonly ShownStep[] => {
  if (plan.standing === "cancelled") return [];
  const steps = plan.steps.filter(({ state }) => state === "done" || (state !== "cancelled" && asksForSteps(plan)));
  const leftBehind = tellsOfLeftKit(plan) ? plan.leftBehind : [];
  return [
    ...steps.map((step) => ({ step, route: plan.route, state: stateOf(step, plan) })),
    ...leftBehind.map((step) => ({ step, route: plan.leftRoute, state: stateOf(step, plan) })),
  ];
};

/** What is done stands where it was done, as far as the plan knows that, and never after now. */
export const doneTimes = (
  { kind, opens, due }: Step,
  plan: Plan,
): { readonly opens: Instant; readonly due: Instant } => {
  const on = kind === "application" ? plan.steps.find(({ counted }) => counted?.recorded)?.counted?.from : undefined;
  const at = Math.min(on ?? due, plan.asOf);
  return { opens: Math.min(opens, at), due: at };
};

/** The same in words, spoken to the client or to the salon. */
export const stepLines = (plan: Plan, context: FeedContext, reader: Reader = "client"): readonly StepLine[] =>
  shownSteps(plan).map((shown) => lineOf(shown, plan, context, reader));

/** Whether the test is on is asked before anything else that is late: everything after it hangs on the answer. */
const nextStep = (plan: Plan): Step | undefined => {
  const open = plan.steps.filter(
    ({ who, state }) => who === "client" && (state === "planned" || state === "unrecorded"),
  );
  const late = open.filter((step) => moodOf(step, plan) === "late");
  const byDue = open.toSorted((left, right) => left.due - right.due);
  return late.find(({ kind }) => kind === "application") ?? byDue[0];
};

const lineOf = ({ step, route, state }: ShownStep, plan: Plan, context: FeedContext, reader: Reader): StepLine => {
  const { page, questions } = catalogueOf(context.settings.language);
  return {
    uid: step.uid,
    kind: step.kind,
    n: step.n,
    who: step.who,
    route,
    text: stepSummary(step, route, plan, context, reader, plainMoodOf(step), plan.asOf),
    when: stepWhen(step, plan, context),
    whenIf: stepWhenIf(step, plan, context),
    notes: stepNotes(step, route, plan, context),
    state,
    stateWords: isWithSalon(step, plan) ? questions.lookingState : page.states[state],
  };
};

const stateOf = (step: Step, plan: Plan): StepLine["state"] => {
  if (step.state === "cancelled") return "off";
  if (step.state === "done") return "done";
  if (step.due < plan.asOf) return "asked";
  return step.opens <= plan.asOf ? "now" : "open";
};

const reportedSoFar = (plan: Plan, context: FeedContext): string => {
  const { page } = catalogueOf(context.settings.language);
  const done = plan.steps.filter((step) => step.state === "done" || isWithSalon(step, plan));
  if (done.length === 0) return page.nothingReported;
  const list = done.map((step) => fill(page.reportedSteps[stepNameOf(step, plan.route)], { n: String(step.n ?? 1) }));
  return fill(page.reported, { list: list.join(", ") });
};
