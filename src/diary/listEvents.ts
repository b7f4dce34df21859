/**
 * Every VEVENT of a block with its own start, nothing expanded and nothing left out: what the command line shows of a
 * calendar.
 */

import { SUMMARY_READ_MAX } from "../bounds.ts";
import type { Why } from "../plan/types.ts";
import { type Day, formatDay, formatInstant, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { arrangeEvents } from "./arrangeEvents.ts";
import { repeats } from "./expandSeries.ts";
import { findZone } from "./findZone.ts";
import { parseRule } from "./parseRule.ts";
import { type EventTimes, linesOf, readEvent } from "./readEvent.ts";
import { type Clocks, clocksFor, resolveStart, type TimeReading } from "./resolveStart.ts";
import { SKIP_TEXTS, type SkipCode } from "./skipReasons.ts";
import type { Block } from "./types.ts";

export interface ListedEvent {
  readonly uid: string;
  /** The original start, in UTC or as a date; as written where it is not certain; null where there is none. */
  readonly recurrenceId: string | null;
  readonly start: Instant | null;
  /** Of an all-day event, else null. */
  readonly date: Day | null;
  readonly writtenStart: string;
  readonly certain: boolean;
  /** Why the start is not certain. */
  readonly reason: Why | null;
  /** By what its start was read: the TZID as written, "UTC", or null for a floating time or a date. */
  readonly writtenZone: string | null;
  /** Which IANA zone that is; null where the file's own definition was used, or nothing. */
  readonly zone: string | null;
  readonly repeats: boolean;
  /** The file says that it does not take place. */
  readonly cancelled: boolean;
  /** What is not understood of its repetition, where its start is. */
  readonly doubt: Why | null;
  /** As the file writes it, its escapes undone. */
  readonly summary: string;
}

export interface EventList {
  readonly events: readonly ListedEvent[];
  /** What stands aside: repeated, replaced by a newer version, broken off. */
  readonly aside: readonly (ListedEvent & { readonly reason: Why })[];
}

/** @param zone the zone of floating times and dates */
export const listEvents = (block: Block, zone: Zone): EventList => {
  const clocks = clocksFor(zone, block.zones);
  const events = block.events.map((text, index) => readEvent(text, index, clocks));
  const aside = new Map(arrangeEvents(events).aside.map(({ event, code }) => [event, code]));
  for (const event of events) if (event.fault !== null && !aside.has(event)) aside.set(event, event.fault);
  return {
    events: events.filter((event) => !aside.has(event)).map((event) => listEvent(block.uid, event, clocks)),
    aside: [...aside].map(([event, code]) => ({ ...listEvent(block.uid, event, clocks), reason: whyOf(code) })),
  };
};

const whyOf = (code: SkipCode): Why => ({ code, text: SKIP_TEXTS[code] });

const listEvent = (uid: string, event: EventTimes, clocks: Clocks): ListedEvent => {
  const { start, recurrenceId, writtenStart, writtenRecurrenceId } = event;
  // A TZID that is empty names no zone.
  const tzid = linesOf(event, "DTSTART")[0]?.params.get("TZID")?.trim() || undefined;
  const isUtc = start.kind === "time" && writtenStart.trim().toUpperCase().endsWith("Z");
  const [summary = ""] = linesOf(event, "SUMMARY").map(({ value }) => value);
  return {
    uid,
    recurrenceId: recurrenceId && (idOf(recurrenceId) ?? writtenRecurrenceId),
    start: start.kind === "time" ? start.at : null,
    date: start.kind === "date" ? start.day : null,
    writtenStart,
    certain: start.kind !== "not-certain",
    reason: start.kind === "not-certain" ? whyOf(start.code) : null,
    writtenZone: isUtc ? "UTC" : (tzid ?? null),
    zone: isUtc ? "UTC" : ((tzid && findZone(tzid)?.name) ?? null),
    repeats: repeats(event),
    cancelled: linesOf(event, "STATUS")[0]?.value.trim().toUpperCase() === "CANCELLED",
    doubt: doubtOf(event, clocks),
    summary: summary
      .slice(0, SUMMARY_READ_MAX)
      .replace(/\\([\\;,nN])/g, (_, escaped: string) => (/n/i.test(escaped) ? " " : escaped))
      .trim(),
  };
};

/** The first thing about its repetition that is not understood; what only an expansion tells is not looked for. */
const doubtOf = (event: EventTimes, clocks: Clocks): Why | null => {
  if (event.start.kind === "not-certain") return null;
  for (const { value } of linesOf(event, "RRULE")) {
    const rule = parseRule(value);
    if (typeof rule === "string") return whyOf(rule);
  }
  if (hasUncertain(event, "RDATE", clocks)) return whyOf("addition-not-read");
  const rules = linesOf(event, "EXRULE").map(({ value }) => parseRule(value));
  const isUnread = hasUncertain(event, "EXDATE", clocks) || rules.some((rule) => typeof rule === "string");
  return isUnread ? whyOf("exclusion-not-read") : null;
};

/** Whether one of the times in lines of a name is not certain; of a PERIOD its start counts. */
const hasUncertain = (event: EventTimes, name: string, clocks: Clocks): boolean =>
  linesOf(event, name).some((line) =>
    line.value
      .split(",")
      .filter((value) => value.trim() !== "")
      .some((value) => resolveStart(line, clocks, value.split("/")[0]).kind === "not-certain"),
  );

const idOf = (reading: TimeReading): string | undefined =>
  reading.kind === "time" ? formatInstant(reading.at) : reading.kind === "date" ? formatDay(reading.day) : undefined;
