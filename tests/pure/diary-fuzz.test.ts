/**
 * Ten thousand mutants of real calendars through the diary reader in each host zone, of other seeds in each: nothing throws,
 * nothing is unaccounted for, no laws of tests/fuzz/judge.ts is broken. `npm run fuzz` runs as many as one likes.
 */
import { expect, test } from "vitest";
import { Dice } from "../fuzz/Dice.ts";
import { judge } from "../fuzz/judge.ts";
import { mutate } from "../fuzz/mutate.ts";
import { judgeBy, OTHERS, sourcesIn } from "../fuzz/sources.ts";

const RUNS = Number(process.env["FUZZ_RUNS"] ?? 10_000);
const SEED = Number(process.env["FUZZ_SEED"] ?? (process.env["TZ"] === "UTC" ? 1_000_000 : 2_000_000));

test("no mutant of a real calendar makes the reader throw, lose an entry or read one that is not there", () => {
  const sources = sourcesIn(OTHERS);
  const broken: string[] = [];
  let vevents = 0;
  let entries = 0;
  for (let seed = SEED; seed < SEED + RUNS; seed++) {
    const dice = new Dice(seed);
    const judged = judge(mutate(sources, dice), dice, judgeBy);
    if (judged.broken !== null) broken.push(`seed ${seed}: ${judged.broken}`);
    vevents += judged.vevents;
    entries += judged.entries;
  }
  expect(broken).toEqual([]);
  expect(Math.min(vevents, entries)).toBeGreaterThan(RUNS);
});

test("a mutant is made again from its seed", () => {
  const sources = sourcesIn(OTHERS);
  const made = [7, 8, 7].map((seed) => mutate(sources, new Dice(seed)).toString("base64"));
  expect(made[2]).toBe(made[0]);
  expect(made[1]).not.toBe(made[0]);
});
