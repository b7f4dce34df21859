/**
 * Reading a diary again: whatever was kept from earlier readings, of whatever text, a reading finds what one from nothing
 * finds; and from the text that was kept it finds what one of the diary sent again finds.
 */
import { NO_ANSWERS } from "../../src/diary/answers.ts";
import { DiaryIndexer } from "../../src/diary/indexDiary.ts";
import type { Sorting } from "../../src/diary/sortEntry.ts";
import type { Block, IndexedDiary } from "../../src/diary/types.ts";
import { type BlockRead, findsNothingNew, horizonOf, type ReadingBy } from "../../src/salon/blockReads.ts";
import { type DiaryReading, readBlocks } from "../../src/salon/readBlocks.ts";
import { type Day, dayFrom } from "../../src/time/instant.ts";
import type { Zone } from "../../src/time/zone.ts";
import type { Dice } from "./Dice.ts";

const USUAL_DAY = dayFrom(2026, 11, 20) as Day;
/** Days that pass between two readings. */
const DAYS = [0, 0, 1, 1, 2, 9, 40];
/** About these distances from a block's first or last day it comes into sight, or leaves it. */
const EDGES = [-400, -1, 30];

/** What was seen of a diary on a day, refused or not: a refused one may be kept, so it must be read as steadily. */
const seeOn = (octets: Uint8Array, day: Day, zone: Zone): IndexedDiary => {
  const indexer = new DiaryIndexer(horizonOf(day, zone));
  indexer.push(octets);
  const indexed = indexer.end();
  const seen = "refusal" in indexed ? indexed.seen : indexed;
  return seen ?? { blocks: [], raw: 0, calendarName: null, producer: null };
};

const inOrder = (list: readonly unknown[]): string =>
  list
    .map((each) => JSON.stringify(each))
    .sort()
    .join();
const entriesOf = ({ bookings, tests, cancelled, unclear }: DiaryReading): string =>
  [bookings, tests, [...cancelled], [...unclear]].map(inOrder).join("\n");
const allOf = (reading: DiaryReading): string =>
  [
    entriesOf(reading),
    JSON.stringify(reading.found.counts),
    reading.hidesNames,
    inOrder(reading.leftOut.map(({ uid }) => uid)),
    inOrder(reading.blocks.map(({ read: { uid, hash, entries, skipped } }) => ({ uid, hash, entries, skipped }))),
  ].join("\n");

/** As it comes back from storage. */
const keep = ({ blocks }: DiaryReading): ReadonlyMap<string, BlockRead> =>
  new Map(blocks.map(({ read }) => [read.uid, JSON.parse(JSON.stringify(read)) as BlockRead]));

/** A day on which something is likely to begin or end to be in sight. */
const firstDay = (blocks: readonly Block[], dice: Dice): Day => {
  if (blocks.length === 0 || dice.below(3) === 0) return USUAL_DAY + dice.below(300);
  const { first, last } = dice.of(blocks).span;
  const edge = dice.of([first, last]);
  const day = Math.abs(edge) > 100_000 ? USUAL_DAY : edge;
  return day + dice.of(EDGES) + dice.below(7) - 3;
};

/**
 * The first way in which a second reading goes astray, or null.
 * @param texts the diary as it is sent, one time or another
 * @param sortings the salon's words, one time or another
 */
export const goesAstray = (
  texts: readonly Uint8Array[],
  sortings: readonly Sorting[],
  zone: Zone,
  dice: Dice,
): string | null => {
  let known: ReadonlyMap<string, BlockRead> = new Map();
  let kept: (Pick<IndexedDiary, "blocks" | "raw"> & { readonly text: Uint8Array }) | undefined;
  let day = firstDay(seeOn(texts[0] as Uint8Array, USUAL_DAY, zone).blocks, dice);
  for (let round = 0; round < 3; round++) {
    day += dice.of(DAYS);
    const words = dice.below(sortings.length);
    const sorting = sortings[words] as Sorting;
    const by: ReadingBy = { zone, sorting, answers: NO_ANSWERS, readBy: "a desk", sortedBy: `words ${words}` };
    const stored = dice.below(2) === 0 ? kept : undefined;
    const text = stored?.text ?? dice.of(texts);
    const sent = seeOn(text, day, zone);
    const { blocks, raw } = stored ?? sent;
    const reading = readBlocks("main", blocks, known, raw, day, by);
    const anew = readBlocks("main", blocks, new Map(), raw, day, by);
    if (allOf(reading) !== allOf(anew)) return "a reading again finds something else than one from nothing";
    const resent = stored ? readBlocks("main", sent.blocks, new Map(), sent.raw, day, by) : anew;
    if (entriesOf(resent) !== entriesOf(anew)) return "the text that was kept gives something else than the text sent";
    const keys = [...reading.bookings, ...reading.tests].map(({ key }) => key);
    if (new Set(keys).size !== keys.length) return "two appointments of one diary have one key";
    known = keep(reading);
    // A block that has ended, or for which there is no room, is not stored as read: then there is something new each time.
    if (reading.blocks.length === blocks.length && !findsNothingNew(blocks, known, day, by))
      return "what was just read is new";
    kept = { blocks: [...reading.blocks.map(({ block }) => block), ...reading.leftOut], raw, text };
  }
  return null;
};
