/**
 * A series → its occurrences inside a window: rules, added and excluded dates. Reckons in the series' own wall time and
 * asks its clock what each means, so that an occurrence in a skipped hour is kept (RFC 5545 §3.3.5) and the host has no say.
 * What cannot be read is said beside what could.
 */
import { DAY_SECONDS, type Day, dayOf, HOUR, type Instant, midnight, type Wall } from "../time/instant.ts";
import { type Clock, UTC_CLOCK } from "./clock.ts";
import { expandRule } from "./expandRule.ts";
import { parseRule } from "./parseRule.ts";
import { parseTimeValue } from "./parseTimeValue.ts";
import { type EventTimes, linesOf } from "./readEvent.ts";
import { type CertainDate, type CertainTime, type Clocks, resolveStart, type TimeReading } from "./resolveStart.ts";
import type { SkipCode } from "./skipReasons.ts";

/** One occurrence, at its original time. */
export type Occurrence = CertainTime | CertainDate;

export interface Series {
  readonly occurrences: readonly Occurrence[];
  /** What the series takes out of itself. */
  readonly excluded: OccurrenceMatcher;
  readonly faults: readonly SkipCode[];
}

export type CertainStart = CertainTime | CertainDate;

/** Whether an event is a series at all. */
export const repeats = (event: EventTimes): boolean =>
  event.lines.some(({ name }) => name === "RRULE" || name === "RDATE");

const FROM_WALL_ROOM = 2 * DAY_SECONDS;

/** A start as the wall time the engine reckons in. */
const wallOf = (start: Occurrence): Wall => (start.kind === "time" ? start.wall : midnight(start.day));

/** The occurrence of a series at a wall time of its own clock; undefined where the clock does not reach. */
const occurrenceAt = (start: CertainStart, wall: Wall): Occurrence | undefined => {
  if (start.kind === "date") return { kind: "date", day: dayOf(wall) };
  const at = start.clock.instantOf(wall);
  return at === undefined ? undefined : { ...start, at, wall };
};

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

const expandLine = (
  text: string,
  start: CertainStart,
  from: Wall,
  to: Wall,
): { readonly occurrences: readonly Occurrence[] } | { readonly fault: SkipCode } => {
  const rule = parseRule(text);
  if (typeof rule === "string") return { fault: rule };
  const until = rule.until === null ? null : readUntil(rule.until, start.kind === "time" ? start.clock : UTC_CLOCK);
  if (until === undefined) return { fault: "rule-not-read" };
  // A date's UNTIL in UTC names that date (RFC 5545 §3.3.10 wants a date; many write a time).
  const last = until && start.kind === "date" ? midnight(dayOf(until.at ?? until.wall) + 1) - 1 : (until?.wall ?? null);
  const walls = expandRule(rule, wallOf(start), last, from, to);
  if (typeof walls === "string") return { fault: walls };
  const lastInstant = until?.at ?? Number.POSITIVE_INFINITY;
  const occurrences: Occurrence[] = [];
  for (const wall of walls) {
    const occurrence = occurrenceAt(start, wall);
    if (!occurrence) return { fault: "zone-not-reaching" };
    if (occurrence.kind === "date" || occurrence.at <= lastInstant) occurrences.push(occurrence);
  }
  return { occurrences };
};

/** Something that names occurrences of a series: an instant, a wall time of its own clock, or a date. */
export class OccurrenceMatcher {
  readonly #instants = new Set<Instant>();
  readonly #walls = new Set<Wall>();
  readonly #days = new Set<Day>();

  add(reading: CertainStart): void {
    if (reading.kind === "date") this.#days.add(reading.day);
    else {
      this.#instants.add(reading.at);
      // Written without a zone it means the series' own clock, whatever the salon's is.
      if (reading.floating) this.#walls.add(reading.wall);
    }
  }

  matches(occurrence: Occurrence): boolean {
    if (occurrence.kind === "time") {
      return (
        this.#instants.has(occurrence.at) || this.#walls.has(occurrence.wall) || this.#days.has(dayOf(occurrence.wall))
      );
    }
    return this.#days.has(occurrence.day);
  }
}

