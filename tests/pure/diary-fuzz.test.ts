/**
 * Ten thousand mutants of real calendars through the diary reader in each host zone, of other seeds in each: nothing throws,
 * nothing is unaccounted for, no law of tests/fuzz/judge.ts is broken. `npm run fuzz` runs as many as one likes.
 */
import { expect, test } from "vitest";
import { BROKEN_ONCE } from "../fuzz/brokenOnce.ts";
import { Dice } from "../fuzz/Dice.ts";
import { judge } from "../fuzz/judge.ts";
import { mutate } from "../fuzz/mutate.ts";
import { runStretch } from "../fuzz/runMutants.ts";
import { judgeBy, OTHERS, sourcesIn } from "../fuzz/sources.ts";

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

/** Each draw has its own zone, horizon, pieces and days. */
const DRAWS = 40;

test.for([...BROKEN_ONCE])("%s: no law is broken again", ([, text]) => {
  const octets = Buffer.from(text);
  const broken = Array.from(
    { length: DRAWS },
    (_, seed) => judge(octets, new Dice(seed), judgeBy, () => octets.subarray(0, octets.length - seed)).broken,
  );
  expect(broken.filter((law) => law !== null)).toEqual([]);
});
