/**
 * Everything about one salon that no booking changes, laid out day by day over the time that rule 7 lets us look at.
 * Never looks at records.
 */
import {
  type Chance,
  clientSpan,
  type Days,
  holidaysOf,
  plainChances,
  type Span,
  salonSpans,
  stretchesOf,
  walkInChances,
} from "./hours.ts";
import { DAY_S, type DayNumber, LOOKING_S, type Moment } from "./moments.ts";
import { type Post, simulatePost } from "./post.ts";
import { type Test, testOf } from "./protocol.ts";
import type { ReckonSettings } from "./types.ts";

export interface Book {
  readonly settings: ReckonSettings;
  readonly zone: string;
  readonly tests: readonly Test[];
  /** No `opening`: there is no closing time (rule 5). */
  readonly hasClosing: boolean;
  readonly salon: readonly Span[];
  readonly walkIns: readonly Chance[];
  readonly handOvers: readonly Chance[];
  readonly kitTimes: readonly Chance[];
  readonly post: Post;
  readonly spansOn: (day: DayNumber) => readonly Span[];
}

/** Days beyond the 400 of rule 7 that are laid out too, so that no answer is cut by the edge of the page. */
const SPARE_S = 100 * DAY_S;

/** The book of a salon for a booking at `start` seen at `now`. */
export const openBook = (settings: ReckonSettings, given: readonly string[], start: Moment, now: Moment): Book => {
  const holidays = holidaysOf(settings, given);
  const days: Days = {
    from: Math.floor((Math.min(start, now) - LOOKING_S - SPARE_S) / DAY_S),
    to: Math.ceil((Math.max(start, now) + LOOKING_S + SPARE_S) / DAY_S),
  };
  const spansOn = (day: DayNumber): Span[] => salonSpans(settings, holidays, day);
  const salon = stretchesOf(days, spansOn);
  const client = stretchesOf(days, (day) => [clientSpan(settings, day)]);
  return {
    settings,
    zone: settings.zone,
    tests: settings.tests.map((test) => testOf(settings, test)),
    hasClosing: (settings.opening ?? null) !== null,
    salon,
    walkIns: walkInChances(settings, salon),
    handOvers: plainChances(salon),
    kitTimes: plainChances(client),
    post: simulatePost(settings, holidays, days),
    spansOn,
  };
};
