/** A block whose octets are kept and decoded only when its text is asked for: an unchanged block never is. */
import { decodeLine } from "./decodeLine.ts";
import { type EventFault, writeEvent } from "./eventText.ts";
import type { Block, FileZone, RoughSpan } from "./types.ts";

/** One VEVENT's kept lines, each ended by LF. */
export interface RawEvent {
  readonly octets: Uint8Array;
  readonly hash: string;
  readonly fault: EventFault | null;
  readonly span: RoughSpan;
}

const LF = 10;

/** The lines of a kept event, their names in capitals. */
export const linesOfOctets = (octets: Uint8Array): string[] => {
  const lines: string[] = [];
  for (let from = 0; from < octets.length; ) {
    const found = octets.indexOf(LF, from);
    const to = found < 0 ? octets.length : found;
    const text = decodeLine(octets.subarray(from, to)).trimStart();
    const end = text.search(/[;:]/);
    lines.push(text.slice(0, end).trimEnd().toUpperCase() + text.slice(end));
    from = to + 1;
  }
  return lines;
};

export class RawBlock implements Block {
  readonly uid: string;
  readonly hash: string;
  readonly span: RoughSpan;
  readonly #events: readonly RawEvent[];
  readonly #zones: readonly FileZone[];

  constructor(uid: string, hash: string, span: RoughSpan, events: readonly RawEvent[], zones: readonly FileZone[]) {
    this.uid = uid;
    this.hash = hash;
    this.span = span;
    this.#events = events;
    this.#zones = zones;
  }

  get count(): number {
    return this.#events.length;
  }

  /** Decoded anew each time; sorted, so that a file which only changes its order has not changed. */
  get events(): readonly string[] {
    return this.#events.map(({ octets, fault }) => writeEvent(linesOfOctets(octets), fault)).sort();
  }

  get zones(): readonly FileZone[] {
    return this.#zones;
  }

  toJSON(): Block {
    const { uid, hash, span, count, events, zones } = this;
    return { uid, hash, span, count, events, zones };
  }
}
