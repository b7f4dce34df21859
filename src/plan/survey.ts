/**
 * What routes a booking has, each with its one last instant (counting.md 20), in the order they are tried (21).
 * Knows no present moment beyond the records it is given: `until` never depends on now.
 */
import type { Instant } from "../time/instant.ts";
import { type AppointmentFault, type BookedTest, judgeAppointments } from "./appointments.ts";
import { type Application, findKit, judgeApplications, type Kit } from "./applications.ts";
import { type CoverInput, type EarlierTest, findCover } from "./cover.ts";
import { countFresh, type Fresh, type Term } from "./fresh.ts";
import { inOrder, type Ledger, newest } from "./ledger.ts";
import type { Rules } from "./rules.ts";
import type { TestRule } from "./testRule.ts";
import type { BookingFacts, Fact, RouteName, TestAppointment, TestRoute } from "./types.ts";

/** One route that makes a test of its own. */
export interface TestState {
  readonly route: TestRoute;
  readonly test: TestRule;
  /** The calendar's own plan for a new test; undefined where it has no moment. */
  readonly fresh: Fresh | undefined;
  /** The newest recorded application of this route that counts. */
  readonly application: Application | null;
  /** The kit, for a home kit; null for a walk-in. */
  readonly kit: Kit | null;
  /** The application's own time in the diary, for a walk-in; null where there is none that keeps the lead. */
  readonly appointment: BookedTest | null;
  readonly until: Instant | null;
}

export interface Survey {
  readonly booking: BookingFacts;
  readonly ledger: Ledger;
  /** The standing records of this booking, in order. */
  readonly own: readonly Fact[];
  readonly tests: readonly TestState[];
  readonly applications: readonly Application[];
  /** The test: the newest application that counts, whichever its route. */
  readonly counting: Application | null;
  /** When answers that wait for a person were given; null: none wait. */
  readonly undecidedAt: Instant | null;
  /** A test in the diary that keeps no lead, where none does; null otherwise. */
  readonly refused: { readonly at: Instant; readonly fault: AppointmentFault } | null;
  /** The earlier test found, covering or not. */
  readonly earlier: EarlierTest | null;
  /** Every route there is, first choice first. */
  readonly order: readonly RouteName[];
}

export interface SurveyInput extends CoverInput {
  /** When answers were given that a person at the salon has yet to decide on; null: none wait. */
  readonly undecidedAt: Instant | null;
  /** The tests that stand in the diary for this booking. */
  readonly appointments: readonly TestAppointment[];
}

/** Surveys a booking by the records up to `ledger`'s moment. */
export const survey = (input: SurveyInput, ledger: Ledger, rules: Rules): Survey => {
  const { booking } = input;
  const walkIn = rules.tests.find((test) => test.route === "in-salon");
  const { booked, refused } = judgeAppointments(input.appointments, walkIn, booking.start);
  const own = ledger.live.filter((fact) => fact.booking === booking.uid);
  const applications = judgeApplications(own, booking.start, rules);
  const kit = findKit(own, applications, rules);
  const tests = rules.tests.map((test): TestState => {
    const fresh = countFresh(test, booking.start, rules);
    const application = applications.findLast((each) => each.fault === null && each.test === test) ?? null;
    const isHome = test.route === "home-kit";
    const placed = { kit: isHome ? kit : null, appointment: isHome ? null : booked };
    const state = { route: test.route, test, fresh, application, ...placed };
    return { ...state, until: untilOf(state, booking.start) };
  });
  const counting = applications.findLast((each) => each.fault === null) ?? null;
  const earlier = findCover(input, ledger, rules) ?? null;
  const order = orderRoutes({ own, kit, tests, counting, earlier });
  const { undecidedAt } = input;
  return { booking, ledger, own, tests, applications, counting, undecidedAt, refused, earlier, order };
};

const untilOf = (state: Omit<TestState, "until">, start: Instant): Instant | null => {
  const { fresh, application, kit, appointment } = state;
  if (application) return start;
  // A test booked past the last walk-in is still done then; booked before it, she may still walk in.
  if (appointment) return Math.max(appointment.due, fresh?.application.due ?? appointment.due);
  if (!fresh) return null;
  const { due } = fresh.application;
  if (!kit) return due;
  if (kit.arrived) return due;
  if (kit.posted) return kit.expected !== null && kit.expected <= due ? due : null;
  return fresh.post?.lastHandOver ?? null;
};

const orderRoutes = (facts: {
  own: readonly Fact[];
  kit: Kit;
  tests: readonly TestState[];
  counting: Application | null;
  earlier: EarlierTest | null;
}): readonly RouteName[] => {
  const { own, kit, tests, counting, earlier } = facts;
  const chosen = newest(own, "route");
  const isKitNewer = !!kit.last && (!chosen || inOrder(kit.last, chosen) > 0);
  const wished: readonly (RouteName | null | undefined)[] = [
    counting?.test.route,
    isKitNewer ? "home-kit" : chosen?.route,
    tests.find((state) => state.appointment)?.route,
    ...tests.map((state) => state.route),
  ];
  const offered = wished.filter((route): route is TestRoute => tests.some((state) => state.route === route));
  return [...new Set<RouteName>([...(earlier ? (["on-file"] as const) : []), ...offered])];
};

/** The last instant of a route of a survey; null where it has none. */
export const untilFor = (found: Survey, route: RouteName): Instant | null => {
  if (route === "on-file") return found.earlier?.fault === null ? found.booking.start : null;
  return found.tests.find((state) => state.route === route)?.until ?? null;
};

/** When a test went on, or else is to go on; undefined where it has no moment. */
export const plannedApplication = ({ application, appointment, fresh }: TestState): Instant | undefined =>
  application?.fact.at ?? appointment?.due ?? fresh?.application.due;

/** When a route's application opens and is due, moved by the diary, a kit in hand or a record (counting.md 11, 20, 31). */
export const applicationTerm = (state: TestState): Term | undefined => {
  const { fresh, application, kit, appointment } = state;
  if (appointment) return { opens: appointment.opens, due: appointment.due };
  if (!fresh) return application ? { opens: application.fact.at, due: application.fact.at } : undefined;
  const arrived = kit?.arrived?.at;
  const { opens, due } = fresh.application;
  const isInWindow = arrived !== undefined && arrived <= due && arrived >= (fresh.windowFrom ?? arrived);
  return { opens: isInWindow ? arrived : opens, due };
};
