/**
 * The engine against the independent reckoning of counting.md, on random salons, bookings and records.
 * A difference is a fault of one of the two; counting.md says whose. `RECKONER_CASES=5000` asks more often,
 * `RECKONER_SEED=7` asks other questions.
 */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { scene } from "../reckoner/cases.ts";
import { askEngine } from "../reckoner/engine.ts";
import { type Moment, momentOf } from "../reckoner/moments.ts";
import { reckon } from "../reckoner/reckon.ts";
import { questionOf, story } from "../reckoner/stories.ts";
import type { Reckoned, ReckonInput } from "../reckoner/types.ts";

const CASES = Number(process.env["RECKONER_CASES"] ?? 600);
const SEED = Number(process.env["RECKONER_SEED"] ?? 1);
/** Milliseconds a case may take, its shrinking included. */
const PATIENCE_PER_CASE_MS = 200;

/** Every instant of a plan at which something may turn. */
const edgesOf = (input: ReckonInput): Moment[] => {
  const { steps, routes } = reckon(input);
  const texts = [...steps.flatMap((step) => [step.opens, step.due]), ...routes.flatMap(({ until }) => until ?? [])];
  return texts.map(momentOf);
};

/** The engine also lists `on-file` where it does not count; rule 21 names it only "where it counts". */
const withoutUncounted = (answer: Reckoned): Reckoned => ({
  ...answer,
  routes: answer.routes.filter(({ route, until, fits }) => route !== "on-file" || until !== null || fits),
});

test(`the engine and an independent reckoning of counting.md agree on ${CASES} random bookings`, {
  timeout: 20_000 + CASES * PATIENCE_PER_CASE_MS,
}, () => {
  const met = new Set<string | null>();
  fc.assert(
    fc.property(scene, story, (where, told) => {
      const question = questionOf(where, told, edgesOf);
      const expected = reckon(question);
      const answer = askEngine(question);
      if ("refused" in answer) throw new Error(`the engine refuses these settings: ${answer.refused.join(" ")}`);
      expect(withoutUncounted(answer), JSON.stringify(question)).toEqual(expected);
      met.add(expected.standing).add(expected.route);
    }),
    { numRuns: CASES, seed: SEED },
  );
  const everyday = ["on-track", "due", "late", "no-time", "stop", "past", "in-salon", "home-kit", "on-file", null];
  expect([...met]).toEqual(expect.arrayContaining(everyday));
});
