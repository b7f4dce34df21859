/**
 * Whether an earlier test of the same client covers a booking (counting.md 25): recorded clear, or still ahead under an
 * earlier booking. Never looks at this booking's own test.
 */
import type { Instant } from "../time/instant.ts";
import { isWornTooShort, removalOf, routeOfApplied } from "./applications.ts";
import type { Ledger } from "./ledger.ts";
import { openLooks, readLooks } from "./looks.ts";
import type { Rules } from "./rules.ts";
import { meetsTerms, type TermFault } from "./onFileTerms.ts";
import type { TestRule } from "./testRule.ts";
import type { BookingFacts, Fact, TestAhead } from "./types.ts";

/** An earlier test, and why it does not cover the booking; `fault` is null where it does. */
export interface EarlierTest {
  readonly test: TestRule;
  readonly application: Instant;
  /** The record that stands for it: its application, or an imported result; null while it is only planned. */
  readonly record: string | null;
  /** Still ahead under an earlier booking: it covers until that booking says otherwise. */
  readonly provisional: boolean;
  /** The newest deciding look recorded; null while it is ahead. */
  readonly lastRead: Instant | null;
  readonly fault: TermFault | "not-clear" | "person-not-confirmed" | null;
}

export interface CoverInput {
  readonly booking: BookingFacts;
  readonly samePerson: boolean;
  readonly ahead: readonly TestAhead[];
  readonly now: Instant;
}

/** The earlier test that covers the booking, else the newest one that does not, else undefined. */
export const findCover = (input: CoverInput, ledger: Ledger, rules: Rules): EarlierTest | undefined => {
  const found = rules.tests.flatMap((test) =>
    test.onFile === null ? [] : [...recorded(test, input, ledger, rules), ...stillAhead(test, input, ledger, rules)],
  );
  return found.find((each) => each.fault === null) ?? found[0];
};

/** Recorded tests of other bookings, newest first. */
const recorded = (test: TestRule, input: CoverInput, ledger: Ledger, rules: Rules): readonly EarlierTest[] => {
  const groups = Map.groupBy(
    ledger.live.filter((fact) => fact.booking !== input.booking.uid),
    (fact) => fact.booking,
  );
  return [...groups.values()]
    .flatMap((group) => [...appliedIn(group, test, ledger, rules), ...importedIn(group, test)])
    .toSorted((one, other) => other.fact.at - one.fact.at)
    .map(({ fact, lastRead, isClear }) => ({
      test,
      application: fact.at,
      record: fact.id,
      provisional: false,
      lastRead,
      fault: isClear ? judgeTerms(test, fact.at, fact, input, ledger, rules) : "not-clear",
    }));
};

interface Recorded {
  readonly fact: Fact;
  readonly lastRead: Instant | null;
  readonly isClear: boolean;
}

const appliedIn = (group: readonly Fact[], test: TestRule, ledger: Ledger, rules: Rules): readonly Recorded[] =>
  group.flatMap((fact) => {
    if (fact.kind !== "applied" || routeOfApplied(fact, group, rules) !== test.route) return [];
    const next = group.find((each) => each.kind === "applied" && each.at > fact.at);
    const reads = group.filter((each) => each.kind === "read" && each.at >= fact.at && (!next || each.at < next.at));
    const removed = removalOf(fact, group);
    const found = readLooks(openLooks(test, fact.at, removed?.at ?? null), reads, ledger);
    const holding = test.looks.filter((look) => look.holds).map((look) => found.get(look.n));
    const isClear = holding.every((read) => read?.outcome === "clear") && !isWornTooShort(fact, group, test);
    return [{ fact, lastRead: Math.max(...holding.map((read) => read?.at ?? fact.at)), isClear }];
  });

/** An imported clear look with a route and no application stands for both; the newest of its group decides. */
const importedIn = (group: readonly Fact[], test: TestRule): readonly Recorded[] => {
  const read = group.findLast((fact) => fact.kind === "read" && fact.route === test.route);
  if (!read || group.some((fact) => fact.kind === "applied" && fact.at <= read.at)) return [];
  return [{ fact: read, lastRead: read.at, isClear: read.outcome === "clear" }];
};

const stillAhead = (test: TestRule, input: CoverInput, ledger: Ledger, rules: Rules): readonly EarlierTest[] =>
  input.ahead
    .filter((ahead) => ahead.route === test.route && ahead.start < input.booking.start && input.now <= ahead.start)
    .toSorted((one, other) => other.start - one.start || (one.booking < other.booking ? -1 : 1))
    .map((ahead) => {
      const applied = ledger.live.findLast((fact) => fact.kind === "applied" && fact.booking === ahead.booking);
      const fault = judgeTerms(test, ahead.application, applied ?? ahead, input, ledger, rules);
      const record = applied?.id ?? null;
      return { test, application: ahead.application, record, provisional: true, lastRead: null, fault };
    });

const judgeTerms = (
  test: TestRule,
  application: Instant,
  tested: { readonly product: string | null; readonly shade: number | null },
  input: CoverInput,
  ledger: Ledger,
  rules: Rules,
): EarlierTest["fault"] =>
  input.samePerson ? meetsTerms(test, application, tested, input.booking, ledger, rules) : "person-not-confirmed";
