/** The services as rows of fields, one a service, and empty ones for more. */
import type { Settings } from "../../../settings.ts";
import { isAsShown, KINDS } from "./fieldKinds.ts";
import { showField, type Typed } from "./sentFields.ts";

const FIELDS = [
  ["name", KINDS.text],
  ["words", KINDS.lines],
  ["product", KINDS.optional],
  ["shade", KINDS.optionalNumber],
] as const;

const nameOf = (row: number, field: string): string => `service.${row}.${field}`;

export const showServices = (into: Typed, services: Settings["services"]): void => {
  for (const [row, service] of services.entries()) {
    for (const [field, kind] of FIELDS) showField(into, nameOf(row, field), kind, service[field]);
  }
};

/** Numbers of the rows that were sent, in order. */
export const rowsOf = (typed: Typed): readonly number[] => {
  const rows = new Set<number>();
  for (const name of typed.keys()) {
    const row = /^service\.(\d{1,4})\./.exec(name)?.[1];
    if (row !== undefined) rows.add(Number(row));
  }
  return [...rows].toSorted((one, other) => one - other);
};

export interface ServicesRead {
  readonly services: unknown;
  /** Of each service the row it stood in. */
  readonly rows: readonly number[];
}

/** A row that is to go, or in which nothing stands, is no service. */
export const readServices = (typed: Typed, stored: Settings["services"]): ServicesRead => {
  const sent = rowsOf(typed);
  if (sent.length === 0) return { services: stored, rows: [...stored.keys()] };
  const rows = sent.filter((row) => {
    const isBlank = FIELDS.every(([field]) => (typed.get(nameOf(row, field)) ?? "").trim() === "");
    return !isBlank && typed.get(nameOf(row, "gone")) !== "yes";
  });
  return { rows, services: rows.map((row) => readService(typed, row, stored[row])) };
};

const readService = (typed: Typed, row: number, stored: Settings["services"][number] | undefined): unknown => {
  const read = FIELDS.map(([field, kind]) => {
    const sent = typed.getAll(nameOf(row, field));
    const isSame = stored !== undefined && isAsShown(sent, kind.show(stored[field]), kind);
    return [field, isSame ? stored[field] : kind.read(sent)] as const;
  });
  return Object.fromEntries(read);
};
