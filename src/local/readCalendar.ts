/**
 * One calendar's octets → what was understood of it, event by event. Reads as the service does, with nothing left out and
 * no salon behind it. Knows no file and prints nothing.
 */
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { DiaryIndexer, type Indexed } from "../diary/indexDiary.ts";
import { type ListedEvent, listEvents } from "../diary/listEvents.ts";
import { readBlock } from "../diary/readBlock.ts";
import type { Block, Entry, IndexedDiary, Skipped } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import { diaryWhy } from "../salon/diaryFaults.ts";
import type { Day } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

export interface CalendarRead {
  /** Null where the file was read. */
  readonly refused: Why | null;
  /** What was seen of it, in a refused one up to where it broke off; null where nothing was kept. */
  readonly seen: IndexedDiary | null;
}

/** What one block says. */
export interface BlockList {
  readonly events: readonly ListedEvent[];
  /** Events that stand aside, each with its reason. */
  readonly aside: readonly (ListedEvent & { readonly reason: Why })[];
  /** What occurs in the window, cancelled ones left out; empty without a window. */
  readonly occurrences: readonly Entry[];
  /** Why something that should occur in the window does not. */
  readonly doubts: readonly Skipped[];
}

/** Reads octets to their end. An error of the stream is the caller's. */
export const readCalendar = async (octets: AsyncIterable<Uint8Array>): Promise<CalendarRead> => {
  const indexer = new DiaryIndexer();
  for await (const chunk of octets) indexer.push(chunk);
  const indexed: Indexed = indexer.end();
  if (!("refusal" in indexed)) return { refused: null, seen: indexed };
  return { refused: diaryWhy(indexed.refusal), seen: indexed.seen };
};

/** @param window local days, the last not included */
export const listBlock = (
  block: Block,
  zone: Zone,
  window: { readonly from: Day; readonly to: Day } | null,
): BlockList => {
  const { events, aside } = listEvents(block, zone);
  const occurrences: Entry[] = [];
  const doubts = new Map<string, Skipped>();
  // In spans of the service's own horizon, so that what is dense in one year does not count against another.
  for (const { from, to } of window ? spansOf(window.from, window.to) : []) {
    const { entries, skipped } = readBlock(block, zone, { from: zone.startOfDay(from), to: zone.startOfDay(to) });
    occurrences.push(...entries.filter(({ cancelled }) => !cancelled));
    for (const each of skipped) doubts.set(JSON.stringify(each), each);
  }
  return { events, aside, occurrences, doubts: [...doubts.values()] };
};

const spansOf = (from: Day, to: Day): { readonly from: Day; readonly to: Day }[] =>
  Array.from({ length: Math.ceil((to - from) / HORIZON_AHEAD_DAYS) }, (_, index) => {
    const first = from + index * HORIZON_AHEAD_DAYS;
    return { from: first, to: Math.min(to, first + HORIZON_AHEAD_DAYS) };
  });

/** Skipped events that cost nothing: the same is said elsewhere in the file. */
const HARMLESS: ReadonlySet<string> = new Set(["repeated", "superseded"]);

/** Whether all that a block says was understood. */
export const isUnderstood = ({ events, aside, doubts }: BlockList): boolean =>
  events.every(({ certain, doubt }) => certain && doubt === null) &&
  aside.every(({ reason }) => HARMLESS.has(reason.code)) &&
  doubts.every(({ reason }) => HARMLESS.has(reason));
