/**
 * Writes a table as CSV (RFC 4180, UTF-8), and the only door to csv-stringify. A cell that a spreadsheet would run as a formula
 * gets an apostrophe before it, which `readCsv` takes off again.
 */
import { stringify } from "csv-stringify/sync";

/** What a spreadsheet takes for the beginning of a formula, in both widths (OWASP, CSV Injection), behind any apostrophes. */
export const RUNS = /^'*[=+\-@\t\r\n＝＋－＠]/;

export type Cell = string | number | null;

/** @param header null: the rows follow others of the same table */
export const writeCsv = (header: readonly string[] | null, rows: readonly (readonly Cell[])[]): string => {
  const written = rows.map((row) => row.map((cell) => (typeof cell === "string" ? heldBack(cell) : cell)));
  return stringify(header ? [header, ...written] : written, { record_delimiter: "windows", quoted_match: /[\r\n;\t]/ });
};

/** One that is held back already gets another apostrophe, so that taking one off gives what was written. */
const heldBack = (cell: string): string => (RUNS.test(cell) ? `'${cell}` : cell);
