/** Reads a diary's blocks into what the salon needs of them; only blocks that changed are parsed. Pure. */
import {
  DIARY_ENTRIES_MAX,
  HORIZON_AHEAD_DAYS,
  HORIZON_PAST_DAYS,
  REPORT_LIST_MAX,
  REPORT_TEXT_MAX,
} from "../bounds.ts";
import { findBookings, type FoundTest } from "../diary/findBookings.ts";
import { readBlock } from "../diary/readBlock.ts";
import { clip } from "../feed/clip.ts";
import { sortEntry } from "../diary/sortEntry.ts";
import type { Block, BlockReading, Entry, FoundBooking, Horizon } from "../diary/types.ts";
import { type Day, formatDay, formatInstant, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { SalonDesk } from "./desk.ts";
import type { DiaryReport, SkippedEntry, UnsortedEntry } from "./types.ts";

/** A block and what it read as, with the horizon's day it was read for and the clock it was read by. */
export interface StoredBlock {
  readonly block: Block;
  readonly day: Day;
  /** The desk's print: a floating start read by another zone, or by other zone data, is another start. */
  readonly readBy: string;
  readonly reading: BlockReading;
}

/** What one reading of one diary found. */
export interface DiaryReading {
  readonly blocks: readonly StoredBlock[];
  readonly bookings: readonly FoundBooking[];
  readonly tests: readonly FoundTest[];
  readonly found: Pick<DiaryReport, "counts" | "skipped" | "unsorted">;
  /** Keys of entries that the diary itself calls cancelled. */
  readonly cancelled: ReadonlySet<string>;
  /** Keys of entries that stand in the diary and could not be read or understood. */
  readonly unclear: ReadonlySet<string>;
  /** Something here should carry a client's name, and nothing does. */
  readonly hidesNames: boolean;
}

/** 30 days back and 400 ahead of a local day, whole days. */
export const horizonOf = (day: Day, zone: Zone): Horizon => ({
  from: zone.startOfDay(day - HORIZON_PAST_DAYS),
  to: zone.startOfDay(day + HORIZON_AHEAD_DAYS),
});

/** No desk's print: a block that was left out is read when there is room again. */
const NOT_READ = "";

const leftOut = (block: Block): BlockReading => ({
  entries: [],
  skipped: block.events.map(() => ({
    uid: block.uid,
    recurrenceId: null,
    start: "",
    reason: "diary-too-full",
    text: `not read: this diary has more than ${DIARY_ENTRIES_MAX} entries in sight. Split it, or end the rules that repeat without end.`,
  })),
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
  { rules: { zone }, sorting, print: readBy }: Pick<SalonDesk, "rules" | "sorting" | "print">,
): DiaryReading => {
  const horizon = horizonOf(day, zone);
  let room = DIARY_ENTRIES_MAX;
  const read = blocks.map((block): StoredBlock => {
    if (room <= 0) return { block, day, readBy: NOT_READ, reading: leftOut(block) };
    const before = known.get(block.uid);
    const isSame = before && before.block.hash === block.hash && before.day === day && before.readBy === readBy;
    const stored = isSame ? before : { block, day, readBy, reading: readBlock(block, zone, horizon) };
    room -= stored.reading.entries.length;
    return stored;
  });
  const entries = read.flatMap(({ reading }) => reading.entries);
  const sorted = entries.map((entry) => ({ entry, sorted: sortEntry(entry, sorting) }));
  const { bookings, tests, unsorted, notColour, hidesNames } = findBookings(sorted, diary, zone);
  const skipped = read.flatMap(({ reading }) =>
    reading.skipped.map(
      ({ uid, recurrenceId, start, reason, text }): SkippedEntry => ({
        entry: clip(recurrenceId === null ? uid : `${uid}/${recurrenceId}`, REPORT_TEXT_MAX),
        uid: clip(uid, REPORT_TEXT_MAX),
        start: clip(start, REPORT_TEXT_MAX),
        reason,
        text,
      }),
    ),
  );
  return {
    blocks: read,
    bookings,
    tests,
    cancelled: new Set(entries.filter((entry) => entry.cancelled).map(({ key }) => key)),
    unclear: new Set([...unsorted.map(({ entry }) => entry.key), ...skipped.map(({ entry }) => entry)]),
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
          entry: clip(entry.key, REPORT_TEXT_MAX),
          uid: clip(entry.uid, REPORT_TEXT_MAX),
          start: startInWords(entry),
          summary: clip(entry.summary, REPORT_TEXT_MAX),
          why,
          nearest,
        }),
      ),
    },
  };
};
