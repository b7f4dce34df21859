/**
 * A salon's storage: loads its state, and writes what differs between two states in one transaction. The only file that
 * speaks SQL besides schema.ts. Decides nothing.
 */
import type * as z from "zod";
import { PART_MAX_CHARACTERS } from "../bounds.ts";
import type { StoredBlock } from "./readBlocks.ts";
import type { Instant } from "../time/instant.ts";
import { migrate } from "./schema.ts";
import { partsOf } from "./partsOf.ts";
import { rows } from "./rows.ts";
import type { Client, State } from "./types.ts";

/** A feed as it is served: bytes, their ETag, and when they came to be. */
export interface RenderedFeed {
  readonly body: string;
  readonly etag: string;
  readonly modified: Instant;
}

const TABLES = [
  "clients",
  "bookings",
  "facts",
  "tests",
  "questions",
  "screenings",
  "consents",
  "events",
  "diaries",
] as const;
type Table = (typeof TABLES)[number];

export class Store {
  readonly #storage: DurableObjectStorage;
  readonly #sql: SqlStorage;

  constructor(storage: DurableObjectStorage) {
    this.#storage = storage;
    this.#sql = storage.sql;
    storage.transactionSync(() => migrate(storage.sql));
  }

  /** Runs several writes as one: all of them, or none. */
  together(write: () => void): void {
    this.#storage.transactionSync(write);
  }

  meta(name: string): string | undefined {
    return this.#one("SELECT value FROM meta WHERE name = ?", name);
  }

  setMeta(name: string, value: string): void {
    this.#sql.exec("INSERT OR REPLACE INTO meta VALUES (?, ?)", name, value);
  }

  addKey(hash: string, at: Instant): void {
    this.#sql.exec("DELETE FROM keys");
    this.#sql.exec("INSERT INTO keys VALUES (?, ?)", hash, at);
  }

  hasKey(hash: string): boolean {
    return this.#sql.exec("SELECT 1 FROM keys WHERE hash = ?", hash).toArray().length > 0;
  }

  latestSettings(): { readonly version: number; readonly json: string } | undefined {
    return this.#sql
      .exec<{ version: number; json: string }>("SELECT version, json FROM settings ORDER BY version DESC LIMIT 1")
      .toArray()[0];
  }

  addSettings(version: number, at: Instant, json: string): void {
    this.#sql.exec("INSERT INTO settings VALUES (?, ?, ?)", version, at, json);
  }

  load(fresh: State): State {
    const counters = JSON.parse(this.meta("counters") ?? "null") as [number, number, number] | null;
    if (!counters) return fresh;
    const [settledTo, nextClient, nextFact] = counters;
    return {
      settledTo,
      nextClient,
      nextFact,
      clients: this.#all("clients", rows.client),
      bookings: this.#all("bookings", rows.booking),
      facts: new Map(
        [...this.#all("facts", rows.fact)].sort(([, a], [, b]) => Number(a.id.slice(1)) - Number(b.id.slice(1))),
      ),
      tests: this.#all("tests", rows.test),
      questions: this.#all("questions", rows.questions),
      screenings: this.#all("screenings", rows.screening),
      consents: this.#all("consents", rows.consent),
      events: this.#all("events", rows.event),
      diaries: this.#all("diaries", rows.diary),
    };
  }

  /** Writes what `after` holds differently from `before`. */
  save(before: State, after: State): void {
    for (const table of TABLES) this.#saveTable(table, before[table], after[table]);
    this.setMeta("counters", JSON.stringify([after.settledTo, after.nextClient, after.nextFact]));
  }

  blocks(table: "blocks" | "held", diary: string): Map<string, StoredBlock> {
    const parts = this.#sql
      .exec<{ uid: string; text: string }>(`SELECT uid, text FROM ${table} WHERE diary = ? ORDER BY uid, part`, diary)
      .toArray();
    const texts = new Map<string, string>();
    for (const { uid, text } of parts) texts.set(uid, (texts.get(uid) ?? "") + text);
    return new Map([...texts].map(([uid, text]) => [uid, rows.block.parse(JSON.parse(text))]));
  }

  /** Replaces a diary's blocks; equal ones are not written again. */
  saveBlocks(
    table: "blocks" | "held",
    diary: string,
    before: ReadonlyMap<string, StoredBlock>,
    after: readonly StoredBlock[],
  ): void {
    const kept = new Set(after.map(({ block }) => block.uid));
    const changed = after.filter((stored) => before.get(stored.block.uid) !== stored);
    const stale = [...before.keys()].filter((uid) => !kept.has(uid)).concat(changed.map(({ block }) => block.uid));
    for (const batch of batchesOf(stale)) {
      this.#sql.exec(`DELETE FROM ${table} WHERE diary = ? AND uid IN (SELECT value FROM json_each(?))`, diary, batch);
    }
    const parts = changed.flatMap((stored) =>
      partsOf(JSON.stringify(stored)).map((text, part) => [stored.block.uid, part, text]),
    );
    for (const batch of batchesOf(parts)) {
      this.#sql.exec(
        `INSERT INTO ${table} SELECT ?, value ->> 0, value ->> 1, value ->> 2 FROM json_each(?)`,
        diary,
        batch,
      );
    }
  }

