/**
 * Which days a rule means, each BY-part by its definition in RFC 5545 §3.3.10: in that table a part "expands" or "limits",
 * but the days are the same, those that every part names. What the rule leaves out comes from the start.
 */
import { type Day, weekdayOf } from "../time/instant.ts";
import type { NumericPart, Rule } from "./parseRule.ts";

interface DateParts {
  readonly year: number;
  readonly month: number;
  readonly dayOfMonth: number;
}

/** Days from 1 March of year 0 to 1970-01-01, of 400 years, and of a year without its leap day. */
const [EPOCH_SHIFT, DAYS_OF_400_YEARS] = [719_468, 146_097];

/** Year, month and day of a date by arithmetic alone: rules ask for hundreds of thousands. Years begin in March here. */
export const datePartsOf = (day: Day): DateParts => {
  const shifted = day + EPOCH_SHIFT;
  const era = Math.floor(shifted / DAYS_OF_400_YEARS);
  const inEra = shifted - era * DAYS_OF_400_YEARS;
  const yearOfEra = Math.floor(
    (inEra - Math.floor(inEra / 1460) + Math.floor(inEra / 36_524) - Math.floor(inEra / 146_096)) / 365,
  );
  const inYear = inEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const monthFromMarch = Math.floor((5 * inYear + 2) / 153);
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9;
  return {
    year: yearOfEra + era * 400 + (month <= 2 ? 1 : 0),
    month,
    dayOfMonth: inYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1,
  };
};

/** First day of the month with that number, counted from January of year 0. */
export const monthStart = (index: number): Day => {
  const [fromMarch, marchYear] = [(index + 10) % 12, Math.floor((index - 2) / 12)];
  const era = Math.floor(marchYear / 400);
  const yearOfEra = marchYear - era * 400;
  const daysBefore = Math.floor((153 * fromMarch + 2) / 5) + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100);
  return era * DAYS_OF_400_YEARS + yearOfEra * 365 + daysBefore - EPOCH_SHIFT;
};
export const monthIndex = (day: Day): number => {
  const { year, month } = datePartsOf(day);
  return year * 12 + month - 1;
};
export const yearStart = (year: number): Day => monthStart(year * 12);

/** First day of week 1 of a year: the first week with at least four days in it. */
export const firstWeekStart = (year: number, weekStart: number): Day => {
  const fourth = yearStart(year) + 3;
  return fourth - ((weekdayOf(fourth) - weekStart + 7) % 7);
};

/** Whether a number is named, counted from either end of a stretch that is `length` long. */
const isNamed = (numbers: ReadonlySet<number>, place: number, length: number): boolean =>
  numbers.has(place) || numbers.has(place - length - 1);

/**
 * The rule with what it leaves out taken from the start (RFC 5545 §3.3.10: "Information, not contained in the rule …").
 * @param start the day of DTSTART
 */
export const completeRule = (rule: Rule, start: Day): Rule => {
  const { freq, by } = rule;
  const namesDay = rule.byDay.length > 0 || by.has("BYMONTHDAY") || by.has("BYYEARDAY");
  if (namesDay) return rule;
  if (freq === "WEEKLY" || by.has("BYWEEKNO")) return { ...rule, byDay: [{ weekday: weekdayOf(start), ordinal: 0 }] };
  if (freq !== "MONTHLY" && freq !== "YEARLY") return rule;
  const { month, dayOfMonth } = datePartsOf(start);
  const complete = new Map(by).set("BYMONTHDAY", [dayOfMonth]);
  if (freq === "YEARLY" && !by.has("BYMONTH")) complete.set("BYMONTH", [month]);
  return { ...rule, by: complete };
};

/** The test for days of a complete rule. */
export const dayTest = ({ freq, by, byDay, weekStart }: Rule): ((day: Day) => boolean) => {
  const named = (part: NumericPart): ReadonlySet<number> => new Set(by.get(part) ?? []);
  const [months, weeks, yearDays, monthDays] = [
    named("BYMONTH"),
    named("BYWEEKNO"),
    named("BYYEARDAY"),
    named("BYMONTHDAY"),
  ] as const;
  const plain = new Set(byDay.filter(({ ordinal }) => ordinal === 0).map(({ weekday }) => weekday));
  const counted = byDay.filter(({ ordinal }) => ordinal !== 0);
  const countsInYear = freq === "YEARLY" && months.size === 0;
  const needsDate = months.size + weeks.size + yearDays.size + monthDays.size + counted.length > 0;

  return (day) => {
    const weekday = weekdayOf(day);
    const isPlain = byDay.length === 0 || plain.has(weekday);
    if (!isPlain && !counted.some((each) => each.weekday === weekday)) return false;
    if (!needsDate) return true;
    const { year, month, dayOfMonth } = datePartsOf(day);
    if (months.size > 0 && !months.has(month)) return false;
    const monthBegin = day - dayOfMonth + 1;
    const monthEnd = monthStart(year * 12 + month);
    if (monthDays.size > 0 && !isNamed(monthDays, dayOfMonth, monthEnd - monthBegin)) return false;
    const [yearBegin, yearEnd] = [yearStart(year), yearStart(year + 1)];
    if (yearDays.size > 0 && !isNamed(yearDays, day - yearBegin + 1, yearEnd - yearBegin)) return false;
    if (weeks.size > 0 && !isInWeeks(weeks, day, year, weekStart)) return false;
    if (isPlain) return true;
    const [begin, end] = countsInYear ? [yearBegin, yearEnd] : [monthBegin, monthEnd];
    const place = Math.floor((day - begin) / 7) + 1;
    const fromEnd = -(Math.floor((end - 1 - day) / 7) + 1);
    return counted.some((each) => each.weekday === weekday && (each.ordinal === place || each.ordinal === fromEnd));
  };
};

const isInWeeks = (weeks: ReadonlySet<number>, day: Day, year: number, weekStart: number): boolean => {
  const next = firstWeekStart(year + 1, weekStart);
  const own = firstWeekStart(year, weekStart);
  const [begin, end] =
    day >= next
      ? [next, firstWeekStart(year + 2, weekStart)]
      : day >= own
        ? [own, next]
        : [firstWeekStart(year - 1, weekStart), own];
  return isNamed(weeks, Math.floor((day - begin) / 7) + 1, (end - begin) / 7);
};

/**
 * The days that SKIP gives for dates which a stretch of days does not have (RFC 7529 §4.1): the one after or before the gap.
 * @param begin first day of the month, or for BYYEARDAY of the year
 * @param end the day after its last
 */
export const movedDays = (numbers: readonly number[], begin: Day, end: Day, skip: Rule["skip"]): Day[] => {
  const length = end - begin;
  if (skip === "OMIT") return [];
  return numbers
    .filter((number) => Math.abs(number) > length)
    .map((number) => (number > 0 ? end : begin) - (skip === "BACKWARD" ? 1 : 0));
};
