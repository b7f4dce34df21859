/**
 * Recorded applications, judged against a booking's start (counting.md 17, 18, 20, 27): which count, and for what start
 * the others would. Also the kit: posted, arrived, spent. Never says whether a test is clear.
 */
import { REMOVAL_EARLY_MINUTES } from "../bounds.ts";
import { type Instant, MINUTE } from "../time/instant.ts";
import { lastHoldingOpens, type LookTime, openLooks } from "./looks.ts";
import type { Rules } from "./rules.ts";
import type { TestRule } from "./testRule.ts";
import type { Fact, TestRoute } from "./types.ts";

/** Why an application does not count for a booking. */
export const APPLICATION_FAULTS = [
  "applied-too-late",
  "applied-too-early",
  "removed-early",
  "removed-late",
  "look-too-late",
] as const;
export type ApplicationFault = (typeof APPLICATION_FAULTS)[number];

export interface Application {
  readonly fact: Fact;
  readonly test: TestRule;
  readonly removed: Fact | null;
  readonly looks: readonly LookTime[];
  /** Null where it counts. */
  readonly fault: ApplicationFault | null;
  /** The starts it would serve; null where it serves none. */
  readonly serves: { readonly from: Instant; readonly to: Instant | null } | null;
}

/** The route an `applied` belongs to (counting.md 21). `own` are the standing records of its booking, in order. */
export const routeOfApplied = (fact: Fact, own: readonly Fact[], rules: Rules): TestRoute | null => {
  if (fact.route === "in-salon" || fact.route === "home-kit") return fact.route;
  const hasKit = own.some((each) => (each.kind === "posted" || each.kind === "arrived") && each.at <= fact.at);
  if (hasKit && rules.tests.some((test) => test.route === "home-kit")) return "home-kit";
  return rules.tests[0]?.route ?? null;
};

/** The removal that ended an application: the newest before another application of that booking. */
export const removalOf = (applied: Fact, own: readonly Fact[]): Fact | null => {
  const next = own.find((fact) => fact.kind === "applied" && fact.at > applied.at);
  const ended = own.findLast(
    (fact) => fact.kind === "removed" && fact.at >= applied.at && (!next || fact.at < next.at),
  );
  return ended ?? null;
};

/** When a test first came off: said twice, the later telling puts nothing back on. */
const firstRemovalOf = (applied: Fact, own: readonly Fact[]): Fact | null => {
  const next = own.find((fact) => fact.kind === "applied" && fact.at > applied.at);
  return own.find((fact) => fact.kind === "removed" && fact.at >= applied.at && (!next || fact.at < next.at)) ?? null;
};

/** Whether a test came off more than fifteen minutes before its time (counting.md 17). */
export const isWornTooShort = (applied: Fact, own: readonly Fact[], test: TestRule): boolean => {
  const removed = firstRemovalOf(applied, own);
  return test.wear !== null && removed !== null && removed.at < applied.at + test.wear - REMOVAL_EARLY_MINUTES * MINUTE;
};

/** Every application of a booking, oldest first; those of a route that the salon does not offer are left out. */
export const judgeApplications = (own: readonly Fact[], start: Instant, rules: Rules): readonly Application[] =>
  own.flatMap((fact) => {
    if (fact.kind !== "applied") return [];
    const route = routeOfApplied(fact, own, rules);
    const test = rules.tests.find((each) => each.route === route);
    return test ? [judge(fact, test, removalOf(fact, own), isWornTooShort(fact, own, test), start)] : [];
  });

const judge = (
  fact: Fact,
  test: TestRule,
  removed: Fact | null,
  wornTooShort: boolean,
  start: Instant,
): Application => {
  const looks = openLooks(test, fact.at, removed?.at ?? null);
  const lateRemoval = test.from === "removal" && removed ? removed.at + test.least : -Infinity;
  const from = Math.max(fact.at + test.reach, lateRemoval, lastHoldingOpens(looks));
  const to = test.farthest === null ? null : fact.at + test.farthest;
  const fault = (): ApplicationFault | null => {
    if (fact.at + test.reach > start) return "applied-too-late";
    if (to !== null && start > to) return "applied-too-early";
    if (wornTooShort) return "removed-early";
    if (lateRemoval > start) return "removed-late";
    return lastHoldingOpens(looks) > start ? "look-too-late" : null;
  };
  const serves = wornTooShort || (to !== null && to < from) ? null : { from, to };
  return { fact, test, removed, looks, fault: fault(), serves };
};

/** A kit that was posted or is in hand and not used up. */
export interface Kit {
  readonly posted: Fact | null;
  readonly arrived: Fact | null;
  /** When a posted kit is expected; null where none is on its way or nobody can say. */
  readonly expected: Instant | null;
  /** The newest record of it. */
  readonly last: Fact | null;
}

/**
 * The kit of a booking. An application that does not keep the lead spends the kits up to it (counting.md 27); a second
 * `posted` replaces what arrived before it (28).
 */
export const findKit = (own: readonly Fact[], applications: readonly Application[], rules: Rules): Kit => {
  const spent = applications.findLast((each) => each.fault !== null && each.test.route === "home-kit")?.fact.at;
  const unspent = own.filter((fact) => spent === undefined || fact.at > spent);
  const posted = unspent.findLast((fact) => fact.kind === "posted") ?? null;
  const arrived = unspent.find((fact) => fact.kind === "arrived" && (!posted || fact.at >= posted.at)) ?? null;
  const last = unspent.findLast((fact) => fact.kind === "posted" || fact.kind === "arrived") ?? null;
  if (!posted || arrived) return { posted, arrived, expected: null, last };
  const collection = rules.post.collectionAfter(posted.at);
  const day = collection === undefined ? undefined : rules.post.arrivalOf(collection);
  return { posted, arrived, expected: day === undefined ? null : rules.post.deliveredOn(day), last };
};
