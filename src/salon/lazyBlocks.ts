/** Stored blocks of which only short columns are loaded: text and entries come from storage when they are asked for. */
import type { Block, RoughSpan } from "../diary/types.ts";
import type { BlockRead } from "./blockReads.ts";

/** The short columns of one stored block. */
export type ReadHead = {
  readonly uid: string;
  readonly hash: string;
  readonly first: number;
  readonly last: number;
  readonly count: number;
  readonly day: number;
  readonly readBy: string;
  readonly sortedBy: string;
};

type Content = Pick<BlockRead, "entries" | "skipped">;

export class LazyRead implements BlockRead {
  readonly #head: ReadHead;
  readonly #load: (uid: string) => Content;
  #content: Content | undefined;

  constructor(head: ReadHead, load: (uid: string) => Content) {
    this.#head = head;
    this.#load = load;
  }

  get uid(): string {
    return this.#head.uid;
  }
  get hash(): string {
    return this.#head.hash;
  }
  get span(): RoughSpan {
    return this.#head;
  }
  get day(): number {
    return this.#head.day;
  }
  get readBy(): string {
    return this.#head.readBy;
  }
  get sortedBy(): string {
    return this.#head.sortedBy;
  }
  get entries(): Content["entries"] {
    return this.#loaded.entries;
  }
  get skipped(): Content["skipped"] {
    return this.#loaded.skipped;
  }

  get #loaded(): Content {
    this.#content ??= this.#load(this.uid);
    return this.#content;
  }
}

export class LazyBlock implements Block {
  readonly uid: string;
  readonly hash: string;
  readonly span: RoughSpan;
  readonly count: number;
  readonly #load: (uid: string) => Block;

  constructor({ uid, hash, first, last, count }: ReadHead, load: (uid: string) => Block) {
    this.uid = uid;
    this.hash = hash;
    this.span = { first, last };
    this.count = count;
    this.#load = load;
  }

  get events(): Block["events"] {
    return this.#load(this.uid).events;
  }
  get zones(): Block["zones"] {
    return this.#load(this.uid).zones;
  }
}