  dropBlocks(table: "blocks" | "held", diary: string): void {
    this.#sql.exec(`DELETE FROM ${table} WHERE diary = ?`, diary);
  }

  feed(audience: string): RenderedFeed | undefined {
    const parts = this.#sql
      .exec<{ etag: string; modified: number; text: string }>(
        "SELECT etag, modified, text FROM feeds WHERE audience = ? ORDER BY part",
        audience,
      )
      .toArray();
    const [first] = parts;
    return first && { etag: first.etag, modified: first.modified, body: parts.map(({ text }) => text).join("") };
  }

  saveFeed(audience: string, { body, etag, modified }: RenderedFeed): void {
    this.dropFeed(audience);
    for (const [part, text] of partsOf(body).entries()) {
      this.#sql.exec("INSERT INTO feeds VALUES (?, ?, ?, ?, ?)", audience, part, etag, modified, text);
    }
  }

  /** One client's row, without loading the rest. */
  client(id: string): Client | undefined {
    const [row] = this.#sql.exec<{ json: string }>("SELECT json FROM clients WHERE id = ?", id).toArray();
    return row && rows.client.parse(JSON.parse(row.json));
  }

  dropFeed(audience: string): void {
    this.#sql.exec("DELETE FROM feeds WHERE audience = ?", audience);
  }

  dropFeeds(): void {
    this.#sql.exec("DELETE FROM feeds");
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

  #saveTable(table: Table, before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): void {
    const gone = [...before.keys()].filter((id) => !after.has(id));
    for (const batch of batchesOf(gone)) {
      this.#sql.exec(`DELETE FROM ${table} WHERE id IN (SELECT value FROM json_each(?))`, batch);
    }
    const changed = [...after].filter(([id, row]) => before.get(id) !== row);
    for (const batch of batchesOf(changed.map(([id, row]) => [id, JSON.stringify(row)]))) {
      this.#sql.exec(`INSERT OR REPLACE INTO ${table} SELECT value ->> 0, value ->> 1 FROM json_each(?)`, batch);
    }
  }
}

/** Items as JSON arrays for json_each, each small enough for one bound value. */
const batchesOf = (items: readonly unknown[]): string[] => {
  const batches: string[] = [];
  let batch: string[] = [];
  let length = 0;
  for (const item of items) {
    const text = JSON.stringify(item);
    if (length + text.length > PART_MAX_CHARACTERS && batch.length > 0) {
      batches.push(`[${batch.join(",")}]`);
      batch = [];
      length = 0;
    }
    batch.push(text);
    length += text.length + 1;
  }
  if (batch.length > 0) batches.push(`[${batch.join(",")}]`);
  return batches;
};
