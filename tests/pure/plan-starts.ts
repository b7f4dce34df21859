/** Random zones and starts, most of them around a change of the clocks. Knows no salon and expects nothing. */
import * as fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";

/** Zones whose clocks change: half-hour shifts, changes at midnight and a Ramadan clock among them. */
export const CHANGING_ZONES = [
  "Europe/London",
  "America/New_York",
  "America/Los_Angeles",
  "Australia/Sydney",
  "Australia/Lord_Howe",
  "Pacific/Auckland",
  "America/St_Johns",
  "Africa/Cairo",
  "America/Santiago",
  "Africa/Casablanca",
] as const;
/** Zones whose clocks stay as they are from 2026 to 2028. */
export const STEADY_ZONES = [
  "Pacific/Apia",
  "Asia/Kolkata",
  "America/Phoenix",
  "Australia/Brisbane",
  "Australia/Perth",
  "America/Sao_Paulo",
] as const;
export const ZONES = [...CHANGING_ZONES, ...STEADY_ZONES] as const;

const FIRST: Instant = Date.UTC(2026, 0, 1) / 1_000;
const LAST: Instant = Date.UTC(2029, 0, 1) / 1_000;

/** Every change of a zone's clocks from 2026 to 2028, as the runtime's own data have it. */
const changesIn = (zone: string): readonly Instant[] => {
  const found: Instant[] = [];
  let at = Temporal.Instant.fromEpochMilliseconds(FIRST * 1_000).toZonedDateTimeISO(zone);
  for (;;) {
    const next = at.getTimeZoneTransition("next");
    if (!next || next.epochMilliseconds >= LAST * 1_000) return found;
    found.push(next.epochMilliseconds / 1_000);
    at = next;
  }
};
const changes = new Map(ZONES.map((zone) => [zone as string, changesIn(zone)]));

/** Leads that presets ask for, in hours: a start so long after a change has its last application at the change. */
const LEADS_H = [0, 24, 48, 48.75, 96, 120] as const;

/** A start from 2026 to 2028, most often so that the days of its test hold a change of that zone's clocks. */
export const startIn = (zone: string): fc.Arbitrary<Instant> => {
  const near = changes.get(zone) ?? [];
  const anywhere = fc.integer({ min: FIRST / MINUTE, max: LAST / MINUTE }).map((minute) => minute * MINUTE);
  if (near.length === 0) return anywhere;
  const after = fc
    .tuple(fc.constantFrom(...near), fc.integer({ min: -2 * 1_440, max: 12 * 1_440 }))
    .map(([change, minutes]) => change + minutes * MINUTE);
  const onto = fc
    .tuple(fc.constantFrom(...near), fc.constantFrom(...LEADS_H), fc.integer({ min: -130, max: 130 }))
    .map(([change, hours, minutes]) => change + hours * HOUR + minutes * MINUTE);
  return fc.oneof({ weight: 5, arbitrary: after }, { weight: 3, arbitrary: onto }, { weight: 1, arbitrary: anywhere });
};

/** A zone, most often one whose clocks change. */
export const zoneName = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom<string>(...CHANGING_ZONES) },
  { weight: 1, arbitrary: fc.constantFrom<string>(...STEADY_ZONES) },
);
