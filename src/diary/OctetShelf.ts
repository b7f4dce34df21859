/** Many short runs of octets in few large pieces of memory: a diary's kept lines, before anyone asks for their text. */

const PIECE_BYTES = 262_144;

export class OctetShelf {
  #piece = new Uint8Array(0);
  #used = 0;

  /** A copy of [0, length) of the octets that stays. */
  keep(octets: Uint8Array, length: number): Uint8Array {
    if (this.#used + length > this.#piece.length) {
      this.#piece = new Uint8Array(Math.max(PIECE_BYTES, length));
      this.#used = 0;
    }
    const kept = this.#piece.subarray(this.#used, this.#used + length);
    for (let at = 0; at < length; at++) kept[at] = octets[at] as number;
    this.#used += length;
    return kept;
  }
}
