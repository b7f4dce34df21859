/**
 * From one booking and its client's records to the plan: which route, which steps by when, and how it stands.
 * Pure: no clock, no I/O. The only place where a Plan is made.
 */
import type { Instant } from "../time/instant.ts";
import { type Application, routeOfApplied } from "./applications.ts";
import { type Choice, chooseRoute } from "./choose.ts";
import { draftSteps, type StepDraft } from "./drafts.ts";
import { earliestByTest } from "./earliest.ts";
import { newest, readLedger } from "./ledger.ts";
import { readLooks } from "./looks.ts";
import { findNextChange } from "./nextChange.ts";
import { planWhy } from "./planWhy.ts";
import { routeWhy } from "./routeWhy.ts";
import type { Rules } from "./rules.ts";
import { leftBehindSteps, makeSteps, readProgress, wornBeside } from "./steps.ts";
import { plannedApplication, type Survey, type SurveyInput, survey, untilFor } from "./survey.ts";
import type {
  BookingFacts,
  Fact,
  Plan,
  RouteName,
  RoutePlan,
  Standing,
  Step,
  TestAhead,
  TestAppointment,
} from "./types.ts";
import { type Covering, findMissing, findStop, type Missing, type Stop } from "./verdict.ts";

export interface CountBackInput {
  readonly booking: BookingFacts;
  /** Every record of the client, whichever booking; one with `booking` null belongs to the client only. */
  readonly facts: readonly Fact[];
  /** False where the client was matched by name alone and nobody has confirmed it: then no other booking's test covers. */
  readonly samePerson: boolean;
  /** Tests of the client's earlier bookings that are not over (testAhead of their plans). */
  readonly ahead?: readonly TestAhead[];
  /** Tests in the diary of which this is the client's next booking. */
  readonly appointments?: readonly TestAppointment[];
  /** When answers to this booking's health questions were given that a person has yet to decide on; null: none wait. */
  readonly undecidedAt?: Instant | null;
  /** Since when the diary's entry cannot be understood, so that this is the booking as it was read last; null: it can. */
  readonly unreadSince?: Instant | null;
  /** Whether something was recorded of this booking under another name and does not count under the present one. */
  readonly toldOfAnother?: boolean;
  /** Since when somebody who may be this client has a stop, while nobody has said that they are two; null: nobody has one. */
  readonly possibleStop?: Instant | null;
  readonly now: Instant;
}

/** A booking that will not happen is frozen at the beginning of time: its steps are then the same whenever it is asked. */
const BEFORE_ALL: Instant = -8_640_000_000_000;

/** The plan of one booking at `now`, as counting.md 1 to 30 say. */
export const countBack = (input: CountBackInput, rules: Rules): Plan => {
  const { booking, facts, now } = input;
  const ahead = input.ahead ?? [];
  const isPast = now > booking.start;
  const at = booking.cancelled ? BEFORE_ALL : Math.min(now, booking.start);
  const appointments = input.appointments ?? [];
  const undecidedAt = input.undecidedAt ?? null;
  const possibleStop = input.possibleStop ?? null;
  const surveyed: SurveyInput = { booking, samePerson: input.samePerson, ahead, appointments, undecidedAt, now: at };
  const all = readLedger(facts, now);
  const whole = survey(surveyed, all, rules);
  // After the start a plan keeps the route and steps it had then.
  const then = isPast ? survey({ ...surveyed, undecidedAt: null }, readLedger(facts, booking.start), rules) : whole;
  const choice = chooseRoute(then, at, rules);

  const drafts = choice.route === null ? [] : draftSteps(then, choice.route, rules);
  const planned = then.tests.find((state) => state.route === choice.route);
  // What was done by the start stays done, whatever a later record sets aside; a later one may tell of more.
  const tellings = isPast ? [then, { ...then, own: whole.own, ledger: whole.ledger }] : [whole];
  const { route } = choice;
  const goesOn = (planned && plannedApplication(planned)) ?? null;
  const told = route === null ? [] : tellings.map((telling) => readProgress(telling, route, goesOn));
  const isDone = (draft: StepDraft): boolean => told.some((progress) => progress.isDone(draft));
  const open = booking.cancelled ? "cancelled" : isPast ? "unrecorded" : "planned";
  const steps = makeSteps(drafts, { bookingUid: booking.uid, isDone, open, rules });

  const covering = coveringOf(whole, isPast ? chooseRoute(whole, at, rules).route : route, rules);
  const [stop, missing] = [
    findStop(booking.uid, all),
    findMissing(whole.own, covering, whole.undecidedAt !== null, possibleStop !== null),
  ];
  const standing = standingOf({ booking, now, stop, missing, choice, steps });
  const routes = then.order.map((each) => routePlan(then, each, booking.cancelled ? null : now, rules));
  const leftBehind = booking.cancelled ? [] : leftBehindSteps(then, route, steps, now, rules);
  const alarm = alarmOf(standing, stop, whole, possibleStop);
  return {
    asOf: now,
    booking,
    route,
    standing,
    why: planWhy(
      {
        found: whole,
        choice,
        standing,
        steps,
        stop,
        missing,
        alarm,
        unreadSince: input.unreadSince ?? null,
        toldOfAnother: input.toldOfAnother ?? false,
        possibleStop,
        now,
      },
      rules,
    ),
    steps,
    routes,
    earliest: routes.some((each) => each.fits) ? null : earliestOf(routes),
    leftBehind,
    leftRoute: wornBeside(then, route)?.test.route ?? "home-kit",
    alarm,
    restsOn: route === "on-file" && whole.earlier?.fault === null ? whole.earlier.record : null,
    applied: whole.counting !== null,
    next: findNextChange(
      { booking, facts, steps: [...steps, ...leftBehind], routes, grace: choice.grace, ahead },
      now,
      rules,
    ),
  };
};

