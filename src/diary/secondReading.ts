/**
 * Which rules are read a second time, and how. Plain rules are not: every reader measured agrees about them. A class where
 * the second reader was measured to be wrong is not put before it either: it would only spoil a right answer.
 */
import { type Day, dayOf, type Wall } from "../time/instant.ts";
import { expandAgain } from "./expandAgain.ts";
import { expandRule, type Steps } from "./expandRule.ts";
import type { Rule } from "./parseRule.ts";
import { datePartsOf } from "./ruleDays.ts";

/** The question that expandRule.ts has answered. */
export interface RuleQuestion {
  readonly rule: Rule;
  readonly start: Wall;
  readonly until: Wall | null;
  readonly from: Wall;
  readonly to: Wall;
  readonly startCounts: boolean;
}

export type SecondReader = "none" | "month-of-start" | "again";

/**
 * `FREQ=YEARLY;BYMONTHDAY=7` without a month: by the table of RFC 5545 §3.3.10 the 7th of every month, as most libraries
 * have it; by "information not contained in the rule" of the same section the month of the start, as libical, ical.js and
 * the calendars that write such birthdays have it.
 */
const leavesMonthOpen = ({ freq, by }: Rule): boolean =>
  freq === "YEARLY" && by.has("BYMONTHDAY") && !by.has("BYMONTH") && !by.has("BYYEARDAY") && !by.has("BYWEEKNO");

/** Whether the week of a day may belong to the year before or after. */
const isNearNewYear = (day: Day): boolean => {
  const { month, dayOfMonth } = datePartsOf(day);
  return (month === 1 && dayOfMonth <= 6) || (month === 12 && dayOfMonth >= 26);
};

/**
 * Which reader is asked beside the first.
 * @param start the day of DTSTART
 */
export const secondReaderOf = (rule: Rule, start: Day): SecondReader => {
  const { freq, by, byDay, count } = rule;
  if (rule.skip !== "OMIT") return "none";
  if (leavesMonthOpen(rule)) return "month-of-start";
  const counted = byDay.some(({ ordinal }) => ordinal !== 0);
  const dayParts = [...DAY_PARTS].filter((part) => by.has(part)).length + (byDay.length > 0 ? 1 : 0);
  // The second reader joins these lists where the standard has them narrow each other.
  if (freq === "YEARLY" && by.has("BYYEARDAY") && dayParts > 1) return "none";
  if (freq === "YEARLY" && by.has("BYMONTHDAY") && (by.has("BYWEEKNO") || counted)) return "none";
  // It loses the week of a start that belongs to another year.
  if (by.has("BYWEEKNO") && isNearNewYear(start)) return "none";
  const isPlainMonth = freq === "MONTHLY" && [...by.keys()].every((part) => part === "BYMONTHDAY");
  if (isPlainMonth) return "none";
  const isWeak =
    counted ||
    by.has("BYSETPOS") ||
    by.has("BYWEEKNO") ||
    by.has("BYYEARDAY") ||
    by.get("BYMONTHDAY")?.some((day) => day < 0) ||
    (count !== null && by.size > 0);
  return isWeak ? "again" : "none";
};

const DAY_PARTS = ["BYMONTHDAY", "BYYEARDAY", "BYWEEKNO"] as const;

/** Whether the rule means its start by itself. A rule without parts takes everything from it. */
const namesStart = ({ rule, start }: RuleQuestion, steps: Steps): boolean => {
  if (rule.by.size === 0 && rule.byDay.length === 0) return true;
  const walls = expandRule({ ...rule, count: null }, start, null, start, start + 1, undefined, steps, false);
  return typeof walls === "string" || walls.length > 0;
};

/** The second answer; undefined where nobody else is asked or the other gave up. */
export const secondReading = (question: RuleQuestion, steps: Steps): readonly Wall[] | undefined => {
  const { rule, start, until, from, to, startCounts } = question;
  const reader = secondReaderOf(rule, dayOf(start));
  // A start that its rule does not name "counts as the first occurrence" (RFC 5545 §3.3.10), but its set is "undefined"
  // (§3.8.5.3): Google's calendar, libical and dateutil give COUNT occurrences of the rule besides the start.
  if (reader !== "month-of-start" && startCounts && rule.count !== null && !namesStart(question, steps)) {
    const walls = expandRule({ ...rule, count: rule.count + 1 }, start, until, from, to, undefined, steps);
    return typeof walls === "string" ? undefined : walls;
  }
  if (reader === "none") return undefined;
  if (reader === "again") return startCounts ? expandAgain(rule, start, until, from, to, steps) : undefined;
  const { month } = datePartsOf(dayOf(start));
  const narrowed = { ...rule, by: new Map(rule.by).set("BYMONTH", [month]) };
  const walls = expandRule(narrowed, start, until, from, to, undefined, steps, startCounts);
  return typeof walls === "string" ? undefined : walls;
};
