/** Requests that were answered under an Idempotency-Key, as long as they may be sent again. */
import { PART_MAX_CHARACTERS } from "../bounds.ts";
import type { Instant } from "../time/instant.ts";
import type { Once } from "./once.ts";

/** How the table is reached: through the store that it belongs to. */
interface Access {
  readonly sql: () => SqlStorage;
  readonly write: (query: string, ...bindings: SqlStorageValue[]) => void;
}

export class AnsweredTable {
  readonly #access: Access;

  constructor(access: Access) {
    this.#access = access;
  }

  /** What was answered since `from`, and to which request; undefined where nothing was. */
  find(key: string, from: Instant): { readonly print: string; readonly told: unknown } | undefined {
    const rows = this.#access
      .sql()
      .exec<{
        print: string;
        json: string;
      }>("SELECT print, json FROM answered WHERE key = ? AND at >= ? ORDER BY part", key, from)
      .toArray();
    const [first] = rows;
    return first && { print: first.print, told: JSON.parse(rows.map(({ json }) => json).join("")) };
  }

  /** Keeps an answer, and drops those from before `from`. */
  add(
    { key, print }: Once,
    { told, client }: { told: unknown; client: string | null },
    at: Instant,
    from: Instant,
  ): void {
    this.#access.write("DELETE FROM answered WHERE at < ? OR key = ?", from, key);
    const text = JSON.stringify(told);
    for (let part = 0; part * PART_MAX_CHARACTERS < text.length; part++) {
      const json = text.slice(part * PART_MAX_CHARACTERS, (part + 1) * PART_MAX_CHARACTERS);
      this.#access.write("INSERT INTO answered VALUES (?, ?, ?, ?, ?, ?)", key, part, at, print, client, json);
    }
  }

  /** Forgets what was answered about a client, and that it was about her; that the request was done is still known. */
  forget(client: string): void {
    this.#access.write("DELETE FROM answered WHERE client = ? AND part > 0", client);
    this.#access.write("UPDATE answered SET json = 'null', client = NULL WHERE client = ?", client);
  }
}
