/**
 * Whether a certain start is the one that the file writes, asked of ICU alone: the clock of its zone shows the written digits
 * then, and for the first time; or shows them never, where the clocks skip them (RFC 5545 §3.3.5).
 */
import type { ListedEvent } from "../../src/diary/listEvents.ts";
import { HOUR, type Instant } from "../../src/time/instant.ts";

/** No clock is farther from UTC, and no two changes of one stand closer together than twice this. */
const ROOM = 26 * HOUR;
/** Years for which the data of every runtime agree. */
const YEARS = [1972, 2036] as const;

const writers = new Map<string, Intl.DateTimeFormat>();
const writerOf = (timeZone: string): Intl.DateTimeFormat => {
  const known = writers.get(timeZone);
  const writer =
    known ??
    new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short", timeStyle: "medium", calendar: "gregory" });
  writers.set(timeZone, writer);
  return writer;
};
/** `20261211T103000` */
const digitsAt = (at: Instant, timeZone: string): string =>
  writerOf(timeZone)
    .format(at * 1000)
    .replaceAll(/[-:]/g, "")
    .replace(" ", "T");

const asUtc = (digits: string): Instant => {
  const [year, month, day, hour, minute, second] = [0, 4, 6, 9, 11, 13].map((at) =>
    Number(digits.slice(at, at === 0 ? 4 : at + 2)),
  ) as [number, number, number, number, number, number];
  return Date.UTC(year, month - 1, day, hour, minute, second) / 1000;
};

/** When the clock of a zone first shows the digits; where it never does, when it would have without the change. */
const instantOf = (digits: string, timeZone: string): Instant => {
  const wall = asUtc(digits);
  const readings = [-ROOM, ROOM].map((room) => wall + room - asUtc(digitsAt(wall + room, timeZone)) + wall);
  const shown = readings.filter((at) => digitsAt(at, timeZone) === digits);
  return Math.min(...(shown.length > 0 ? shown : readings.slice(0, 1)));
};

/** @param salonZone the IANA name of the zone in which floating times are read */
export const isWrittenStart = (event: ListedEvent, salonZone: string): boolean => {
  const { start, date, writtenStart, writtenZone, zone } = event;
  if (!event.certain) return start === null && date === null;
  const parts = /^(\d{4})\d{4}(?:T\d{6})?(?=Z?$)/.exec(writtenStart);
  const year = Number(parts?.[1]);
  if (!parts || year < YEARS[0] || year > YEARS[1]) return true;
  const digits = parts[0];
  if (date !== null) return new Date(date * 86_400_000).toISOString().slice(0, 10).replaceAll("-", "") === digits;
  // A leap second, and a zone that the file defines itself, are judged elsewhere.
  if (start === null || digits.endsWith("60") || (writtenZone !== null && zone === null)) return start !== null;
  const name = zone ?? salonZone;
  return start === instantOf(digits, name);
};
