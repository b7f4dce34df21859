/**
 * Instants, local days and exact lengths for the reckoning, rules 1 to 3 of counting.md, on TC39 Temporal alone.
 * Never imports anything of the product and never reads a clock.
 */
import { Temporal } from "temporal-polyfill";

/** Whole seconds since 1970-01-01T00:00:00Z. */
export type Moment = number;
/** A local date as whole days since 1970-01-01. */
export type DayNumber = number;

export const MINUTE_S = 60;
export const HOUR_S = 3_600;
export const DAY_S = 86_400;
/** Rules 9, 10, 15, 17 and 18 all use one quarter of an hour. */
export const QUARTER_S = 15 * MINUTE_S;
/** Rule 7: how far back from B and how far forward from now anything is looked for. */
export const LOOKING_S = 400 * DAY_S;

/** `2026-12-11T10:30:00Z` as a moment. */
export const momentOf = (text: string): Moment => Temporal.Instant.from(text).epochMilliseconds / 1_000;
/** A moment as `2026-12-11T10:30:00Z`. */
export const textOf = (moment: Moment): string => Temporal.Instant.fromEpochMilliseconds(moment * 1_000).toString();

/** Rule 1: an exact length, `PT48H30M`, in seconds; Temporal throws for a day, whose length is not known. */
export const lengthOf = (text: string): number => {
  if (!text.startsWith("PT")) throw new Error(`${text} is no exact length`);
  return Temporal.Duration.from(text).total("seconds");
};

/** `2026-12-11` as a day number. */
export const dayNumberOf = (date: string): DayNumber => Date.parse(`${date}T00:00:00Z`) / 1_000 / DAY_S;
/** ISO weekday, 1 Monday to 7 Sunday, of a day number; 1 January 1970 was a Thursday. */
export const isoWeekdayOf = (day: DayNumber): number => ((day + 3) % 7) + 1;

/** `09:30` as minutes after midnight, to `24:00`. */
export const minutesOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));

/** Rule 2: the first instant at which the clock reads that time or later. */
const firstReading = (zone: string, day: DayNumber, minutes: number): Moment => {
  const wall = new Temporal.PlainDateTime(1970, 1, 1).add({ days: day, minutes });
  const firstPass = wall.toZonedDateTime(zone, { disambiguation: "earlier" });
  if (firstPass.toPlainDateTime().equals(wall)) return firstPass.epochMilliseconds / 1_000;
  const change = firstPass.getTimeZoneTransition("next");
  if (!change) throw new Error(`${zone} skips ${wall.toString()} without a change`);
  return change.epochMilliseconds / 1_000;
};

interface DayFrame {
  readonly start: Moment;
  /** No clock change from the day's first instant to its last. */
  readonly quiet: boolean;
}

const frames = new Map<string, Map<DayNumber, DayFrame>>();
const frameOf = (zone: string, day: DayNumber): DayFrame => {
  const ofZone = frames.get(zone) ?? new Map<DayNumber, DayFrame>();
  frames.set(zone, ofZone);
  const known = ofZone.get(day);
  if (known) return known;
  const start = firstReading(zone, day, 0);
  const next = firstReading(zone, day + 1, 0);
  const change = Temporal.Instant.fromEpochMilliseconds(start * 1_000 - 1)
    .toZonedDateTimeISO(zone)
    .getTimeZoneTransition("next");
  const frame = { start, quiet: next - start === DAY_S && (!change || change.epochMilliseconds > next * 1_000) };
  ofZone.set(day, frame);
  return frame;
};

/** The first instant of a local day. */
export const dayStart = (zone: string, day: DayNumber): Moment => frameOf(zone, day).start;

/** Rule 2 for any wall time; only a day with a clock change needs more than adding the minutes. */
export const wallMoment = (zone: string, day: DayNumber, minutes: number): Moment => {
  const frame = frameOf(zone, day);
  return frame.quiet ? frame.start + minutes * MINUTE_S : firstReading(zone, day, minutes);
};

/** Today's offsets and changes all fall on quarter hours of UTC, so one answer holds for a quarter. */
const localDays = new Map<string, Map<number, DayNumber>>();
/** The local date of an instant. */
export const localDay = (zone: string, moment: Moment): DayNumber => {
  const ofZone = localDays.get(zone) ?? new Map<number, DayNumber>();
  localDays.set(zone, ofZone);
  const quarter = Math.floor(moment / QUARTER_S);
  const known = ofZone.get(quarter);
  if (known !== undefined) return known;
  const date = Temporal.Instant.fromEpochMilliseconds(moment * 1_000)
    .toZonedDateTimeISO(zone)
    .toPlainDate();
  const day = dayNumberOf(date.toString());
  ofZone.set(quarter, day);
  return day;
};

/** Rule 25: a local date some calendar months later, clamped to the month's end. */
export const monthsLater = (day: DayNumber, months: number): DayNumber =>
  dayNumberOf(new Temporal.PlainDate(1970, 1, 1).add({ days: day }).add({ months }).toString());
