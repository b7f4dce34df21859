/** Values of a list that is written after another, kept as octets: as strings a hundred thousand of them would fill the heap. */
import { Buffer } from "node:buffer";

const PIECE_CHARACTERS = 65_536;

export class SetAside {
  readonly #pieces: Buffer[] = [];
  #texts: string[] = [];
  #length = 0;
  #isEmpty = true;

  add(values: readonly string[]): void {
    for (const value of values) {
      const text = this.#isEmpty ? value : `,${value}`;
      this.#isEmpty = false;
      this.#texts.push(text);
      this.#length += text.length;
      if (this.#length >= PIECE_CHARACTERS) this.#close();
    }
  }

  /** Joined, the values with commas between them. */
  *pieces(): Generator<string> {
    this.#close();
    for (const piece of this.#pieces) yield piece.toString("utf8");
  }

  #close(): void {
    if (this.#length > 0) this.#pieces.push(Buffer.from(this.#texts.join(""), "utf8"));
    this.#texts = [];
    this.#length = 0;
  }
}
