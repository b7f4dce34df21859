/** Text to a stream in pieces of a sensible size, no faster than it is taken. Never holds more than one piece. */
import type { Writable } from "node:stream";

const PIECE_CHARACTERS = 65_536;

export class BufferedOutput {
  readonly #stream: Writable;
  #pieces: string[] = [];
  #length = 0;

  constructor(stream: Writable) {
    this.#stream = stream;
  }

  /** Takes text; wait for it before the next, so that a slow reader slows the work and fills no memory. */
  async write(text: string): Promise<void> {
    this.#pieces.push(text);
    this.#length += text.length;
    if (this.#length >= PIECE_CHARACTERS) await this.flush();
  }

  async flush(): Promise<void> {
    const text = this.#pieces.join("");
    this.#pieces = [];
    this.#length = 0;
    if (text === "" || this.#stream.write(text)) return;
    await new Promise((resolve) => this.#stream.once("drain", resolve));
  }
}
