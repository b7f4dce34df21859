/**
 * The only door to rrule-temporal: the wall times of a rule inside a window. Reckons in wall time alone, as if it were UTC,
 * so that no zone, no host and no skipped hour has a say; what a wall time means is the caller's. Every failure of the
 * engine is a fault of that one rule.
 */
import { RRuleTemporal } from "rrule-temporal";
import { Temporal } from "temporal-polyfill";
import { OCCURRENCES_MAX, RECURRENCE_STEPS_MAX } from "../bounds.ts";
import { DAY_SECONDS, HOUR, type Wall } from "../time/instant.ts";
import type { Frequency, NumericPart, Rule } from "./parseRule.ts";

export type ExpandFault = "rule-runs-away" | "too-many-occurrences";

const OPTION_OF = {
  BYSECOND: "bySecond",
  BYMINUTE: "byMinute",
  BYHOUR: "byHour",
  BYMONTHDAY: "byMonthDay",
  BYYEARDAY: "byYearDay",
  BYWEEKNO: "byWeekNo",
  BYMONTH: "byMonth",
  BYSETPOS: "bySetPos",
} as const satisfies Record<NumericPart, string>;

const asUtc = (wall: Wall): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(wall * 1000).toZonedDateTimeISO("UTC");

const STEP_DAYS: Readonly<Partial<Record<Frequency, number>>> = { DAILY: 1, WEEKLY: 7 };

/**
 * The last occurrence of a counted rule that hits every one of its steps: it needs no counting from its beginning, and the
 * engine can start near the window. Undefined for every other rule.
 */
const lastOfPlainCount = (rule: Rule, start: Wall): Wall | undefined => {
  const days = STEP_DAYS[rule.freq];
  if (rule.count === null || days === undefined || rule.by.size > 0 || rule.byDay.length > 0) return undefined;
  return start + (rule.count - 1) * rule.interval * days * DAY_SECONDS;
};

/**
 * The occurrences of a rule in [from, to), in order. The first is `start` itself, whether the rule names it or not
 * (RFC 5545 §3.8.5.3: DTSTART counts as the first instance).
 * @param until the last wall time that may occur, or null
 * @param most how many occurrences the window may hold
 */
export const expandRule = (
  rule: Rule,
  start: Wall,
  until: Wall | null,
  from: Wall,
  to: Wall,
  most: number = OCCURRENCES_MAX,
): readonly Wall[] | ExpandFault => {
  const last = Math.min(until ?? Number.POSITIVE_INFINITY, lastOfPlainCount(rule, start) ?? Number.POSITIVE_INFINITY);
  const end = Math.min(to, last + 1);
  if (end <= from || end <= start) return [];
  const count = lastOfPlainCount(rule, start) === undefined ? rule.count : null;
  const numbers = Object.fromEntries([...rule.by].map(([part, list]) => [OPTION_OF[part], [...list]]));
  try {
    const engine = new RRuleTemporal({
      ...numbers,
      freq: rule.freq,
      interval: rule.interval,
      wkst: rule.weekStart,
      ...(count === null ? {} : { count }),
      ...(rule.byDay.length > 0 ? { byDay: [...rule.byDay] } : {}),
      dtstart: asUtc(start),
      until: asUtc(end - 1),
      tzid: "UTC",
      includeDtstart: true,
      maxIterations: RECURRENCE_STEPS_MAX,
      maxCandidateEvaluations: RECURRENCE_STEPS_MAX,
      cache: false,
    });
    // The engine's own bounds are not trusted with their edges: an hour more on either side, and cut here.
    const found = engine
      .between(asUtc(from - HOUR), asUtc(end + HOUR), true)
      .map((each) => Math.floor(each.epochMilliseconds / 1000))
      .filter((wall) => wall >= from && wall < end);
    return found.length > most ? "too-many-occurrences" : found;
  } catch {
    return "rule-runs-away";
  }
};
