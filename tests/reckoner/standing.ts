/**
 * The standing of a booking and what of its plan is done: rules 22 and 23.
 * Never moves a step.
 */
import type { Standing, StepState } from "../../src/plan/types.ts";
import type { Book } from "./book.ts";
import { type Evidence, holdClear, isReaction, type LookRead, readLooks, type Told } from "./evidence.ts";
import { DAY_S, localDay, type Moment } from "./moments.ts";
import { type Booking, type Choice, type PlannedStep, type Route, readingsOf } from "./routes.ts";

/** Rule 22: the last moment at which silence keeps a route whose `until` has passed. */
const silenceEnds = (book: Book, until: Moment, start: Moment): Moment => {
  if (!book.hasClosing) return Math.min(until + DAY_S, start);
  for (let day = localDay(book.zone, until) + 1; ; day += 1) {
    const last = book.spansOn(day).at(-1);
    if (last) return Math.min(last.end, start);
    if ((day - 1) * DAY_S > start) return start;
  }
};

export interface Chosen {
  readonly route: Route | undefined;
  /** Kept by rule 22 although it no longer fits. */
  readonly inSilence: boolean;
}

const fitsAt = (route: Route, now: Moment): boolean => route.until !== undefined && now <= route.until;

/** Rules 21 and 22: the plan's route at `now`. */
export const choose = (book: Book, choice: Choice, booking: Booking, now: Moment): Chosen => {
  const fitting = choice.routes.find((route) => fitsAt(route, now));
  if (fitting) return { route: fitting, inSilence: false };
  if (choice.applications.length > 0) return { route: undefined, inSilence: false };
  let kept: Route | undefined;
  for (const route of choice.routes) {
    if (route.until !== undefined && route.until > (kept?.until ?? Number.NEGATIVE_INFINITY)) kept = route;
  }
  const inSilence = kept?.until !== undefined && now <= silenceEnds(book, kept.until, booking.start);
  return { route: inSilence ? kept : undefined, inSilence };
};

const refused = (record: Told, reason: string): boolean =>
  record.outcome === "do-not-colour" && record.reason === reason;

/** Rule 23, `stop`. */
export const stopped = (evidence: Evidence, booking: Booking): boolean => {
  const { told } = evidence;
  const screenings = told.filter((record) => record.kind === "screened");
  const own = screenings.filter((record) => record.booking === booking.uid);
  const unsure = told.findLast((record) => record.kind === "read" && record.outcome === "not-sure");
  // "Later" is by the clock: of one and the same second nobody can say which came first, so the stop stays.
  const appliedSince = told.some(
    (record) => record.kind === "applied" && unsure !== undefined && record.at > unsure.at,
  );
  return (
    told.some(isReaction) ||
    own.at(-1)?.outcome === "do-not-colour" ||
    (unsure !== undefined && !appliedSince) ||
    screenings.some((record) => refused(record, "past-reaction")) ||
    own.some((record) => refused(record, "under-16"))
  );
};

/** Rule 23, `ready`, for the route that is the plan's. */
export const isReady = (evidence: Evidence, booking: Booking, choice: Choice, route: Route | undefined): boolean => {
  const own = evidence.told.filter((record) => record.booking === booking.uid);
  const screening = own.findLast((record) => record.kind === "screened");
  if (!route || !screening) return false;
  let covering: { at: Moment; readAt: Moment } | undefined;
  if (route.route === "on-file") {
    covering = choice.cover;
    // A test of this booking's own must be read too, whether it counts or not.
    const offered = (name: string | undefined) => choice.routes.find((each) => each.route === name)?.test;
    const last = choice.applications.at(-1);
    if (last && !offered(last.route)) {
      if (!own.some(({ kind, outcome, at }) => kind === "read" && outcome === "clear" && at > last.at)) return false;
    }
    const newestOffered = choice.applications.findLast((each) => offered(each.route) !== undefined);
    for (const newest of [newestOffered, choice.counting.at(-1)]) {
      const test = offered(newest?.route);
      if (!newest || !test || !covering) continue;
      const since = own.filter((record) => record.kind === "read" && record.at >= newest.at);
      const looks = readLooks(evidence, test, newest, since);
      if (!holdClear(looks)) return false;
      const reads = looks.filter(({ open }) => open.look.holding).map(({ read }) => (read as Told).at);
      covering = { ...covering, readAt: Math.max(covering.readAt, ...reads) };
    }
  } else if (route.applied) {
    const looks = readingsOf(evidence, booking, choice, route);
    if (!holdClear(looks)) return false;
    const holding = looks.filter(({ open }) => open.look.holding);
    covering = { at: route.applied.at, readAt: Math.max(...holding.map(({ read }) => (read as Told).at)) };
  }
  if (!covering) return false;
  const { at, readAt } = covering;
  const screened = screening.outcome === "pass" || (screening.outcome === "test-needed" && at > screening.at);
  const confirmed = own.some(
    (record) =>
      record.kind === "confirmed" && record.via !== "client-link" && record.at >= screening.at && record.at >= readAt,
  );
  return screened && confirmed;
};

/** Rule 23, "Done". */
const isDone = (
  step: PlannedStep,
  evidence: Evidence,
  booking: Booking,
  choice: Choice,
  route: Route,
  looks: readonly LookRead[],
): boolean => {
  const own = evidence.told.filter((record) => record.booking === booking.uid);
  const applied = route.applied !== undefined;
  // A removal is of the last application before it, counting or not; without any, of the planned one.
  const isOfThisTest = (record: Told): boolean =>
    own.findLast((other) => other.kind === "applied" && other.at <= record.at)?.at === route.applied?.at;
  switch (step.kind) {
    case "screening":
    case "rescreening":
      return own.some((record) => record.kind === "screened");
    case "shipping":
      return applied || choice.kit.posted !== undefined || choice.kit.arrived !== undefined;
    case "arrival":
      return applied || choice.kit.arrived !== undefined;
    case "application":
      return applied;
    case "removal":
      return own.some(
        (record) =>
          (record.kind === "removed" && isOfThisTest(record)) ||
          (record.kind === "read" && record.at >= step.opens && (applied || isOfThisTest(record))),
      );
    case "reading":
      return looks.some(({ open, read }) => open.look.n === step.n && read !== undefined);
    case "result":
      return looks.every(({ open, read }) => !open.look.holding || read !== undefined);
    default:
      return step.kind satisfies never;
  }
};

/** The state of each step of the chosen route. */
export const statesOf = (
  evidence: Evidence,
  booking: Booking,
  choice: Choice,
  route: Route,
  now: Moment,
): StepState[] => {
  const looks = readingsOf(evidence, booking, choice, route);
  return route.steps.map((step) => {
    if (isDone(step, evidence, booking, choice, route, looks)) return "done";
    return now > booking.start ? "unrecorded" : "planned";
  });
};

/** Rule 23, the last four: what the open steps make of it. */
export const standingOf = (chosen: Chosen, states: readonly StepState[], now: Moment): Standing => {
  if (!chosen.route) return "no-time";
  const open = chosen.route.steps.filter((_, index) => states[index] === "planned");
  if (chosen.inSilence || open.some((step) => step.due < now)) return "late";
  return open.some((step) => step.opens <= now) ? "due" : "on-track";
};
