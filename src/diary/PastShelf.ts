/**
 * What is kept of events that are past: a few lines each, by UID, in few large pieces of memory. Ten years hold a hundred
 * thousand of them, and hardly one is asked for again: only where something of its UID lies ahead.
 */

const PIECE_BYTES = 1_048_576;
/** Before each event: where the one before it of the same UID stands, and how long it is. */
const HEAD_BYTES = 8;
const NONE = -1;

export class PastShelf {
  readonly #latest = new Map<string, number>();
  readonly #pieces: DataView[] = [];
  #used = PIECE_BYTES;

  /** Keeps a copy of [0, length) of the octets. What is longer than a piece is no appointment, and is cut. */
  add(uid: string, octets: Uint8Array, length: number): void {
    const kept = Math.min(length, PIECE_BYTES - HEAD_BYTES);
    if (this.#used + HEAD_BYTES + kept > PIECE_BYTES) {
      this.#pieces.push(new DataView(new ArrayBuffer(PIECE_BYTES)));
      this.#used = 0;
    }
    const piece = this.#pieces.at(-1) as DataView;
    const at = this.#used;
    piece.setInt32(at, this.#latest.get(uid) ?? NONE);
    piece.setUint32(at + 4, kept);
    new Uint8Array(piece.buffer).set(octets.subarray(0, kept), at + HEAD_BYTES);
    this.#latest.set(uid, (this.#pieces.length - 1) * PIECE_BYTES + at);
    this.#used = at + HEAD_BYTES + kept;
  }

  /** The events kept under a UID, the latest first. */
  *of(uid: string): Generator<Uint8Array> {
    for (let place = this.#latest.get(uid) ?? NONE; place !== NONE; ) {
      const piece = this.#pieces[Math.floor(place / PIECE_BYTES)] as DataView;
      const at = place % PIECE_BYTES;
      yield new Uint8Array(piece.buffer, at + HEAD_BYTES, piece.getUint32(at + 4));
      place = piece.getInt32(at);
    }
  }
}
