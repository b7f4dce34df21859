/**
 * Every route of a booking from its records: its steps, its last instant `until`, and the order of choice; rules 20, 21
 * and 26 to 28. Never asks what `now` is.
 */
import type { RouteName, StepKind } from "../../src/plan/types.ts";
import type { Book } from "./book.ts";
import { type Applied, applicationsOf, type Evidence, type LookRead, readLooks, type Told } from "./evidence.ts";
import { countsFor, lookDue, openLooks, removalOf, resultOf, type Worn } from "./looks.ts";
import type { Moment } from "./moments.ts";
import { type Cover, coverOf } from "./onFile.ts";
import { collectionOf } from "./post.ts";
import type { Test } from "./protocol.ts";
import { type Dated, openedByArrival, type Untouched, untouchedPlan } from "./untouched.ts";

export interface Booking {
  readonly uid: string;
  readonly start: Moment;
}

/** Where the kit of a booking is (rules 27 and 28): only what is not spent and not replaced. */
export interface Kit {
  readonly posted: Told | undefined;
  readonly arrived: Told | undefined;
  /** Of a posted kit that has not arrived: when it should; undefined where the post never brings it. */
  readonly expected: Moment | undefined;
}

export interface PlannedStep extends Dated {
  readonly kind: StepKind;
  readonly n: number | null;
}

export interface Route {
  readonly route: RouteName;
  readonly steps: readonly PlannedStep[];
  readonly until: Moment | undefined;
  /** The application its removal, looks and result count from. */
  readonly worn: Worn | undefined;
  readonly test: Test | undefined;
  /** The recorded application that counts. */
  readonly applied: Applied | undefined;
}

export interface Choice {
  /** In the order of rule 21. */
  readonly routes: readonly Route[];
  readonly applications: readonly Applied[];
  readonly counting: readonly Applied[];
  readonly kit: Kit;
  readonly cover: Cover | undefined;
}

const kitOf = (book: Book, own: readonly Told[], spentUpTo: Moment): Kit => {
  const left = own.filter((record) => record.at > spentUpTo);
  const posted = left.findLast((record) => record.kind === "posted");
  const since = posted ? left.slice(left.indexOf(posted)) : left;
  const arrived = since.find((record) => record.kind === "arrived");
  return { posted, arrived, expected: posted && collectionOf(book.post, posted.at)?.delivered.at };
};

/** Rule 20 for a kit without an application that counts. */
const kitUntil = (kit: Kit, untouched: Untouched): Moment | undefined => {
  const { due } = untouched.application;
  if (!kit.posted && !kit.arrived) return untouched.lastHandOver;
  if (kit.arrived) return due;
  const tooLate = kit.posted && (kit.expected === undefined || kit.expected > due);
  return tooLate ? undefined : due;
};

const step = (kind: StepKind, dated: Dated | undefined, n: number | null = null): PlannedStep[] =>
  dated ? [{ kind, n, ...dated }] : [];

const stepsOf = (book: Book, test: Test, untouched: Untouched, application: Dated, worn: Worn, start: Moment) => {
  const looks = openLooks(test, worn);
  const result = resultOf(book, looks, start);
  return [
    ...step("screening", untouched.screening),
    ...step("shipping", untouched.shipping),
    ...step("arrival", untouched.arrival),
    ...step("application", application),
    ...step("removal", removalOf(test, worn, start)),
    ...looks.flatMap((open) => step("reading", { opens: open.opens, due: lookDue(book, open, result) }, open.look.n)),
    ...step("result", result),
  ];
};

/** Rule 20: a kit that nobody has yet, and no moment for handing one over. */
const cannotBePosted = (test: Test, untouched: Untouched, kit: Kit, applied: Applied | undefined): boolean =>
  test.route === "home-kit" && !applied && !kit.posted && !kit.arrived && untouched.lastHandOver === undefined;

