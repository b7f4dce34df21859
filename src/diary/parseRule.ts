/**
 * RRULE text (RFC 5545 §3.3.10, RFC 7529 §4.1) → a rule with every part checked. Refuses what the standard forbids and
 * readers read differently. Never expands.
 */
import { RULE_TIMES_MAX } from "../bounds.ts";

export type RuleFault = "rule-not-read" | "rule-too-dense" | "rule-not-supported";

const FREQUENCIES = ["YEARLY", "MONTHLY", "WEEKLY", "DAILY", "HOURLY", "MINUTELY", "SECONDLY"] as const;
export type Frequency = (typeof FREQUENCIES)[number];
/** What becomes of a date that its month or year does not have (RFC 7529 §4.1). */
export type Skip = "OMIT" | "BACKWARD" | "FORWARD";

export interface RuleWeekday {
  /** ISO: 1 Monday … 7 Sunday. */
  readonly weekday: number;
  /** Which of the month or year, from its end where negative; 0 for every one. */
  readonly ordinal: number;
}

export interface Rule {
  readonly freq: Frequency;
  readonly interval: number;
  readonly count: number | null;
  /** As written: a date, a local time or a UTC time. */
  readonly until: string | null;
  /** ISO weekday that a week begins with. */
  readonly weekStart: number;
  readonly byDay: readonly RuleWeekday[];
  /** BYMONTH, BYMONTHDAY … with their numbers in order, each once. */
  readonly by: ReadonlyMap<NumericPart, readonly number[]>;
  readonly skip: Skip;
}

/** In the order of ISO weekdays. */
export const WEEKDAYS: readonly string[] = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];

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
const isFrequency = (name: string): name is Frequency => (FREQUENCIES as readonly string[]).includes(name);

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

const wholeNumber = (text: string): number => (/^[+-]?\d{1,15}$/.test(text) ? Number(text) : Number.NaN);

const readNumbers = (name: NumericPart, text: string): number[] | undefined => {
  const { least, most, signed } = RANGES[name];
  const numbers = new Set<number>();
  for (const piece of text.split(",")) {
    const number = wholeNumber(piece.trim());
    const size = signed ? Math.abs(number) : number;
    if (!(size >= least && size <= most)) return undefined;
    // A leap second counts as the second before it (RFC 5545 §3.3.12).
    numbers.add(name === "BYSECOND" ? Math.min(number, 59) : number);
  }
  return [...numbers].toSorted((first, second) => first - second);
};

const readWeekdays = (text: string): RuleWeekday[] | undefined => {
  const days = new Map<string, RuleWeekday>();
  for (const piece of text.split(",")) {
    const parts = /^([+-]?\d{1,2})?(MO|TU|WE|TH|FR|SA|SU)$/.exec(piece.replace(/\s/g, ""));
    if (!parts) return undefined;
    const ordinal = Number(parts[1] ?? 0);
    if ((parts[1] !== undefined && ordinal === 0) || Math.abs(ordinal) > 53) return undefined;
    const weekday = WEEKDAYS.indexOf(parts[2] as string) + 1;
    days.set(`${ordinal} ${weekday}`, { weekday, ordinal });
  }
  return [...days.values()];
};

const OTHERS = new Set(["FREQ", "INTERVAL", "COUNT", "UNTIL", "WKST", "RSCALE", "SKIP"]);

/** Reads a rule, or says why not. */
export const parseRule = (text: string): Rule | RuleFault => {
  const parts = splitParts(text);
  const freq = parts?.get("FREQ");
  if (!parts || freq === undefined || !isFrequency(freq)) return "rule-not-read";
  // Another calendar first: its months have other numbers.
  const skip = readSkip(parts);
  if (skip === undefined) return "rule-not-supported";

  let byDay: RuleWeekday[] = [];
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
    } else if (!OTHERS.has(name) && !name.startsWith("X-")) return "rule-not-supported";
  }

  const interval = wholeNumber(parts.get("INTERVAL") ?? "1");
  const written = parts.get("COUNT");
  const count = written === undefined ? null : wholeNumber(written);
  const countFails = count !== null && !(count >= 1);
  const weekStart = WEEKDAYS.indexOf(parts.get("WKST") ?? "MO") + 1;
  if (!(interval >= 1) || countFails || weekStart === 0) return "rule-not-read";
  const rule = { freq, interval, count, until: parts.get("UNTIL") ?? null, weekStart, byDay, by, skip };
  if (isForbidden(rule)) return "rule-not-supported";
  return timesOfDay(rule) > RULE_TIMES_MAX ? "rule-too-dense" : rule;
};

/** Undefined for another calendar than the Gregorian, and for no word of RFC 7529. */
const readSkip = (parts: ReadonlyMap<string, string>): Skip | undefined => {
  if ((parts.get("RSCALE") ?? "GREGORIAN") !== "GREGORIAN") return undefined;
  const skip = parts.get("SKIP") ?? "OMIT";
  return skip === "OMIT" || skip === "BACKWARD" || skip === "FORWARD" ? skip : undefined;
};

/**
 * Parts that RFC 5545 §3.3.10 forbids beside this FREQ: readers ignore them, or limit by them, or expand. And dates that
 * are to be moved (SKIP) together with parts of which RFC 7529 leaves open whether they see the date before or after it.
 */
const isForbidden = ({ freq, by, byDay, skip }: Rule): boolean => {
  const byDate = freq === "YEARLY" || freq === "MONTHLY";
  if (byDay.some(({ ordinal }) => ordinal !== 0) && (!byDate || by.has("BYWEEKNO"))) return true;
  if (by.has("BYWEEKNO") && freq !== "YEARLY") return true;
  if (by.has("BYYEARDAY") && (freq === "DAILY" || freq === "WEEKLY" || freq === "MONTHLY")) return true;
  if (by.has("BYMONTHDAY") && freq === "WEEKLY") return true;
  return skip !== "OMIT" && (!byDate || byDay.length > 0 || by.has("BYWEEKNO") || by.has("BYSETPOS"));
};

const timesOfDay = ({ by }: Rule): number => {
  const size = (name: NumericPart): number => by.get(name)?.length ?? 1;
  return size("BYHOUR") * size("BYMINUTE") * size("BYSECOND");
};
