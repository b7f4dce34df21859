/** Lengths by the calendar: months and years, for what is kept to a date. Rules of skin tests are exact hours and never these. */
import { type Day, dayFrom, partsOfDay } from "./instant.ts";

/** The same day of a later month, or that month's last day (TC39 Temporal, plaindate: 31 January + 1 month is 28 February). */
export const addMonths = (day: Day, months: number): Day => {
  const { year, month, dayOfMonth } = partsOfDay(day);
  const index = year * 12 + (month - 1) + months;
  const [toYear, toMonth] = [Math.floor(index / 12), (index % 12) + 1];
  for (let last = dayOfMonth; last > 0; last--) {
    const found = dayFrom(toYear, toMonth, last);
    if (found !== undefined) return found;
  }
  throw new Error(`no day in month ${toMonth} of ${toYear}`);
};

/** A calendar period: `P6Y`, `P1Y6M`, `P90D`. */
const CALENDAR_PERIOD = /^P(?=\d)(?:(\d{1,3})Y)?(?:(\d{1,4})M)?(?:(\d{1,4})W)?(?:(\d{1,5})D)?$/;

export const isCalendarPeriod = (text: string): boolean => CALENDAR_PERIOD.test(text);

/** The day a period after another: years and months first, then weeks and days. Throws on what is no period. */
export const addPeriod = (day: Day, period: string): Day => {
  const parts = CALENDAR_PERIOD.exec(period);
  if (!parts) throw new Error(`no calendar period: ${period}`);
  const [years, months, weeks, days] = parts.slice(1).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
  ];
  return addMonths(day, years * 12 + months) + weeks * 7 + days;
};
