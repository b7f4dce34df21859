/** The door for imported records: a table of text becomes records, line by line; a bad line costs itself. */
import * as z from "zod";
import { ERRORS_MAX, IMPORT_LINES_MAX } from "../bounds.ts";
import type { ImportLine, RefusedLine } from "../salon/importRecords.ts";
import { newClient } from "./clientDoors.ts";
import { factDraftOf, salonRecord } from "./doors.ts";
import { optional } from "./fields.ts";
import type { RequestError, RequestFault } from "./problems.ts";
import { check } from "./readBody.ts";
import { type CsvFault, type CsvRead, readCsv } from "./readCsv.ts";
import { IGNORED_COLUMNS, LOG_COLUMNS } from "./logColumns.ts";

/** A line's cells once empty ones are gone: all text, a number where one is meant. */
const importLine = salonRecord
  .extend({
    at: salonRecord.shape.at.unwrap(),
    shade: optional(z.coerce.number().min(1).max(10)),
    questions: optional(z.coerce.number().int().positive()),
    clientName: newClient.shape.name.optional(),
    clientEmail: newClient.shape.email,
    clientPhone: newClient.shape.phone,
  })
  .refine(
    ({ clientName, clientEmail, clientPhone }) => clientName !== undefined || (clientEmail ?? clientPhone) === null,
    {
      path: ["clientName"],
      error: "must be given beside clientEmail and clientPhone; write the name that they are of",
    },
  )
  .transform(({ client, clientName, clientEmail, clientPhone, ...record }) => ({
    client,
    record,
    person: clientName === undefined ? null : { name: clientName, email: clientEmail, phone: clientPhone },
  }));

export interface ImportRead {
  readonly lines: readonly ImportLine[];
  readonly refused: readonly RefusedLine[];
}

/** @param text without a byte order mark */
export const readImport = (
  text: string,
): { readonly ok: true; readonly value: ImportRead } | { readonly ok: false; readonly fault: RequestFault } => {
  const table = readCsv(text);
  const named = namesOf(table);
  const errors = faultsOfHeader(named, table);
  if (errors.length > 0) return { ok: false, fault: { code: "request-refused", errors } };
  const [written = ""] = [...named].find(([, name]) => name === "id") ?? [];
  const lines: ImportLine[] = [];
  const refused: RefusedLine[] = [];
  for (const row of table.lines) {
    const { line } = row;
    if ("fault" in row) {
      refused.push({ line, reason: { code: row.fault, text: CSV_FAULTS[row.fault] } });
      continue;
    }
    const cells = cellsOf(row.fields, named);
    const read = check(cells, importLine, masked(cells));
    if (read.ok) {
      const { client, record, person } = read.value;
      const id = row.fields[written]?.trim() || null;
      lines.push({ line, id, draft: factDraftOf(record, client, record.at), person });
    } else {
      const found = read.fault.code === "request-refused" ? read.fault.errors : [];
      refused.push({ line, reason: { code: "line-refused", text: found.map((error) => error.text).join(" ") } });
    }
  }
  return { ok: true, value: { lines, refused } };
};

/** Columns as the file writes them, by what they are here. */
const namesOf = ({ header }: CsvRead): ReadonlyMap<string, string | undefined> => {
  const known = new Map(LOG_COLUMNS.map((name) => [name.toLowerCase(), name]));
  return new Map(header.map((name) => [name, known.get(name.toLowerCase())]));
};

/** Columns of codes, which a hand-made table may write with a capital, and of ids; both with blanks around them. */
const CODES: ReadonlySet<string> = new Set(["kind", "outcome", "route", "via"]);
const IDS: ReadonlySet<string> = new Set(["client", "at", "corrects"]);

const cellsOf = (
  fields: Readonly<Record<string, string>>,
  names: ReadonlyMap<string, string | undefined>,
): Readonly<Record<string, unknown>> => {
  const cells: Record<string, unknown> = {};
  const reaction: Record<string, string> = {};
  for (const [written, value] of Object.entries(fields)) {
    const name = names.get(written) ?? "";
    if (value.trim() === "" || IGNORED_COLUMNS.has(name)) continue;
    if (name.startsWith("reaction.")) reaction[name.slice("reaction.".length)] = value;
    else cells[name] = CODES.has(name) ? value.trim().toLowerCase() : IDS.has(name) ? value.trim() : value;
  }
  return Object.keys(reaction).length > 0 ? { ...cells, reaction } : cells;
};

/** What is said back of a line: how long a cell is, but never a word of it, since a shifted column puts a name anywhere. */
const masked = (cells: Readonly<Record<string, unknown>>): unknown =>
  JSON.parse(
    JSON.stringify(cells, (_key, value: unknown) => (typeof value === "string" ? wordsAsLongAs(value) : value)),
  );

const wordsAsLongAs = ({ length }: string): string => "some words".padEnd(length, ".");

const CSV_FAULTS: Readonly<Record<CsvFault, string>> = {
  "too-many-fields":
    "This line has more cells than the first line has columns. Put a cell with a comma in it in quotation marks.",
  "too-few-fields":
    "This line has fewer cells than the first line has columns. Leave a cell empty, but keep its comma.",
  "quote-not-closed":
    "A quotation mark that is opened here is never closed, so nothing after it can be told apart. Close it and send the file again.",
};

const columnError = (at: string, limit: string, remedy: string): RequestError => ({
  at,
  value: null,
  limit,
  remedy,
  text: `${at} must be ${limit}; ${remedy}.`,
});

/** What is wrong with the first line, or with the size of the table: then no line can be read. */
const faultsOfHeader = (names: ReadonlyMap<string, string | undefined>, table: CsvRead): readonly RequestError[] => {
  const { header, lines } = table;
  const errors: RequestError[] = [];
  const found = [...names.values()].filter((name) => name !== undefined);
  for (const [at, written] of header.entries()) {
    // A first line that is none may hold a person's name: the column is told by its place.
    if (names.get(written) === undefined && errors.length < ERRORS_MAX) {
      errors.push(columnError(`column ${at + 1}`, `one of ${LOG_COLUMNS.join(", ")}`, "rename it, or take it out"));
    }
  }
  if (header.length !== names.size || new Set(found).size < found.length) {
    errors.push(columnError("the first line", "column names, each once", "take out what stands there twice"));
  }
  for (const name of ["kind", "at"]) {
    if (!found.includes(name)) errors.push(columnError(name, "a column of the first line", "add it"));
  }
  if (!["client", "clientName", "booking"].some((name) => found.includes(name))) {
    errors.push(columnError("clientName", "a column of the first line, or client, or booking", "add one of them"));
  }
  if (lines.length > IMPORT_LINES_MAX) {
    errors.push(columnError("the file", `at most ${IMPORT_LINES_MAX} lines`, "send it in parts"));
  }
  return errors.slice(0, ERRORS_MAX);
};
