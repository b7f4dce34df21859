/**
 * Times and lengths of time in words, put together from integers and a language file: the runtime's own formats differ from
 * one version to the next, and a feed's bytes must not. Never reads a clock or the host's zone.
 */
import { parseDuration } from "../time/duration.ts";
import {
  DAY_SECONDS,
  type Day,
  dayOf,
  HOUR,
  type Instant,
  MINUTE,
  partsOfDay,
  type Seconds,
  weekdayOf,
} from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { fill } from "./fill.ts";
import type { Catalogue } from "./language/catalogue.ts";

type Words = Catalogue["time"];

/** `Wed 10:30`; seconds only where there are any. */
export const shortTime = (at: Instant, zone: Zone, words: Words): string =>
  fill(words.short, { weekday: weekdayIn(at, zone, words), time: clockTime(at, zone, words) });

/** `Wed 9 Dec 2026, 10:30`. */
export const longTime = (at: Instant, zone: Zone, words: Words): string => {
  const { year, month, dayOfMonth } = partsOfDay(zone.dayAt(at));
  return fill(words.long, {
    weekday: weekdayIn(at, zone, words),
    day: String(dayOfMonth),
    month: words.months[month - 1] ?? "",
    year: String(year),
    time: clockTime(at, zone, words),
  });
};

/** `Wed 9 Dec`. */
export const dateInWords = (date: Day, words: Words): string => {
  const { month, dayOfMonth } = partsOfDay(date);
  return fill(words.date, {
    weekday: words.weekdays[weekdayOf(date) - 1] ?? "",
    day: String(dayOfMonth),
    month: words.months[month - 1] ?? "",
  });
};

/** `from … to …`, the day said once where both are of one, or `by …` where there is no time before the end. */
export const spanInWords = (from: Instant, to: Instant, zone: Zone, words: Words): string => {
  const [begins, ends] = [longTime(from, zone, words), longTime(to, zone, words)];
  if (from >= to) return fill(words.by, { to: ends });
  return zone.dayAt(from) === zone.dayAt(to)
    ? fill(words.spanInDay, { from: begins, to: clockTime(to, zone, words) })
    : fill(words.span, { from: begins, to: ends });
};

/** `48 hours 30 minutes`: exact hours, never days. */
export const lengthInWords = (length: Seconds, words: Words): string => {
  const counts = [
    { count: Math.floor(length / HOUR), one: words.hour, many: words.hours },
    { count: Math.floor((length % HOUR) / MINUTE), one: words.minute, many: words.minutes },
    { count: length % MINUTE, one: words.second, many: words.seconds },
  ];
  const parts = counts.filter(({ count }) => count > 0);
  return (parts.length > 0 ? parts : counts.slice(0, 1))
    .map(({ count, one, many }) => (count === 1 ? one : fill(many, { count: String(count) })))
    .join(" ");
};

/** The words for an ISO 8601 duration, or null where there is none that is exact. */
export const durationInWords = (duration: string | null, words: Words): string | null => {
  const length = duration === null ? "not-a-duration" : parseDuration(duration);
  return typeof length === "number" ? lengthInWords(length, words) : null;
};

const weekdayIn = (at: Instant, zone: Zone, words: Words): string =>
  words.weekdays[weekdayOf(dayOf(zone.wallAt(at))) - 1] ?? "";

/** `10:30`. */
export const clockTime = (at: Instant, zone: Zone, words: Words): string => {
  const wall = zone.wallAt(at);
  const intoDay = wall - dayOf(wall) * DAY_SECONDS;
  const [hour, minute, second] = [Math.floor(intoDay / HOUR), Math.floor(intoDay / MINUTE) % 60, intoDay % 60];
  const shown = words.clock === 24 ? two(hour) : String(hour % 12 || 12);
  const half = words.clock === 24 ? "" : ` ${words.halves[hour < 12 ? 0 : 1]}`;
  const time = `${shown}:${two(minute)}${second ? `:${two(second)}` : ""}${half}`;
  return zone.diaryReading(wall) === at ? time : fill(words.secondPass, { time });
};

const two = (value: number): string => String(value).padStart(2, "0");
