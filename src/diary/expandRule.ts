/**
 * The wall times of a rule inside a window: the first reader of rules. Reckons in wall time alone, in whole numbers, so that
 * no zone, no host and no skipped hour has a say; what a wall time means is the caller's. Walks lazily and counts its steps:
 * a rule costs what the window holds of it, never what it could name.
 */
import { OCCURRENCES_MAX, RECURRENCE_STEPS_MAX } from "../bounds.ts";
import { DAY_SECONDS, HOUR, MINUTE, type Seconds, type Wall } from "../time/instant.ts";
import { clockWalls } from "./clockWalls.ts";
import { dayWalls } from "./dayWalls.ts";
import type { Frequency, Rule } from "./parseRule.ts";

export type ExpandFault = "rule-runs-away" | "too-many-occurrences";

/** Steps that the rules of one block may still take, together. */
export interface Steps {
  left: number;
  /** Of the second reader, which must not use up what the first needs. */
  leftAgain: number;
}
export const allSteps = (): Steps => ({ left: RECURRENCE_STEPS_MAX, leftAgain: RECURRENCE_STEPS_MAX });

/** What every walk is given: nothing before `from` need be said unless it is counted, nothing from `end` on may be. */
export interface Walk {
  readonly rule: Rule;
  readonly start: Wall;
  readonly from: Wall;
  readonly end: Wall;
  readonly steps: Steps;
}

const STEP_SECONDS: Readonly<Partial<Record<Frequency, Seconds>>> = {
  WEEKLY: 7 * DAY_SECONDS,
  DAILY: DAY_SECONDS,
  HOURLY: HOUR,
  MINUTELY: MINUTE,
  SECONDLY: 1,
};

/**
 * The last occurrence of a counted rule that hits every one of its steps: it needs no counting from its beginning. Undefined
 * for every other rule.
 */
const lastOfPlainCount = ({ freq, interval, count, by, byDay }: Rule, start: Wall): Wall | undefined => {
  const step = STEP_SECONDS[freq];
  if (count === null || step === undefined || by.size > 0 || byDay.length > 0) return undefined;
  return start + (count - 1) * interval * step;
};

/**
 * The occurrences of a rule in [from, to), in order.
 * @param until the last wall time that may occur, or null
 * @param most how many occurrences the window may hold
 * @param startCounts whether `start` is the first occurrence even where the rule does not name it, as in an RRULE
 *   (RFC 5545 §3.3.10: DTSTART counts as the first occurrence) but not in an EXRULE
 */
export const expandRule = (
  rule: Rule,
  start: Wall,
  until: Wall | null,
  from: Wall,
  to: Wall,
  most: number = OCCURRENCES_MAX,
  steps: Steps = allSteps(),
  startCounts = true,
): readonly Wall[] | ExpandFault => {
  const last = lastOfPlainCount(rule, start);
  const end = Math.min(to, (until ?? to) + 1, (last ?? to) + 1);
  if (end <= from || end <= start) return [];
  const walked = last === undefined ? rule : { ...rule, count: null };
  const walk: Walk = { rule: walked, start, from, end, steps };
  const found: Wall[] = startCounts && start >= from ? [start] : [];
  let before = startCounts ? start : start - 1;
  let left = (walked.count ?? Number.POSITIVE_INFINITY) - (startCounts ? 1 : 0);
  if (left === 0) return found;
  for (const wall of walled(walk)) {
    // A date moved by SKIP may fall upon another one.
    if (wall <= before) continue;
    if (wall >= end) break;
    before = wall;
    if (wall >= from) found.push(wall);
    if (found.length > most) return "too-many-occurrences";
    if (--left === 0) break;
  }
  return steps.left < 0 ? "rule-runs-away" : found;
};

const walled = (walk: Walk): Iterable<Wall> => {
  const { freq } = walk.rule;
  return freq === "HOURLY" || freq === "MINUTELY" || freq === "SECONDLY" ? clockWalls(walk) : dayWalls(walk);
};
