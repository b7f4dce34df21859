/**
 * A diary's octets → its blocks, in one pass and with whatever chunks the network gives. Tells a calendar from a login page,
 * from half a file and from too much of one; such a file is refused whole, with facts. Never parses an entry.
 */
import { DIARY_MAX_BYTES } from "../bounds.ts";
import { BlockCollector } from "./BlockCollector.ts";
import { LineUnfolder } from "./LineUnfolder.ts";
import type { FileRefusal, Horizon, IndexedDiary } from "./types.ts";
import { Utf8Source } from "./Utf8Source.ts";

/** A refused file is never a diary; what could be told of it before it broke off is for whoever looks into the matter. */
export type Indexed = IndexedDiary | { readonly refusal: FileRefusal; readonly seen: IndexedDiary | null };

export class DiaryIndexer {
  #bytes = 0;
  readonly #source = new Utf8Source();
  #collector: BlockCollector | null;
  #unfolder: LineUnfolder | null;

  /** @param horizon where given, events that lie wholly before it are counted and let go */
  constructor(horizon?: Horizon) {
    const collector = new BlockCollector(horizon);
    this.#collector = collector;
    this.#unfolder = new LineUnfolder((octets, from, to) => collector.take(octets, from, to));
  }

  /** Takes the next octets. Past DIARY_MAX_BYTES they are only counted, so that a sender can be drained. */
  push(chunk: Uint8Array): void {
    this.#bytes += chunk.length;
    if (this.#bytes > DIARY_MAX_BYTES) {
      this.#collector = null;
      this.#unfolder = null;
      return;
    }
    this.#unfolder?.push(this.#source.push(chunk));
  }

  /** The blocks, or why the file is refused. Call once. */
  end(): Indexed {
    const [collector, unfolder] = [this.#collector, this.#unfolder];
    if (!collector || !unfolder) {
      return { refusal: { code: "diary-too-large", bytes: this.#bytes, max: DIARY_MAX_BYTES }, seen: null };
    }
    unfolder.push(this.#source.end());
    unfolder.end();
    collector.end();
    const { isCalendar, begins, open, raw, calendarName, producer } = collector;
    const seen = { blocks: collector.blocks(), raw, calendarName, producer };
    if (!isCalendar) return { refusal: { code: "diary-not-calendar", begins }, seen };
    if (open !== null) return { refusal: { code: "diary-cut-off", open }, seen };
    return seen;
  }
}

/** The blocks of a whole diary, or why it is refused. */
export const indexDiary = (bytes: Uint8Array, horizon?: Horizon): Indexed => {
  const indexer = new DiaryIndexer(horizon);
  indexer.push(bytes);
  return indexer.end();
};
