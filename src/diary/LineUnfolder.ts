/**
 * Octets of any chunking → unfolded content lines, still octets, since a fold may stand inside one character (RFC 5545
 * §3.1). CRLF, LF and bare CR all end a line; empty lines are passed over. Never holds more than one line.
 */
import { LINE_MAX_BYTES } from "../bounds.ts";

const [TAB, LF, CR, SPACE] = [9, 10, 13, 32];

export class LineUnfolder {
  readonly #give: (line: Uint8Array) => void;
  #line = new Uint8Array(1_024);
  #length = 0;
  #open = false;
  #atStart = true;

  /** @param give takes each line; the octets are its own only until it returns */
  constructor(give: (line: Uint8Array) => void) {
    this.#give = give;
  }

  push(chunk: Uint8Array): void {
    let at = 0;
    while (at < chunk.length) {
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
        this.#open = true;
      }
      let end = at + 1;
      while (end < chunk.length && chunk[end] !== LF && chunk[end] !== CR) end++;
      this.#append(chunk, at, end);
      at = end;
    }
  }

  end(): void {
    this.#flush();
  }

  #flush(): void {
    if (this.#open) this.#give(this.#line.subarray(0, this.#length));
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
