/**
 * A salon's storage: loads its state, and writes what differs between two states in one transaction. Only this file, its tables
 * and schema.ts speak SQL. Decides nothing.
 */
import type * as z from "zod";
import { batchesOf } from "./batchesOf.ts";
import { BlockTable } from "./BlockTable.ts";
import type { Instant } from "../time/instant.ts";
import { AnsweredTable } from "./AnsweredTable.ts";
import { FeedTable } from "./FeedTable.ts";
import { LinkTable } from "./LinkTable.ts";
import { type NextNumbers, numberOfId } from "./inTurn.ts";
import { migrate } from "./schema.ts";
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
  /** Which clients have their link, and who has opened it. */
  readonly links: LinkTable;
  /** What the diaries say, block by block. */
  readonly blocks: BlockTable;
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
    this.links = new LinkTable(access);
    this.blocks = new BlockTable(access);
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

  /** The settings that held at an instant; before there were any, the first. */
  settingsAt(at: Instant): { readonly version: number; readonly json: string } {
    const found = this.#sql
      .exec<{ version: number; json: string }>(
        "SELECT version, json FROM settings ORDER BY at > ?, CASE WHEN at > ? THEN version ELSE -version END LIMIT 1",
        at,
        at,
      )
      .toArray()[0];
    if (!found) throw new Error("the salon has no settings");
    return found;
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

  /** What is stored apart of a client who is gone. */
  forgetClient(id: string): void {
    this.feeds.remove(id);
    this.answered.forget(id);
    this.links.forget(id);
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