/**
 * The test the booking rests on: its own newest that counts, or the earlier one where the plan is on file. There too a
 * test that went on for this booking must be looked at: nothing overrides one that is not read (counting.md 24).
 */
const coveringOf = (found: Survey, route: RouteName | null, rules: Rules): Covering | null => {
  const { earlier, counting, applications } = found;
  if (route !== "on-file") return counting && readOf(found, counting);
  if (earlier?.fault !== null || earlier.provisional) return null;
  const worn = [counting, applications.at(-1)].filter((each) => each !== null && each !== undefined);
  const own = worn.map((each) => readOf(found, each));
  const reads = [earlier, ...own].map(({ lastRead }) => lastRead).filter((read) => read !== null);
  return {
    application: earlier.application,
    isClear: own.every(({ isClear }) => isClear) && !isForeignUnread(found, rules),
    lastRead: reads.length === 0 ? null : Math.max(...reads),
  };
};

/**
 * Answers of after the test may ask for a new one (counting.md 23 i): its steps are all done, and yet nothing is. What shows
 * after the colour must be heard of too; an old reaction that is told later says nothing of a colour that was.
 */
const alarmOf = (
  standing: Standing,
  stop: Stop | undefined,
  found: Survey,
  possibleStop: Instant | null,
): Plan["alarm"] => {
  const { uid, start } = found.booking;
  if (standing === "cancelled") return null;
  const isOfThis = !!stop && (standing !== "past" || stop.fact.recorded <= start || stop.fact.booking === uid);
  if (isOfThis) return { kind: "stop", since: stop.fact.recorded };
  if (standing === "past") return null;
  const screened = newest(found.own, "screened");
  const isOutdated = screened?.outcome === "test-needed" && found.counting && found.counting.fact.at <= screened.at;
  if (isOutdated) return { kind: "new-test", since: screened.recorded };
  return possibleStop === null ? null : { kind: "who", since: possibleStop };
};

/** A test of a kind that the salon does not offer (any more) went on last, and no clear look was told since. */
const isForeignUnread = ({ own }: Survey, rules: Rules): boolean => {
  const last = newest(own, "applied");
  const isForeign = last && !rules.tests.some(({ route }) => route === routeOfApplied(last, own, rules));
  return !!isForeign && !own.some(({ kind, outcome, at }) => kind === "read" && outcome === "clear" && at > last.at);
};

/** An application of this booking, as far as its looks are recorded. */
const readOf = ({ own, ledger }: Survey, { fact, looks, test }: Application): Covering => {
  const reads = own.filter(({ kind, at }) => kind === "read" && at >= fact.at);
  const found = readLooks(looks, reads, ledger);
  const holding = test.looks.filter((look) => look.holds).map((look) => found.get(look.n));
  return {
    application: fact.at,
    isClear: holding.every((read) => read?.outcome === "clear"),
    lastRead: holding.reduce<Instant | null>((last, read) => (read ? Math.max(last ?? read.at, read.at) : last), null),
  };
};

const standingOf = (facts: {
  booking: BookingFacts;
  now: Instant;
  stop: Stop | undefined;
  missing: readonly Missing[];
  choice: Choice;
  steps: readonly Step[];
}): Standing => {
  const { booking, now, stop, missing, choice, steps } = facts;
  const open = steps.filter((step) => step.state === "planned");
  if (booking.cancelled) return "cancelled";
  if (now > booking.start) return "past";
  if (stop) return "stop";
  if (missing.length === 0) return "ready";
  if (choice.route === null) return "no-time";
  if (choice.grace !== null || open.some((step) => step.due < now)) return "late";
  return open.some((step) => step.opens <= now) ? "due" : "on-track";
};

/** `now` null: of a booking that will not happen, so that no route fits. */
const routePlan = (found: Survey, route: RouteName, now: Instant | null, rules: Rules): RoutePlan => {
  const until = now === null ? null : untilFor(found, route);
  const fits = now !== null && until !== null && now <= until;
  const state = found.tests.find((each) => each.route === route);
  const dues = draftSteps(found, route, rules).map((draft) => draft.due);
  const isAsked = state && now !== null && !fits && now <= found.booking.start;
  return {
    route,
    fits,
    until,
    firstDue: dues.length === 0 ? null : Math.min(...dues),
    earliest: isAsked ? earliestByTest(state.test, state.kit, found.applications, rules, now) : null,
    why:
      now === null
        ? { code: "cancelled", text: "This appointment is cancelled." }
        : routeWhy(found, route, fits, rules),
  };
};

const earliestOf = (routes: readonly RoutePlan[]): Plan["earliest"] => {
  let first: Plan["earliest"] = null;
  for (const { route, earliest } of routes) {
    if (earliest !== null && (!first || earliest < first.start)) first = { start: earliest, route };
  }
  return first;
};
