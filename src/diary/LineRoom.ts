/** The kept lines of the event that is open, in octets, a LF after each. One event is open at a time, so its room is used again. */
import { lineName } from "./lineName.ts";
import { linesOfOctets } from "./RawBlock.ts";

const LF = 10;

export class LineRoom {
  #octets = new Uint8Array(4_096);
  #length = 0;

  get length(): number {
    return this.#length;
  }

  /** Its octets; what lies behind its length is of earlier events. */
  get octets(): Uint8Array {
    return this.#octets;
  }

  clear(): void {
    this.#length = 0;
  }

  /** Adds a line, without its end. */
  write(octets: Uint8Array, from: number, to: number): void {
    const end = this.#length + to - from;
    if (end + 1 > this.#octets.length) {
      const grown = new Uint8Array(Math.max(end + 1, this.#octets.length * 2));
      grown.set(this.#octets.subarray(0, this.#length));
      this.#octets = grown;
    }
    const room = this.#octets;
    for (let at = this.#length, source = from; source < to; at++, source++) room[at] = octets[source] as number;
    room[end] = LF;
    this.#length = end + 1;
  }

  /** Adds to the last line. */
  append(octets: Uint8Array, from: number, to: number): void {
    this.#length--;
    this.write(octets, from, to);
  }

  /** Leaves only the lines of some names. */
  shorten(names: ReadonlySet<string>): void {
    let length = 0;
    for (let from = 0; from < this.#length; ) {
      const to = this.#octets.indexOf(LF, from) + 1;
      if (names.has(lineName(this.#octets, from, to))) {
        this.#octets.copyWithin(length, from, to);
        length += to - from;
      }
      from = to;
    }
    this.#length = length;
  }

  lines(): string[] {
    return linesOfOctets(this.#octets.subarray(0, this.#length));
  }
}
