/** All that a salon's object stores, as text: every row of every table. */
import { runInDurableObject } from "cloudflare:test";
import { objectOf, type TestSalon } from "./client.ts";

/** Tables by name, each with its rows as text; octets are read as UTF-8. */
export const storedTexts = (salon: TestSalon): Promise<ReadonlyMap<string, readonly string[]>> =>
  runInDurableObject(objectOf(salon), (_instance, state) => {
    const tables = state.storage.sql
      .exec<{ name: string }>(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '\\_cf%' ESCAPE '\\'",
      )
      .toArray();
    return new Map(
      tables.map(({ name }) => {
        const rows = state.storage.sql.exec(`SELECT * FROM "${name}"`).toArray();
        return [name, rows.map((row) => Object.values(row).map(asText).join("\n"))];
      }),
    );
  });

const asText = (value: unknown): string =>
  value instanceof ArrayBuffer ? new TextDecoder().decode(value) : String(value);

/** The tables in which a word is found, whatever its case. */
export const findStored = async (salon: TestSalon, word: string): Promise<readonly string[]> => {
  const tables = await storedTexts(salon);
  const isIn = (text: string): boolean => text.toLowerCase().includes(word.toLowerCase());
  return [...tables].filter(([, rows]) => rows.some(isIn)).map(([name]) => name);
};
