/**
 * Octets of any chunking, as UTF-8: a file in UTF-16 is told by its first two octets and rewritten as it comes.
 * Holds back at most two octets.
 */
const EMPTY = new Uint8Array(0);

export class Utf8Source {
  #head: number[] = [];
  #decoder: TextDecoder | null = null;
  #swaps = false;
  #odd: number | null = null;
  #known = false;
  readonly #encoder = new TextEncoder();

  /** The same octets in UTF-8, as far as they are complete. */
  push(chunk: Uint8Array): Uint8Array {
    if (this.#known) return this.#convert(chunk);
    const joined = Uint8Array.from([...this.#head, ...chunk.subarray(0, 2)]);
    if (joined.length < 2) {
      this.#head = [...joined];
      return EMPTY;
    }
    this.#decide(joined[0] as number, joined[1] as number);
    if (this.#head.length === 0) return this.#convert(chunk);
    const whole = new Uint8Array(this.#head.length + chunk.length);
    whole.set(this.#head);
    whole.set(chunk, this.#head.length);
    return this.#convert(whole);
  }

  /** What was held back. */
  end(): Uint8Array {
    if (!this.#known) return Uint8Array.from(this.#head);
    return this.#decoder ? this.#encoder.encode(this.#decoder.decode()) : EMPTY;
  }

  #decide(first: number, second: number): void {
    this.#known = true;
    const little = (first === 0xff && second === 0xfe) || (first !== 0 && second === 0);
    const big = (first === 0xfe && second === 0xff) || (first === 0 && second !== 0);
    if (!little && !big) return;
    this.#decoder = new TextDecoder("utf-16le");
    this.#swaps = big;
  }

  #convert(chunk: Uint8Array): Uint8Array {
    if (!this.#decoder) return chunk;
    return this.#encoder.encode(this.#decoder.decode(this.#swaps ? this.#swap(chunk) : chunk, { stream: true }));
  }

  /** Big-endian pairs turned round; an odd octet waits for its partner. */
  #swap(chunk: Uint8Array): Uint8Array {
    const carried = this.#odd;
    const length = chunk.length + (carried === null ? 0 : 1);
    const even = length - (length % 2);
    const swapped = new Uint8Array(even);
    const octetAt = (index: number): number =>
      (carried === null ? chunk[index] : index === 0 ? carried : chunk[index - 1]) as number;
    for (let index = 0; index < even; index += 2) {
      swapped[index] = octetAt(index + 1);
      swapped[index + 1] = octetAt(index);
    }
    this.#odd = length > even ? octetAt(even) : null;
    return swapped;
  }
}
