/** Reads a diary's blocks into what the salon needs of them; only blocks that changed are parsed. Pure. */
import { HORIZON_AHEAD_DAYS, HORIZON_PAST_DAYS, REPORT_LIST_MAX } from "../bounds.ts";
import { findBookings } from "../diary/findBookings.ts";
import { readBlock } from "../diary/readBlock.ts";
import { type Sorting, sortEntry } from "../diary/sortEntry.ts";
import type { Block, BlockReading, Entry, FoundBooking, Horizon } from "../diary/types.ts";
import { type Day, formatDay, formatInstant, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { DiaryReport, SkippedEntry, UnsortedEntry } from "./types.ts";

/** A block and what it read as, with the horizon's day it was read for. */
export interface StoredBlock {
  readonly block: Block;
  readonly day: Day;
  readonly reading: BlockReading;
}

/** What one reading of one diary found. */
export interface DiaryReading {
  readonly blocks: readonly StoredBlock[];
  readonly bookings: readonly FoundBooking[];
  readonly found: Pick<DiaryReport, "counts" | "skipped" | "unsorted">;
  /** Keys of entries that the diary itself calls cancelled. */
  readonly cancelled: ReadonlySet<string>;
  /** Something here should carry a client's name, and nothing does. */
  readonly hidesNames: boolean;
}

/** 30 days back and 400 ahead of a local day, whole days. */
export const horizonOf = (day: Day, zone: Zone): Horizon => ({
  from: zone.startOfDay(day - HORIZON_PAST_DAYS),
  to: zone.startOfDay(day + HORIZON_AHEAD_DAYS),
});

/** The horizon of the local day of an instant. */
export const horizonToday = (zone: Zone, now: Instant): Horizon => horizonOf(zone.dayAt(now), zone);

const startInWords = (entry: Entry): string =>
  entry.start === null ? (entry.date === null ? "" : formatDay(entry.date)) : formatInstant(entry.start);

/**
 * @param known the blocks as they were stored after the last reading, by UID
 * @param raw VEVENTs in the text
 */
export const readBlocks = (
  diary: string,
  blocks: readonly Block[],
  known: ReadonlyMap<string, StoredBlock>,
  raw: number,
  day: Day,
  zone: Zone,
  sorting: Sorting,
): DiaryReading => {
  const horizon = horizonOf(day, zone);
  const read = blocks.map((block): StoredBlock => {
    const before = known.get(block.uid);
    if (before && before.block.hash === block.hash && before.day === day) return before;
    return { block, day, reading: readBlock(block, zone, horizon) };
  });
  const entries = read.flatMap(({ reading }) => reading.entries);
  const sorted = entries.map((entry) => ({ entry, sorted: sortEntry(entry, sorting) }));
  const { bookings, tests, unsorted, notColour, hidesNames } = findBookings(sorted, diary, zone);
  const skipped = read.flatMap(({ reading }) =>
    reading.skipped.map(
      ({ uid, recurrenceId, start, reason, text }): SkippedEntry => ({
        entry: recurrenceId === null ? uid : `${uid}/${recurrenceId}`,
        uid,
        start,
        reason,
        text,
      }),
    ),
  );
  return {
    blocks: read,
    bookings,
    cancelled: new Set(entries.filter((entry) => entry.cancelled).map(({ key }) => key)),
    hidesNames,
    found: {
      counts: {
        raw,
        entries: entries.length,
        bookings: bookings.length,
        tests: tests.length,
        notColour,
        unsorted: unsorted.length,
        skipped: skipped.length,
      },
      skipped: skipped.slice(0, REPORT_LIST_MAX),
      unsorted: unsorted.slice(0, REPORT_LIST_MAX).map(
        ({ entry, why, nearest }): UnsortedEntry => ({
          entry: entry.key,
          uid: entry.uid,
          start: startInWords(entry),
          summary: entry.summary,
          why,
          nearest,
        }),
      ),
    },
  };
};
