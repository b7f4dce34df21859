/**
 * A plan along a time axis, as the pictures of it draw it: when each step is, how far it has come, and which days are shut.
 * Makes no HTML.
 */
import { isDoneFrom, stepTime } from "../feed/eventTime.ts";
import { doneTimes, stepLines } from "../feed/nextToDo.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Shade } from "../plan/shades.ts";
import type { Plan, Step, StepKind } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";

/** One step on the axis. */
export interface ChainMark {
  readonly kind: StepKind;
  /** The number of a look; null for every other kind. */
  readonly n: number | null;
  /** When it can be done from, and by when it is to be done. */
  readonly opens: Instant;
  readonly due: Instant;
  readonly state: "open" | "now" | "asked" | "done" | "off";
  /** Whether its times hang on a test that nobody has recorded: they are where they would be if it went on as planned. */
  readonly hangs: boolean;
  /** What it is and by when, and how far it has come: for who reads instead of looking. */
  readonly words: string;
}

export interface ChainShown {
  readonly marks: readonly ChainMark[];
  /** The colour's start. */
  readonly colour: Instant;
  readonly now: Instant;
  readonly shades: readonly Shade[];
}

/** As in the list: a look from when on she is awake for it. */
const shownFrom = (step: Step, { settings, zone }: FeedContext): Instant =>
  isDoneFrom(step) ? stepTime(step, settings, zone).from : step.opens;

export const chainOf = (plan: Plan, shades: readonly Shade[], context: FeedContext): ChainShown => {
  const steps = new Map([...plan.steps, ...plan.leftBehind].map((step) => [step.uid, step]));
  const marks = stepLines(plan, context).flatMap(({ uid, kind, n, state, stateWords, text, when }): ChainMark[] => {
    const step = steps.get(uid);
    if (!step) return [];
    const times = state === "done" ? doneTimes(step, plan) : { opens: shownFrom(step, context), due: step.due };
    return [{ kind, n, ...times, state, hangs: when === null, words: `${text}: ${stateWords}` }];
  });
  // Where nothing is posted, days without post move nothing.
  const isPosted = marks.some(({ kind }) => kind === "shipping" || kind === "arrival");
  const shown = shades.flatMap((shade) => (isPosted ? [shade] : shade.salon ? [{ ...shade, post: false }] : []));
  return { marks, colour: plan.booking.start, now: plan.asOf, shades: shown };
};
