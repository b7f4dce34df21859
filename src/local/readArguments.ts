/** What `npm run read` is asked to do, from its arguments. A wrong one is named with its value, the limit and the remedy. */
import { WINDOW_YEARS_MAX } from "../bounds.ts";
import { formatDay, parseDay } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { CALENDAR_ENDINGS } from "./calendarSources.ts";
import type { DayWindow } from "./readCalendar.ts";

export interface ReadRequest {
  /** Files, folders, addresses, or "-" for what is piped in. */
  readonly sources: readonly string[];
  /** In which floating times and dates are read. */
  readonly zone: Zone;
  readonly zoneGiven: boolean;
  /** Days in that zone, the last not included. */
  readonly window: DayWindow | null;
  readonly json: boolean;
  readonly allowLocal: boolean;
}

export type Asked =
  | { readonly kind: "read"; readonly request: ReadRequest }
  | { readonly kind: "help" }
  | { readonly kind: "wrong"; readonly text: string };

export const USAGE = `Reads any iCalendar file and says what was understood, what was not, and why.

  npm run -s read -- FILE|FOLDER|URL ... [--zone ZONE] [--from DATE --to DATE] [--json]

  FILE          a calendar; - reads what is piped in
  FOLDER        every ${CALENDAR_ENDINGS} file in it and below
  URL           http(s) or webcal(s), asked once; --allow-local lets it be of this
                machine or a private network
  --zone ZONE   IANA name of the zone of dates, and of times that name none;
                UTC if it is not given, never this machine's own
  --from --to   dates in that zone, the last not included: adds what occurs between
  --json        one object a file, one a line

Exit status: 0 all was understood (an entry that the file itself repeats or replaces
costs nothing); 1 an entry is not certain or was skipped; 2 a file was refused or
not found, or the command was not understood.
`;

const VALUED = new Set(["--zone", "--from", "--to"]);
const PLAIN = new Set(["--json", "--allow-local", "--help", "-h"]);

const wrong = (text: string): Asked => ({ kind: "wrong", text });

/** @param args as given after the command */
export const readArguments = (args: readonly string[]): Asked => {
  const values = new Map<string, string>();
  const sources: string[] = [];
  for (let at = 0; at < args.length; at++) {
    const written = args[at] as string;
    if (!written.startsWith("-") || written === "-") {
      sources.push(written);
      continue;
    }
    const [name = "", ...rest] = written.split("=");
    const inline = written.includes("=") ? rest.join("=") : undefined;
    if (!VALUED.has(name) && !(PLAIN.has(name) && inline === undefined)) {
      return wrong(`${written} is no option of this command; leave it out, or see --help for those there are.`);
    }
    if (values.has(name)) return wrong(`${name} is given twice; give it once.`);
    const value = VALUED.has(name) ? (inline ?? args[++at]) : "";
    if (value === undefined || (value.startsWith("--") && VALUED.has(name))) {
      return wrong(
        `${name} has no value; write one after it, such as ${name} ${name === "--zone" ? "Europe/London" : "2026-12-01"}.`,
      );
    }
    values.set(name, value);
  }
  if (values.has("--help") || values.has("-h")) return { kind: "help" };
  const zoneName = values.get("--zone") ?? "UTC";
  const zone = Zone.named(zoneName);
  if (!zone)
    return wrong(`--zone is "${zoneName}": it must be the name of an IANA time zone; write one such as Europe/London.`);
  const window = windowOf(values.get("--from"), values.get("--to"));
  if (typeof window === "string") return wrong(window);
  if (sources.length === 0)
    return wrong("no calendar is named; give a file, a folder or an address, or - for what is piped in.");
  const json = values.has("--json");
  const allowLocal = values.has("--allow-local");
  return { kind: "read", request: { sources, zone, zoneGiven: values.has("--zone"), window, json, allowLocal } };
};

const windowOf = (from: string | undefined, to: string | undefined): ReadRequest["window"] | string => {
  if (from === undefined && to === undefined) return null;
  if (from === undefined || to === undefined) {
    const [given, missing] = from === undefined ? ["--to", "--from"] : ["--from", "--to"];
    return `${given} is given without ${missing}; give both, or neither.`;
  }
  const [first, last] = [parseDay(from), parseDay(to)];
  for (const [name, text, day] of [
    ["--from", from, first],
    ["--to", to, last],
  ] as const) {
    if (day === undefined)
      return `${name} is "${text}": it must be a date that the calendar has; write one such as 2026-12-01.`;
  }
  if (first === undefined || last === undefined || first >= last) {
    return `--to is ${to}: it must be later than --from, ${from}; the last day is not included.`;
  }
  if (last - first > WINDOW_YEARS_MAX * 366) {
    return `--from ${from} and --to ${formatDay(last)} are more than ${WINDOW_YEARS_MAX} years apart; ask for fewer at once.`;
  }
  return { from: first, to: last };
};
