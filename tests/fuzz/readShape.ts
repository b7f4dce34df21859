/** Reads a shape through the whole pure reader: blocks, listing, entries, sorting, bookings. */
import { findBookings } from "../../src/diary/findBookings.ts";
import { DiaryIndexer } from "../../src/diary/indexDiary.ts";
import { listEvents } from "../../src/diary/listEvents.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { sortEntry } from "../../src/diary/sortEntry.ts";
import type { Zone } from "../../src/time/zone.ts";
import { judgeBy } from "./sources.ts";

const CHUNK = 65_536;

export interface ShapeRead {
  /** VEVENTs that the text holds. */
  readonly raw: number;
  /** Those that are listed. */
  readonly accounted: number;
  readonly entries: number;
}

export const readShape = (octets: Uint8Array): ShapeRead => {
  const indexer = new DiaryIndexer();
  for (let from = 0; from < octets.length; from += CHUNK) indexer.push(octets.subarray(from, from + CHUNK));
  const indexed = indexer.end();
  const seen = "refusal" in indexed ? indexed.seen : indexed;
  const [zone, horizon] = [judgeBy.zones[1] as Zone, judgeBy.horizons[0]];
  if (!seen || !horizon) return { raw: 0, accounted: 0, entries: 0 };
  let accounted = 0;
  const entries = seen.blocks.flatMap((block) => {
    const { events, aside } = listEvents(block, zone);
    accounted += events.length + aside.length;
    return readBlock(block, zone, horizon).entries;
  });
  findBookings(
    entries.map((entry) => ({ entry, sorted: sortEntry(entry, judgeBy.sorting) })),
    "main",
    zone,
  );
  return { raw: seen.raw, accounted, entries: entries.length };
};
