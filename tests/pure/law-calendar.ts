/**
 * What the laws reckon for themselves: windows, moments and openings, by the calendar of tests/reckoner/ on TC39
 * Temporal. Nothing here asks the engine, its compiled rules or its zones, and nothing knows a record or a now.
 */
import {
  type Chance,
  clientSpan,
  firstChance,
  lastChance,
  opensOn,
  plainChances,
  type Span,
  salonSpans,
  stretchesOf,
  walkInChances,
} from "../reckoner/hours.ts";
import { DAY_S, dayNumberOf, type DayNumber, LOOKING_S, localDay, type Moment } from "../reckoner/moments.ts";
import { type Test, testOf, windowOf } from "../reckoner/protocol.ts";
import { type SalonInput, singleDates } from "./plan-salons.ts";
import type { Carrier } from "./post-simulator.ts";

/** Who can do something when: put a test on, hand a kit over, be asked at home. */
export type Whose = "walk-in" | "hand-over" | "client";

/** A salon as its settings write it, with the public holidays it was given. */
export interface Place {
  readonly input: SalonInput;
  readonly daysOff: readonly string[];
}

/** How far searches look at first, and when nothing was found, in days; the last is past the 400 of counting.md 7. */
const WINDOWS = [5, 40, 430] as const;
/** Days after the moment that is asked about, so that the end of its stretch is seen from afar. */
const MARGIN_DAYS = 4;

interface Reckoned {
  readonly holidays: ReadonlySet<DayNumber>;
  readonly salon: Map<DayNumber, readonly Span[]>;
  readonly client: Map<DayNumber, readonly Span[]>;
}
/** A salon's days, reckoned once each. */
const known = new WeakMap<SalonInput, Reckoned>();
const reckonedFor = ({ input, daysOff }: Place): Reckoned => {
  const found = known.get(input);
  if (found) return found;
  const holidays = new Set([...daysOff, ...singleDates(input.holidays.add)].map(dayNumberOf));
  const made = { holidays, salon: new Map(), client: new Map() };
  known.set(input, made);
  return made;
};
const kept = (
  days: Map<DayNumber, readonly Span[]>,
  day: DayNumber,
  reckon: () => readonly Span[],
): readonly Span[] => {
  const spans = days.get(day) ?? reckon();
  days.set(day, spans);
  return spans;
};

/** The salon's open stretches over some local days. */
const openStretches = (place: Place, from: DayNumber, to: DayNumber): Span[] => {
  const { holidays, salon } = reckonedFor(place);
  return stretchesOf({ from, to }, (day) => kept(salon, day, () => salonSpans(place.input, holidays, day)));
};
/** The client's hours over some local days; they touch where they go to midnight and begin there. */
const clientStretches = (place: Place, from: DayNumber, to: DayNumber): Span[] => {
  const { client } = reckonedFor(place);
  return stretchesOf({ from, to }, (day) => kept(client, day, () => [clientSpan(place.input, day)]));
};

const chancesOver = (place: Place, whose: Whose, from: DayNumber, to: DayNumber): Chance[] => {
  if (whose === "client") return plainChances(clientStretches(place, from, to));
  const stretches = openStretches(place, from, to);
  return whose === "walk-in" ? walkInChances(place.input, stretches) : plainChances(stretches);
};

/** The last moment at or before an instant; undefined where more than 400 days have none. */
export const lastMomentOf = (place: Place, whose: Whose, at: Moment): { at: Moment; stretch: Span } | undefined => {
  const today = localDay(place.input.zone, at);
  for (const days of WINDOWS) {
    const found = lastChance(chancesOver(place, whose, today - days, today + MARGIN_DAYS), at);
    // Next to the first day a stretch may be cut, and seem to begin where it goes on.
    if (found && found.at > at - (days - 2) * DAY_S) return found;
  }
  return undefined;
};

/** The first moment at or after an instant; undefined where more than 400 days have none. */
export const firstMomentOf = (place: Place, whose: Whose, at: Moment): { at: Moment; stretch: Span } | undefined => {
  const today = localDay(place.input.zone, at);
  for (const days of WINDOWS) {
    const found = firstChance(chancesOver(place, whose, today - WINDOWS[0], today + days + MARGIN_DAYS), at);
    if (found && found.at < at + days * DAY_S) return found;
  }
  return undefined;
};

/** Whether the salon is open: from the opening second, no longer at the closing second (counting.md 3). */
export const isOpenAt = (place: Place, at: Moment): boolean => {
  const today = localDay(place.input.zone, at);
  return openStretches(place, today - 1, today + 1).some(({ start, end }) => start <= at && at < end);
};

/** The last whole minute before an instant at which the salon is open, not before `floor`. */
export const openMinuteBefore = (place: Place, at: Moment, floor: Moment): Moment | undefined => {
  const today = localDay(place.input.zone, at);
  for (const days of WINDOWS) {
    const stretch = openStretches(place, today - days, today + 1).findLast(({ start }) => start < at);
    if (!stretch) continue;
    const minute = (Math.ceil(Math.min(stretch.end, at) / 60) - 1) * 60;
    if (minute >= stretch.start) return minute >= floor ? minute : undefined;
    return openMinuteBefore(place, stretch.start, floor);
  }
  return undefined;
};

/** The salon's tests with every default applied. */
export const testsOf = ({ input }: Place): readonly Test[] => input.tests.map((test) => testOf(input, test));

export interface Application {
  readonly opens: Moment;
  readonly due: Moment;
}

/** When a test can be put on for a colour at `start` (counting.md 7 to 11); undefined where it has no moment. */
export const applicationOf = (place: Place, test: Test, start: Moment): Application | undefined => {
  const whose = test.route === "in-salon" ? "walk-in" : "client";
  const window = windowOf(test, start);
  const last = lastMomentOf(place, whose, window.to);
  if (!last || last.at < window.from || last.at < start - LOOKING_S) return undefined;
  if (test.most === null) return { opens: opensOn(place.input.zone, last.stretch, last.at), due: last.at };
  const first = firstMomentOf(place, whose, window.from);
  if (!first) throw new Error("a last moment without a first one");
  return { opens: Math.max(window.from, first.stretch.start), due: last.at };
};

/** Until when a kit must have come so that a walk-in can still take its place (counting.md 13). */
export const keepingWalkIn = (place: Place, kitOpens: Moment, start: Moment): Moment => {
  const walkIn = testsOf(place).find((test) => test.route === "in-salon");
  const application = walkIn && applicationOf(place, { ...walkIn, most: null }, start);
  return application ? Math.min(kitOpens, application.opens) : kitOpens;
};

/** The salon's carrier, its public holidays written out; none where it works through them. */
export const carrierOf = ({ input, daysOff }: Place): Carrier => {
  const { holidays, ...post } = input.post;
  return { zone: input.zone, ...post, daysOff: holidays ? [...daysOff, ...singleDates(input.holidays.add)] : [] };
};

/** The first whole minute at or after an instant at which the salon is open. */
export const openMinuteFrom = (place: Place, at: Moment): Moment | undefined => {
  const today = localDay(place.input.zone, at);
  for (const days of WINDOWS) {
    for (const { start, end } of openStretches(place, today - 1, today + days)) {
      const minute = Math.ceil(Math.max(start, at) / 60) * 60;
      if (minute < end) return minute;
    }
  }
  return undefined;
};
