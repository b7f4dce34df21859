/**
 * Every VEVENT of a block with its own start, nothing expanded and nothing left out: what the command line shows of a
 * calendar.
 */

import type { Why } from "../plan/types.ts";
import { type Day, formatDay, formatInstant, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { arrangeEvents } from "./arrangeEvents.ts";
import { type EventTimes, readEvent } from "./readEvent.ts";
import { clocksFor, type TimeReading } from "./resolveStart.ts";
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
    events: events.filter((event) => !aside.has(event)).map((event) => listEvent(block.uid, event)),
    aside: [...aside].map(([event, code]) => ({ ...listEvent(block.uid, event), reason: whyOf(code) })),
  };
};

const whyOf = (code: SkipCode): Why => ({ code, text: SKIP_TEXTS[code] });

const listEvent = (uid: string, event: EventTimes): ListedEvent => {
  const { start, recurrenceId, writtenStart, writtenRecurrenceId } = event;
  return {
    uid,
    recurrenceId: recurrenceId && (idOf(recurrenceId) ?? writtenRecurrenceId),
    start: start.kind === "time" ? start.at : null,
    date: start.kind === "date" ? start.day : null,
    writtenStart,
    certain: start.kind !== "not-certain",
    reason: start.kind === "not-certain" ? whyOf(start.code) : null,
  };
};

const idOf = (reading: TimeReading): string | undefined =>
  reading.kind === "time" ? formatInstant(reading.at) : reading.kind === "date" ? formatDay(reading.day) : undefined;
