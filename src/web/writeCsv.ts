/**
 * Writes a table as CSV (RFC 4180, UTF-8), and the only door to csv-stringify. A cell that a spreadsheet would run as a formula
 * gets an apostrophe before it, which `readCsv` takes off again.
 */
import { stringify } from "csv-stringify/sync";

export type Cell = string | number | null;

/** @param header null: the rows follow others of the same table */
export const writeCsv = (header: readonly string[] | null, rows: readonly (readonly Cell[])[]): string =>
  stringify(header ? [header, ...rows] : [...rows], { record_delimiter: "windows", escape_formulas: true });
