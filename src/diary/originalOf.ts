/** Which occurrence of a series a RECURRENCE-ID means, however it is written. */
import { dayOf, midnight, type Wall } from "../time/instant.ts";
import type { CertainStart, Occurrence } from "./expandSeries.ts";

/** The occurrence of a series at a wall time of its own clock; undefined where the clock does not reach. */
export const occurrenceAt = (start: CertainStart, wall: Wall): Occurrence | undefined => {
  if (start.kind === "date") return { kind: "date", day: dayOf(wall) };
  const at = start.clock.instantOf(wall);
  return at === undefined ? undefined : { ...start, at, wall };
};

/**
 * The occurrence that a RECURRENCE-ID names, in the series' own form: a date names the one of that day, a time without a
 * zone means the series' own clock.
 * @param start the series' DTSTART
 */
export const originalOf = (start: CertainStart, id: CertainStart): Occurrence => {
  if (start.kind === "date") return { kind: "date", day: id.kind === "date" ? id.day : dayOf(id.wall) };
  const wall =
    id.kind === "date"
      ? midnight(id.day) + start.wall - midnight(dayOf(start.wall))
      : id.floating
        ? id.wall
        : start.clock.wallAt(id.at);
  if (wall === undefined) return id;
  const named = occurrenceAt(start, wall);
  // In a repeated hour the clock gives the first pass; an instant that was written out stays what it is.
  return named?.kind === "time" && id.kind === "time" && !id.floating ? { ...named, at: id.at } : (named ?? id);
};
