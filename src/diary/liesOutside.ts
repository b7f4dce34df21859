/**
 * Whether an event can be left unread because all of it lies outside the horizon, told from the digits of its lines alone.
 * In doubt it is read.
 */
import { DAY_SECONDS, type Day } from "../time/instant.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { roughDay } from "./resolveStart.ts";
import type { Horizon } from "./types.ts";

/** Zones are at most a day and two hours apart from the digits; two days are enough on either side. */
const ROOM_DAYS = 2;

const findLine = (lines: readonly string[], name: string): string | undefined =>
  lines.find((line) => line.startsWith(name) && (line[name.length] === ":" || line[name.length] === ";"));

const dayIn = (line: string | undefined): Day | undefined =>
  line === undefined ? undefined : roughDay(parseContentLine(line).value);

/** UNTIL of a rule, or undefined where it runs on. */
const untilIn = (line: string): Day | undefined => {
  const until = /[:;]UNTIL=([^;]*)/i.exec(line)?.[1];
  return until === undefined ? undefined : roughDay(until);
};

/** @param lines the content lines of one VEVENT */
export const liesOutside = (lines: readonly string[], horizon: Horizon): boolean => {
  const start = dayIn(findLine(lines, "DTSTART"));
  if (start === undefined || findLine(lines, "RDATE")) return false;
  const first = Math.floor(horizon.from / DAY_SECONDS) - ROOM_DAYS;
  const last = Math.floor(horizon.to / DAY_SECONDS) + ROOM_DAYS;
  if (start > last) return !findLine(lines, "RECURRENCE-ID") || movedFromOutside(lines, first, last);
  if (start >= first) return false;
  if (findLine(lines, "RECURRENCE-ID")) return movedFromOutside(lines, first, last);
  const rules = lines.filter((line) => line.startsWith("RRULE"));
  return rules.every((rule) => (untilIn(rule) ?? Number.POSITIVE_INFINITY) < first);
};

/** An override outside the horizon still takes its original occurrence away, and may change all that follow. */
const movedFromOutside = (lines: readonly string[], first: Day, last: Day): boolean => {
  const line = findLine(lines, "RECURRENCE-ID") as string;
  const original = dayIn(line);
  return original !== undefined && (original < first || original > last) && !/;RANGE=/i.test(line);
};
