/**
 * The text of the diaries by its blocks, what each read as, and the text of held readings. A text is kept in parts, and comes
 * from storage when it is first asked for.
 */
import type { Block } from "../diary/types.ts";
import { batchesOf } from "./batchesOf.ts";
import type { BlockRead, StoredBlock } from "./blockReads.ts";
import { LazyBlock, LazyRead, type ReadHead } from "./lazyBlocks.ts";
import { partsOf } from "./partsOf.ts";
import { rows } from "./rows.ts";

/** How the tables are reached: through the store that they belong to. */
interface Access {
  readonly sql: () => SqlStorage;
  readonly write: (query: string, ...bindings: SqlStorageValue[]) => void;
}

export class BlockTable {
  readonly #access: Access;

  constructor(access: Access) {
    this.#access = access;
  }

  /** What a diary's blocks read as, by UID; the entries themselves come from storage when they are first asked for. */
  reads(diary: string): Map<string, BlockRead> {
    let contents: Map<string, string> | undefined;
    const contentOf = (uid: string): Pick<BlockRead, "entries" | "skipped"> => {
      contents ??= this.#joined("reads", diary);
      return rows.read.parse(JSON.parse(contents.get(uid) as string));
    };
    return new Map(this.#heads(diary).map((head) => [head.uid, new LazyRead(head, contentOf)]));
  }

  /** The blocks of a diary, or of its held reading; the text of each comes from storage when it is asked for. */
  of(table: "blocks" | "held", diary: string): Block[] {
    const heads = new Map(table === "held" ? [] : this.#heads(diary).map((head) => [head.uid, head]));
    // A block is asked for its events and then for its zones: the last one is not parsed twice.
    let last: Block | undefined;
    const textOf = (uid: string): Block => {
      if (last?.uid !== uid) last = rows.block.parse(JSON.parse(this.#text(table, diary, uid)));
      return last;
    };
    return this.#access
      .sql()
      .exec<{ uid: string }>(`SELECT uid FROM ${table} WHERE diary = ? AND part = 0`, diary)
      .toArray()
      .map(({ uid }) => {
        const head = heads.get(uid);
        return head ? new LazyBlock(head, textOf) : textOf(uid);
      });
  }

  /** Replaces a diary's blocks and what they read as; what is equal is not written again. */
  save(
    diary: string,
    known: ReadonlyMap<string, BlockRead>,
    { blocks: stored, leftOut }: { readonly blocks: readonly StoredBlock[]; readonly leftOut: readonly Block[] },
  ): void {
    const kept = new Set([...stored.map(({ block }) => block.uid), ...leftOut.map(({ uid }) => uid)]);
    const gone = [...known.keys()].filter((uid) => !kept.has(uid));
    const news = stored.filter(({ isNew }) => isNew);
    const unread = leftOut.filter(({ uid, hash }) => known.get(uid)?.hash !== hash || known.get(uid)?.readBy !== "");
    const differs = (block: Block): boolean => known.get(block.uid)?.hash !== block.hash;
    const changed = [...news.map(({ block }) => block), ...unread].filter(differs);
    this.#delete("blocks", diary, [...gone, ...changed.map(({ uid }) => uid)]);
    this.#delete("reads", diary, [...gone, ...news.map(({ block }) => block.uid), ...unread.map(({ uid }) => uid)]);
    this.#insertTexts("blocks", diary, changed);
    for (const batch of batchesOf(rowsOfReads(news, unread))) this.#access.write(INSERT_READS, diary, batch);
  }

  /** Some blocks of a diary, what they read as, and what is held of them. */
  dropUids(diary: string, uids: readonly string[]): void {
    for (const table of ["blocks", "reads", "held"] as const) this.#delete(table, diary, uids);
  }

  /** Replaces the held reading of a diary. */
  saveHeld(diary: string, blocks: readonly Block[]): void {
    this.dropHeld(diary);
    this.#insertTexts("held", diary, blocks);
  }

  dropHeld(diary: string): void {
    this.#access.write("DELETE FROM held WHERE diary = ?", diary);
  }

  /** Everything of a diary's text. */
  drop(diary: string): void {
    for (const table of ["blocks", "reads", "held"]) this.#access.write(`DELETE FROM ${table} WHERE diary = ?`, diary);
  }

  #heads(diary: string): ReadHead[] {
    return this.#access
      .sql()
      .exec<{ [Column in keyof ReadHead]: ReadHead[Column] }>(
        `SELECT uid, hash, first, last, count, day, read_by AS readBy, sorted_by AS sortedBy FROM reads WHERE diary = ? AND part = 0`,
        diary,
      )
      .toArray();
  }

  #delete(table: "blocks" | "reads" | "held", diary: string, uids: readonly string[]): void {
    for (const batch of batchesOf(uids)) {
      this.#access.write(
        `DELETE FROM ${table} WHERE diary = ? AND uid IN (SELECT value FROM json_each(?))`,
        diary,
        batch,
      );
    }
  }

  #insertTexts(table: "blocks" | "held", diary: string, blocks: readonly Block[]): void {
    const parts = function* (): Generator<readonly unknown[]> {
      for (const block of blocks) {
        for (const [part, text] of partsOf(JSON.stringify(block)).entries()) yield [block.uid, part, text];
      }
    };
    for (const batch of batchesOf(parts())) {
      this.#access.write(
        `INSERT INTO ${table} SELECT ?, value ->> 0, value ->> 1, value ->> 2 FROM json_each(?)`,
        diary,
        batch,
      );
    }
  }

  #text(table: "blocks" | "held", diary: string, uid: string): string {
    return this.#access
      .sql()
      .exec<{ text: string }>(`SELECT text FROM ${table} WHERE diary = ? AND uid = ? ORDER BY part`, diary, uid)
      .toArray()
      .map(({ text }) => text)
      .join("");
  }

  #joined(table: "reads", diary: string): Map<string, string> {
    const texts = new Map<string, string>();
    for (const { uid, text } of this.#access
      .sql()
      .exec<{ uid: string; text: string }>(
        `SELECT uid, text FROM ${table} WHERE diary = ? ORDER BY uid, part`,
        diary,
      )) {
      texts.set(uid, (texts.get(uid) ?? "") + text);
    }
    return texts;
  }
}

const INSERT_READS = `INSERT INTO reads SELECT ?, ${Array.from({ length: 10 }, (_, at) => `value ->> ${at}`).join(", ")} FROM json_each(?)`;

/** A block for which there was no room is known by its hash, and read as soon as there is some. */
function* rowsOfReads(news: readonly StoredBlock[], unread: readonly Block[]): Generator<readonly unknown[]> {
  for (const { block, read } of news) {
    const { uid, hash, span, day, readBy, sortedBy, entries, skipped } = read;
    for (const [part, text] of partsOf(JSON.stringify({ entries, skipped })).entries()) {
      yield [uid, part, hash, span.first, span.last, block.count, day, readBy, sortedBy, text];
    }
  }
  for (const { uid, hash, span, count } of unread) {
    yield [uid, 0, hash, span.first, span.last, count, 0, "", "", '{"entries":[],"skipped":[]}'];
  }
}