/**
 * The occurrence that a RECURRENCE-ID names, in the series' own form: a date names the one of that day, a time without a
 * zone means the series' own clock.
 * @param start the series' DTSTART
 */
export const originalOf = (start: CertainStart, id: CertainStart): Occurrence => {
  if (start.kind === "date") return { kind: "date", day: id.kind === "date" ? id.day : dayOf(id.wall) };
  const wall =
    id.kind === "date"
      ? midnight(id.day) + start.wall - midnight(dayOf(start.wall))
      : id.floating
        ? id.wall
        : start.clock.wallAt(id.at);
  if (wall === undefined) return id;
  const named = occurrenceAt(start, wall);
  // In a repeated hour the clock gives the first pass; an instant that was written out stays what it is.
  return named?.kind === "time" && id.kind === "time" && !id.floating ? { ...named, at: id.at } : (named ?? id);
};

/** A reading as it names an occurrence of `start`'s kind: for a series of dates, the date alone. */
const asNameFor = (start: CertainStart, reading: CertainStart): CertainStart =>
  start.kind === "date" && reading.kind === "time" ? { kind: "date", day: dayOf(reading.wall) } : reading;

const valuesOf = (event: EventTimes, name: string, clocks: Clocks): TimeReading[] =>
  linesOf(event, name).flatMap((line) =>
    line.value
      .split(",")
      .filter((value) => value.trim() !== "")
      .map((value) => resolveStart(periodless(line), clocks, value.split("/")[0])),
  );

/** A PERIOD counts by its start. */
const periodless = (line: ReturnType<typeof linesOf>[number]): typeof line =>
  line.params.get("VALUE")?.toUpperCase() === "PERIOD" ? { ...line, params: withoutValue(line.params) } : line;

const withoutValue = (params: ReadonlyMap<string, string>): ReadonlyMap<string, string> =>
  new Map([...params].filter(([name]) => name !== "VALUE"));

/**
 * The occurrences of a series that begin in [from, to), by their original times.
 * @param start the series' DTSTART; always its first occurrence
 */
export const expandSeries = (
  event: EventTimes,
  start: CertainStart,
  clocks: Clocks,
  from: Instant,
  to: Instant,
): Series => {
  const faults = new Set<SkipCode>();
  const fromWall = from - FROM_WALL_ROOM;
  const toWall = to + FROM_WALL_ROOM;
  const found: Occurrence[] = [start];
  for (const line of linesOf(event, "RRULE")) {
    const expanded = expandLine(line.value, start, fromWall, toWall);
    if ("fault" in expanded) faults.add(expanded.fault);
    else found.push(...expanded.occurrences);
  }
  for (const reading of valuesOf(event, "RDATE", clocks)) {
    if (reading.kind === "not-certain") faults.add("addition-not-read");
    else found.push(asNameFor(start, reading));
  }

  const excluded = new OccurrenceMatcher();
  for (const reading of valuesOf(event, "EXDATE", clocks)) {
    if (reading.kind === "not-certain") faults.add("exclusion-not-read");
    else excluded.add(asNameFor(start, reading));
  }
  for (const line of linesOf(event, "EXRULE")) {
    const expanded = expandLine(line.value, start, fromWall, toWall);
    if ("fault" in expanded) faults.add("exclusion-not-read");
    else for (const occurrence of expanded.occurrences) excluded.add(occurrence);
  }

  const seen = new Set<number>();
  const occurrences = found.filter((occurrence) => {
    const at = instantOf(occurrence, clocks);
    const place = occurrence.kind === "time" ? occurrence.at : occurrence.day;
    if (at < from || at >= to || seen.has(place) || excluded.matches(occurrence)) return false;
    seen.add(place);
    return true;
  });
  return { occurrences, excluded, faults: [...faults] };
};

/** When an occurrence begins; a date at the start of its day in the salon's zone. */
export const instantOf = (occurrence: Occurrence, clocks: Clocks): Instant =>
  occurrence.kind === "time" ? occurrence.at : clocks.zone.startOfDay(occurrence.day);
