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
  let best: Guess | undefined;
  let isTied = false;
  const shifts = [...guessShifts(first, second)].sort((one, other) => Math.abs(one) - Math.abs(other));
  for (const shift of shifts) {
    const guess = { ...pairAt(first, second, shift, window), shift };
    if (guess.pairs.length === 0) continue;
    if (best && Math.abs(best.shift) === Math.abs(shift)) {
      if (guess.alone === best.alone) isTied = true;
      if (guess.alone >= best.alone) continue;
    } else if (best && guess.alone >= best.unexplained) continue;
    best = guess;
    isTied = false;
  }
  return isTied ? undefined : best;
};

/** A longer way is believed only if it leaves fewer alone in all than the shorter one leaves unexplained. */
interface Guess extends ShiftPairs {
  readonly shift: Seconds;
  readonly alone: number;
}

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

/** A long shift would explain everything near an edge: one at each is believed. */
const beyondOne = (count: number): number => Math.max(0, count - 1);

const pairAt = (
  first: readonly Instant[],
  second: readonly Instant[],
  shift: Seconds,
  { from, to }: Horizon,
): Omit<Guess, "shift"> => {
  const pairs: [number, number][] = [];
  let [unexplained, left, entered] = [0, 0, 0];
  /** Where the other half of a start would lie that has none. */
  const leaveAlone = (place: Instant): void => {
    if (place < from) left++;
    else if (place >= to - EDGE) entered++;
    else unexplained++;
  };
  let [at, there] = [0, 0];
  while (at < first.length || there < second.length) {
    const [start, other] = [first[at], second[there]];
    const gap = start === undefined ? Infinity : other === undefined ? -Infinity : start + shift - other;
    if (Math.abs(gap) <= TOLERANCE) pairs.push([at++, there++]);
    else if (gap < 0) {
      leaveAlone((first[at++] as Instant) + shift);
    } else leaveAlone((second[there++] as Instant) - shift);
  }
  const alone = unexplained + left + entered;
  return { pairs, alone, unexplained: unexplained + beyondOne(left) + beyondOne(entered) };
};
