/**
 * One RRULE or EXRULE line of a series → the occurrences that its readers agree about inside a window, and those that only
 * one of them has. What an occurrence is comes from the start: its clock, or that it is a date.
 */
import { dayOf, HOUR, type Instant, midnight, type Wall } from "../time/instant.ts";
import { type Clock, UTC_CLOCK } from "./clock.ts";
import type { CertainStart, Occurrence } from "./expandSeries.ts";
import { expandRule, type Steps } from "./expandRule.ts";
import { occurrenceAt } from "./originalOf.ts";
import { parseRule, type Rule } from "./parseRule.ts";
import { parseTimeValue } from "./parseTimeValue.ts";
import { secondReading } from "./secondReading.ts";
import type { SkipCode } from "./skipReasons.ts";

export interface LineReading {
  readonly agreed: readonly Occurrence[];
  /** What the readers do not agree about, in order. */
  readonly disputed: readonly Occurrence[];
  /** The answers of the first and the second reader, where they differ. */
  readonly answers: readonly [readonly Occurrence[], readonly Occurrence[]] | null;
}

/** UNTIL as the last wall time and, where it is UTC, the last instant. */
const readUntil = (text: string, clock: Clock): { readonly wall: Wall; readonly at: Instant | null } | undefined => {
  const value = parseTimeValue(text);
  if (!value) return undefined;
  if (value.kind === "date") return { wall: midnight(value.day + 1) - 1, at: null };
  if (!value.utc) return { wall: value.wall, at: null };
  const wall = clock.wallAt(value.wall);
  // Two hours of room where the clock repeats an hour; the instant decides.
  return wall === undefined ? undefined : { wall: wall + 2 * HOUR, at: value.wall };
};

/** Times of day say nothing about a series of dates (RFC 5545 §3.3.10: they "MUST be ignored"). */
const asDateRule = (rule: Rule): Rule => {
  const by = new Map(rule.by);
  for (const part of ["BYHOUR", "BYMINUTE", "BYSECOND"] as const) by.delete(part);
  return { ...rule, by };
};

/** Whether a rule steps by less than a day, which a date cannot follow. */
const isByClock = ({ freq }: Rule): boolean => freq === "HOURLY" || freq === "MINUTELY" || freq === "SECONDLY";

/**
 * Whether a rule ends before its start. The start is the first instance whatever the rule says (RFC 5545 §3.8.5.3); but this
 * is how calendars take out a series from its first appointment on, and they then show none.
 * @param last the last wall time that may occur, or null
 * @param at the last instant, where UNTIL is one
 */
const isOverBefore = (start: CertainStart, last: Wall | null, at: Instant | null): boolean => {
  if (last === null) return false;
  if (start.kind === "date") return dayOf(last) < start.day;
  return at === null ? last < start.wall : at < start.at;
};

/** @param startCounts for an RRULE: the start is its first occurrence, whether it names it or not */
export const expandLine = (
  text: string,
  start: CertainStart,
  from: Wall,
  to: Wall,
  steps: Steps,
  startCounts: boolean,
): LineReading | SkipCode => {
  const parsed = parseRule(text);
  if (typeof parsed === "string") return parsed;
  if (start.kind === "date" && isByClock(parsed)) return "rule-not-supported";
  const rule = start.kind === "date" ? asDateRule(parsed) : parsed;
  const until = rule.until === null ? null : readUntil(rule.until, start.kind === "time" ? start.clock : UTC_CLOCK);
  if (until === undefined) return "rule-not-read";
  // A date's UNTIL in UTC names that date (RFC 5545 §3.3.10 wants a date; many write a time).
  const last = until && start.kind === "date" ? midnight(dayOf(until.at ?? until.wall) + 1) - 1 : (until?.wall ?? null);
  const question = { rule, start: start.kind === "time" ? start.wall : midnight(start.day), until: last, from, to };
  if (startCounts && isOverBefore(start, last, until?.at ?? null))
    return { agreed: [], disputed: [start], answers: [[start], []] };
  const first = expandRule(rule, question.start, last, from, to, undefined, steps, startCounts);
  if (typeof first === "string") return first;
  const lastInstant = until?.at ?? Number.POSITIVE_INFINITY;
  const toOccurrences = (walls: readonly Wall[]): Occurrence[] | undefined => {
    const occurrences: Occurrence[] = [];
    for (const wall of walls) {
      const occurrence = occurrenceAt(start, wall);
      if (!occurrence) return undefined;
      if (occurrence.kind === "date" || occurrence.at <= lastInstant) occurrences.push(occurrence);
    }
    return occurrences;
  };
  const second = secondReading({ ...question, startCounts }, steps);
  const found = toOccurrences(first);
  if (!found) return "zone-not-reaching";
  if (!second || (second.length === first.length && second.every((wall, index) => wall === first[index])))
    return { agreed: found, disputed: [], answers: null };
  const [inFirst, inSecond] = [new Set(first), new Set(second)];
  const either = [...new Set([...first, ...second])].sort((one, other) => one - other);
  const others = toOccurrences(second);
  const disputed = toOccurrences(either.filter((wall) => !(inFirst.has(wall) && inSecond.has(wall))));
  const agreed = toOccurrences(first.filter((wall) => inSecond.has(wall)));
  return others && disputed && agreed ? { agreed, disputed, answers: [found, others] } : "zone-not-reaching";
};
