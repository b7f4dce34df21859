/**
 * A zone that the diary defines itself, and the only door to ical.js: VTIMEZONE text → a clock. Onsets are laid out once
 * as a table; a wall time is then read as RFC 5545 §3.3.5 says. Where the definition does not reach, it has no answer.
 */
import ICAL from "ical.js";
import { ZONE_MAX_BYTES } from "../bounds.ts";
import { DAY_SECONDS, dayFrom, HOUR, type Instant, midnight, type Seconds, type Wall } from "../time/instant.ts";
import type { Clock } from "./clock.ts";
import { allSteps, expandRule } from "./expandRule.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { parseRule } from "./parseRule.ts";
import { parseTimeValue } from "./parseTimeValue.ts";
import type { FileZone } from "./types.ts";

interface Onset {
  readonly at: Instant;
  readonly offset: Seconds;
  /** What the definition says was kept until then. */
  readonly before: Seconds;
}

const [FIRST_YEAR, LAST_YEAR] = [1900, 2100];
const startOf = (year: number): Wall => midnight(dayFrom(year, 1, 1) as number);
const [BEGIN, END] = [startOf(FIRST_YEAR), startOf(LAST_YEAR + 1)];
/** A century and a half of two changes a year, with room. */
const ONSETS_MAX = 600;
/** A definition with summer time that stops changing says nothing of the years after; a year and a day is one round. */
const ROUND_SECONDS = 366 * DAY_SECONDS;
/** No clock is a day from UTC. */
const OFFSET_LIMIT: Seconds = 24 * HOUR;

/** The clock that a VTIMEZONE defines, or undefined where the text defines none. */
export const clockOfFileZone = (zone: FileZone): Clock | undefined => {
  if (laidOut.has(zone.text)) return laidOut.get(zone.text);
  if (laidOut.size >= LAID_OUT_MAX) laidOut.clear();
  const clock = makeClock(zone);
  laidOut.set(zone.text, clock);
  return clock;
};

/** Clocks by their definitions: every entry of a diary asks for the same one. */
const laidOut = new Map<string, Clock | undefined>();
const LAID_OUT_MAX = 50;

const makeClock = (zone: FileZone): Clock | undefined => {
  if (zone.text.length > ZONE_MAX_BYTES || !hasPlainOffsets(zone.text)) return undefined;
  let table: Table | undefined;
  try {
    table = layOut(new ICAL.Component(ICAL.parse(zone.text)));
  } catch {
    return undefined;
  }
  if (!table) return undefined;
  const { onsets, reach } = table;
  return {
    instantOf: (wall) => readWall(onsets, reach, wall),
    wallAt: (instant) => {
      const index = onsets.findLastIndex((each) => each.at <= instant);
      const onset = onsets[index];
      return onset && instant < reach && isBelieved(onsets, index) ? instant + onset.offset : undefined;
    },
  };
};

/** A sign and four or six digits (RFC 5545 §3.3.14); ical.js makes hours of days of other texts. */
const hasPlainOffsets = (text: string): boolean =>
  text.split("\n").every((line) => {
    const { name, value } = parseContentLine(line);
    return !name.startsWith("TZOFFSET") || /^[+-]\d{4}(?:\d{2})?\s*$/.test(value);
  });

/**
 * Whether what an onset begins is what the next one ends. Where a rule does not name its DTSTART, or one of two rules has
 * ended, readers differ about the stretch between.
 */
const isBelieved = (onsets: readonly Onset[], index: number): boolean => {
  const [onset, next] = [onsets[index], onsets[index + 1]];
  return onset === undefined || next === undefined || next.before === onset.offset;
};

interface Table {
  readonly onsets: readonly Onset[];
  /** The instant from which the definition says nothing any more. */
  readonly reach: Instant;
}

const layOut = (component: ICAL.Component): Table | undefined => {
  const onsets: Onset[] = [];
  const steps = allSteps();
  const observances = [...component.getAllSubcomponents("standard"), ...component.getAllSubcomponents("daylight")];
  let goesOn = false;
  for (const observance of observances) {
    const offset = secondsOf(observance, "tzoffsetto");
    // Required (RFC 5545 §3.6.5), and told by nothing else where there are several.
    const before = secondsOf(observance, "tzoffsetfrom") ?? (observances.length === 1 ? offset : undefined);
    const start = wallOf(observance.getFirstProperty("dtstart"));
    if (offset === undefined || before === undefined || start === undefined) return undefined;
    const walls = new Set([start]);
    for (const property of observance.getAllProperties("rdate")) {
      for (const value of property.getValues()) {
        const wall = wallOfText(String(value));
        if (wall === undefined) return undefined;
        walls.add(wall);
      }
    }
    for (const property of observance.getAllProperties("rrule")) {
      const rule = parseRule(String(property.getFirstValue()));
      if (typeof rule === "string" || rule.freq !== "YEARLY") return undefined;
      const until = rule.until === null ? null : untilWall(rule.until, before);
      if (until === undefined) return undefined;
      const found = expandRule(rule, start, until, BEGIN, END, ONSETS_MAX, steps);
      if (typeof found === "string") return undefined;
      for (const wall of found) walls.add(wall);
      if (until === null && rule.count === null) goesOn = true;
    }
    for (const wall of walls) onsets.push({ at: wall - before, offset, before });
    if (onsets.length > ONSETS_MAX) return undefined;
  }
  onsets.sort((first, second) => first.at - second.at);
  const last = onsets.at(-1);
  if (!last) return undefined;
  const changes = onsets.some((each) => each.offset !== last.offset);
  const hasSummer = component.getAllSubcomponents("daylight").length > 0;
  return { onsets, reach: changes && hasSummer && !goesOn ? last.at + ROUND_SECONDS : END };
};

const secondsOf = (observance: ICAL.Component, name: string): Seconds | undefined => {
  const value = observance.getFirstPropertyValue(name);
  const seconds = value instanceof ICAL.UtcOffset ? value.toSeconds() : Number.NaN;
  return Math.abs(seconds) < OFFSET_LIMIT ? seconds : undefined;
};

const wallOf = (property: ICAL.Property | null): Wall | undefined =>
  property ? wallOfText(String(property.getFirstValue())) : undefined;

const wallOfText = (text: string): Wall | undefined => {
  const value = parseTimeValue(text);
  return value?.kind === "time" ? value.wall : value ? midnight(value.day) : undefined;
};

/** UNTIL in UTC (RFC 5545 §3.6.5) as a wall time of the offset before the onset. */
const untilWall = (text: string, before: Seconds): Wall | undefined => {
  const value = parseTimeValue(text);
  if (!value) return undefined;
  if (value.kind === "date") return midnight(value.day + 1) - 1;
  return value.utc ? value.wall + before : value.wall;
};

const readWall = (onsets: readonly Onset[], reach: Instant, wall: Wall): Instant | undefined => {
  let beforeGap: Instant | undefined;
  for (const [index, onset] of onsets.entries()) {
    const until = onsets[index + 1]?.at ?? Number.POSITIVE_INFINITY;
    const reads = wall - onset.offset;
    if (reads >= onset.at && reads < until) return reads < reach && isBelieved(onsets, index) ? reads : undefined;
    if (reads >= until) beforeGap = reads;
    else if (reads < onset.at) break;
  }
  return beforeGap !== undefined && beforeGap < reach ? beforeGap : undefined;
};
