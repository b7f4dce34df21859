/**
 * The stretches of days that a rule steps through and counts its BYSETPOS in: years, months, weeks or days, numbered so that
 * INTERVAL is plain arithmetic.
 */
import type { Day } from "../time/instant.ts";
import type { Rule } from "./parseRule.ts";
import { datePartsOf, firstWeekStart, monthIndex, monthStart, yearStart } from "./ruleDays.ts";

export interface Periods {
  indexOf(day: Day): number;
  /** First day of a period; the next one's is the day after its last. */
  startOf(index: number): Day;
}

/** 1969-12-29, a Monday. */
const MONDAY: Day = -3;

export const periodsOf = ({ freq, by, weekStart }: Rule): Periods => {
  if (freq === "YEARLY") {
    // The weeks of a year make up a year of their own, which begins some days sooner or later.
    const startOf = by.has("BYWEEKNO") ? (year: number): Day => firstWeekStart(year, weekStart) : yearStart;
    return { indexOf: (day) => datePartsOf(day).year, startOf };
  }
  if (freq === "MONTHLY") return { indexOf: monthIndex, startOf: monthStart };
  const first = MONDAY + weekStart - 1;
  if (freq === "WEEKLY")
    return { indexOf: (day) => Math.floor((day - first) / 7), startOf: (index) => first + index * 7 };
  return { indexOf: (day) => day, startOf: (index) => index };
};
