/**
 * A salon's storage: loads its state, and writes what differs between two states in one transaction. The only file that
 * speaks SQL besides schema.ts. Decides nothing.
 */
import type * as z from "zod";
import { PART_MAX_CHARACTERS } from "../bounds.ts";
import type { Block } from "../diary/types.ts";
import { LazyBlock, LazyRead, type ReadHead } from "./lazyBlocks.ts";
import type { BlockRead, StoredBlock } from "./blockReads.ts";
import type { Instant } from "../time/instant.ts";
import { AnsweredTable } from "./AnsweredTable.ts";
import { FeedTable } from "./FeedTable.ts";
import { type NextNumbers, numberOfId } from "./inTurn.ts";
import { migrate } from "./schema.ts";
import { partsOf } from "./partsOf.ts";
import { rows } from "./rows.ts";
import type { State } from "./types.ts";

const TABLES = [
  "clients",
  "bookings",
  "facts",
  "deeds",
  "tests",
  "questions",
  "screenings",
  "consents",
  "erased",
  "answers",
  "events",
  "diaries",
] as const;
type Table = (typeof TABLES)[number];

export class Store {
  /** The feeds as they are served, beside what they are made from. */
  readonly feeds: FeedTable;
  /** Requests that were answered, for those that are sent again. */
  readonly answered: AnsweredTable;
  readonly #storage: DurableObjectStorage;
  #isMigrated = false;
  #changes = 0;

  constructor(storage: DurableObjectStorage) {
    this.#storage = storage;
    const access = {
      asItIs: (): SqlStorage => this.#storage.sql,
      sql: (): SqlStorage => this.#sql,
      write: (query: string, ...bindings: SqlStorageValue[]): void => this.#write(query, ...bindings),
    };
    this.feeds = new FeedTable(access);
    this.answered = new AnsweredTable(access);
  }

  /** Writes made through this store: what was read before one of them may be old. */
  get changes(): number {
    return this.#changes;
  }

  /** The storage was emptied: its tables are to be made anew when something is stored again. */
  forget(): void {
    this.#isMigrated = false;
    this.#changes++;
  }

