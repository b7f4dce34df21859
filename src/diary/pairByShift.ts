/**
 * Two rows of starts → the one shift that makes the second of the first: a series that was moved by an hour or a day changes
 * every key at once. Knows no bookings; where two shifts would do equally well it takes neither.
 */
import { MOVE_MAX_DAYS } from "../bounds.ts";
import { DAY_SECONDS, HOUR, type Instant, type Seconds } from "../time/instant.ts";
import type { Horizon } from "./types.ts";

export interface ShiftPairs {
  /** Places in the first row and in the second. */
  readonly pairs: readonly (readonly [first: number, second: number])[];
  /** Starts that stay alone though no edge of the window explains it. */
  readonly unexplained: number;
}

/** A clock change between an occurrence and where it went, or between two clocks, makes an hour of difference. */
const TOLERANCE: Seconds = HOUR;
/** Starts at either end of a row from which a shift is guessed: so many may be missing there. */
const GUESSED_FROM = 3;
/** The window of an earlier reading ended some days before today's. */
const EDGE: Seconds = 3 * DAY_SECONDS;

/**
 * @param first ascending starts that are gone
 * @param second ascending starts that are new
 * @param window in which both were looked for: what leaves or enters it by the shift is explained
 */
export const pairByShift = (
  first: readonly Instant[],
  second: readonly Instant[],
  window: Horizon,
): ShiftPairs | undefined => {
  let best: (ShiftPairs & { readonly shift: Seconds }) | undefined;
  let isTied = false;
  for (const shift of guessShifts(first, second)) {
    const found = pairAt(first, second, shift, window);
    if (found.pairs.length === 0) continue;
    const better = best ? compare({ ...found, shift }, best) : -1;
    if (better < 0) {
      best = { ...found, shift };
      isTied = false;
    } else if (better === 0) isTied = true;
  }
  return isTied ? undefined : best;
};

type Guess = ShiftPairs & { readonly shift: Seconds };

/** Fewest left alone, then the shorter way. */
const compare = (one: Guess, other: Guess): number =>
  one.unexplained - other.unexplained || Math.abs(one.shift) - Math.abs(other.shift);

const guessShifts = (first: readonly Instant[], second: readonly Instant[]): ReadonlySet<Seconds> => {
  const shifts = new Set<Seconds>();
  const add = (from: Instant | undefined, to: Instant | undefined): void => {
    if (from === undefined || to === undefined) return;
    if (Math.abs(to - from) <= MOVE_MAX_DAYS * DAY_SECONDS) shifts.add(to - from);
  };
  for (let n = 0; n < GUESSED_FROM; n++) {
    add(first[n], second[0]);
    add(first[0], second[n]);
    add(first.at(-1 - n), second.at(-1));
    add(first.at(-1), second.at(-1 - n));
  }
  return shifts;
};

const pairAt = (
  first: readonly Instant[],
  second: readonly Instant[],
  shift: Seconds,
  { from, to }: Horizon,
): ShiftPairs => {
  const pairs: [number, number][] = [];
  let unexplained = 0;
  const isInside = (start: Instant): boolean => start >= from + EDGE && start < to - EDGE;
  let [at, there] = [0, 0];
  while (at < first.length || there < second.length) {
    const [start, other] = [first[at], second[there]];
    const gap = start === undefined ? Infinity : other === undefined ? -Infinity : start + shift - other;
    if (Math.abs(gap) <= TOLERANCE) pairs.push([at++, there++]);
    else if (gap < 0) {
      if (isInside((first[at++] as Instant) + shift)) unexplained++;
    } else if (isInside((second[there++] as Instant) - shift)) unexplained++;
  }
  return { pairs, unexplained };
};
