/**
 * One calendar's octets → what was understood of it, event by event. Reads as the service does, with nothing left out and
 * no salon behind it. Knows no file and prints nothing.
 */
import { DIARY_MAX_BYTES, HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { DiaryIndexer } from "../diary/indexDiary.ts";
import type { EventList } from "../diary/listEvents.ts";
import { readBlock } from "../diary/readBlock.ts";
import { isAfter, isBefore } from "../diary/roughSpan.ts";
import type { Block, Entry, IndexedDiary, Skipped } from "../diary/types.ts";
import type { Why } from "../plan/types.ts";
import type { Day } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type ReadFault, readWhy } from "./readFault.ts";

export interface CalendarRead {
  /** Null where the file was read. */
  readonly refused: Why | null;
  /** What was seen of it, in a refused one up to where it broke off. */
  readonly seen: IndexedDiary | null;
}

/** Local days, the last not included. */
export interface DayWindow {
  readonly from: Day;
  readonly to: Day;
}

/** What occurs in a window. */
export interface WindowReading {
  /** Cancelled ones left out. */
  readonly occurrences: readonly Entry[];
  /** Why something that should occur in the window does not. */
  readonly doubts: readonly Skipped[];
}

/**
 * Reads octets to their end, or to the size from which a diary is refused.
 * @param faultOf says what an error of the stream means
 */
export const readCalendar = async (
  octets: AsyncIterable<Uint8Array>,
  faultOf: (error: unknown) => ReadFault,
): Promise<CalendarRead> => {
  const indexer = new DiaryIndexer();
  let bytes = 0;
  let fault: ReadFault | null = null;
  try {
    for await (const chunk of octets) {
      bytes += chunk.length;
      if (bytes > DIARY_MAX_BYTES) {
        fault = { code: "diary-too-large", bytes, max: DIARY_MAX_BYTES };
        break;
      }
      indexer.push(chunk);
    }
  } catch (error) {
    fault = faultOf(error);
  }
  const indexed = indexer.end();
  const seen = "refusal" in indexed ? indexed.seen : indexed;
  if (!fault && "refusal" in indexed) fault = indexed.refusal;
  return { refused: fault && readWhy(fault), seen };
};

/** What a block has in a window; moved occurrences where they moved to. */
export const readWindow = (block: Block, zone: Zone, window: DayWindow): WindowReading => {
  const occurrences: Entry[] = [];
  const doubts = new Map<string, Skipped>();
  for (const { from, to } of spansOf(window)) {
    if (isBefore(block.span, from) || isAfter(block.span, to)) continue;
    const { entries, skipped } = readBlock(block, zone, { from: zone.startOfDay(from), to: zone.startOfDay(to) });
    occurrences.push(...entries.filter(({ cancelled }) => !cancelled));
    for (const each of skipped) doubts.set(JSON.stringify(each), each);
  }
  return { occurrences, doubts: [...doubts.values()] };
};

/** Spans of the service's own horizon, so that what is dense in one year does not count against another. */
const spansOf = ({ from, to }: DayWindow): DayWindow[] =>
  Array.from({ length: Math.ceil((to - from) / HORIZON_AHEAD_DAYS) }, (_, index) => {
    const first = from + index * HORIZON_AHEAD_DAYS;
    return { from: first, to: Math.min(to, first + HORIZON_AHEAD_DAYS) };
  });

/** Of entries left aside, those that cost nothing: the file says the same, or something newer, elsewhere. */
const HARMLESS: ReadonlySet<string> = new Set(["repeated", "superseded"]);
const isHarmless = (code: string): boolean => HARMLESS.has(code);

/** Whether all that a block says was understood. */
export const isUnderstood = ({ events, aside }: EventList): boolean =>
  aside.every(({ reason }) => isHarmless(reason.code)) &&
  events.every(({ certain, doubt }) => certain && doubt === null);

/** Whether all that should occur in a window does. */
export const isFollowed = ({ doubts }: WindowReading): boolean => doubts.every(({ reason }) => isHarmless(reason));
