/**
 * Reads a CSV as spreadsheets write it (RFC 4180; commas, semicolons or tabs), and the only door to csv-parse. One bad line costs
 * itself: it comes back with its number and the reason.
 */
import { parse } from "csv-parse/sync";
import { RUNS } from "./writeCsv.ts";

/** A line of the table: its fields by the header's names, or why it cannot be read. `line` counts from 1, the header's. */
export type CsvLine =
  | { readonly line: number; readonly fields: Readonly<Record<string, string>> }
  | { readonly line: number; readonly fault: CsvFault };
export type CsvFault = "too-many-fields" | "too-few-fields" | "quote-not-closed";

export interface CsvRead {
  readonly header: readonly string[];
  readonly lines: readonly CsvLine[];
}

interface Info {
  /** Octets up to the record's end. */
  readonly bytes: number;
}

interface Row {
  readonly line: number;
  readonly record: readonly string[];
}

const DELIMITERS = [",", ";", "\t"] as const;

/** The one that the header has most of. */
const delimiterOf = (text: string): string => {
  const [header = ""] = text.split(/\r\n|\r|\n/, 1);
  const count = (mark: string): number => header.split(mark).length;
  return DELIMITERS.reduce((best, mark) => (count(mark) > count(best) ? mark : best));
};

/** Spreadsheets are kept from running a cell by an apostrophe before it, which is no part of what it says. */
const unquoted = (cell: string): string => (cell.startsWith("'") && RUNS.test(cell) ? cell.slice(1) : cell);

/** @param text without a byte order mark */
export const readCsv = (text: string): CsvRead => {
  const lineOf = lineCounter(text);
  const lines: CsvLine[] = [];
  let before = 0;
  const rows = parse(text, {
    delimiter: delimiterOf(text),
    // A table put together from two has the line ends of both.
    record_delimiter: ["\r\n", "\n", "\r"],
    info: true,
    // A quotation mark inside a cell is what a person wrote; one that is opened and never closed swallows what follows.
    relax_quotes: true,
    relax_column_count: true,
    skip_empty_lines: true,
    skip_records_with_error: true,
    on_skip: () => void lines.push({ line: lineOf(before), fault: "quote-not-closed" }),
    on_record: (row: unknown) => {
      const { info, record } = row as { readonly info: Info; readonly record: readonly string[] };
      const told: Row = { line: lineOf(before), record };
      before = info.bytes;
      // With `info` a row is an object, which the library's types do not know of here.
      return told as unknown as string[];
    },
  }) as unknown as readonly Row[];
  const [first, ...others] = rows;
  const header = (first?.record ?? []).map((name) => name.trim());
  const told = others.flatMap(({ line, record }): CsvLine[] => {
    if (record.every((cell) => cell.trim() === "")) return [];
    if (record.length > header.length) return [{ line, fault: "too-many-fields" }];
    if (record.length < header.length) return [{ line, fault: "too-few-fields" }];
    return [{ line, fields: Object.fromEntries(header.map((name, place) => [name, unquoted(record[place] ?? "")])) }];
  });
  return { header, lines: [...told, ...lines] };
};

/** The line of the first character at or behind an octet that is no line break; asked in ascending order. */
const lineCounter = (text: string): ((octet: number) => number) => {
  const octets = Buffer.from(text);
  let [line, place] = [1, 0];
  return (octet) => {
    while (place < octets.length && (place < octet || isBreak(octets[place]))) {
      // CR LF is one break.
      if (octets[place] === LF || (octets[place] === CR && octets[place + 1] !== LF)) line++;
      place++;
    }
    return line;
  };
};

const [LF, CR] = [10, 13];
const isBreak = (octet: number | undefined): boolean => octet === LF || octet === CR;
