/** Which blocks of a diary are read anew, and which keep what they read as; only what changed is parsed. Pure. */
import { DIARY_ENTRIES_MAX, HORIZON_AHEAD_DAYS, HORIZON_PAST_DAYS } from "../bounds.ts";
import { type Answers, compileAnswers, type EntryAnswer, printOfAnswers } from "../diary/answers.ts";
import type { SortedEntry } from "../diary/findBookings.ts";
import { readBlock } from "../diary/readBlock.ts";
import { firstDayIn, isAfter, isBefore, isBetween } from "../diary/roughSpan.ts";
import { sortEntry, type Sorting } from "../diary/sortEntry.ts";
import type { Block, Horizon, RoughSpan, Skipped } from "../diary/types.ts";
import type { Day, Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { SalonDesk } from "./desk.ts";

/** What a block read as, and all that this hangs on besides its text. */
export interface BlockRead {
  readonly uid: string;
  readonly hash: string;
  readonly span: RoughSpan;
  /** The local day whose horizon it was read for. */
  readonly day: Day;
  /** The desk's print: a floating start read by another zone, or by other zone data, is another start. */
  readonly readBy: string;
  /** The print of the words and answers it was sorted by. */
  readonly sortedBy: string;
  readonly entries: readonly SortedEntry[];
  readonly skipped: readonly Skipped[];
}

/** A block and what it read as now; `isNew` where that differs from what is stored. */
export interface StoredBlock {
  readonly block: Block;
  readonly read: BlockRead;
  readonly isNew: boolean;
}

/** 30 days back and 400 ahead of a local day, whole days. */
export const horizonOf = (day: Day, zone: Zone): Horizon => ({
  from: zone.startOfDay(day - HORIZON_PAST_DAYS),
  to: zone.startOfDay(day + HORIZON_AHEAD_DAYS),
});

/** The horizon of the local day of an instant. */
export const horizonToday = (zone: Zone, now: Instant): Horizon => horizonOf(zone.dayAt(now), zone);

/** What entries are read and sorted by. */
export interface ReadingBy {
  readonly zone: Zone;
  readonly sorting: Sorting;
  /** Of the diary that is read. */
  readonly answers: Answers;
  readonly readBy: string;
  readonly sortedBy: string;
}

/** @param answers of all diaries; `diary` is the one that is read */
export const readingBy = (
  { rules, sorting, print, sortingPrint }: SalonDesk,
  diary = "",
  answers: ReadonlyMap<string, EntryAnswer> = new Map(),
): ReadingBy => ({
  zone: rules.zone,
  sorting,
  answers: compileAnswers(answers.values(), diary),
  readBy: print,
  sortedBy: `${print} ${sortingPrint} ${printOfAnswers(answers.values(), diary)}`.trimEnd(),
});

const firstDayOf = (day: Day): Day => day - HORIZON_PAST_DAYS;
const lastDayOf = (day: Day): Day => day + HORIZON_AHEAD_DAYS;

/** Whether what a block read as on an earlier day still holds: the horizon has moved over nothing of it. */
const holdsOn = ({ span, day: before }: BlockRead, day: Day): boolean =>
  before === day ||
  (before < day && (isBetween(span, firstDayOf(day), lastDayOf(before)) || isAfter(span, lastDayOf(day))));

const isRead = (known: BlockRead | undefined, { hash }: Block, day: Day, { readBy }: ReadingBy): boolean =>
  known !== undefined && known.hash === hash && known.readBy === readBy && holdsOn(known, day);

/** Whether a reading would find just what the last one found. */
export const findsNothingNew = (
  blocks: readonly Block[],
  known: ReadonlyMap<string, BlockRead>,
  day: Day,
  by: ReadingBy,
): boolean =>
  blocks.length === known.size &&
  blocks.every((block) => {
    const before = known.get(block.uid);
    return isRead(before, block, day, by) && before?.sortedBy === by.sortedBy;
  });

const readOne = (block: Block, known: BlockRead | undefined, day: Day, by: ReadingBy): StoredBlock => {
  if (known && isRead(known, block, day, by)) {
    if (known.sortedBy === by.sortedBy) return { block, read: known, isNew: false };
    const entries = known.entries.map(({ entry }) => ({ entry, sorted: sortEntry(entry, by.sorting, by.answers) }));
    return { block, read: asRead(block, known.day, by, entries, known.skipped), isNew: true };
  }
  const { entries, skipped } = readBlock(block, by.zone, horizonOf(day, by.zone));
  const sorted = entries.map((entry) => ({ entry, sorted: sortEntry(entry, by.sorting, by.answers) }));
  return { block, read: asRead(block, day, by, sorted, skipped), isNew: true };
};

const asRead = (
  { uid, hash, span }: Block,
  day: Day,
  { readBy, sortedBy }: Pick<ReadingBy, "readBy" | "sortedBy">,
  entries: readonly SortedEntry[],
  skipped: readonly Skipped[],
): BlockRead => ({ uid, hash, span, day, readBy, sortedBy, entries, skipped });

/** Reads what has room, the nearest first; what lies beyond the horizon is kept for its day, and not parsed before. */
export const readAll = (blocks: readonly Block[], known: ReadonlyMap<string, BlockRead>, day: Day, by: ReadingBy) => {
  let room = DIARY_ENTRIES_MAX;
  const stored: StoredBlock[] = [];
  const leftOut: Block[] = [];
  for (const block of nearestFirst(blocks, firstDayIn(horizonOf(day, by.zone)))) {
    const before = known.get(block.uid);
    if (isAfter(block.span, lastDayOf(day))) {
      const isSame = isRead(before, block, day, by) && before?.sortedBy === by.sortedBy;
      stored.push({ block, read: isSame && before ? before : asRead(block, day, by, [], []), isNew: !isSame });
    } else if (room <= 0) leftOut.push(block);
    else {
      const each = readOne(block, before, day, by);
      room -= each.read.entries.length;
      stored.push(each);
    }
  }
  return { stored, leftOut };
};

/** Blocks in order of their first day, without those that end before `first`. In numbers: there may be a hundred thousand. */
function* nearestFirst(blocks: readonly Block[], first: Day): Generator<Block> {
  const firsts = new Float64Array(blocks.length);
  const order = new Uint32Array(blocks.length);
  let count = 0;
  for (const [index, { span }] of blocks.entries()) {
    firsts[index] = span.first;
    if (!isBefore(span, first)) order[count++] = index;
  }
  const sorted = order.subarray(0, count).sort((one, other) => (firsts[one] as number) - (firsts[other] as number));
  for (const index of sorted) yield blocks[index] as Block;
}
