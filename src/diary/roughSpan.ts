/**
 * Between which days an event can have anything to say, told from the digits of its lines alone and generously: what lies
 * outside the horizon is then never parsed. In doubt an event reaches everywhere.
 */
import type { Day } from "../time/instant.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { roughDay } from "./resolveStart.ts";
import type { RoughSpan } from "./types.ts";

/** The names of lines that `roughSpan` looks at. */
export const SPAN_PROPERTIES: ReadonlySet<string> = new Set(["DTSTART", "RECURRENCE-ID", "RRULE", "RDATE"]);

/** Days beyond every calendar, and numbers that JSON keeps. */
export const EVERYWHERE: RoughSpan = { first: -1_000_000_000, last: 1_000_000_000 };

/** UNTIL of a rule; a rule that runs on or counts reaches for ever. */
const lastOfRule = (line: string): Day => {
  const until = /[:;]\s*UNTIL\s*=([^;]*)/i.exec(line)?.[1];
  return (until === undefined ? undefined : roughDay(until)) ?? EVERYWHERE.last;
};

/** @param lines [name in capitals, whole line] of every line of one event that is in SPAN_PROPERTIES */
export const roughSpan = (lines: readonly (readonly [name: string, line: string])[]): RoughSpan => {
  let [first, last] = [EVERYWHERE.last, EVERYWHERE.first];
  let hasStart = false;
  for (const [name, line] of lines) {
    if (name === "RDATE") return EVERYWHERE;
    if (name === "RRULE") {
      last = Math.max(last, lastOfRule(line));
      continue;
    }
    const day = roughDay(parseContentLine(line).value);
    if (day === undefined) return EVERYWHERE;
    if (name === "DTSTART") hasStart = true;
    // An override takes its original occurrence away and, with RANGE, changes all that follow.
    else if (/;\s*RANGE\s*=/i.test(line)) last = EVERYWHERE.last;
    first = Math.min(first, day);
    last = Math.max(last, day);
  }
  return hasStart ? { first, last } : EVERYWHERE;
};

export const joinSpans = (spans: readonly RoughSpan[]): RoughSpan =>
  spans.reduce((whole, each) => ({
    first: Math.min(whole.first, each.first),
    last: Math.max(whole.last, each.last),
  }));

/**
 * No zone is farther from UTC than a day and two hours, so digits are at most two days from the day they mean in another
 * zone.
 */
const ROOM_DAYS = 2;

/** Whether everything ends before a local day. */
export const isBefore = (span: RoughSpan, day: Day): boolean => span.last < day - ROOM_DAYS;
/** Whether everything begins after a local day. */
export const isAfter = (span: RoughSpan, day: Day): boolean => span.first > day + ROOM_DAYS;
/** Whether everything lies between two local days. */
export const isBetween = (span: RoughSpan, first: Day, last: Day): boolean =>
  span.first > first + ROOM_DAYS && span.last < last - ROOM_DAYS;
