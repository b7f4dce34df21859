/**
 * The units of time inside Countback: integers only. Text comes and goes at the doors.
 * Nothing here reads a clock.
 */

/** Whole seconds since 1970-01-01T00:00:00Z. */
export type Instant = number;
/** What a wall clock shows, as whole seconds since 1970-01-01T00:00 on that same clock. */
export type Wall = number;
/** A local date, as whole days since 1970-01-01. */
export type Day = number;
/** An exact length of time in whole seconds. */
export type Seconds = number;

export const MINUTE: Seconds = 60;
export const HOUR: Seconds = 3_600;
/** 24 exact hours; a local day may be shorter or longer. */
export const DAY_SECONDS: Seconds = 86_400;

/** The local date a wall time falls on. */
export const dayOf = (wall: Wall): Day => Math.floor(wall / DAY_SECONDS);
/** Midnight of a date, as wall time. */
export const midnight = (day: Day): Wall => day * DAY_SECONDS;
/** ISO weekday of a date: 1 Monday … 7 Sunday. */
export const weekdayOf = (day: Day): number => ((((day + 3) % 7) + 7) % 7) + 1;

/** The whole minute that an instant lies in: nobody asks for the second at which something was told. */
export const wholeMinute = (at: Instant): Instant => Math.floor(at / MINUTE) * MINUTE;

/** The year of an instant in UTC. */
export const yearOf = (instant: Instant): number => new Date(instant * 1000).getUTCFullYear();

/** `2026-12-11T10:30:00Z` for an instant: RFC 3339, UTC, whole seconds. */
export const formatInstant = (instant: Instant): string => `${new Date(instant * 1000).toISOString().slice(0, 19)}Z`;

/** `2026-12-11` for a date. */
export const formatDay = (day: Day): string => new Date(day * DAY_SECONDS * 1000).toISOString().slice(0, 10);

/** The calendar date of year, month (1–12) and day of month, or undefined where there is no such date. */
export const dayFrom = (year: number, month: number, dayOfMonth: number): Day | undefined => {
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, dayOfMonth);
  const exact = date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === dayOfMonth;
  return exact ? date.getTime() / 1000 / DAY_SECONDS : undefined;
};

/** Year, month (1–12) and day of month of a date. */
export const partsOfDay = (
  day: Day,
): { readonly year: number; readonly month: number; readonly dayOfMonth: number } => {
  const date = new Date(day * DAY_SECONDS * 1000);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, dayOfMonth: date.getUTCDate() };
};

/** Reads `2026-12-11`; undefined for anything else, the 30th of February included. */
export const parseDay = (text: string): Day | undefined => {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  return parts ? dayFrom(Number(parts[1]), Number(parts[2]), Number(parts[3])) : undefined;
};

/** Reads a local date-time without offset, `2026-12-11T10:30` or `…:00`, as wall time. */
export const parseWall = (text: string): Wall | undefined => {
  const parts = /^(\d{4}-\d{2}-\d{2})T(\d{2}):(\d{2})(?::(\d{2}))?$/.exec(text);
  const day = parts ? parseDay(parts[1] ?? "") : undefined;
  if (!parts || day === undefined) return undefined;
  const [hours, minutes, seconds] = [Number(parts[2]), Number(parts[3]), Number(parts[4] ?? 0)];
  if (hours > 23 || minutes > 59 || seconds > 59) return undefined;
  return midnight(day) + hours * HOUR + minutes * MINUTE + seconds;
};

/**
 * Reads an RFC 3339 date-time, offset required; fractions of a second are cut off.
 * Undefined for anything else.
 */
export const parseInstant = (text: string): Instant | undefined => {
  const parts = /^(\d{4}-\d{2}-\d{2})[Tt](\d{2}:\d{2}:\d{2})(?:\.\d+)?(?:([Zz])|([+-])(\d{2}):(\d{2}))$/.exec(text);
  if (!parts) return undefined;
  const wall = parseWall(`${parts[1]}T${parts[2]}`);
  if (wall === undefined) return undefined;
  if (parts[3]) return wall;
  const [hours, minutes] = [Number(parts[5]), Number(parts[6])];
  if (hours > 23 || minutes > 59) return undefined;
  const offset = hours * HOUR + minutes * MINUTE;
  return parts[4] === "-" ? wall + offset : wall - offset;
};

const twoDigits = (value: number): string => String(value).padStart(2, "0");

/** `+01:00` for an offset from UTC; seconds of it are left out. */
export const formatOffset = (offset: Seconds): string => {
  const minutes = Math.floor(Math.abs(offset) / MINUTE);
  return `${offset < 0 ? "-" : "+"}${twoDigits(Math.floor(minutes / 60))}:${twoDigits(minutes % 60)}`;
};
