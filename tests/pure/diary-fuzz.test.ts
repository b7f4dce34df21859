/**
 * Ten thousand mutants of real calendars through the diary reader in each host zone, of other seeds in each: nothing throws,
 * nothing is unaccounted for, no law of tests/fuzz/judge.ts is broken. `npm run fuzz` runs as many as one likes.
 */
import { expect, test } from "vitest";
import { Dice } from "../fuzz/Dice.ts";
import { mutate } from "../fuzz/mutate.ts";
import { runStretch } from "../fuzz/runMutants.ts";
import { OTHERS, sourcesIn } from "../fuzz/sources.ts";

const RUNS = Number(process.env["FUZZ_RUNS"] ?? 10_000);
const SEED = Number(process.env["FUZZ_SEED"] ?? (process.env["TZ"] === "UTC" ? 1_000_000 : 2_000_000));
/** On a machine of two busy cores ten thousand take two minutes. */
const PATIENCE_MS = 60_000 + RUNS * 30;
/** A mutant gives more than one VEVENT and more than one entry on average, or too little of the reader is reached. */
const LEAST_EACH = 1;

test("no mutant of a real calendar makes the reader throw, lose an entry or read one that is not there", {
  timeout: PATIENCE_MS,
}, () => {
  const { faults, vevents, entries } = runStretch(sourcesIn(OTHERS), SEED, SEED + RUNS, () => undefined);
  expect(faults.filter(({ law }) => !law.startsWith("took "))).toEqual([]);
  expect(Math.min(vevents, entries)).toBeGreaterThan(RUNS * LEAST_EACH);
});

test("a mutant is made again from its seed", () => {
  const sources = sourcesIn(OTHERS);
  const made = [7, 8, 7].map((seed) => mutate(sources, new Dice(seed)).toString("base64"));
  expect(made[2]).toBe(made[0]);
  expect(made[1]).not.toBe(made[0]);
});
