/**
 * The salon's and the client's hours day by day, rules 4 to 6, and the moments they allow, rules 9, 10 and 15.
 * Never knows a booking.
 */
import {
  type DayNumber,
  dayNumberOf,
  dayStart,
  isoWeekdayOf,
  lengthOf,
  localDay,
  type Moment,
  minutesOf,
  QUARTER_S,
  wallMoment,
} from "./moments.ts";
import type { ReckonSettings, WeekdayKey } from "./types.ts";

export interface Span {
  readonly start: Moment;
  readonly end: Moment;
}

/** The moments of one stretch at which something can be done, both ends included. */
export interface Chance {
  readonly first: Moment;
  readonly last: Moment;
  readonly stretch: Span;
}

export interface Days {
  readonly from: DayNumber;
  readonly to: DayNumber;
}

const WEEKDAY_KEYS: readonly WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
export const weekdayKey = (day: DayNumber): WeekdayKey => WEEKDAY_KEYS[isoWeekdayOf(day) - 1] as WeekdayKey;

/** Rule 4: whether a date lies in a list of dates and ranges, both ends included. */
export const listed = (day: DayNumber, dates: readonly string[]): boolean =>
  dates.some((written) => {
    const [first = "", last = first] = written.split("/");
    return dayNumberOf(first) <= day && day <= dayNumberOf(last);
  });

/** Rule 6: the days given, and those the salon added. */
export const holidaysOf = (settings: ReckonSettings, given: readonly string[]): ReadonlySet<DayNumber> =>
  new Set([...given, ...(settings.holidays?.add ?? [])].map(dayNumberOf));

/** Rule 4: spans that overlap or touch are one; a span the clocks have skipped whole is none. */
const unite = (spans: readonly Span[]): Span[] => {
  const united: Span[] = [];
  for (const span of spans.filter((each) => each.start < each.end).toSorted((a, b) => a.start - b.start)) {
    const last = united.at(-1);
    if (last && span.start <= last.end)
      united[united.length - 1] = { start: last.start, end: Math.max(last.end, span.end) };
    else united.push(span);
  }
  return united;
};

const resolve = (zone: string, day: DayNumber, written: string): Span => {
  const [start = "", end = ""] = written.split("-");
  return { start: wallMoment(zone, day, minutesOf(start)), end: wallMoment(zone, day, minutesOf(end)) };
};

/** Rules 4 to 6: the salon's spans of one local day. */
export const salonSpans = (settings: ReckonSettings, holidays: ReadonlySet<DayNumber>, day: DayNumber): Span[] => {
  if (listed(day, settings.closed ?? [])) return [];
  const opening = settings.opening ?? null;
  let written: readonly string[];
  if (opening === null) written = holidays.has(day) ? [] : ["00:00-24:00"];
  else written = (holidays.has(day) ? opening.holiday : opening[weekdayKey(day)]) ?? [];
  return unite(written.map((span) => resolve(settings.zone, day, span)));
};

/** The client's hours of one local day; they know no holidays (rule 6). */
export const clientSpan = (settings: ReckonSettings, day: DayNumber): Span =>
  resolve(settings.zone, day, settings.clientHours ?? "08:00-21:00");

/** Rule 4: stretches over many days, those that touch across midnight in one. */
export const stretchesOf = (days: Days, spansOf: (day: DayNumber) => readonly Span[]): Span[] => {
  const spans: Span[] = [];
  for (let day = days.from; day <= days.to; day += 1) spans.push(...spansOf(day));
  return unite(spans);
};

const chancesIn = (stretches: readonly Span[], before: number): Chance[] =>
  stretches
    .map((stretch) => ({ first: stretch.start + QUARTER_S, last: stretch.end - before, stretch }))
    .filter((chance) => chance.first <= chance.last);

/** Rule 9; without `opening` there is no closing time to stay clear of (rule 5). */
export const walkInChances = (settings: ReckonSettings, salon: readonly Span[]): Chance[] =>
  chancesIn(salon, settings.opening ? lengthOf(settings.lastWalkIn ?? "PT30M") : 0);

/** Rule 10 for the client's hours, rule 15 for the salon's: a quarter of an hour in, the last second included. */
export const plainChances = (stretches: readonly Span[]): Chance[] => chancesIn(stretches, 0);

/**
 * Rules 11 and 15, "not before that local day": the start of the stretch, or of the local day that the due lies in. A due
 * at the end of a span is `24:00` of its own day, not `00:00` of the next (rule 4), as rule 19 says of a closing.
 */
export const opensOn = (zone: string, stretch: Span, due: Moment): Moment => {
  const day = localDay(zone, due === stretch.end ? due - 1 : due);
  return Math.max(stretch.start, dayStart(zone, day));
};

/** The last element whose `key` is at or before `moment`, of a list in order of it. */
export const lastUpTo = <T>(list: readonly T[], key: (each: T) => Moment, moment: Moment): T | undefined => {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (key(list[middle] as T) <= moment) low = middle + 1;
    else high = middle;
  }
  return list[low - 1];
};

/** The last allowed moment at or before one. */
export const lastChance = (chances: readonly Chance[], moment: Moment): { at: Moment; stretch: Span } | undefined => {
  const chance = lastUpTo(chances, (each) => each.first, moment);
  return chance && { at: Math.min(moment, chance.last), stretch: chance.stretch };
};

/** The first allowed moment at or after one. */
export const firstChance = (chances: readonly Chance[], moment: Moment): { at: Moment; stretch: Span } | undefined => {
  const chance = chances.find((each) => each.last >= moment);
  return chance && { at: Math.max(moment, chance.first), stretch: chance.stretch };
};
