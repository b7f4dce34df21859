/** A block whose octets are kept and decoded only when its text is asked for: an unchanged block never is. */
import { decodeLine } from "./decodeLine.ts";
import { type EventFault, writeEvent } from "./eventText.ts";
import { hashText } from "./hashText.ts";
import { joinSpans } from "./roughSpan.ts";
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
  /** Number of the VCALENDAR in the file in which it was first met. */
  readonly calendar: number;
  /** Octets kept of its events. */
  octets = 0;
  zones: readonly FileZone[] = [];
  readonly #raw: RawEvent[] = [];

  constructor(uid: string, calendar: number) {
    this.uid = uid;
    this.calendar = calendar;
  }

  get raw(): readonly RawEvent[] {
    return this.#raw;
  }

  add(event: RawEvent): void {
    this.#raw.push(event);
  }

  get count(): number {
    return this.#raw.length;
  }

  get hash(): string {
    const [only, second] = this.#raw;
    if (only && !second && this.zones.length === 0) return only.hash;
    const hashes = this.#raw.map(({ hash }) => hash).sort();
    return hashText([...hashes, ...this.zones.map(({ text }) => text)].join("\n\n"));
  }

  get span(): RoughSpan {
    const [only, second] = this.#raw;
    return only && !second ? only.span : joinSpans(this.#raw.map(({ span }) => span));
  }

  /** Decoded anew each time; sorted, so that a file which only changes its order has not changed. */
  get events(): readonly string[] {
    return this.#raw.map(({ octets, fault }) => writeEvent(linesOfOctets(octets), fault)).sort();
  }

  toJSON(): Block {
    const { uid, hash, span, count, events, zones } = this;
    return { uid, hash, span, count, events, zones };
  }
}
