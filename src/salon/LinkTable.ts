/**
 * Which clients were given the link to their page, and who has opened it: by the generation of the link, so that a renewed one
 * counts as neither. Beside the state, since opening a page changes no plan.
 */
import type { Instant } from "../time/instant.ts";

export interface LinkUse {
  readonly generation: number;
  /** When somebody at the salon, or its tool, last gave it; null: nobody has. */
  readonly given: Instant | null;
  /** When her page or her feed was first opened; null: never. */
  readonly opened: Instant | null;
}

/** How the table is reached: through the store that it belongs to. */
interface Access {
  readonly sql: () => SqlStorage;
  readonly write: (query: string, ...bindings: SqlStorageValue[]) => void;
}

export class LinkTable {
  readonly #access: Access;

  constructor(access: Access) {
    this.#access = access;
  }

  /** By client. */
  all(): ReadonlyMap<string, LinkUse> {
    const rows = this.#access.sql().exec<{
      client: string;
      generation: number;
      given: number | null;
      opened: number | null;
    }>("SELECT client, generation, given, opened FROM links");
    return new Map(rows.toArray().map(({ client, ...use }) => [client, use]));
  }

  isOpened(client: string, generation: number): boolean {
    const found = "SELECT 1 FROM links WHERE client = ? AND generation = ? AND opened IS NOT NULL";
    return this.#access.sql().exec(found, client, generation).toArray().length > 0;
  }

  give(client: string, generation: number, at: Instant): void {
    this.#set(client, generation, { given: at, opened: null });
  }

  /** Opened for the first time; the link is then in her hands, whoever gave it. */
  open(client: string, generation: number, at: Instant): void {
    this.#set(client, generation, { given: null, opened: at });
  }

  forget(client: string): void {
    this.#access.write("DELETE FROM links WHERE client = ?", client);
  }

  /** Of one link the last giving and the first opening are kept; of a newer one nothing of the older. */
  #set(client: string, generation: number, { given, opened }: Omit<LinkUse, "generation">): void {
    this.#access.write(
      `INSERT INTO links VALUES (?1, ?2, ?3, ?4) ON CONFLICT (client) DO UPDATE SET
        given = CASE WHEN generation < ?2 THEN ?3 ELSE coalesce(?3, given) END,
        opened = CASE WHEN generation < ?2 THEN ?4 ELSE coalesce(opened, ?4) END,
        generation = ?2
        WHERE generation <= ?2`,
      client,
      generation,
      given,
      opened,
    );
  }
}
