/** How wall times become instants, whatever defines it: UTC, an IANA zone, or the file's own definition. */
import type { Instant, Wall } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

export interface Clock {
  /** The instant of a wall time as RFC 5545 §3.3.5 reads it; undefined where the definition does not reach. */
  instantOf(wall: Wall): Instant | undefined;
  /** What the clock shows at an instant; undefined where the definition does not reach. */
  wallAt(instant: Instant): Wall | undefined;
}

export const UTC_CLOCK: Clock = { instantOf: (wall) => wall, wallAt: (instant) => instant };

/** The clock of an IANA zone. */
export const clockOfZone = (zone: Zone): Clock => ({
  instantOf: (wall) => zone.diaryReading(wall),
  wallAt: (instant) => zone.wallAt(instant),
});
