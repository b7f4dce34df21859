/**
 * Octets of any chunking → unfolded content lines, still octets, since a fold may stand inside one character (RFC 5545
 * §3.1). CRLF, LF and bare CR all end a line; empty lines are passed over. Holds at most one line, and copies only those
 * that are folded or cut by a chunk's end.
 */
import { LINE_MAX_BYTES } from "../bounds.ts";

const [TAB, LF, CR, SPACE] = [9, 10, 13, 32];

/** Takes the line that stands in [from, to) of the octets; they are its own only until it returns. */
export type TakeLine = (octets: Uint8Array, from: number, to: number) => void;

export class LineUnfolder {
  readonly #give: TakeLine;
  #line = new Uint8Array(1_024);
  #length = 0;
  /** A line has begun whose end, or whose last fold, is not yet seen. */
  #open = false;
  #atStart = true;

  constructor(give: TakeLine) {
    this.#give = give;
  }

  push(chunk: Uint8Array): void {
    const size = chunk.length;
    let at = 0;
    while (at < size) {
      const octet = chunk[at] as number;
      if (octet === LF || octet === CR) {
        this.#atStart = true;
        at++;
        continue;
      }
      if (this.#atStart) {
        this.#atStart = false;
        if (this.#open && (octet === SPACE || octet === TAB)) {
          at++;
          continue;
        }
        this.#flush();
        const end = endOfLine(chunk, at + 1);
        const next = afterBreak(chunk, end);
        // Whole in this chunk, and the line after it in sight: no fold follows, so nothing need be copied.
        if (next < size && chunk[next] !== SPACE && chunk[next] !== TAB) {
          this.#give(chunk, at, Math.min(end, at + LINE_MAX_BYTES));
          this.#atStart = true;
          at = next;
          continue;
        }
        this.#open = true;
      }
      const end = endOfLine(chunk, at);
      this.#append(chunk, at, end);
      at = end;
    }
  }

  end(): void {
    this.#flush();
  }

  #flush(): void {
    if (this.#open) this.#give(this.#line, 0, this.#length);
    this.#open = false;
    this.#length = 0;
  }

  /** Past LINE_MAX_BYTES the rest of the line is let go. */
  #append(chunk: Uint8Array, from: number, to: number): void {
    const end = Math.min(to, from + LINE_MAX_BYTES - this.#length);
    if (end <= from) return;
    const length = this.#length + end - from;
    if (length > this.#line.length) {
      const grown = new Uint8Array(Math.max(length, this.#line.length * 2));
      grown.set(this.#line.subarray(0, this.#length));
      this.#line = grown;
    }
    this.#line.set(chunk.subarray(from, end), this.#length);
    this.#length = length;
  }
}

const endOfLine = (chunk: Uint8Array, from: number): number => {
  let at = from;
  while (at < chunk.length && chunk[at] !== LF && chunk[at] !== CR) at++;
  return at;
};

const afterBreak = (chunk: Uint8Array, from: number): number => {
  let at = from;
  while (at < chunk.length && (chunk[at] === LF || chunk[at] === CR)) at++;
  return at;
};
