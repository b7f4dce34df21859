/**
 * Between which days an event can have anything to say, told from the digits of its lines alone and generously: what lies
 * outside the horizon is then never parsed. In doubt an event reaches everywhere.
 */
import { DAY_SECONDS, type Day, dayFrom } from "../time/instant.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { roughDay } from "./resolveStart.ts";
import type { Horizon, RoughSpan } from "./types.ts";

/** The names of lines that `roughSpan` looks at. */
export const SPAN_PROPERTIES: ReadonlySet<string> = new Set(["DTSTART", "RECURRENCE-ID", "RRULE", "RDATE"]);

/** Days beyond every calendar, and numbers that JSON keeps. */
export const EVERYWHERE: RoughSpan = { first: -1_000_000_000, last: 1_000_000_000 };

/** UNTIL of a rule; a rule that runs on or counts reaches for ever. */
const lastOfRule = (line: string): Day => {
  const until = /[:;]\s*UNTIL\s*=([^;]*)/i.exec(line)?.[1];
  return (until === undefined ? undefined : roughDay(until)) ?? EVERYWHERE.last;
};

/**
 * @param lines [name in capitals, whole line] of every other line of one event that is in SPAN_PROPERTIES
 * @param startDay of a DTSTART that `plainDay` could read
 */
export const roughSpan = (
  lines: readonly (readonly [name: string, line: string])[],
  startDay: Day | undefined,
): RoughSpan => {
  if (lines.length === 0 && startDay !== undefined) return { first: startDay, last: startDay };
  let first = startDay ?? EVERYWHERE.last;
  let last = startDay ?? EVERYWHERE.first;
  let hasStart = startDay !== undefined;
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

const [ZERO, NINE, COLON, CAPITAL_T, CAPITAL_Z] = [48, 57, 58, 84, 90];

/** The day of a line that ends in `:20261211T103000`, with or without Z, or `:20261211`; undefined for any other. */
export const plainDay = (octets: Uint8Array, from: number, to: number): Day | undefined => {
  const end = octets[to - 1] === CAPITAL_Z ? to - 1 : to;
  const date = octets[end - 7] === CAPITAL_T ? end - 15 : end - 8;
  if (date <= from || octets[date - 1] !== COLON) return undefined;
  const numberAt = (at: number, length: number): number => {
    let number = 0;
    for (let index = at; index < at + length; index++) {
      const octet = octets[index] as number;
      number = octet >= ZERO && octet <= NINE ? number * 10 + octet - ZERO : Number.NaN;
    }
    return number;
  };
  const [year, month, day] = [numberAt(date, 4), numberAt(date + 4, 2), numberAt(date + 6, 2)];
  return Number.isNaN(year + month + day) ? undefined : dayFrom(year, month, day);
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
export const ROOM_DAYS = 2;

/** The day before which nothing is looked for, in UTC. */
export const firstDayIn = ({ from }: Horizon): Day => Math.floor(from / DAY_SECONDS);

/** Whether everything ends before a local day. */
export const isBefore = (span: RoughSpan, day: Day): boolean => span.last < day - ROOM_DAYS;
/** Whether everything begins after a local day. */
export const isAfter = (span: RoughSpan, day: Day): boolean => span.first > day + ROOM_DAYS;
/** Whether everything lies between two local days. */
export const isBetween = (span: RoughSpan, first: Day, last: Day): boolean =>
  span.first > first + ROOM_DAYS && span.last < last - ROOM_DAYS;
