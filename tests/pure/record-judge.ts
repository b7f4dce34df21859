/**
 * A second opinion on "ready", written from the sentences of counting.md 17, 18, 21, 23 to 25 and 27, and from what is
 * never to give way. It shares nothing with src/plan but the shape of a record.
 */
import type { Fact } from "../../src/plan/types.ts";
import { HOUR_S, isReaction, type JudgedSalon, type JudgedTest, meetsTerms, reachOf } from "./record-judged.ts";

export interface Question {
  readonly facts: readonly Fact[];
  readonly booking: string;
  readonly start: number;
  readonly now: number;
  readonly samePerson: boolean;
  /** When answers to the booking's questions were given that a person has yet to decide on. */
  readonly undecidedAt: number | null;
}

const byTelling = (one: Fact, other: Fact): number =>
  one.recorded - other.recorded || Number(one.id.slice(1)) - Number(other.id.slice(1));
const byTime = (one: Fact, other: Fact): number => one.at - other.at || byTelling(one, other);

const isGround = (fact: Fact, ground: string): boolean =>
  fact.kind === "screened" && fact.outcome === "do-not-colour" && fact.reason === ground;
const last = (facts: readonly Fact[], kind: Fact["kind"]): Fact | undefined => facts.findLast((f) => f.kind === kind);

/** What a correction means: the record it names, or the newest earlier one of its booking that had been told by then. */
const meantBy = (correction: Fact, facts: readonly Fact[]): Fact | undefined => {
  const records = facts.filter((fact) => fact.kind !== "note" && fact.kind !== "correction");
  if (correction.corrects !== null) return records.find((fact) => fact.id === correction.corrects);
  return records.findLast(
    (fact) => fact.booking === correction.booking && byTime(fact, correction) < 0 && byTelling(fact, correction) < 0,
  );
};

/** What must hold and does not; empty where nothing speaks against ready. */
export const objectionsToReady = (question: Question, salon: JudgedSalon): readonly string[] => {
  const { booking, now } = question;
  const known = question.facts.filter((fact) => fact.at <= now).toSorted(byTime);
  const corrections = known.flatMap((correction) => {
    if (correction.kind !== "correction" || correction.via === "client-link") return [];
    const fact = meantBy(correction, known);
    const isGrave = fact && (isGround(fact, "under-16") || isGround(fact, "past-reaction"));
    return fact && !(isGrave && !correction.reason) ? [{ fact, at: correction.at }] : [];
  });
  const setAside = new Set(corrections.map(({ fact }) => fact.id));
  const live = known.filter((fact) => !setAside.has(fact.id) && fact.kind !== "note" && fact.kind !== "correction");
  const own = live.filter((fact) => fact.booking === booking);
  const objections: string[] = [];
  if (live.some(isReaction)) objections.push("an uncorrected reaction");
  if (live.some((fact) => isGround(fact, "past-reaction"))) objections.push("an uncorrected past reaction");
  if (own.some((fact) => isGround(fact, "under-16"))) objections.push("under 16");
  const unsure = last(
    live.filter((fact) => fact.outcome === "not-sure"),
    "read",
  );
  if (unsure && !live.some((fact) => fact.kind === "applied" && fact.at > unsure.at))
    objections.push("a look not sure");
  const screening = last(own, "screened");
  if (!screening) objections.push("not asked");
  else if (screening.outcome === "do-not-colour") objections.push("the newest screening says do not colour");
  if (question.undecidedAt !== null) objections.push("answers that wait for a person");
  const again = corrections.filter(({ fact }) => isReaction(fact));
  const tests = holdingTests(live, own, again, question, salon);
  if (tests.length === 0) objections.push("no test that holds, with every look clear");
  const since = screening?.outcome === "test-needed" ? tests.filter(({ at }) => at > screening.at) : tests;
  if (tests.length > 0 && since.length === 0) objections.push("no test since a new one was asked for");
  const confirmations = own.filter((fact) => fact.kind === "confirmed" && fact.via !== "client-link");
  const isConfirmed = since.some(({ lastRead }) =>
    confirmations.some((fact) => fact.at >= lastRead && fact.at >= (screening?.at ?? Infinity)),
  );
  if (since.length > 0 && !isConfirmed) objections.push("not confirmed by the salon since");
  return objections;
};

interface HoldingTest {
  readonly at: number;
  readonly lastRead: number;
}
type Corrected = readonly { readonly fact: Fact; readonly at: number }[];

/** Rule 21: whose test an `applied` is. */
const testOf = (applied: Fact, group: readonly Fact[], { tests }: JudgedSalon): JudgedTest | undefined => {
  const offered = (route: string | null) => tests.find((test) => test.route === route);
  if (applied.route === "in-salon" || applied.route === "home-kit") return offered(applied.route);
  const hasKit = group.some((fact) => (fact.kind === "posted" || fact.kind === "arrived") && fact.at <= applied.at);
  return (hasKit ? offered("home-kit") : undefined) ?? tests[0];
};

const removalsOf = (applied: Fact, group: readonly Fact[]): readonly number[] => {
  const next = group.find((fact) => fact.kind === "applied" && fact.at > applied.at)?.at ?? Infinity;
  return group
    .filter((fact) => fact.kind === "removed" && fact.at >= applied.at && fact.at < next)
    .map((fact) => fact.at);
};

