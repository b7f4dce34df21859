/**
 * The tables of one salon, in the SQLite of its Durable Object. DEVELOPERS.md says what each holds and how to change it.
 * Rows hold JSON beside the columns that are searched by; a long text is kept in parts of PART_MAX_CHARACTERS, since a row holds 2 MB.
 */

/** Raise it with every change below, and add the step from the version before to MIGRATIONS. */
export const SCHEMA_VERSION = 7;

const VERSION_1 = `
  CREATE TABLE meta (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE settings (version INTEGER PRIMARY KEY, at INTEGER NOT NULL, json TEXT NOT NULL);
  CREATE TABLE keys (hash TEXT PRIMARY KEY, at INTEGER NOT NULL) WITHOUT ROWID;
  CREATE TABLE clients (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE bookings (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE facts (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE events (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE diaries (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE blocks (diary TEXT NOT NULL, uid TEXT NOT NULL, part INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (diary, uid, part)) WITHOUT ROWID;
  CREATE TABLE held (diary TEXT NOT NULL, uid TEXT NOT NULL, part INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (diary, uid, part)) WITHOUT ROWID;
  CREATE TABLE feeds (audience TEXT NOT NULL, part INTEGER NOT NULL, etag TEXT NOT NULL, modified INTEGER NOT NULL, text TEXT NOT NULL, PRIMARY KEY (audience, part)) WITHOUT ROWID;
`;

/** Skin tests that stand in the diary; questions as they were shown, what was answered, and the consent to keep it. */
const VERSION_2 = `
  CREATE TABLE tests (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE questions (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE screenings (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE consents (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
`;

/** What the blocks read as, apart from their text, so that an unchanged diary is told from a few short columns. */
const VERSION_3 = `
  CREATE TABLE reads (diary TEXT NOT NULL, uid TEXT NOT NULL, part INTEGER NOT NULL, hash TEXT NOT NULL, first INTEGER NOT NULL, last INTEGER NOT NULL, count INTEGER NOT NULL, day INTEGER NOT NULL, read_by TEXT NOT NULL, sorted_by TEXT NOT NULL, text TEXT NOT NULL, PRIMARY KEY (diary, uid, part)) WITHOUT ROWID;
`;

/** What people have said of entries that the words did not settle. */
const VERSION_4 = `
  CREATE TABLE answers (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
`;

/**
 * Feeds in every form they were asked for in. Each is below what a row holds; with a rowid, and its octets last, a row's
 * short columns are read without them. What was stored before is made anew when it is asked for.
 */
const VERSION_5 = `
  DROP TABLE feeds;
  CREATE TABLE feeds (audience TEXT NOT NULL, variant TEXT NOT NULL, etag TEXT NOT NULL, modified INTEGER NOT NULL, until INTEGER, octets BLOB NOT NULL, PRIMARY KEY (audience, variant));
`;

/** Who a client turned out to be and what she asked for; requests that were answered, so that the same one is answered alike. */
const VERSION_6 = `
  CREATE TABLE deeds (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
  CREATE TABLE answered (key TEXT NOT NULL, part INTEGER NOT NULL, at INTEGER NOT NULL, print TEXT NOT NULL, client TEXT, json TEXT NOT NULL, PRIMARY KEY (key, part)) WITHOUT ROWID;
  CREATE TABLE erased (id TEXT PRIMARY KEY, json TEXT NOT NULL) WITHOUT ROWID;
`;

/** Whom the link to her page was given, and whether it was ever opened. */
const VERSION_7 = `
  CREATE TABLE links (client TEXT PRIMARY KEY, generation INTEGER NOT NULL, given INTEGER, opened INTEGER) WITHOUT ROWID;
`;

/** The step that makes version n+1 of version n stands at index n. */
const MIGRATIONS: readonly string[] = [VERSION_1, VERSION_2, VERSION_3, VERSION_4, VERSION_5, VERSION_6, VERSION_7];

/** Brings a salon's storage to the present version; a store newer than this code is left alone and refused. */
export const migrate = (sql: SqlStorage): void => {
  const known = sql.exec("SELECT name FROM sqlite_master WHERE type = 'table' AND name = 'meta'").toArray().length > 0;
  const stored = known
    ? Number(sql.exec("SELECT value FROM meta WHERE name = 'schema'").toArray()[0]?.["value"] ?? 0)
    : 0;
  if (stored > SCHEMA_VERSION) {
    throw new Error(
      `this store has schema ${stored}, newer than the ${SCHEMA_VERSION} this code knows: deploy newer code`,
    );
  }
  for (let version = stored; version < SCHEMA_VERSION; version++) sql.exec(MIGRATIONS[version] as string);
  if (stored !== SCHEMA_VERSION) {
    sql.exec("INSERT OR REPLACE INTO meta VALUES ('schema', ?)", String(SCHEMA_VERSION));
  }
};
