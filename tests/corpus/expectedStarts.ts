/**
 * expected.tsv → what each entry's start should be, and by whose word. Columns: file, uid, recurrence_id, dtstart_line,
 * expected_start, node_ical_start, verdict. Starts: ISO (an instant), `F:` (floating; read here in UTC), `D:` (a date), `U:`
 * (a zone that nobody could resolve), `STR:` (no date at all), `NONE` (no start), `ERR:` and empty (that reader refused).
 */
import { SHOWN_WRONG } from "./shownWrong.ts";
import { startByIcu } from "./startByIcu.ts";

export interface Expected {
  readonly uid: string;
  readonly line: string;
  readonly verdict: string;
  /** `…Z`, `D:…` or `NONE`; null where nobody can say, so that a certain start would be wrong. */
  readonly start: string | null;
  readonly by: "two readers" | "one reader" | "ICU" | "the bytes";
}

export interface ExpectedFile {
  readonly entries: readonly Expected[];
  /** Rows of events that one reader made up: the text has fewer. */
  readonly madeUp: number;
}

/** The zone and the digits that a DTSTART line shows. */
const partsOf = (line: string): { readonly zone: string; readonly digits: string } | undefined => {
  const parts = /;TZID=(?:"([^"]*)"|([^;:]*)):(\d{8}T\d{6})$/.exec(line);
  return parts ? { zone: parts[1] ?? parts[2] ?? "", digits: parts[3] as string } : undefined;
};

const plainStart = (text: string): string | null => {
  if (text.startsWith("F:")) return `${text.slice(2)}Z`;
  if (/^(?:U:|STR:|ERR:|$)/.test(text)) return null;
  return text.replace(/\.000Z$/, "Z");
};

const expect = (row: readonly string[]): Expected => {
  const [file = "", uid = "", , line = "", agreed = "", first = "", verdict = ""] = row.map((cell) => cell.trim());
  const about = { uid, line, verdict };
  const known = SHOWN_WRONG.find((each) => each.file === file && each.uid === uid);
  if (known && (line === known.line || line === "" || line.endsWith("::"))) {
    if ("start" in known.is) return { ...about, start: known.is.start, by: "the bytes" };
    const start = startByIcu(partsOf(known.line)?.digits ?? "", known.is.zone);
    return { ...about, start: start ?? null, by: "ICU" };
  }
  if (verdict === "VTIMEZONE_DIFFERS_FROM_IANA") {
    const parts = partsOf(line);
    return { ...about, start: (parts && startByIcu(parts.digits, parts.zone)) ?? null, by: "ICU" };
  }
  const isOneReader = agreed === "" || agreed.startsWith("ERR:");
  return { ...about, start: plainStart(isOneReader ? first : agreed), by: isOneReader ? "one reader" : "two readers" };
};

/** By file. */
export const expectedStarts = (table: string): ReadonlyMap<string, ExpectedFile> => {
  const rows = table
    .split("\n")
    .slice(1)
    .filter((line) => line !== "")
    .map((line) => line.split("\t"));
  const files = new Map<string, ExpectedFile>();
  for (const [file, all] of Map.groupBy(rows, ([name = ""]) => name)) {
    const verdictOf = (row: readonly string[]): string => row[6]?.trim() ?? "";
    // THROWS is one row of the whole file: it says how the first reader failed.
    const entries = all.filter((row) => !/^(?:THROWS|EXTRA)/.test(verdictOf(row))).map(expect);
    files.set(file, { entries, madeUp: all.filter((row) => verdictOf(row).startsWith("EXTRA")).length });
  }
  return files;
};
