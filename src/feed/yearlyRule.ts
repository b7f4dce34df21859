/**
 * Yearly rules of the kind clocks are changed by: one weekday of one month at one wall time. Finds the rule that a few
 * years' changes follow and says when it strikes in another year. Knows nothing of zones.
 */
import {
  DAY_SECONDS,
  type Day,
  dayFrom,
  dayOf,
  midnight,
  partsOfDay,
  type Seconds,
  type Wall,
  weekdayOf,
} from "../time/instant.ts";

/** A change of the clocks, on the clock that is about to change. */
export interface Onset {
  readonly wall: Wall;
  readonly before: Seconds;
}

export interface YearlyRule {
  /** The value of an RRULE. */
  readonly text: string;
  readonly month: number;
  /** ISO weekday. */
  readonly weekday: number;
  /** The date lies in the seven days that begin on this day of the month, or end with the month. */
  readonly firstDay: number | "last-week";
  /** Seconds after midnight. */
  readonly time: Seconds;
}

const BYDAY = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];

/** The rule that all these onsets follow, the plainest first: nth weekday, last weekday, weekday on or after a date. */
export const findYearlyRule = (onsets: readonly Onset[]): YearlyRule | undefined => {
  const dates = onsets.map(({ wall }) => ({ ...partsOfDay(dayOf(wall)), weekday: weekdayOf(dayOf(wall)) }));
  const [first] = dates;
  const time = onsets[0] && onsets[0].wall - midnight(dayOf(onsets[0].wall));
  if (!first || time === undefined) return undefined;
  const { month, weekday } = first;
  const earliest = Math.min(...dates.map(({ dayOfMonth }) => dayOfMonth));
  const day = BYDAY[weekday - 1];
  const begin = `FREQ=YEARLY;BYMONTH=${month};BYDAY=`;
  const candidates: YearlyRule[] = [1, 8, 15].map((firstDay) => ({
    text: `${begin}${(firstDay + 6) / 7}${day}`,
    month,
    weekday,
    firstDay,
    time,
  }));
  candidates.push({ text: `${begin}-1${day}`, month, weekday, firstDay: "last-week", time });
  if (earliest <= 22) {
    const dates = Array.from({ length: 7 }, (_, index) => earliest + index).join(",");
    candidates.push({
      text: `FREQ=YEARLY;BYMONTH=${month};BYMONTHDAY=${dates};BYDAY=${day}`,
      month,
      weekday,
      firstDay: earliest,
      time,
    });
  }
  return candidates.find((rule) =>
    onsets.every(({ wall }, index) => onsetInYear(rule, (dates[index] as { year: number }).year) === wall),
  );
};

/** The wall time at which the rule strikes in a year. */
export const onsetInYear = ({ month, weekday, firstDay, time }: YearlyRule, year: number): Wall => {
  const begins: Day =
    firstDay === "last-week"
      ? (month === 12 ? (dayFrom(year + 1, 1, 1) as Day) : (dayFrom(year, month + 1, 1) as Day)) - 7
      : (dayFrom(year, month, firstDay) as Day);
  return (begins + ((weekday - weekdayOf(begins) + 7) % 7)) * DAY_SECONDS + time;
};
