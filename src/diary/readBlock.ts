/**
 * A block → the entries that begin inside the horizon, and what was skipped with its reason. Every VEVENT of the block is
 * in one of the two or lies outside the horizon; nothing is lost without a word.
 */

import { SHIFT_MAX_DAYS } from "../bounds.ts";
import { DAY_SECONDS, formatDay, formatInstant, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { arrangeEvents, type Override } from "./arrangeEvents.ts";
import { splitEvent } from "./eventText.ts";
import {
  type CertainStart,
  expandSeries,
  instantOf,
  type Occurrence,
  OccurrenceMatcher,
  originalOf,
  repeats,
} from "./expandSeries.ts";
import { liesOutside } from "./liesOutside.ts";
import { parseEvents } from "./parseEvents.ts";
import { type EventTimes, endOf, readEvent } from "./readEvent.ts";
import { type Clocks, clocksFor } from "./resolveStart.ts";
import { shiftOccurrence } from "./shiftOccurrence.ts";
import { SKIP_TEXTS, type SkipCode } from "./skipReasons.ts";
import type { Block, BlockReading, Entry, Horizon, Skipped } from "./types.ts";

/** An entry without its words: which event says what it is, and when it is. */
interface Slot {
  readonly event: EventTimes;
  readonly start: Occurrence;
  readonly recurrenceId: string | null;
}

/**
 * Reads one block.
 * @param zone the salon's zone, for floating times and dates
 */
export const readBlock = (block: Block, zone: Zone, horizon: Horizon): BlockReading => {
  const clocks = clocksFor(zone, block.zones);
  const { masters, overrides, aside } = arrangeEvents(
    block.events.map((text, index) => readEvent(text, index, clocks)),
  );
  const skipped: Skipped[] = [];
  const skip = (event: EventTimes, code: SkipCode): void => {
    if (liesOutside(splitEvent(event.text).lines, horizon)) return;
    const { writtenStart: start, writtenRecurrenceId: recurrenceId } = event;
    skipped.push({ uid: block.uid, recurrenceId, start, reason: code, text: SKIP_TEXTS[code] });
  };
  for (const { event, code } of aside) skip(event, code);

  const slots: Slot[] = [];
  const isInside = (start: Occurrence): boolean => {
    const at = instantOf(start, clocks);
    return at >= horizon.from && at < horizon.to;
  };
  const series = masters.map((master) => readMaster(master, overrides, clocks, horizon, skip));
  for (const { found } of series) slots.push(...found.filter((slot) => isInside(slot.start)));
  for (const { event, id } of overrides) {
    const start = startOf(event, skip);
    if (!start) continue;
    const owner = series.find((each) => each.start !== undefined);
    const original = owner?.start ? originalOf(owner.start, id) : id;
    if (series.some((each) => each.excluded?.matches(original))) skip(event, "taken-out");
    else {
      // Beside its series a rule here says nothing new; alone it would be a series that nobody began.
      if (masters.length === 0 && repeats(event)) skip(event, "rule-not-supported");
      if (isInside(start)) slots.push({ event, start, recurrenceId: idOf(original) });
    }
  }
  return { entries: toEntries(block.uid, slots, skip), skipped };
};

/** The certain start of an event, or undefined after saying why there is none. */
const startOf = (event: EventTimes, skip: (event: EventTimes, code: SkipCode) => void): CertainStart | undefined => {
  if (event.fault !== null) skip(event, event.fault);
  else if (event.start.kind === "not-certain") skip(event, event.start.code);
  else return event.start;
  return undefined;
};

interface ReadMaster {
  readonly start: CertainStart | undefined;
  readonly found: readonly Slot[];
  readonly excluded: OccurrenceMatcher | undefined;
}

const readMaster = (
  master: EventTimes,
  overrides: readonly Override[],
  clocks: Clocks,
  horizon: Horizon,
  skip: (event: EventTimes, code: SkipCode) => void,
): ReadMaster => {
  const start = startOf(master, skip);
  if (!start) return { start, found: [], excluded: undefined };
  const changes = overrides.map(({ event, id }) => ({ event, original: originalOf(start, id) }));
  const changed = new OccurrenceMatcher();
  for (const { original } of changes) changed.add(original);
  // A change to all that follow may bring occurrences in from beyond the horizon.
  const shifts = changes.filter(({ event }) => event.andFuture);
  const room = shifts.length > 0 ? SHIFT_MAX_DAYS * DAY_SECONDS : 0;
  const { occurrences, excluded, faults } = expandSeries(master, start, clocks, horizon.from - room, horizon.to + room);
  for (const code of faults) skip(master, code);
  const isSeries = repeats(master);
  const found: Slot[] = [];
  const lost = new Set<EventTimes>();
  for (const occurrence of occurrences) {
    if (changed.matches(occurrence)) continue;
    const shift = latestBefore(shifts, instantOf(occurrence, clocks), clocks);
    const moved = shift ? shiftOccurrence(occurrence, shift.original, shift.event) : occurrence;
    const recurrenceId = isSeries ? idOf(occurrence) : null;
    if (moved) found.push({ event: shift?.event ?? master, start: moved, recurrenceId });
    else if (shift) lost.add(shift.event);
  }
  for (const event of lost) skip(event, "shift-not-followed");
  return { start, found, excluded };
};

interface Change {
  readonly event: EventTimes;
  readonly original: Occurrence;
}

const latestBefore = (shifts: readonly Change[], at: Instant, clocks: Clocks): Change | undefined =>
  shifts
    .filter(({ original }) => instantOf(original, clocks) < at)
    .reduce<Change | undefined>(
      (latest, each) =>
        latest && instantOf(latest.original, clocks) >= instantOf(each.original, clocks) ? latest : each,
      undefined,
    );

const idOf = (occurrence: Occurrence): string =>
  occurrence.kind === "time" ? formatInstant(occurrence.at) : formatDay(occurrence.day);

/** Gives the slots their words. Slots of one name, from entries that share a UID, get a number behind it. */
const toEntries = (
  uid: string,
  slots: readonly Slot[],
  skip: (event: EventTimes, code: SkipCode) => void,
): readonly Entry[] => {
  const events = [...new Set(slots.map((slot) => slot.event))];
  const parsed = parseEvents(events.map((event) => event.lines));
  const words = new Map(events.map((event, index) => [event, parsed[index] ?? null]));
  for (const [event, found] of words) if (!found) skip(event, "text-not-read");
  const taken = new Map<string, number>();
  const entries: Entry[] = [];
  for (const { event, start, recurrenceId } of slots) {
    const said = words.get(event);
    if (!said) continue;
    const name = recurrenceId === null ? uid : `${uid}/${recurrenceId}`;
    const earlier = taken.get(name) ?? 0;
    taken.set(name, earlier + 1);
    entries.push({
      key: earlier === 0 ? name : `${name}#${earlier + 1}`,
      uid,
      recurrenceId,
      start: start.kind === "time" ? start.at : null,
      date: start.kind === "date" ? start.day : null,
      end: start.kind === "time" ? endOf(event.length, start) : null,
      ...said,
    });
  }
  return entries;
};
