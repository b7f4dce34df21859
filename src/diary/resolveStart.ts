/**
 * The one place where a time of the diary becomes an instant, a date, or "not certain" with its reason. In this order:
 * UTC; an IANA zone, also behind a prefix or under its Windows name; the file's own definition; the salon's zone for
 * floating times and dates. Never the host's zone, and never a guess: a wrong start is worse than none.
 */
import { type Day, dayFrom, type Instant, midnight, type Wall } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type Clock, clockOfZone, UTC_CLOCK } from "./clock.ts";
import { clockOfFileZone } from "./fileZone.ts";
import { cleanZoneName, findZone } from "./findZone.ts";
import type { ContentLine } from "./parseContentLine.ts";
import { parseTimeValue } from "./parseTimeValue.ts";
import type { FileZone } from "./types.ts";

export type TimeFault = "time-not-read" | "zone-unknown" | "zone-not-reaching";

export interface CertainTime {
  readonly kind: "time";
  readonly at: Instant;
  readonly wall: Wall;
  readonly clock: Clock;
  /** Written without a zone and without Z. */
  readonly floating: boolean;
}
export interface CertainDate {
  readonly kind: "date";
  readonly day: Day;
}
export interface NotCertain {
  readonly kind: "not-certain";
  readonly code: TimeFault;
}
export type TimeReading = CertainTime | CertainDate | NotCertain;

/** Gives the clock of a TZID, or undefined; made once a block, since definitions are laid out once. */
export interface Clocks {
  readonly salon: Clock;
  readonly zone: Zone;
  named(tzid: string): Clock | undefined;
}

/**
 * The clocks of one block.
 * @param zone the salon's zone
 * @param fileZones the definitions that the file holds
 */
export const clocksFor = (zone: Zone, fileZones: readonly FileZone[]): Clocks => {
  const known = new Map<string, Clock | undefined>();
  const find = (tzid: string): Clock | undefined => {
    const iana = findZone(tzid);
    if (iana) return clockOfZone(iana);
    const name = zoneKey(tzid);
    const own = fileZones.find((each) => zoneKey(each.tzid) === name);
    return own && clockOfFileZone(own);
  };
  return {
    salon: clockOfZone(zone),
    zone,
    named: (tzid) => {
      if (!known.has(tzid)) known.set(tzid, find(tzid));
      return known.get(tzid);
    },
  };
};

/** Years of four digits: no other instant can be written down (RFC 3339 §1). */
const FIRST_WRITTEN: Instant = midnight(dayFrom(0, 1, 1) as Day);
const END_WRITTEN: Instant = midnight((dayFrom(9999, 12, 31) as Day) + 1);

/** A TZID as use and definition are compared. */
export const zoneKey = (tzid: string): string => cleanZoneName(tzid).toLowerCase();

/**
 * Reads one value of DTSTART, DTEND, RECURRENCE-ID, EXDATE or RDATE.
 * @param line its line, for the parameters
 * @param value one value of that line, where it has several
 */
export const resolveStart = (line: ContentLine, clocks: Clocks, value: string = line.value): TimeReading => {
  const read = parseTimeValue(value);
  const wantsDate = line.params.get("VALUE")?.trim().toUpperCase() === "DATE";
  // VALUE=DATE before a date with a time: one of the two is wrong, and nobody can tell which.
  if (!read || (wantsDate && read.kind === "time")) return { kind: "not-certain", code: "time-not-read" };
  if (read.kind === "date") return read;
  const { wall } = read;
  if (read.utc) return { kind: "time", at: wall, wall, clock: UTC_CLOCK, floating: false };
  const tzid = cleanZoneName(line.params.get("TZID") ?? "");
  const clock = tzid === "" ? clocks.salon : clocks.named(tzid);
  if (!clock) return { kind: "not-certain", code: "zone-unknown" };
  const at = clock.instantOf(wall);
  if (at === undefined) return { kind: "not-certain", code: "zone-not-reaching" };
  if (at < FIRST_WRITTEN || at >= END_WRITTEN) return { kind: "not-certain", code: "time-not-read" };
  return { kind: "time", at, wall, clock, floating: tzid === "" };
};

/** The date that a value's digits show, whatever its zone: at most a day from the true one. Undefined without digits. */
export const roughDay = (value: string): Day | undefined => {
  const parts = /^\s*(\d{4})-?(\d{2})-?(\d{2})/.exec(value);
  return parts ? dayFrom(Number(parts[1]), Number(parts[2]), Number(parts[3])) : undefined;
};
