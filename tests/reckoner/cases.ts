/**
 * Random questions for the comparison: a salon, one colour near a clock change more often than not, and a `now` from
 * weeks before it to days after, the very second of a due included. Never makes records.
 */
import * as fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { DAY_S, HOUR_S } from "./moments.ts";
import { salonIn, singleDatesAround } from "./salons.ts";
import type { ReckonSettings } from "./types.ts";

export const ZONES = [
  "Europe/London",
  "America/New_York",
  "Australia/Lord_Howe",
  "America/Santiago",
  "Africa/Cairo",
  "Pacific/Auckland",
  "America/St_Johns",
  "Asia/Kolkata",
] as const;

/** The clock changes of 2026 and 2027 in a zone, in seconds; the turn of the year where there is none. */
const changesOf = (zone: string): number[] => {
  const changes: number[] = [];
  let at = Temporal.ZonedDateTime.from(`2026-01-01T00:00[${zone}]`);
  for (;;) {
    const next = at.getTimeZoneTransition("next");
    if (!next || next.year > 2027) return changes.length > 0 ? changes : [Date.UTC(2027, 0, 1) / 1_000];
    changes.push(next.epochMilliseconds / 1_000);
    at = next;
  }
};
const changes = new Map(ZONES.map((zone) => [zone, changesOf(zone)]));

/** `now` by its distance from B in seconds, or at the edge of one of the plan's instants. */
export type Seen = { readonly seconds: number } | { readonly edge: number; readonly shift: number };

export interface Scene {
  readonly settings: ReckonSettings;
  /** Seconds. */
  readonly start: number;
  readonly holidays: readonly string[];
  readonly seen: Seen;
}

const seen: fc.Arbitrary<Seen> = fc.oneof(
  fc.integer({ min: -30 * DAY_S, max: 6 * DAY_S }).map((seconds) => ({ seconds })),
  fc.integer({ min: -8 * DAY_S, max: 0 }).map((seconds) => ({ seconds })),
  fc.integer({ min: -12 * HOUR_S, max: 0 }).map((seconds) => ({ seconds })),
  fc.integer({ min: 1, max: 4 * DAY_S }).map((seconds) => ({ seconds })),
  fc.record({ edge: fc.nat({ max: 40 }), shift: fc.constantFrom(-1, 0, 1, 60, -60) }),
);

/** A salon, one colour near a clock change more often than not, and when it is looked at. */
export const scene: fc.Arbitrary<Scene> = fc
  .tuple(
    fc.constantFrom(...ZONES),
    fc.nat({ max: 9 }),
    fc.oneof(
      { weight: 3, arbitrary: fc.integer({ min: -2 * 96, max: 8 * 96 }) },
      { weight: 1, arbitrary: fc.integer({ min: -90 * 96, max: 90 * 96 }) },
    ),
    fc.constantFrom(0, 0, 0, 300, 61),
  )
  .chain(([zone, pick, quarters, odd]) => {
    const near = changes.get(zone) as number[];
    const start = (near[pick % near.length] as number) + quarters * 900 + odd;
    const day = Math.floor(start / DAY_S);
    return fc.record({
      settings: salonIn(zone, day),
      start: fc.constant(start),
      holidays: singleDatesAround(day, 4),
      seen,
    });
  });
