/**
 * The second reader of rules, and the only door to rrule-temporal: the same question as expandRule.ts, answered by code that
 * shares nothing with it. Bounded before it begins, since it fills memory with all that a rule could name; what it cannot
 * answer inside its bounds it does not answer.
 */
import { RRuleTemporal } from "rrule-temporal";
import { Temporal } from "temporal-polyfill";
import {
  OCCURRENCES_MAX,
  RECURRENCE_STEPS_MAX,
  SECOND_READER_STEP_PRICE,
  SECOND_READER_TIME_PRICE,
  SECOND_READER_VALUES_MAX,
} from "../bounds.ts";
import { DAY_SECONDS, HOUR, type Seconds, type Wall } from "../time/instant.ts";
import { allSteps, type Steps } from "./expandRule.ts";
import { type Frequency, type NumericPart, type Rule, WEEKDAYS } from "./parseRule.ts";

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

const PERIOD_SECONDS: Readonly<Record<Frequency, Seconds>> = {
  YEARLY: 365 * DAY_SECONDS,
  MONTHLY: 28 * DAY_SECONDS,
  WEEKLY: 7 * DAY_SECONDS,
  DAILY: DAY_SECONDS,
  HOURLY: HOUR,
  MINUTELY: 60,
  SECONDLY: 1,
};

/** How often a weekday without an ordinal comes in a period, or in each month that the rule names. */
const weeksIn = ({ freq, by, byDay }: Rule): number => {
  if (byDay.every(({ ordinal }) => ordinal !== 0) || by.has("BYWEEKNO")) return 1;
  if (freq === "MONTHLY" || (freq === "YEARLY" && by.has("BYMONTH"))) return 5;
  return freq === "YEARLY" ? 53 : 1;
};

/**
 * What the engine's walk from the start to the end costs; infinite where one period holds more than it may, all lists
 * multiplied, since it builds all of it.
 */
const priceOf = (rule: Rule, start: Wall, end: Wall): number => {
  const values = [...rule.by.values()].reduce((product, list) => product * list.length, Math.max(1, rule.byDay.length));
  if (values > SECOND_READER_VALUES_MAX) return Number.POSITIVE_INFINITY;
  const periods = Math.ceil((end - start) / (PERIOD_SECONDS[rule.freq] * rule.interval));
  // Where nothing is counted it leaps to the window, and builds no times on the way.
  const times = rule.count === null ? 0 : values * weeksIn(rule);
  return periods * (SECOND_READER_STEP_PRICE + SECOND_READER_TIME_PRICE * times);
};

const asUtc = (wall: Wall): Temporal.ZonedDateTime =>
  Temporal.Instant.fromEpochMilliseconds(wall * 1000).toZonedDateTimeISO("UTC");

/**
 * The occurrences of a rule in [from, to), `start` among them; undefined where this reader gives up.
 * @param steps what it may cost, in the same coin as the first reader
 */
export const expandAgain = (
  rule: Rule,
  start: Wall,
  until: Wall | null,
  from: Wall,
  to: Wall,
  steps: Steps = allSteps(),
): readonly Wall[] | undefined => {
  const end = Math.min(to, (until ?? to) + 1);
  if (end <= from || end <= start) return [];
  const price = priceOf(rule, start, end);
  if (price > steps.leftAgain) return undefined;
  steps.leftAgain -= price;
  const numbers = Object.fromEntries([...rule.by].map(([part, list]) => [OPTION_OF[part], [...list]]));
  const byDay = rule.byDay.map(({ weekday, ordinal }) => `${ordinal === 0 ? "" : ordinal}${WEEKDAYS[weekday - 1]}`);
  try {
    const engine = new RRuleTemporal({
      ...numbers,
      freq: rule.freq,
      interval: rule.interval,
      wkst: WEEKDAYS[rule.weekStart - 1] as string,
      ...(byDay.length > 0 ? { byDay } : {}),
      dtstart: asUtc(start),
      until: asUtc(end - 1),
      tzid: "UTC",
      maxIterations: RECURRENCE_STEPS_MAX,
      maxCandidateEvaluations: RECURRENCE_STEPS_MAX,
      cache: false,
    });
    // COUNT is counted here: with a start that the rule does not name, the engine counts now one way and now the other.
    // Nor are its bounds trusted with their edges: an hour more on either side, and cut here.
    const first = rule.count === null ? from : start;
    const walls = engine
      .between(asUtc(first - HOUR), asUtc(end + HOUR), true)
      .map((each) => Math.floor(each.epochMilliseconds / 1000))
      .filter((wall) => wall > start && wall >= first && wall < end);
    if (start >= first) walls.unshift(start);
    const found = walls.slice(0, rule.count ?? undefined).filter((wall) => wall >= from);
    return found.length > OCCURRENCES_MAX ? undefined : found;
  } catch {
    return undefined;
  }
};
