/**
 * What must hold of any octets whatsoever that come as a diary. Names the first law that a mutant breaks; a throw of the
 * reader's own is left to whoever runs it.
 */
import { DiaryIndexer, type Indexed } from "../../src/diary/indexDiary.ts";
import { findBookings } from "../../src/diary/findBookings.ts";
import { listEvents } from "../../src/diary/listEvents.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { type Sorting, sortEntry } from "../../src/diary/sortEntry.ts";
import type { Block, Entry, Horizon } from "../../src/diary/types.ts";
import type { Zone } from "../../src/time/zone.ts";
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
}

const index = (octets: Uint8Array, cuts: readonly number[], horizon?: Horizon): Indexed => {
  const indexer = new DiaryIndexer(horizon);
  let from = 0;
  for (const to of [...cuts.toSorted((one, other) => one - other), octets.length]) {
    indexer.push(octets.subarray(from, to));
    from = to;
  }
  return indexer.end();
};

const textOf = (blocks: readonly Block[]): string => JSON.stringify(blocks);
/** Stamps that an export renews each time it is asked. */
const restamp = (octets: Uint8Array): Uint8Array =>
  Buffer.from(
    Buffer.from(octets)
      .toString("latin1")
      .replace(/^((?:DTSTAMP|CREATED|LAST-MODIFIED):)\d{8}T\d{6}Z(?=\r?\n(?![ \t]))/gm, "$119990101T000000Z"),
    "latin1",
  );

const isInside = ({ start, date }: Entry, { from, to }: Horizon, zone: Zone): boolean => {
  const at = start ?? (date === null ? Number.NaN : zone.startOfDay(date));
  return at >= from && at < to;
};

export const judge = (octets: Uint8Array, dice: Dice, { zones, horizons, sorting }: JudgeBy): Judged => {
  const whole = index(octets, []);
  const seen = "refusal" in whole ? whole.seen : whole;
  const blocks = seen?.blocks ?? [];
  const zone = dice.of(zones);
  const horizon = dice.of(horizons);
  const broken = (law: string): Judged => ({
    broken: law,
    refused: false,
    vevents: 0,
    entries: 0,
    skipped: [],
    reading: "",
  });

  let accounted = 0;
  const entries: Entry[] = [];
  const skipped: string[] = [];
  for (const block of blocks) {
    const { events, aside } = listEvents(block, zone);
    accounted += events.length + aside.length;
    const reading = readBlock(block, zone, horizon);
    entries.push(...reading.entries);
    skipped.push(...reading.skipped.map(({ reason }) => reason));
  }
  if (accounted !== (seen?.raw ?? 0)) return broken(`${accounted} VEVENTs accounted for of ${seen?.raw}`);
  const outside = entries.find((entry) => !isInside(entry, horizon, zone));
  if (outside) return broken(`an entry outside the horizon: ${outside.key}`);
  if (new Set(entries.map(({ key, uid }) => `${uid}\n${key}`)).size !== entries.length)
    return broken("two entries with one key");
  findBookings(
    entries.map((entry) => ({ entry, sorted: sortEntry(entry, sorting) })),
    "main",
    zone,
  );

  const cuts = Array.from({ length: dice.below(6) }, () => dice.below(octets.length + 1));
  const inPieces = index(octets, cuts);
  if (JSON.stringify(inPieces) !== JSON.stringify(whole)) return broken("other pieces give another reading");
  const ahead = index(octets, cuts, horizon);
  if ("refusal" in ahead !== "refusal" in whole) return broken("a horizon decides what is a calendar");
  if (!("refusal" in ahead)) {
    const keyed = (list: readonly Entry[]): string =>
      JSON.stringify(list.map(({ key, start, date }) => [key, start, date]).sort());
    const fromAhead = ahead.blocks.flatMap((block) => readBlock(block, zone, horizon).entries);
    if (keyed(fromAhead) !== keyed(entries)) return broken("what lies outside the horizon changes what lies inside");
  }
  const isRefused = "refusal" in whole;
  // In UTF-16, which has octets of nothing, a stamp cannot be told from a text of other letters.
  const restamped = octets.includes(0) ? whole : index(restamp(octets), []);
  if (!isRefused && !("refusal" in restamped)) {
    const hashes = (list: readonly Block[]): string => list.map(({ hash }) => hash).join();
    if (hashes(restamped.blocks) !== hashes(blocks)) return broken("renewed stamps change a block");
  }
  if (Object.keys(Object.prototype).length > 0) return broken("Object.prototype has been written to");
  const reading = `${textOf(blocks)}${JSON.stringify(entries)}${skipped.join()}`;
  return { broken: null, refused: isRefused, vevents: seen?.raw ?? 0, entries: entries.length, skipped, reading };
};
