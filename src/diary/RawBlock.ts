/** A block whose octets are decoded only when its text is asked for: an unchanged block never is. */
import { decodeLine } from "./decodeLine.ts";
import type { EventShelf, ShelvedEvent } from "./EventShelf.ts";
import { writeEvent } from "./eventText.ts";
import { hashOctets, hashText } from "./hashText.ts";
import { joinSpans } from "./roughSpan.ts";
import type { Block, FileZone, RoughSpan } from "./types.ts";

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
  readonly #shelves: readonly EventShelf[];
  readonly #zonesFor: (block: RawBlock) => readonly FileZone[];

  /**
   * @param shelves where its events stand
   * @param zonesFor gives the file's own definitions of the zones that its events name
   */
  constructor(uid: string, shelves: readonly EventShelf[], zonesFor: (block: RawBlock) => readonly FileZone[]) {
    this.uid = uid;
    this.#shelves = shelves;
    this.#zonesFor = zonesFor;
  }

  /** Its events, in no order. */
  *shelved(): Generator<ShelvedEvent> {
    for (const shelf of this.#shelves) yield* shelf.of(this.uid);
  }

  get count(): number {
    let count = 0;
    for (const _ of this.shelved()) count++;
    return count;
  }

  get zones(): readonly FileZone[] {
    return this.#zonesFor(this);
  }

  get hash(): string {
    const hashes = [...this.shelved()].map(({ octets, fault }) => hashOctets(octets) + (fault ?? ""));
    const { zones } = this;
    if (hashes.length === 1 && zones.length === 0) return hashes[0] as string;
    return hashText([...hashes.sort(), ...zones.map(({ text }) => text)].join("\n\n"));
  }

  get span(): RoughSpan {
    return joinSpans([...this.shelved()].map(({ span }) => span));
  }

  /** Sorted, so that a file which only changes its order has not changed. */
  get events(): readonly string[] {
    return [...this.shelved()].map(({ octets, fault }) => writeEvent(linesOfOctets(octets), fault)).sort();
  }

  toJSON(): Block {
    const { uid, hash, span, count, events, zones } = this;
    return { uid, hash, span, count, events, zones };
  }
}
