/**
 * What must hold of any octets whatsoever that come as a diary. Names the first law that a mutant breaks; a throw of the
 * reader's own is left to whoever runs it.
 */
import { DiaryIndexer, type Indexed } from "../../src/diary/indexDiary.ts";
import { findBookings } from "../../src/diary/findBookings.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { type Sorting, sortEntry } from "../../src/diary/sortEntry.ts";
import type { Block, Entry, Horizon } from "../../src/diary/types.ts";
import type { Zone } from "../../src/time/zone.ts";
import { goesAstray } from "./againLaw.ts";
import { breaksIn } from "./blockLaws.ts";
import { builtInsAreWhole } from "./builtIns.ts";
import { countBegins } from "./countBegins.ts";
import type { Dice } from "./Dice.ts";

export interface Judged {
  /** Null where every law holds. */
  readonly broken: string | null;
  readonly refused: boolean;
  readonly vevents: number;
  readonly entries: number;
  readonly skipped: readonly string[];
  /** All that was read, as text: the same under every host's zone. */
  readonly reading: string;
}

export interface JudgeBy {
  readonly zones: readonly Zone[];
  readonly horizons: readonly Horizon[];
  readonly sorting: Sorting;
  /** After the salon has changed its words. */
  readonly otherSorting: Sorting;
}

/** One mutant in so many is read again, which costs as much as all else. */
const AGAIN_SHARE = 10;

const index = (octets: Uint8Array, cuts: readonly number[], horizon?: Horizon): Indexed => {
  const indexer = new DiaryIndexer(horizon);
  let from = 0;
  for (const to of [...cuts.toSorted((one, other) => one - other), octets.length]) {
    // A network uses its buffer again: what was pushed is overwritten behind the indexer's back.
    const chunk = new Uint8Array(octets.subarray(from, to));
    indexer.push(chunk);
    chunk.fill(0x21);
    from = to;
  }
  return indexer.end();
};

/** Anywhere, or about the end of a line, where most can go wrong. */
const cutIn = (octets: Uint8Array, dice: Dice): number => {
  const somewhere = dice.below(octets.length + 1);
  if (dice.below(2) === 0) return somewhere;
  return Math.max(0, Math.min(octets.length, octets.indexOf(10, somewhere) + dice.below(3)));
};

/** Stamps that an export renews each time it is asked. */
const restamp = (octets: Uint8Array): Uint8Array =>
  Buffer.from(
    Buffer.from(octets)
      .toString("latin1")
      .replace(/^((?:DTSTAMP|CREATED|LAST-MODIFIED):)\d{8}T\d{6}Z(?=\r?\n(?![ \t]))/gm, "$119990101T000000Z"),
    "latin1",
  );

const seenIn = (indexed: Indexed) => ("refusal" in indexed ? indexed.seen : indexed);
const hashesOf = (blocks: readonly Block[]): string => blocks.map(({ hash }) => hash).join();
const keyed = (list: readonly Entry[]): string =>
  list
    .map(({ key, start, date, end, summary }) => JSON.stringify([key, start, date, end, summary]))
    .sort()
    .join();

/** Whether every entry is a booking, part of one, a test, a question, not a colour, or cancelled. */
const isSortedWhole = (entries: readonly Entry[], sorting: Sorting, zone: Zone): boolean => {
  const sorted = entries.map((entry) => ({ entry, sorted: sortEntry(entry, sorting) }));
  const standing = sorted.filter(({ entry }) => !entry.cancelled);
  const count = (kind: string): number => standing.filter(({ sorted: { kind: its } }) => its === kind).length;
  const { bookings, tests, unsorted, notColour } = findBookings(sorted, "main", zone);
  return (
    tests.length === count("test") &&
    unsorted.length === count("unsorted") &&
    notColour === count("not-colour") &&
    bookings.length <= count("booking") &&
    bookings.length > 0 === count("booking") > 0 &&
    bookings.every(({ client, end, start }) => client.name.trim() !== "" && (end === null || end >= start))
  );
};

/** @param next gives the diary as it may be when it is asked for again */
export const judge = (
  octets: Uint8Array,
  dice: Dice,
  { zones, horizons, sorting, otherSorting }: JudgeBy,
  next: () => Uint8Array,
): Judged => {
  const whole = index(octets, []);
  const seen = seenIn(whole);
  const blocks = seen?.blocks ?? [];
  const zone = dice.of(zones);
  const horizon = dice.of(horizons);
  const entries: Entry[] = [];
  const skipped: string[] = [];
  const judged = (law: string | null): Judged => ({
    broken: law,
    refused: "refusal" in whole,
    vevents: seen?.raw ?? 0,
    entries: entries.length,
    skipped,
    reading: `${JSON.stringify(whole)}${JSON.stringify(entries)}${skipped.join()}`,
  });

  let accounted = 0;
  for (const block of blocks) {
    const reading = readBlock(block, zone, horizon);
    const { broken, listed } = breaksIn(block, reading, zone, horizon);
    if (broken !== null) return judged(broken);
    accounted += listed;
    entries.push(...reading.entries);
    skipped.push(...reading.skipped.map(({ reason }) => reason));
    if (dice.below(8) === 0) {
      const stored = readBlock(JSON.parse(JSON.stringify(block)) as Block, zone, horizon);
      if (JSON.stringify(stored) !== JSON.stringify(reading)) return judged("a stored block reads otherwise");
    }
  }
  const { least, most } = countBegins(octets);
  if (!("refusal" in whole) && (whole.raw < least || whole.raw > most))
    return judged(`${whole.raw} VEVENTs were counted where ${least} to ${most} begin`);
  if (accounted !== (seen?.raw ?? 0)) return judged(`${accounted} VEVENTs accounted for of ${seen?.raw}`);
  if (new Set(blocks.map(({ uid }) => uid)).size !== blocks.length) return judged("two blocks of one UID");
  if (new Set(entries.map(({ key, uid }) => `${uid}\n${key}`)).size !== entries.length)
    return judged("two entries with one key");
  if (!isSortedWhole(entries, sorting, zone)) return judged("an entry is lost when it is sorted");

  const cuts = Array.from({ length: dice.below(8) }, () => cutIn(octets, dice));
  const inPieces = index(octets, cuts);
  if (JSON.stringify(inPieces) !== JSON.stringify(whole)) return judged("other pieces give another reading");
  const ahead = index(octets, cuts, horizon);
  if ("refusal" in ahead !== "refusal" in whole) return judged("a horizon decides what is a calendar");
  const fromAhead = (seenIn(ahead)?.blocks ?? []).flatMap((block) => readBlock(block, zone, horizon).entries);
  if (keyed(fromAhead) !== keyed(entries)) return judged("what lies outside the horizon changes what lies inside");
  // In UTF-16, which has octets of nothing, a stamp cannot be told from a text of other letters.
  const restamped = octets.includes(0) ? whole : index(restamp(octets), []);
  if (hashesOf(seenIn(restamped)?.blocks ?? []) !== hashesOf(blocks)) return judged("renewed stamps change a block");
  if (dice.below(AGAIN_SHARE) === 0) {
    const astray = goesAstray([octets, next()], [sorting, otherSorting], zone, dice);
    if (astray !== null) return judged(astray);
  }
  return judged(builtInsAreWhole() ? null : "a built-in prototype has been written to");
};