  /** Of the present version from its first use on; only a feed's `glance` looks at a store as it is. */
  get #sql(): SqlStorage {
    if (!this.#isMigrated) {
      this.#storage.transactionSync(() => migrate(this.#storage.sql));
      this.#isMigrated = true;
      this.#changes++;
    }
    return this.#storage.sql;
  }

  /** Whether anything was ever stored; asking makes no table. */
  get holdsAnything(): boolean {
    return (
      this.#isMigrated || this.#storage.sql.exec("SELECT 1 FROM sqlite_master WHERE name = 'meta'").toArray().length > 0
    );
  }

  #write(query: string, ...bindings: SqlStorageValue[]): void {
    this.#changes++;
    this.#sql.exec(query, ...bindings);
  }

  /** Runs several writes as one: all of them, or none. */
  together(write: () => void): void {
    this.#storage.transactionSync(write);
  }

  meta(name: string): string | undefined {
    return this.#one("SELECT value FROM meta WHERE name = ?", name);
  }

  setMeta(name: string, value: string): void {
    this.#write("INSERT OR REPLACE INTO meta VALUES (?, ?)", name, value);
  }

  addKey(hash: string, at: Instant): void {
    this.#write("DELETE FROM keys");
    this.#write("INSERT INTO keys VALUES (?, ?)", hash, at);
  }

  hasKey(hash: string): boolean {
    return this.#sql.exec("SELECT 1 FROM keys WHERE hash = ?", hash).toArray().length > 0;
  }

  latestSettings(): { readonly version: number; readonly json: string } | undefined {
    return this.#sql
      .exec<{ version: number; json: string }>("SELECT version, json FROM settings ORDER BY version DESC LIMIT 1")
      .toArray()[0];
  }

  /** The settings of a version, as JSON; undefined where there never was one. */
  settingsOf(version: number): string | undefined {
    return this.#sql.exec<{ json: string }>("SELECT json FROM settings WHERE version = ?", version).toArray()[0]?.json;
  }

  addSettings(version: number, at: Instant, json: string): void {
    this.#write("INSERT INTO settings VALUES (?, ?, ?)", version, at, json);
  }

  /** The number of the next client; 0 where there never was one. */
  nextClient(): number {
    return this.#counters()?.[1] ?? 0;
  }

  #counters(): [number, number, number, NextNumbers?] | null {
    return JSON.parse(this.meta("counters") ?? "null") as [number, number, number, NextNumbers?] | null;
  }

  /** Before numbers were kept, the next was the one after the highest. */
  #nextNumbers(): NextNumbers {
    const after = (table: Table): number =>
      1 +
      Math.max(
        0,
        ...this.#sql
          .exec<{ id: string }>(`SELECT id FROM ${table}`)
          .toArray()
          .map(({ id }) => numberOfId(id)),
      );
    return { s: after("screenings"), k: after("consents"), d: after("deeds") };
  }

  load(fresh: State): State {
    const counters = this.#counters();
    if (!counters) return fresh;
    const [settledTo, nextClient, nextFact, next = this.#nextNumbers()] = counters;
    return {
      settledTo,
      nextClient,
      nextFact,
      next,
      clients: this.#numbered("clients", rows.client),
      bookings: this.#all("bookings", rows.booking),
      facts: this.#numbered("facts", rows.fact),
      deeds: this.#numbered("deeds", rows.deed),
      tests: this.#all("tests", rows.test),
      questions: this.#all("questions", rows.questions),
      screenings: this.#numbered("screenings", rows.screening),
      consents: this.#numbered("consents", rows.consent),
      erased: this.#all("erased", rows.erased),
      answers: this.#all("answers", rows.answer),
      events: this.#all("events", rows.event),
      diaries: this.#all("diaries", rows.diary),
    };
  }

  /** Writes what `after` holds differently from `before`. */
  save(before: State, after: State): void {
    for (const table of TABLES) this.#saveTable(table, before[table], after[table]);
    this.setMeta("counters", JSON.stringify([after.settledTo, after.nextClient, after.nextFact, after.next]));
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
  blocks(table: "blocks" | "held", diary: string): Block[] {
    const heads = new Map(table === "held" ? [] : this.#heads(diary).map((head) => [head.uid, head]));
    // A block is asked for its events and then for its zones: the last one is not parsed twice.
    let last: Block | undefined;
    const textOf = (uid: string): Block => {
      if (last?.uid !== uid) last = rows.block.parse(JSON.parse(this.#text(table, diary, uid)));
      return last;
    };
    return this.#sql
      .exec<{ uid: string }>(`SELECT uid FROM ${table} WHERE diary = ? AND part = 0`, diary)
      .toArray()
      .map(({ uid }) => {
        const head = heads.get(uid);
        return head ? new LazyBlock(head, textOf) : textOf(uid);
      });
  }

  /** Replaces a diary's blocks and what they read as; what is equal is not written again. */
  saveBlocks(
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
    for (const batch of batchesOf(rowsOfReads(news, unread))) this.#write(INSERT_READS, diary, batch);
  }

  /** Some blocks of a diary, what they read as, and what is held of them. */
  dropUids(diary: string, uids: readonly string[]): void {
    for (const table of ["blocks", "reads", "held"] as const) this.#delete(table, diary, uids);
  }

  /** What is stored apart of a client who is gone. */
  forgetClient(id: string): void {
    this.feeds.remove(id);
    this.answered.forget(id);
  }

  /** Replaces the held reading of a diary. */
  saveHeld(diary: string, blocks: readonly Block[]): void {
    this.dropHeld(diary);
    this.#insertTexts("held", diary, blocks);
  }

  dropHeld(diary: string): void {
    this.#write("DELETE FROM held WHERE diary = ?", diary);
  }

  /** Everything of a diary's text. */
  dropBlocks(diary: string): void {
    for (const table of ["blocks", "reads", "held"]) this.#write(`DELETE FROM ${table} WHERE diary = ?`, diary);
  }

  #heads(diary: string): ReadHead[] {
    return this.#sql
      .exec<{ [Column in keyof ReadHead]: ReadHead[Column] }>(
        `SELECT uid, hash, first, last, count, day, read_by AS readBy, sorted_by AS sortedBy FROM reads WHERE diary = ? AND part = 0`,
        diary,
      )
      .toArray();
  }

  #delete(table: "blocks" | "reads" | "held", diary: string, uids: readonly string[]): void {
    for (const batch of batchesOf(uids)) {
      this.#write(`DELETE FROM ${table} WHERE diary = ? AND uid IN (SELECT value FROM json_each(?))`, diary, batch);
    }
  }

  #insertTexts(table: "blocks" | "held", diary: string, blocks: readonly Block[]): void {
    const parts = function* (): Generator<readonly unknown[]> {
      for (const block of blocks) {
        for (const [part, text] of partsOf(JSON.stringify(block)).entries()) yield [block.uid, part, text];
      }
    };
    for (const batch of batchesOf(parts())) {
      this.#write(
        `INSERT INTO ${table} SELECT ?, value ->> 0, value ->> 1, value ->> 2 FROM json_each(?)`,
        diary,
        batch,
      );
    }
  }

  #text(table: "blocks" | "held", diary: string, uid: string): string {
    return this.#sql
      .exec<{ text: string }>(`SELECT text FROM ${table} WHERE diary = ? AND uid = ? ORDER BY part`, diary, uid)
      .toArray()
      .map(({ text }) => text)
      .join("");
  }

  #joined(table: "reads", diary: string): Map<string, string> {
    const texts = new Map<string, string>();
    for (const { uid, text } of this.#sql.exec<{ uid: string; text: string }>(
      `SELECT uid, text FROM ${table} WHERE diary = ? ORDER BY uid, part`,
      diary,
    )) {
      texts.set(uid, (texts.get(uid) ?? "") + text);
    }
    return texts;
  }

  #one(query: string, ...bindings: SqlStorageValue[]): string | undefined {
    return this.#sql.exec<{ value: string }>(query, ...bindings).toArray()[0]?.value;
  }

  #all<Row>(table: Table, schema: z.ZodType<Row>): Map<string, Row> {
    return new Map(
      this.#sql
        .exec<{ id: string; json: string }>(`SELECT id, json FROM ${table}`)
        .toArray()
        .map(({ id, json }) => [id, schema.parse(JSON.parse(json))]),
    );
  }

  /** In the order in which the rows were made, as they were before a restart: of two namesakes the earlier one comes first. */
  #numbered<Row>(table: Table, schema: z.ZodType<Row>): Map<string, Row> {
    return new Map([...this.#all(table, schema)].sort(([one], [other]) => numberOfId(one) - numberOfId(other)));
  }

  #saveTable(table: Table, before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): void {
    const gone = [...before.keys()].filter((id) => !after.has(id));
    for (const batch of batchesOf(gone)) {
      this.#write(`DELETE FROM ${table} WHERE id IN (SELECT value FROM json_each(?))`, batch);
    }
    const changed = [...after].filter(([id, row]) => before.get(id) !== row);
    for (const batch of batchesOf(changed.map(([id, row]) => [id, JSON.stringify(row)]))) {
      this.#write(`INSERT OR REPLACE INTO ${table} SELECT value ->> 0, value ->> 1 FROM json_each(?)`, batch);
    }
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

/** Items as JSON arrays for json_each, each small enough for one bound value. */
function* batchesOf(items: Iterable<unknown>): Generator<string> {
  let batch: string[] = [];
  let length = 0;
  for (const item of items) {
    const text = JSON.stringify(item);
    if (length + text.length > PART_MAX_CHARACTERS && batch.length > 0) {
      yield `[${batch.join(",")}]`;
      batch = [];
      length = 0;
    }
    batch.push(text);
    length += text.length + 1;
  }
  if (batch.length > 0) yield `[${batch.join(",")}]`;
}
