/** One master of a block → its slots: its occurrences, less those that are changed, and moved by what changes all that follow. */
import { SHIFT_MAX_DAYS } from "../bounds.ts";
import { DAY_SECONDS, type Day, dayOf, formatDay, formatInstant, type Instant, midnight } from "../time/instant.ts";
import type { Override } from "./arrangeEvents.ts";
import type { EventAccount } from "./EventAccount.ts";
import type { Steps } from "./expandRule.ts";
import { type CertainStart, expandSeries, instantOf, type Occurrence, repeats } from "./expandSeries.ts";
import { OccurrenceMatcher } from "./OccurrenceMatcher.ts";
import { originalOf } from "./originalOf.ts";
import type { EventTimes } from "./readEvent.ts";
import type { Clocks } from "./resolveStart.ts";
import { shiftOccurrence } from "./shiftOccurrence.ts";
import type { Horizon } from "./types.ts";

/** An entry without its words: which event says what it is, and when it is. */
export interface Slot {
  readonly event: EventTimes;
  readonly start: Occurrence;
  readonly recurrenceId: string | null;
}

/** A change at the occurrence that it names, in the form of one series. */
export interface Change {
  readonly event: EventTimes;
  readonly original: Occurrence;
}

/** All changes of a block in the form of one series. */
export interface Changes {
  readonly changed: OccurrenceMatcher;
  /** Of changes that name a day alone. */
  readonly days: ReadonlySet<Day>;
  /** Those to all that follow, by their instants. */
  readonly shifts: readonly (Change & { readonly at: Instant })[];
}

const CHANGES_KEPT = 100_000;

/** Gives the changes as a series sees them; series of one clock and one time of day see them alike. */
export const changesFor = (overrides: readonly Override[], clocks: Clocks): ((start: CertainStart) => Changes) => {
  const known = new Map<unknown, Map<number, Changes>>();
  // Only a date takes the time of day from the series.
  const hangsOnTime = overrides.some(({ id }) => id.kind === "date");
  const read = (start: CertainStart): Changes => {
    const changed = new OccurrenceMatcher();
    const days = new Set<Day>();
    const shifts: (Change & { at: Instant })[] = [];
    for (const { event, id } of overrides) {
      const original = originalOf(start, id);
      changed.add(original);
      if (id.kind === "date") days.add(id.day);
      if (event.andFuture) shifts.push({ event, original, at: instantOf(original, clocks) });
    }
    return { changed, days, shifts: shifts.sort((one, other) => one.at - other.at) };
  };
  return (start) => {
    const clock = start.kind === "time" ? start.clock : null;
    const ofDay = hangsOnTime && start.kind === "time" ? start.wall - midnight(dayOf(start.wall)) : 0;
    const ofClock = known.get(clock) ?? new Map<number, Changes>();
    known.set(clock, ofClock);
    const changes = ofClock.get(ofDay) ?? read(start);
    // Many times of day beside many changes would fill memory with what is quickly made again.
    if (ofClock.size * overrides.length > CHANGES_KEPT) ofClock.clear();
    ofClock.set(ofDay, changes);
    return changes;
  };
};

export interface ReadSeries {
  readonly slots: readonly Slot[];
  readonly excluded: OccurrenceMatcher;
}

/**
 * @param start the master's certain start
 * @param steps what the rules of the block may still cost
 */
export const readSeries = (
  master: EventTimes,
  start: CertainStart,
  { changed: named, days, shifts }: Changes,
  clocks: Clocks,
  horizon: Horizon,
  steps: Steps,
  account: EventAccount,
): ReadSeries => {
  // A change to all that follow may bring occurrences in from beyond the horizon.
  const room = shifts.length > 0 ? SHIFT_MAX_DAYS * DAY_SECONDS : 0;
  const series = expandSeries(master, start, clocks, horizon.from - room, horizon.to + room, steps);
  for (const code of series.faults) account.skip(master, code);
  const changed = withOnlyOnesOf(days, series.occurrences, start, named);
  const isSeries = repeats(master);
  const slots: Slot[] = [];
  const lost = new Set<EventTimes>();
  for (const occurrence of series.occurrences) {
    if (changed.matches(occurrence)) continue;
    const at = instantOf(occurrence, clocks);
    const shift = shifts.findLast((each) => each.at < at);
    const moved = shift ? shiftOccurrence(occurrence, shift.original, shift.event) : occurrence;
    const recurrenceId = isSeries ? idOf(occurrence) : null;
    if (!moved) lost.add((shift as Change).event);
    else if (account.isInside(instantOf(moved, clocks)))
      slots.push({ event: shift?.event ?? master, start: moved, recurrenceId });
  }
  for (const event of lost) account.skip(event, "shift-not-followed");
  const disputed = series.disputed.filter(
    ({ occurrence }) => !changed.matches(occurrence) && account.isInside(instantOf(occurrence, clocks)),
  );
  account.dispute(master, disputed, idOf);
  // DTSTART is an occurrence of every series: inside the horizon it must be among these slots, or be replaced.
  const first = instantOf(start, clocks);
  const firstId = idOf(start);
  const isShown = slots.some(({ recurrenceId }) => recurrenceId === null || recurrenceId === firstId);
  const isDisputed = disputed.some(({ occurrence }) => idOf(occurrence) === firstId);
  const isElsewhere = !account.isInside(first) || shifts.some(({ at }) => at < first);
  if (isShown || isDisputed || isElsewhere || changed.matches(start) || series.excluded.matches(start))
    account.told(master);
  return { slots, excluded: series.excluded };
};

/** A date names the one occurrence of its day, also where that was added at another time than the series keeps. */
const withOnlyOnesOf = (
  days: ReadonlySet<Day>,
  occurrences: readonly Occurrence[],
  start: CertainStart,
  named: OccurrenceMatcher,
): Pick<OccurrenceMatcher, "matches"> => {
  if (days.size === 0 || start.kind === "date") return named;
  const onlyOnes = new Map<Day, Occurrence | null>();
  for (const occurrence of occurrences) {
    const wall = occurrence.kind === "time" ? start.clock.wallAt(occurrence.at) : midnight(occurrence.day);
    const day = wall === undefined ? undefined : dayOf(wall);
    if (day !== undefined && days.has(day)) onlyOnes.set(day, onlyOnes.has(day) ? null : occurrence);
  }
  const meant = new Set(onlyOnes.values());
  return { matches: (occurrence) => meant.has(occurrence) || named.matches(occurrence) };
};

/** The name of an occurrence: its original start in UTC, or its date. */
export const idOf = (occurrence: Occurrence): string =>
  occurrence.kind === "time" ? formatInstant(occurrence.at) : formatDay(occurrence.day);
