/** The walk of YEARLY, MONTHLY, WEEKLY and DAILY rules: period after period, its days, and the times of each. */
import { type Day, dayOf, HOUR, MINUTE, midnight, type Seconds, type Wall } from "../time/instant.ts";
import type { Walk } from "./expandRule.ts";
import type { Rule } from "./parseRule.ts";
import { pickPlaces } from "./pickPlaces.ts";
import { completeRule, dayTest, monthStart, movedDays, yearStart } from "./ruleDays.ts";
import { type Periods, periodsOf } from "./rulePeriods.ts";

/** Every time of day that the rule names, in order. */
const timesOf = ({ by }: Rule, start: Wall): Seconds[] => {
  const ofDay = start - midnight(dayOf(start));
  const hours = by.get("BYHOUR") ?? [Math.floor(ofDay / HOUR)];
  const minutes = by.get("BYMINUTE") ?? [Math.floor((ofDay % HOUR) / MINUTE)];
  const seconds = by.get("BYSECOND") ?? [ofDay % MINUTE];
  return hours.flatMap((hour) =>
    minutes.flatMap((minute) => seconds.map((second) => hour * HOUR + minute * MINUTE + second)),
  );
};

const daysBetween = (from: Day, to: Day): readonly Day[] => {
  const days: Day[] = [];
  for (let day = from; day < to; day++) days.push(day);
  return days;
};

/** The days of a period that are worth a test: of a week those of the rule's weekdays, of a year those of its months. */
const candidatesOf = ({ freq, by, byDay, weekStart }: Rule, periods: Periods): ((index: number) => readonly Day[]) => {
  if (freq === "WEEKLY") {
    const offsets = byDay.map(({ weekday }) => (weekday - weekStart + 7) % 7).sort((one, other) => one - other);
    return (index) => offsets.map((offset) => periods.startOf(index) + offset);
  }
  const months = freq === "YEARLY" && !by.has("BYWEEKNO") ? by.get("BYMONTH") : undefined;
  if (!months) return (index) => daysBetween(periods.startOf(index), periods.startOf(index + 1));
  return (year) =>
    months.flatMap((month) => daysBetween(monthStart(year * 12 + month - 1), monthStart(year * 12 + month)));
};

/** Ends early, with `steps.left` below zero, where the steps are used up. */
export function* dayWalls({ rule: written, start, from, end, steps }: Walk): Generator<Wall> {
  const rule = completeRule(written, dayOf(start));
  const { interval, count } = rule;
  const isMeant = dayTest(rule);
  const periods = periodsOf(rule);
  const times = timesOf(rule, start);
  const places = rule.by.get("BYSETPOS");
  const candidates = candidatesOf(rule, periods);
  // Weeks of a year reach into its neighbours, and a moved date into the next month: one period more on either side.
  const first = periods.indexOf(dayOf(start));
  const wanted = count === null ? Math.max(first, periods.indexOf(dayOf(from)) - 1) : first;
  const last = periods.indexOf(dayOf(end)) + 1;
  const begin = interval === 1 && wanted === first ? first - 1 : wanted;
  let index = first + Math.ceil((begin - first) / interval) * interval;
  for (; index <= last; index += interval) {
    const days: Day[] = [];
    for (const day of candidates(index)) {
      steps.left--;
      if (isMeant(day)) days.push(day);
    }
    if (steps.left < 0) return;
    if (rule.skip !== "OMIT") {
      days.push(...skippedDays(rule, index));
      days.sort((one, other) => one - other);
    }
    if (places) {
      for (const place of pickPlaces(places, days.length * times.length)) {
        yield midnight(days[Math.floor(place / times.length)] as Day) + (times[place % times.length] as Seconds);
      }
      continue;
    }
    for (const day of days) {
      if (count === null && midnight(day + 1) <= from) continue;
      for (const time of times) yield midnight(day) + time;
    }
  }
}

/** Where the dates go that a year or a month of the rule does not have. */
const skippedDays = ({ freq, by, skip }: Rule, index: number): Day[] => {
  const yearDays = by.get("BYYEARDAY");
  if (yearDays) return freq === "YEARLY" ? movedDays(yearDays, yearStart(index), yearStart(index + 1), skip) : [];
  const months = freq === "MONTHLY" ? [index] : EVERY_MONTH.map((month) => index * 12 + month);
  const named = by.get("BYMONTH");
  return months
    .filter((month) => !named || named.includes((month % 12) + 1))
    .flatMap((month) => movedDays(by.get("BYMONTHDAY") ?? [], monthStart(month), monthStart(month + 1), skip));
};

const EVERY_MONTH: readonly number[] = Array.from({ length: 12 }, (_, month) => month);
