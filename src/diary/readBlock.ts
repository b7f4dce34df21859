/**
 * A block → the entries that begin inside the horizon, and what was skipped with its reason. Every VEVENT of the block is
 * in one of the two or lies outside the horizon; the books are compared at the end, and nothing is lost without a word.
 */
import { DIARY_ENTRIES_MAX } from "../bounds.ts";
import type { Zone } from "../time/zone.ts";
import { arrangeEvents, newestOverrides } from "./arrangeEvents.ts";
import { EventAccount } from "./EventAccount.ts";
import { allSteps } from "./expandRule.ts";
import { type CertainStart, instantOf, repeats } from "./expandSeries.ts";
import { originalOf } from "./originalOf.ts";
import { parseEvents } from "./parseEvents.ts";
import { type EventTimes, endOf, linesOf, readEvent } from "./readEvent.ts";
import { changesFor, idOf, type ReadSeries, readSeries, type Slot } from "./readSeries.ts";
import { clocksFor } from "./resolveStart.ts";
import type { Block, BlockReading, Entry, Horizon } from "./types.ts";

/**
 * Reads one block.
 * @param zone the salon's zone, for floating times and dates
 */
export const readBlock = (block: Block, zone: Zone, horizon: Horizon): BlockReading => {
  const clocks = clocksFor(zone, block.zones);
  const events = block.events.map((text, index) => readEvent(text, index, clocks));
  const account = new EventAccount(block, events, horizon);
  const { masters, overrides: all, aside } = arrangeEvents(events);
  const starts = new Map(masters.map((master) => [master, certainStart(master, account)]));
  const owner = [...starts.values()].find((start) => start !== undefined);
  const { overrides, superseded } = newestOverrides(all, owner);
  for (const { event, code } of [...aside, ...superseded]) account.skip(event, code);

  const slots: Slot[] = [];
  const steps = allSteps();
  const changesOf = changesFor(overrides, clocks);
  const series: ReadSeries[] = [];
  for (const [master, start] of starts) {
    if (!start) continue;
    // A diary holds no more, so one block of it cannot: its rules together must not fill memory.
    if (slots.length >= DIARY_ENTRIES_MAX) {
      account.skip(master, "too-many-occurrences");
      continue;
    }
    const read = readSeries(master, start, changesOf(start), clocks, horizon, steps, account);
    slots.push(...read.slots);
    if (!read.excluded.isEmpty) series.push(read);
  }
  for (const { event, id, onlyFuture } of overrides) {
    const start = certainStart(event, account);
    if (!start) continue;
    if (onlyFuture) {
      // Without a series that can be read there are no later occurrences that it could change.
      if (owner) account.told(event);
      else if (repeats(event)) account.skip(event, "rule-not-supported");
      else account.skip(event, masters.length > 0 ? "shift-not-followed" : "superseded");
      continue;
    }
    const original = owner ? originalOf(owner, id) : id;
    if (rangeOf(event) === "THISANDPRIOR") account.skip(event, "range-not-supported");
    if (series.some(({ excluded }) => excluded.matches(original))) account.skip(event, "taken-out");
    else {
      // A rule here says nothing new where it is the series' own; any other would be a series that nobody began.
      if (repeats(event) && !masters.some((master) => rulesOf(master) === rulesOf(event)))
        account.skip(event, event.andFuture ? "shift-not-followed" : "rule-not-supported");
      if (account.isInside(instantOf(start, clocks))) slots.push({ event, start, recurrenceId: idOf(original) });
      else account.told(event);
    }
  }
  const { entries, unread } = toEntries(block.uid, slots, account);
  return { entries, skipped: account.close(slots.length - unread, entries.length) };
};

const rulesOf = (event: EventTimes): string =>
  ["RRULE", "RDATE"].flatMap((name) => linesOf(event, name).map(({ value }) => value.trim().toUpperCase())).join(" ");

/** The certain start of an event, or undefined after saying why there is none. */
const certainStart = (event: EventTimes, account: EventAccount): CertainStart | undefined => {
  if (event.fault !== null) account.skip(event, event.fault);
  else if (event.start.kind === "not-certain")
    account.skip(event, isCalledOff(event) ? "called-off" : event.start.code);
  else return event.start;
  return undefined;
};

/** A cancellation needs no time to be one (RFC 5546 §3.2.5: DTSTART may be left out, from memory). */
const isCalledOff = (event: EventTimes): boolean =>
  linesOf(event, "STATUS")[0]?.value.trim().toUpperCase() === "CANCELLED";

const rangeOf = (event: EventTimes): string | undefined =>
  linesOf(event, "RECURRENCE-ID")[0]?.params.get("RANGE")?.trim().toUpperCase();

/** Gives the slots their words. Slots of one name, from entries that share a UID, get a number behind it. */
const toEntries = (
  uid: string,
  slots: readonly Slot[],
  account: EventAccount,
): { readonly entries: readonly Entry[]; readonly unread: number } => {
  const events = [...new Set(slots.map((slot) => slot.event))];
  const parsed = parseEvents(events.map((event) => event.lines));
  const words = new Map(events.map((event, index) => [event, parsed[index] ?? null]));
  for (const [event, found] of words) {
    if (found) account.told(event);
    else account.skip(event, "text-not-read");
  }
  const taken = new Map<string, number>();
  const entries: Entry[] = [];
  let unread = 0;
  for (const { event, start, recurrenceId } of slots) {
    const said = words.get(event);
    if (!said) {
      unread++;
      continue;
    }
    const name = recurrenceId === null ? uid : `${uid}/${recurrenceId}`;
    const earlier = taken.get(name) ?? 0;
    taken.set(name, earlier + 1);
    entries.push({
      key: earlier === 0 ? name : `${name}#${earlier + 1}`,
      uid,
      recurrenceId,
      start: start.kind === "time" ? start.at : null,
      date: start.kind === "date" ? start.day : null,
      end: start.kind === "time" ? (start.ends ?? endOf(event.length, start)) : null,
      ...said,
    });
  }
  return { entries, unread };
};
