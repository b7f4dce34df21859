/**
 * How often each law of counting.md is tried, from which seed, and the one way in which it is tried.
 * A case is one random salon, one random booking of it and one random now, checked by one law; a case that has nothing a
 * law can say anything about is drawn anew and not counted.
 */
import * as fc from "fast-check";
import { expect } from "vitest";

/** Cases of each law in an ordinary run under each host zone. */
export const CASES = {
  a: 5_500,
  b: 4_500,
  c: 6_000,
  d: 5_500,
  /** With a greatest lead: each case asks for a whole plan at scores of minutes. */
  "d-limited": 800,
  e: 7_500,
  f: 4_500,
  g: 5_500,
  h: 5_500,
  i: 5_000,
} as const;
export type LawName = keyof typeof CASES;

/** At least so many cases in an ordinary run, over all host zones together. */
export const CASES_AT_LEAST = 100_000;

/** Whether this run has sizes of its own: `PLAN_RUNS=5000`. */
export const OWN_RUNS = process.env["PLAN_RUNS"] === undefined ? null : Number(process.env["PLAN_RUNS"]);

export const runsOf = (law: LawName): number => OWN_RUNS ?? CASES[law];

/**
 * A seed for each law under each host zone, so that no two ask the same questions; `PLAN_SEED=7` asks others.
 * FNV-1a, 32 bits: only that different texts give different numbers matters.
 */
export const seedOf = (law: string, hostZone = process.env["TZ"] ?? "UTC"): number =>
  Array.from(`${law} ${hostZone} ${process.env["PLAN_SEED"] ?? ""}`).reduce(
    (hash, letter) => Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 16_777_619),
    0x811c9dc5,
  );

/** The name of a law's test, the number of its cases in it, so that a report of the run tells them. */
export const lawTitle = (law: LawName, says: string): string =>
  `law ${law.slice(0, 1)}, ${runsOf(law).toLocaleString("en-GB")} cases: ${says}`;

/** Tries a law; a predicate that returns false had nothing to check, and its case does not count. */
export const checkLaw = <T>(law: LawName, given: fc.Arbitrary<T>, holds: (each: T) => boolean): void => {
  let checked = 0;
  fc.assert(
    fc.property(given, (each) => {
      fc.pre(holds(each));
      checked++;
    }),
    { numRuns: runsOf(law), seed: seedOf(law) },
  );
  expect(checked).toBe(runsOf(law));
};
