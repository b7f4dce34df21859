/** What RANGE=THISANDFUTURE does to a later occurrence (RFC 5545 §3.8.4.4): moves it by as much as the named one moved. */
import { SHIFT_MAX_DAYS } from "../bounds.ts";
import { DAY_SECONDS } from "../time/instant.ts";
import type { Occurrence } from "./expandSeries.ts";
import type { EventTimes } from "./readEvent.ts";

/**
 * The occurrence where the change puts it, or undefined where that cannot be followed.
 * @param original the occurrence that the change names
 * @param change the event that changes it
 */
export const shiftOccurrence = (
  occurrence: Occurrence,
  original: Occurrence,
  change: EventTimes,
): Occurrence | undefined => {
  const { start } = change;
  if (change.fault !== null) return undefined;
  if (occurrence.kind === "date") {
    if (start.kind !== "date" || original.kind !== "date") return undefined;
    const days = start.day - original.day;
    return Math.abs(days) > SHIFT_MAX_DAYS ? undefined : { kind: "date", day: occurrence.day + days };
  }
  if (start.kind !== "time" || original.kind !== "time") return undefined;
  // In the wall time of the change's clock, so that a series keeps its hour when the clocks change.
  const from = start.clock.wallAt(original.at);
  const now = start.clock.wallAt(occurrence.at);
  if (from === undefined || now === undefined) return undefined;
  const moved = start.wall - from;
  const at = start.clock.instantOf(now + moved);
  if (at === undefined || Math.abs(moved) > SHIFT_MAX_DAYS * DAY_SECONDS) return undefined;
  return { ...start, at, wall: now + moved };
};
