/** Records as a table: which columns there are, and what stands in each. Written for the log, read for earlier results. */
import { REACTION_HEADINGS, type Recorded } from "../salon/types.ts";
import { formatInstant } from "../time/instant.ts";
import type { Cell } from "./writeCsv.ts";

/** Of the person a record is of. */
export interface Named {
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
}

const RECORD_COLUMNS = [
  "client",
  "booking",
  "kind",
  "at",
  "outcome",
  "route",
  "by",
  "via",
  "product",
  "shade",
  "batch",
  "site",
  "photo",
  "reason",
  "note",
  "corrects",
] as const;
const CLIENT_COLUMNS = ["clientName", "clientEmail", "clientPhone"] as const;
const REACTION_COLUMNS = REACTION_HEADINGS.map((heading) => `reaction.${heading}`);
/** What the salon itself adds to a record: in an import it is left out of account. */
const ADDED_COLUMNS = ["id", "correctedBy", "recorded", "zone", "settings", "protocol", "duration", "source"] as const;
const SHOWN_COLUMNS = ["questions", "words"] as const;

/** Every column of the log, in this order. */
export const LOG_COLUMNS: readonly string[] = [
  "id",
  ...CLIENT_COLUMNS,
  ...RECORD_COLUMNS,
  "correctedBy",
  "recorded",
  "zone",
  "settings",
  "protocol",
  "duration",
  "source",
  ...SHOWN_COLUMNS,
  ...REACTION_COLUMNS,
];

export const IGNORED_COLUMNS: ReadonlySet<string> = new Set(ADDED_COLUMNS);

/** @param correctedBy the id of the correction that set it aside; null: it stands */
export const logRow = (record: Recorded, person: Named | undefined, correctedBy: string | null): readonly Cell[] => {
  const { circumstances, reaction, isLeft: _isLeft, ...said } = record;
  const { rule, ...shown } = circumstances;
  const cells: Readonly<Record<string, Cell>> = {
    ...said,
    ...shown,
    at: formatInstant(record.at),
    recorded: formatInstant(record.recorded),
    correctedBy,
    clientName: person?.name ?? null,
    clientEmail: person?.email ?? null,
    clientPhone: person?.phone ?? null,
    protocol: rule?.protocol ?? null,
    duration: rule?.duration ?? null,
    source: rule?.source ?? null,
    ...Object.fromEntries(REACTION_HEADINGS.map((heading) => [`reaction.${heading}`, reaction?.[heading] ?? null])),
  };
  return LOG_COLUMNS.map((column) => cells[column] ?? null);
};
