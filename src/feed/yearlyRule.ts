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
  const [first] = onsets;
  if (!first) return undefined;
  const dates = onsets.map(({ wall }) => partsOfDay(dayOf(wall)));
  const { month } = partsOfDay(dayOf(first.wall));
  const weekday = weekdayOf(dayOf(first.wall));
  const shared = { month, weekday, time: first.wall - midnight(dayOf(first.wall)) };
  const begin = `FREQ=YEARLY;BYMONTH=${month}`;
  const day = BYDAY[weekday - 1];
  const candidates: YearlyRule[] = [
    ...[1, 2, 3].map((nth) => ({ ...shared, text: `${begin};BYDAY=${nth}${day}`, firstDay: nth * 7 - 6 })),
    { ...shared, text: `${begin};BYDAY=-1${day}`, firstDay: "last-week" },
  ];
  const earliest = Math.min(...dates.map(({ dayOfMonth }) => dayOfMonth));
  const week = Array.from({ length: 7 }, (_, index) => earliest + index);
  if (dayFrom(COMMON_YEAR, month, earliest + 6) !== undefined) {
    candidates.push({ ...shared, text: `${begin};BYMONTHDAY=${week.join(",")};BYDAY=${day}`, firstDay: earliest });
  }
  return candidates.find((rule) =>
    onsets.every(({ wall }, index) => onsetInYear(rule, (dates[index] as { readonly year: number }).year) === wall),
  );
};

/** Not a leap year: a week that fits in its months fits in every year's. */
const COMMON_YEAR = 2001;

/** The wall time at which the rule strikes in a year. */
export const onsetInYear = ({ month, weekday, firstDay, time }: YearlyRule, year: number): Wall => {
  const begins: Day =
    firstDay === "last-week"
      ? (month === 12 ? (dayFrom(year + 1, 1, 1) as Day) : (dayFrom(year, month + 1, 1) as Day)) - 7
      : (dayFrom(year, month, firstDay) as Day);
  return (begins + ((weekday - weekdayOf(begins) + 7) % 7)) * DAY_SECONDS + time;
};