const isWorn = (applied: Fact, removals: readonly number[], { wear }: JudgedTest): boolean =>
  wear === null || removals.every((removed) => removed >= applied.at + wear * HOUR_S - 900);

/** Rule 18: holding looks and when they open. */
const opensOf = (applied: Fact, removals: readonly number[], test: JudgedTest) => {
  const { wear } = test;
  const following = wear === null ? [] : test.looks.filter((after) => after >= wear);
  const gap = (Math.min(...following) - (wear ?? 0)) * HOUR_S;
  return test.looks.map((after) => {
    const planned = applied.at + after * HOUR_S;
    const isMoved = removals.length > 0 && following.includes(after);
    const opens = isMoved ? Math.max(planned, Math.max(...removals) + gap) : planned;
    return { opens, holds: after * HOUR_S <= reachOf(test) };
  });
};

/** When the last holding look was read, if every one is clear by its newest `read`; else undefined. */
const clearSince = (
  opens: ReturnType<typeof opensOf>,
  reads: readonly Fact[],
  again: Corrected,
): number | undefined => {
  const openedBy = (at: number): number =>
    Math.max(...opens.filter((look) => look.opens <= at).map((look) => look.opens));
  const deciding = opens
    .filter((look) => look.holds)
    .map((look) => {
      const asked = again.filter(({ fact }) => openedBy(fact.at) === look.opens).map(({ at }) => at);
      return reads.findLast((read) => openedBy(read.at) === look.opens && asked.every((at) => read.at > at));
    });
  const isClear = deciding.every((read) => read?.outcome === "clear");
  return isClear ? Math.max(...deciding.map((read) => read?.at ?? Infinity)) : undefined;
};

/** The booking's newest test that keeps lead and wear; `lastRead` undefined where it is not clear. */
const ownTest = (
  own: readonly Fact[],
  again: Corrected,
  { start }: Question,
  salon: JudgedSalon,
): { readonly at: number; readonly lastRead: number | undefined } | undefined => {
  const counting = own.findLast((applied) => {
    const test = applied.kind === "applied" && testOf(applied, own, salon);
    if (!test) return false;
    const removals = removalsOf(applied, own);
    const counted = test.from === "removal" ? applied.at + (test.wear ?? 0) * HOUR_S : applied.at;
    const latest = test.from === "removal" ? Math.max(counted, ...removals) : counted;
    const holding = opensOf(applied, removals, test).filter((look) => look.holds);
    return (
      latest + test.least * HOUR_S <= start &&
      (test.most === null || counted + test.most * HOUR_S >= start) &&
      isWorn(applied, removals, test) &&
      holding.every((look) => look.opens <= start)
    );
  });
  const test = counting && testOf(counting, own, salon);
  if (!counting || !test) return undefined;
  const reads = own.filter((fact) => fact.kind === "read" && fact.at >= counting.at);
  return { at: counting.at, lastRead: clearSince(opensOf(counting, removalsOf(counting, own), test), reads, again) };
};

/** Tests that a booking may rest on. One of its own that is not clear holds it up, whatever an earlier one says (23). */
const holdingTests = (
  live: readonly Fact[],
  own: readonly Fact[],
  again: Corrected,
  question: Question,
  salon: JudgedSalon,
): readonly HoldingTest[] => {
  const test = ownTest(own, again, question, salon);
  if (test?.lastRead === undefined) return test ? [] : earlierTests(live, again, question, salon);
  const { at, lastRead } = test;
  const earlier = earlierTests(live, again, question, salon);
  return [{ at, lastRead }, ...earlier.map((each) => ({ at: each.at, lastRead: Math.max(lastRead, each.lastRead) }))];
};

/** Rule 25: clear results of other bookings of the same person that still count. */
const earlierTests = (
  live: readonly Fact[],
  again: Corrected,
  question: Question,
  salon: JudgedSalon,
): HoldingTest[] => {
  if (!question.samePerson) return [];
  const groups = new Set(live.map((fact) => fact.booking).filter((booking) => booking !== question.booking));
  return [...groups].flatMap((booking) => {
    const group = live.filter((fact) => fact.booking === booking);
    return group.flatMap((fact): HoldingTest[] => {
      const isImport =
        fact.kind === "read" &&
        fact.outcome === "clear" &&
        !group.some((other) => other.kind === "applied" && other.at <= fact.at);
      if (fact.kind !== "applied" && !isImport) return [];
      const test = isImport ? salon.tests.find(({ route }) => route === fact.route) : testOf(fact, group, salon);
      if (!test || !meetsTerms(fact, test, live, question.start, salon)) return [];
      if (isImport) {
        const newest = group.findLast((other) => other.kind === "read" && other.route === fact.route);
        return newest === fact ? [{ at: fact.at, lastRead: fact.at }] : [];
      }
      const next = group.find((other) => other.kind === "applied" && other.at > fact.at)?.at ?? Infinity;
      const reads = group.filter((other) => other.kind === "read" && other.at >= fact.at && other.at < next);
      const removals = removalsOf(fact, group);
      const lastRead = clearSince(opensOf(fact, removals, test), reads, again);
      return lastRead === undefined || !isWorn(fact, removals, test) ? [] : [{ at: fact.at, lastRead }];
    });
  });
};
