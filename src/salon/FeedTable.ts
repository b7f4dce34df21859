/**
 * The feeds as they are served: their bytes, and what a reader compares of them. Made of everything else a salon stores, and
 * never the only place where anything is.
 */
import { FEED_VARIANTS_MAX } from "../bounds.ts";
import type { Instant } from "../time/instant.ts";
import { SCHEMA_VERSION } from "./schema.ts";

/** What a reader compares of a feed: the ETag of its bytes, and when they came to be. */
export interface FeedHeld {
  readonly etag: string;
  readonly modified: Instant;
}

/** A feed as it is served. */
export interface RenderedFeed extends FeedHeld {
  readonly body: string;
  /** When time alone will change it, though no event changes; null: never. */
  readonly until: Instant | null;
}

/** What one reading tells of a stored feed: whether it is stored, and whether it is still what would be said. */
export interface FeedGlance {
  /** Whose feed it is: of a client who was joined with another, that other's. */
  readonly audience: string;
  readonly generation: number | null;
  /** Whether the link that holds was ever opened; null: it was not. */
  readonly opened: number | null;
  readonly next: string | null;
  readonly zone: string | null;
  readonly madeBy: string | null;
  readonly origin: string | null;
  readonly etag: string | null;
  readonly modified: Instant | null;
  readonly until: Instant | null;
}

type GlanceRow = { [Column in Exclude<keyof FeedGlance, "generation">]: FeedGlance[Column] } & {
  readonly schema: string | null;
  /** A salon's stands as text, a client's as a number. */
  readonly generation: string | number | null;
};

const GLANCE = `SELECT holder.audience,
  (SELECT value FROM meta WHERE name = 'schema') AS schema,
  (SELECT value FROM meta WHERE name = 'next') AS next,
  (SELECT value FROM meta WHERE name = 'zone') AS zone,
  (SELECT value FROM meta WHERE name = 'made-by') AS madeBy,
  (SELECT value FROM meta WHERE name = 'origin') AS origin,
  CASE ?1 WHEN 'salon' THEN (SELECT value FROM meta WHERE name = 'feed-generation')
    ELSE (SELECT json ->> '$.generation' FROM clients WHERE id = ?1) END AS generation,
  (SELECT 1 FROM links JOIN clients ON clients.id = links.client
    WHERE links.client = ?1 AND links.opened IS NOT NULL AND links.generation = clients.json ->> '$.generation') AS opened,
  feeds.etag, feeds.modified, feeds.until
  FROM (SELECT coalesce((SELECT json ->> '$.joined' FROM clients WHERE id = ?1), ?1) AS audience) AS holder
  LEFT JOIN feeds ON feeds.audience = holder.audience AND feeds.variant = ?2`;

/** How the table is reached: through the store that it belongs to. */
interface Access {
  /** Of whatever version. */
  readonly asItIs: () => SqlStorage;
  /** Of the present version. */
  readonly sql: () => SqlStorage;
  readonly write: (query: string, ...bindings: SqlStorageValue[]) => void;
}

export class FeedTable {
  readonly #access: Access;

  constructor(access: Access) {
    this.#access = access;
  }

  /** By one reading, of a store of whatever version: undefined where it holds no feeds of this version. */
  glance(audience: string, variant: string): FeedGlance | undefined {
    try {
      const [row] = this.#access.asItIs().exec<GlanceRow>(GLANCE, audience, variant).toArray();
      if (!row || Number(row.schema) !== SCHEMA_VERSION) return undefined;
      return { ...row, generation: row.generation === null ? null : Number(row.generation) };
    } catch (error) {
      if (error instanceof Error && /no such (table|column)/.test(error.message)) return undefined;
      throw error;
    }
  }

  octets(audience: string, variant: string): Uint8Array {
    const [row] = this.#access
      .sql()
      .exec<{ octets: ArrayBuffer }>("SELECT octets FROM feeds WHERE audience = ? AND variant = ?", audience, variant)
      .toArray();
    if (!row) throw new Error("a feed was found and is not stored");
    return new Uint8Array(row.octets);
  }

  /**
   * One feed of an audience in one form; more forms than are kept make room by going, all but the plain one. No two bodies
   * of a form have one date, however fast they followed one another, and the same body keeps its own.
   */
  save(audience: string, variant: string, { body, etag, modified, until }: RenderedFeed, at: Instant): void {
    const [said] = this.#access
      .sql()
      .exec<{ etag: string; modified: number }>(
        "SELECT etag, modified FROM feeds WHERE audience = ? AND variant = ?",
        audience,
        variant,
      )
      .toArray();
    const isSame = said?.etag === etag;
    // Stamps of events that changed twice in a second are ahead of the clock; a feed is not.
    const date = isSame ? said.modified : Math.max(Math.min(modified, at), (said?.modified ?? -Infinity) + 1);
    const [forms] = this.#access
      .sql()
      .exec<{ count: number }>("SELECT count(*) AS count FROM feeds WHERE audience = ? AND variant <> ''", audience)
      .toArray();
    if (variant !== "" && (forms?.count ?? 0) >= FEED_VARIANTS_MAX) {
      this.#access.write("DELETE FROM feeds WHERE audience = ? AND variant <> ''", audience);
    }
    const octets = new TextEncoder().encode(body).buffer as ArrayBuffer;
    this.#access.write(
      "INSERT OR REPLACE INTO feeds (audience, variant, etag, modified, until, octets) VALUES (?, ?, ?, ?, ?, ?)",
      audience,
      variant,
      etag,
      date,
      until,
      octets,
    );
  }

  /** What is stored of an audience's feeds is not said any more: only when it was said is kept. */
  drop(audience: string): void {
    this.#access.write("UPDATE feeds SET until = 0, octets = x'' WHERE audience = ?", audience);
  }

  /** An audience that is no more. */
  remove(audience: string): void {
    this.#access.write("DELETE FROM feeds WHERE audience = ?", audience);
  }

  dropAll(): void {
    this.#access.write("UPDATE feeds SET until = 0, octets = x''");
  }
}
