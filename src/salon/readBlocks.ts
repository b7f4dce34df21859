/** Reads a diary's blocks into what the salon needs of them. Pure. */
import { DIARY_ENTRIES_MAX, REPORT_LIST_MAX, REPORT_TEXT_MAX } from "../bounds.ts";
import { findBookings, type FoundTest, type SortedEntry } from "../diary/findBookings.ts";
import type { Block, Entry, FoundBooking, Skipped } from "../diary/types.ts";
import { hashText } from "../diary/hashText.ts";
import { clip } from "../feed/clip.ts";
import { type Day, formatDay, formatInstant } from "../time/instant.ts";
import { type BlockRead, readAll, type ReadingBy, type StoredBlock } from "./blockReads.ts";
import type { DiaryReport, SkippedEntry, UnsortedEntry } from "./types.ts";

/** What one reading of one diary found. */
export interface DiaryReading {
  readonly blocks: readonly StoredBlock[];
  /** Those for which there is no room: their text is kept, and read when there is. */
  readonly leftOut: readonly Block[];
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

const startInWords = (entry: Entry): string =>
  entry.start === null ? (entry.date === null ? "" : formatDay(entry.date)) : formatInstant(entry.start);

/** The key that it would have as an entry. */
const keyOfSkipped = ({ uid, recurrenceId }: Pick<Skipped, "uid" | "recurrenceId">): string =>
  recurrenceId === null ? uid : `${uid}/${recurrenceId}`;

/** Skipped because the same file says it again, or something newer: nothing is unclear about these. */
const SAID_ELSEWHERE: ReadonlySet<string> = new Set(["repeated", "superseded", "called-off"]);

/** What is said of a block for which there was no room. */
export const leftOutSkipped = ({ uid }: Pick<Block, "uid">): Skipped => ({
  uid,
  recurrenceId: null,
  start: "",
  reason: "diary-too-full",
  text: `not read: this diary has more than ${DIARY_ENTRIES_MAX} entries in sight. Split it, or end the rules that repeat without end.`,
});

/**
 * The entries of all blocks, each under a key of its own: a UID may be written as the name that another block's occurrence or
 * second entry is given. Which of the two keeps the name hangs on the UIDs alone, not on what lies in sight.
 */
const withOwnKeys = (stored: readonly StoredBlock[]): readonly SortedEntry[] => {
  // Entries of one block have different keys; two blocks can only meet in a name with such a mark in it.
  const marked = stored.filter(({ read: { entries } }) => entries.some(({ entry: { key } }) => /[#/]/.test(key)));
  const owner = new Map<string, string>();
  for (const { read } of marked) {
    for (const { entry } of read.entries) {
      const other = owner.get(entry.key);
      if (other === undefined || read.uid < other) owner.set(entry.key, read.uid);
    }
  }
  return stored.flatMap(({ read: { uid, entries } }) => {
    if (entries.every(({ entry: { key } }) => (owner.get(key) ?? uid) === uid)) return entries;
    return entries.map(({ entry, sorted }) =>
      owner.get(entry.key) === uid
        ? { entry, sorted }
        : { entry: { ...entry, key: `${entry.key}~${hashText(uid).slice(0, 8)}` }, sorted },
    );
  });
};

const asSkippedEntry = ({ uid, recurrenceId, start, reason, text }: Skipped): SkippedEntry => ({
  entry: clip(keyOfSkipped({ uid, recurrenceId }), REPORT_TEXT_MAX),
  uid: clip(uid, REPORT_TEXT_MAX),
  start: clip(start, REPORT_TEXT_MAX),
  reason,
  text,
});

/**
 * @param known what the blocks read as after the last reading, by UID
 * @param raw VEVENTs in the text
 */
export const readBlocks = (
  diary: string,
  blocks: readonly Block[],
  known: ReadonlyMap<string, BlockRead>,
  raw: number,
  day: Day,
  by: ReadingBy,
): DiaryReading => {
  const { stored, leftOut } = readAll(blocks, known, day, by);
  const sorted = withOwnKeys(stored);
  const { bookings, tests, unsorted, notColour, hidesNames } = findBookings(sorted, diary, by.zone);
  const skipped = stored.flatMap(({ read }) => read.skipped);
  const listed = [...skipped, ...leftOut.slice(0, REPORT_LIST_MAX).map(leftOutSkipped)].slice(0, REPORT_LIST_MAX);
  return {
    blocks: stored,
    leftOut,
    bookings,
    tests,
    cancelled: new Set([
      ...sorted.filter(({ entry }) => entry.cancelled).map(({ entry }) => entry.key),
      ...skipped.filter(({ reason }) => reason === "called-off").map(keyOfSkipped),
    ]),
    unclear: new Set([
      ...unsorted.map(({ entry }) => entry.key),
      ...skipped.filter(({ reason }) => !SAID_ELSEWHERE.has(reason)).map(keyOfSkipped),
      ...leftOut.map(({ uid }) => uid),
    ]),
    hidesNames,
    found: {
      counts: {
        raw,
        entries: sorted.length,
        bookings: bookings.length,
        tests: tests.length,
        notColour,
        unsorted: unsorted.length,
        skipped: leftOut.reduce((sum, { count }) => sum + count, skipped.length),
      },
      skipped: listed.map(asSkippedEntry),
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
