/**
 * The service killed at random moments keeps what it acknowledged and says nothing half. What may be told of an event twice
 * is RFC 5545 §3.8.7 (SEQUENCE, LAST-MODIFIED, DTSTAMP), of an ETag RFC 9110 §8.8.3. CRASH_KILLS, CRASH_SEED.
 */
import { expect, test } from "vitest";
import { runCrashes } from "./runCrashes.ts";

const KILLS = Number(process.env["CRASH_KILLS"] ?? 20);
const SEED = Number(process.env["CRASH_SEED"] ?? 1);

test(`${KILLS} kills lose, double and alter nothing that was acknowledged, and leave no feed half`, async () => {
  const { tally } = await runCrashes(KILLS, SEED, () => {});
  expect(tally.faults).toEqual([]);
  const { kills, judgements, records, pushes, settings, feeds, events } = tally.counts;
  expect(kills).toBe(KILLS);
  // A run that did nothing would find nothing.
  for (const count of [judgements, records, pushes, settings, feeds, events]) expect(count).toBeGreaterThan(0);
});
