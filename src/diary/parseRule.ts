/**
 * RRULE text (RFC 5545 §3.3.10) → a rule with every part checked. Refuses, before anything is expanded, rules that no
 * appointment follows and that could keep an engine busy for ever. Never expands.
 */
import { RULE_PARTS_MAX, RULE_TIMES_MAX } from "../bounds.ts";

export type RuleFault = "rule-not-read" | "rule-too-dense" | "rule-not-supported";
export type Frequency = "YEARLY" | "MONTHLY" | "WEEKLY" | "DAILY" | "HOURLY";

export interface Rule {
  readonly freq: Frequency;
  readonly interval: number;
  readonly count: number | null;
  /** As written: a date, a local time or a UTC time. */
  readonly until: string | null;
  readonly weekStart: string;
  readonly byDay: readonly string[];
  /** BYMONTH, BYMONTHDAY … with their numbers, each once. */
  readonly by: ReadonlyMap<NumericPart, readonly number[]>;
}

const FREQUENCIES: readonly string[] = ["YEARLY", "MONTHLY", "WEEKLY", "DAILY", "HOURLY"];
const WEEKDAYS: readonly string[] = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];

/** Least and greatest value of each part; `signed` parts also count from the end, and have no zero. */
const RANGES = {
  BYSECOND: { least: 0, most: 60, signed: false },
  BYMINUTE: { least: 0, most: 59, signed: false },
  BYHOUR: { least: 0, most: 23, signed: false },
  BYMONTHDAY: { least: 1, most: 31, signed: true },
  BYYEARDAY: { least: 1, most: 366, signed: true },
  BYWEEKNO: { least: 1, most: 53, signed: true },
  BYMONTH: { least: 1, most: 12, signed: false },
  BYSETPOS: { least: 1, most: 366, signed: true },
} as const;
export type NumericPart = keyof typeof RANGES;

const isNumericPart = (name: string): name is NumericPart => Object.hasOwn(RANGES, name);

/** Parts by name; undefined where the text is no list of NAME=VALUE or names a part twice. */
const splitParts = (text: string): Map<string, string> | undefined => {
  const parts = new Map<string, string>();
  for (const piece of text.trim().toUpperCase().split(";")) {
    if (piece.trim() === "") continue;
    const equals = piece.indexOf("=");
    const name = piece.slice(0, equals).trim();
    if (equals < 1 || parts.has(name)) return undefined;
    parts.set(name, piece.slice(equals + 1).trim());
  }
  return parts;
};

const wholeNumber = (text: string): number => (/^[+-]?\d{1,9}$/.test(text) ? Number(text) : Number.NaN);

const readNumbers = (name: NumericPart, text: string): number[] | undefined => {
  const { least, most, signed } = RANGES[name];
  const numbers = new Set<number>();
  for (const piece of text.split(",")) {
    const number = wholeNumber(piece.trim());
    const size = signed ? Math.abs(number) : number;
    if (!(size >= least && size <= most)) return undefined;
    numbers.add(number);
  }
  return [...numbers].toSorted((first, second) => first - second);
};

const readWeekdays = (text: string): string[] | undefined => {
  const days = new Set<string>();
  for (const piece of text.split(",")) {
    const parts = /^([+-]?\d{1,2})?(MO|TU|WE|TH|FR|SA|SU)$/.exec(piece.replace(/\s/g, ""));
    const ordinal = Number(parts?.[1] ?? 1);
    if (!parts || ordinal === 0 || Math.abs(ordinal) > 53) return undefined;
    days.add(`${parts[1] ?? ""}${parts[2]}`);
  }
  return [...days];
};

/** Reads a rule, or says why not. */
export const parseRule = (text: string): Rule | RuleFault => {
  const parts = splitParts(text);
  const freq = parts?.get("FREQ");
  if (!parts || freq === undefined) return "rule-not-read";
  if (freq === "SECONDLY" || freq === "MINUTELY") return "rule-too-dense";
  if (!FREQUENCIES.includes(freq)) return "rule-not-read";

  let byDay: string[] = [];
  const by = new Map<NumericPart, readonly number[]>();
  for (const [name, value] of parts) {
    if (isNumericPart(name)) {
      const numbers = readNumbers(name, value);
      if (!numbers) return "rule-not-read";
      by.set(name, numbers);
    } else if (name === "BYDAY") {
      const days = readWeekdays(value);
      if (!days) return "rule-not-read";
      byDay = days;
    } else if ((name === "RSCALE" && value !== "GREGORIAN") || (name === "SKIP" && value !== "OMIT")) {
      return "rule-not-supported";
    } else if (!KNOWN.has(name) && !name.startsWith("X-")) return "rule-not-supported";
  }

  const interval = wholeNumber(parts.get("INTERVAL") ?? "1");
  const count = parts.has("COUNT") ? wholeNumber(parts.get("COUNT") as string) : null;
  const weekStart = parts.get("WKST") ?? "MO";
  const countFails = count !== null && !(count >= 1);
  if (!(interval >= 1) || countFails || !WEEKDAYS.includes(weekStart)) return "rule-not-read";
  if (isTooDense(by, byDay)) return "rule-too-dense";
  return { freq: freq as Frequency, interval, count, until: parts.get("UNTIL") ?? null, weekStart, byDay, by };
};

const KNOWN = new Set(["FREQ", "INTERVAL", "COUNT", "UNTIL", "WKST", "RSCALE", "SKIP"]);

/** Times of day multiply; the lists of days are bounded by their ranges, and their sum by RULE_PARTS_MAX. */
const isTooDense = (by: ReadonlyMap<NumericPart, readonly number[]>, byDay: readonly string[]): boolean => {
  const size = (name: NumericPart): number => by.get(name)?.length ?? 1;
  if (size("BYHOUR") * size("BYMINUTE") * size("BYSECOND") > RULE_TIMES_MAX) return true;
  const listed = [...by.values()].reduce((sum, list) => sum + list.length, byDay.length);
  return listed > RULE_PARTS_MAX;
};
