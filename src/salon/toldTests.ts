/**
 * What was told of one appointment, test by test: each application with the kit it came in, when it came off and what was seen.
 * A look belongs to the last test that was put on before it, and never to one of another product or batch. Pure.
 */
import type { EvidenceRecord } from "./evidence.ts";
import type { Recorded } from "./types.ts";

/** What a test is made of; each kind is told once or several times. */
const PARTS = ["applied", "removed", "read"] as const;
type Part = (typeof PARTS)[number];

export interface ToldTest {
  /** Null: nobody told that it was put on. */
  readonly applied: Recorded | null;
  /** The kit that it came in. */
  readonly posted: Recorded | null;
  readonly removed: readonly Recorded[];
  readonly reads: readonly Recorded[];
  /** What of it was told and set aside by a correction. */
  readonly setAside: ReadonlySet<Part>;
}

interface Draft {
  applied: Recorded | null;
  posted: Recorded | null;
  readonly removed: Recorded[];
  readonly reads: Recorded[];
  readonly setAside: Set<Part>;
}

/** @param records of one appointment, in the order they happened. Gives one test at least, in the order of their first records */
export const toldTests = (records: readonly EvidenceRecord[]): readonly ToldTest[] => {
  const standing = records.filter(({ correctedBy }) => correctedBy === null).map(({ record }) => record);
  const tests = standing.filter(({ kind }) => kind === "applied").map(draftOf);
  giveKits(tests, standing);
  const nameless: Draft[] = [];
  const ofWhich = (record: Recorded): Draft => {
    const found = lastBefore(tests, record) ?? nameless.find((test) => isAlike(test, record));
    if (found) return found;
    const fresh = draftOf(null);
    nameless.push(fresh);
    return fresh;
  };
  for (const record of standing) {
    if (record.kind === "removed") ofWhich(record).removed.push(record);
    if (record.kind === "read") ofWhich(record).reads.push(record);
  }
  for (const { record, correctedBy } of records) {
    const part = PARTS.find((kind) => kind === record.kind);
    if (part === undefined || correctedBy === null) continue;
    (lastBefore(tests, record) ?? tests[0] ?? nameless[0] ?? ofWhich(record)).setAside.add(part);
  }
  const all = [...tests, ...nameless].toSorted((one, other) => firstOf(one) - firstOf(other));
  const [only = draftOf(null), ...others] = all;
  // Where there is one test alone, or none yet, a kit is its own whenever it was told; but nobody is sent a test at the salon.
  const isAtSalon = (only.applied ?? only.reads[0])?.route === "in-salon";
  if (others.length === 0 && !isAtSalon) only.posted ??= standing.findLast(({ kind }) => kind === "posted") ?? null;
  return [only, ...others];
};

const draftOf = (applied: Recorded | null): Draft => ({
  applied,
  posted: null,
  removed: [],
  reads: [],
  setAside: new Set(),
});

/** A kit belongs to the test at home that was put on first after it was posted. */
const giveKits = (tests: readonly Draft[], standing: readonly Recorded[]): void => {
  let from = Number.NEGATIVE_INFINITY;
  for (const test of tests) {
    const { applied } = test;
    if (applied === null || applied.route === "in-salon") continue;
    const kits = standing.filter(({ kind, at }) => kind === "posted" && at > from && at <= applied.at);
    test.posted = kits.at(-1) ?? null;
    from = applied.at;
  }
};

/** The last test before a record of which it names the product and batch; else the last of which neither is known. */
const lastBefore = (tests: readonly Draft[], record: Recorded): Draft | undefined => {
  const before = tests.filter((test) => (test.applied?.at ?? 0) <= record.at && isAlike(test, record));
  const isNamed = (test: Draft): boolean => fold(record.product) !== "" && knownOf(test, "product") !== undefined;
  return before.findLast(isNamed) ?? before.at(-1);
};

/** Whether nothing that a record names speaks against this test. */
const isAlike = (test: Draft, record: Recorded): boolean =>
  NAMES.every((field) => {
    const named = fold(record[field]);
    return named === "" || named === (knownOf(test, field) ?? named);
  });

const NAMES = ["product", "batch"] as const;

const knownOf = (test: Draft, field: (typeof NAMES)[number]): string | undefined =>
  [test.applied, test.posted, ...test.removed, ...test.reads]
    .map((each) => fold(each?.[field]))
    .find((each) => each !== "");

const fold = (text: string | null | undefined): string => (text ?? "").trim().toLowerCase();

const firstOf = ({ applied, removed, reads }: Draft): number =>
  applied?.at ?? Math.min(...[...removed, ...reads].map(({ at }) => at));
