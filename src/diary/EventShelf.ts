/**
 * The kept lines of many events, by UID, in few large pieces of memory and none of it decoded: ten years of a busy salon
 * are a hundred thousand events, and objects for each would fill the memory that the edge gives.
 */
import { BLOCK_MAX_BYTES } from "../bounds.ts";
import type { EventFault } from "./eventText.ts";
import type { RoughSpan } from "./types.ts";

/** One event as it was kept. */
export interface ShelvedEvent {
  /** Its kept lines, each ended by LF. */
  readonly octets: Uint8Array;
  readonly span: RoughSpan;
  readonly fault: EventFault | null;
  /** Number of the VCALENDAR in the file that it stood in. */
  readonly calendar: number;
}

const PIECE_BYTES = 1_048_576;
/** Of the first piece: most diaries are small. */
const FIRST_PIECE_BYTES = 65_536;
/** Room for the largest event and its head. */
const STRIDE = 2_097_152;
const NONE = -1;
const FAULTS: readonly (EventFault | null)[] = [null, "not-closed", "too-large"];

/** What stands before each event, as 32-bit numbers. */
const [BEFORE, LENGTH, TOTAL, FIRST, LAST, FAULT, CALENDAR, HEAD_BYTES] = [0, 4, 8, 12, 16, 20, 24, 28];

interface Place {
  readonly piece: DataView;
  readonly at: number;
}

export class EventShelf {
  readonly #latest = new Map<string, number>();
  readonly #pieces: DataView[] = [];
  #used = 0;

  /** In the order in which they were first met. */
  uids(): IterableIterator<string> {
    return this.#latest.keys();
  }

  /** Octets kept under a UID. */
  octetsOf(uid: string): number {
    const place = this.#placeOf(this.#latest.get(uid) ?? NONE);
    return place ? place.piece.getUint32(place.at + TOTAL) : 0;
  }

  /** Keeps a copy of [0, length) of the octets; at most BLOCK_MAX_BYTES of them. */
  add(uid: string, octets: Uint8Array, length: number, about: Omit<ShelvedEvent, "octets">): void {
    const kept = Math.min(length, BLOCK_MAX_BYTES);
    const piece = this.#pieceFor(HEAD_BYTES + kept);
    const at = this.#used;
    piece.setInt32(at + BEFORE, this.#latest.get(uid) ?? NONE);
    piece.setUint32(at + LENGTH, kept);
    piece.setUint32(at + TOTAL, this.octetsOf(uid) + kept);
    piece.setInt32(at + FIRST, about.span.first);
    piece.setInt32(at + LAST, about.span.last);
    piece.setInt32(at + FAULT, FAULTS.indexOf(about.fault));
    piece.setInt32(at + CALENDAR, about.calendar);
    new Uint8Array(piece.buffer).set(octets.subarray(0, kept), at + HEAD_BYTES);
    this.#latest.set(uid, (this.#pieces.length - 1) * STRIDE + at);
    this.#used = at + HEAD_BYTES + kept;
  }

  /** The events kept under a UID, the latest first. */
  *of(uid: string): Generator<ShelvedEvent> {
    for (let place = this.#placeOf(this.#latest.get(uid) ?? NONE); place; ) {
      const { piece, at } = place;
      yield {
        octets: new Uint8Array(piece.buffer, at + HEAD_BYTES, piece.getUint32(at + LENGTH)),
        span: { first: piece.getInt32(at + FIRST), last: piece.getInt32(at + LAST) },
        fault: FAULTS[piece.getInt32(at + FAULT)] ?? null,
        calendar: piece.getInt32(at + CALENDAR),
      };
      place = this.#placeOf(piece.getInt32(at + BEFORE));
    }
  }

  #placeOf(number: number): Place | undefined {
    if (number === NONE) return undefined;
    return { piece: this.#pieces[Math.floor(number / STRIDE)] as DataView, at: number % STRIDE };
  }

  #pieceFor(octets: number): DataView {
    const last = this.#pieces.at(-1);
    if (last && this.#used + octets <= last.byteLength) return last;
    const piece = new DataView(
      new ArrayBuffer(Math.max(this.#pieces.length === 0 ? FIRST_PIECE_BYTES : PIECE_BYTES, octets)),
    );
    this.#pieces.push(piece);
    this.#used = 0;
    return piece;
  }
}