const testRoute = (book: Book, test: Test, start: Moment, counting: readonly Applied[], kit: Kit): Route => {
  const applied = counting.findLast((each) => each.route === test.route);
  const untouched = untouchedPlan(book, test, start, applied?.at);
  if (!untouched || cannotBePosted(test, untouched, kit, applied)) {
    return { route: test.route, steps: [], until: undefined, worn: undefined, test, applied };
  }
  const home = test.route === "home-kit";
  const opened = openedByArrival(test, start, untouched.application, kit.arrived?.at);
  const application = home && !untouched.offCalendar ? opened : untouched.application;
  const worn = applied ?? { at: application.due, removed: undefined };
  const steps = stepsOf(book, test, untouched, application, worn, start);
  const unapplied = home ? kitUntil(kit, untouched) : application.due;
  return { route: test.route, steps, until: applied ? start : unapplied, worn, test, applied };
};

/** Rule 26: the last time that one whole new test fits, whatever is recorded. */
const onFileRoute = (book: Book, cover: Cover, start: Moment): Route => {
  let best: Dated | undefined;
  for (const test of book.tests) {
    const fresh = untouchedPlan(book, test, start);
    if (!fresh || (test.route === "home-kit" && fresh.lastHandOver === undefined)) continue;
    if (!best || fresh.screening.due > best.due) best = fresh.screening;
  }
  const rescreening = best ?? { opens: start - cover.test.screeningOpens, due: start };
  const steps: PlannedStep[] = [{ kind: "rescreening", n: null, ...rescreening }];
  return { route: "on-file", steps, until: start, worn: undefined, test: undefined, applied: undefined };
};

/** Rule 21: the routes' names in the order of choice; a name may stand more than once. */
const preference = (counting: readonly Applied[], own: readonly Told[], spentUpTo: Moment): RouteName[] => {
  const names: RouteName[] = ["on-file"];
  const newest = counting.at(-1);
  if (newest) names.push(newest.route);
  const wish = own.findLast(
    (record) =>
      record.kind === "route" || ((record.kind === "posted" || record.kind === "arrived") && record.at > spentUpTo),
  );
  if (wish) names.push(wish.kind === "route" ? (wish.route ?? "on-file") : "home-kit");
  return names;
};

/** Every route of a booking in the order in which one is chosen. */
export const routesOf = (book: Book, evidence: Evidence, booking: Booking): Choice => {
  const own = evidence.told.filter((record) => record.booking === booking.uid);
  const applications = applicationsOf(evidence.told, book.tests, booking.uid);
  const counting = applications.filter((each) => {
    const test = book.tests.find((candidate) => candidate.route === each.route);
    return test !== undefined && countsFor(test, each, booking.start);
  });
  const spending = applications.filter((each) => each.route === "home-kit" && !counting.includes(each));
  const spentUpTo = spending.at(-1)?.at ?? Number.NEGATIVE_INFINITY;
  const kit = kitOf(book, own, spentUpTo);
  const cover = coverOf(book, evidence, booking.uid, booking.start);
  const listed = [
    ...(cover ? [onFileRoute(book, cover, booking.start)] : []),
    ...book.tests.map((test) => testRoute(book, test, booking.start, counting, kit)),
  ];
  const names = [...preference(counting, own, spentUpTo), ...listed.map((route) => route.route)];
  const routes = [...new Set(names)].flatMap((name) => listed.filter((route) => route.route === name));
  return { routes, applications, counting, kit, cover };
};

/**
 * What has been read of a route's test. Reads after an application that does not count are about that one; without any
 * application a read belongs to the planned looks.
 */
export const readingsOf = (evidence: Evidence, booking: Booking, choice: Choice, route: Route): LookRead[] => {
  if (!route.test || !route.worn) return [];
  const reads = evidence.told.filter((record) => record.booking === booking.uid && record.kind === "read");
  const own = route.applied
    ? reads
    : reads.filter((read) => !choice.applications.some((application) => application.at <= read.at));
  return readLooks(evidence, route.test, route.worn, own);
};
