/**
 * A series → its occurrences inside a window: rules, added and excluded dates. Reckons in the series' own wall time and
 * asks its clock what each means, so that an occurrence in a skipped hour is kept (RFC 5545 §3.3.5) and the host has no say.
 * What cannot be read is said beside what could, and so is what readers of a rule disagree about.
 */
import { OCCURRENCES_MAX } from "../bounds.ts";
import { DAY_SECONDS, dayOf, type Instant } from "../time/instant.ts";
import { expandLine, type LineReading } from "./expandLine.ts";
import { allSteps, type Steps } from "./expandRule.ts";
import { OccurrenceMatcher } from "./OccurrenceMatcher.ts";
import { occurrenceAt } from "./originalOf.ts";
import { readDates } from "./readDates.ts";
import { type EventTimes, linesOf } from "./readEvent.ts";
import type { CertainDate, CertainTime, Clocks, TimeReading } from "./resolveStart.ts";
import type { SkipCode } from "./skipReasons.ts";

/** One occurrence, at its original time; with its own end where the file gives it one. */
export type Occurrence = (CertainTime & { readonly ends?: Instant | undefined }) | CertainDate;

export type CertainStart = CertainTime | CertainDate;

/** An occurrence that one reader of a rule has and another has not. */
export interface Dispute {
  readonly occurrence: Occurrence;
  /** All that either reader has of that rule in the window. */
  readonly answers: readonly [readonly Occurrence[], readonly Occurrence[]];
}

export interface Series {
  readonly occurrences: readonly Occurrence[];
  readonly disputed: readonly Dispute[];
  /** What the series takes out of itself. */
  readonly excluded: OccurrenceMatcher;
  readonly faults: readonly SkipCode[];
}

/** Whether an event is a series at all. */
export const repeats = (event: EventTimes): boolean =>
  event.lines.some(({ name }) => name === "RRULE" || name === "RDATE");

const FROM_WALL_ROOM = 2 * DAY_SECONDS;

/** When an occurrence begins; a date at the start of its day in the salon's zone. */
export const instantOf = (occurrence: Occurrence, clocks: Clocks): Instant =>
  occurrence.kind === "time" ? occurrence.at : clocks.zone.startOfDay(occurrence.day);

/** Where occurrences are the same one. */
const placeOf = (occurrence: Occurrence): string =>
  occurrence.kind === "time" ? `${occurrence.at}` : `date ${occurrence.day}`;

/** A reading as it names an occurrence of `start`'s kind: for a series of dates, the date alone. */
const asNameFor = (start: CertainStart, reading: CertainStart): CertainStart =>
  start.kind === "date" && reading.kind === "time" ? { kind: "date", day: dayOf(reading.wall) } : reading;

/** An added time that is written without a zone means the series' own clock, as an excluded one does. */
const asAddedTo = (start: CertainStart, reading: CertainStart): Occurrence | undefined => {
  const named = asNameFor(start, reading);
  if (named.kind !== "time" || !named.floating || start.kind !== "time" || start.floating) return named;
  return occurrenceAt(start, named.wall);
};

/** The end of a period goes with its start, where that means the series' own clock. */
const endMovedWith = (read: TimeReading, added: CertainTime, ends: Instant | undefined): Instant | undefined =>
  ends === undefined || read.kind !== "time" ? undefined : ends + added.at - read.at;

/**
 * The occurrences of a series that begin in [from, to), by their original times.
 * @param start the series' DTSTART; its first occurrence, disputed where all rules end before it
 * @param steps what its rules may cost
 */
export const expandSeries = (
  event: EventTimes,
  start: CertainStart,
  clocks: Clocks,
  from: Instant,
  to: Instant,
  steps: Steps = allSteps(),
): Series => {
  const faults = new Set<SkipCode>();
  const read = (name: "RRULE" | "EXRULE"): LineReading[] =>
    linesOf(event, name).flatMap(({ value }) => {
      const reading = expandLine(value, start, from - FROM_WALL_ROOM, to + FROM_WALL_ROOM, steps, name === "RRULE");
      if (typeof reading !== "string") return [reading];
      faults.add(name === "RRULE" ? reading : "exclusion-not-read");
      return [];
    });

  const found = new Map<string, Occurrence>();
  const isInWindow = (occurrence: Occurrence): boolean => {
    const at = instantOf(occurrence, clocks);
    return at >= from && at < to;
  };
  const add = (occurrence: Occurrence): void => {
    const place = placeOf(occurrence);
    if (isInWindow(occurrence) && !found.has(place)) found.set(place, occurrence);
  };
  const rules = read("RRULE");
  const isOver = rules.length > 0 && faults.size === 0 && rules.every(({ disputed }) => disputed.includes(start));
  if (!isOver) add(start);
  for (const { agreed } of rules) for (const occurrence of agreed) add(occurrence);
  for (const { reading, ends } of readDates(event, "RDATE", clocks)) {
    const added = reading.kind === "not-certain" ? undefined : asAddedTo(start, reading);
    if (added) add(added.kind === "time" ? { ...added, ends: endMovedWith(reading, added, ends) } : added);
    else faults.add("addition-not-read");
  }
  if (found.size > OCCURRENCES_MAX) {
    faults.add("too-many-occurrences");
    found.clear();
    if (!isOver) add(start);
  }

  const excluded = new OccurrenceMatcher();
  for (const { reading } of readDates(event, "EXDATE", clocks)) {
    const named = reading.kind === "not-certain" ? undefined : asAddedTo(start, reading);
    if (named) excluded.add(named);
    else faults.add("exclusion-not-read");
  }
  const exclusions = read("EXRULE");
  for (const { agreed } of exclusions) for (const occurrence of agreed) excluded.add(occurrence);
  for (const [place, occurrence] of found) if (excluded.matches(occurrence)) found.delete(place);

  // What one reader of a rule adds, and what one reader of an exclusion takes out.
  const disputed = new Map<string, Dispute>();
  const dispute = (line: LineReading, isMeant: (place: string) => boolean): void => {
    if (!line.answers) return;
    const [one, other] = line.answers;
    const answers = [one.filter(isInWindow), other.filter(isInWindow)] as const;
    for (const occurrence of line.disputed) {
      const place = placeOf(occurrence);
      if (isInWindow(occurrence) && isMeant(place) && !excluded.matches(occurrence))
        disputed.set(place, { occurrence, answers });
    }
  };
  if (!faults.has("too-many-occurrences")) for (const line of rules) dispute(line, (place) => !found.has(place));
  for (const line of exclusions) dispute(line, (place) => found.has(place));
  for (const place of disputed.keys()) found.delete(place);
  return { occurrences: [...found.values()], disputed: [...disputed.values()], excluded, faults: [...faults] };
};
