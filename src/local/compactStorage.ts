/**
 * Writes the local storage's files anew before the service starts: what was erased has no row any more, and by this no byte in
 * SQLite's file or its log either. On the platform the files are not ours to write.
 */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { DatabaseSync } from "node:sqlite";

const filesIn = (folder: string): readonly string[] =>
  existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: "utf8" })
        .filter((name) => name.endsWith(".sqlite"))
        .map((name) => join(folder, name))
    : [];

/** @param folder of the storage, which nobody else may have open; a file that is in use is left as it is */
export const compactStorage = (folder: string): void => {
  for (const file of filesIn(folder)) {
    const database = new DatabaseSync(file);
    try {
      database.exec("VACUUM");
      database.exec("PRAGMA wal_checkpoint(TRUNCATE)");
    } catch (error) {
      if (!isBusy(error)) throw error;
    } finally {
      database.close();
    }
  }
};

const isBusy = (error: unknown): boolean => error instanceof Error && /locked|busy/.test(error.message);
