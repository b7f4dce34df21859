/**
 * The moments within hours at which something can be done: so long after a stretch begins, so long before it ends, both
 * ends included. Searches go day by day over resolved stretches and end where they are told to.
 */
import type { Instant, Seconds } from "../time/instant.ts";
import { type Hours, type Piece, searchEnd } from "./hours.ts";

/** Moments from `after` the beginning of a stretch until `before` its end. */
export interface Moments {
  readonly hours: Hours;
  readonly after: Seconds;
  readonly before: Seconds;
}

/** Moments [first, last] that lie in one piece of a stretch. */
export interface MomentRange {
  readonly first: Instant;
  readonly last: Instant;
  readonly piece: Piece;
}

export interface Moment {
  readonly at: Instant;
  readonly piece: Piece;
}

const rangeIn = (moments: Moments, piece: Piece): MomentRange | undefined => {
  const first = Math.max(piece.from, piece.stretchFrom + moments.after);
  const last = Math.min(piece.to, piece.stretchTo - moments.before);
  return first <= last ? { first, last, piece } : undefined;
};

/** The last moment at or before `at` and at or after `floor`, with the piece it lies in. */
export const lastMoment = (moments: Moments, at: Instant, floor: Instant): Moment | undefined => {
  const { zone, onDay } = moments.hours;
  const lastDay = searchEnd(floor, -1);
  for (let day = zone.dayAt(at) + 1; day >= lastDay; day--) {
    const pieces = onDay(day);
    for (let index = pieces.length - 1; index >= 0; index--) {
      const range = rangeIn(moments, pieces[index] as Piece);
      if (!range || range.first > at) continue;
      const last = Math.min(range.last, at);
      return last >= floor ? { at: last, piece: range.piece } : undefined;
    }
  }
  return undefined;
};

/** Every range with a moment in [from, to], in order. */
export function* rangesFrom(moments: Moments, from: Instant, to: Instant): Generator<MomentRange> {
  const { zone, onDay } = moments.hours;
  const lastDay = searchEnd(to, 1);
  for (let day = zone.dayAt(from) - 1; day <= lastDay; day++) {
    for (const piece of onDay(day)) {
      const range = rangeIn(moments, piece);
      if (range && range.last >= from && range.first <= to) yield range;
    }
  }
}

/** The first moment at or after `at` and at or before `limit`, with the piece it lies in. */
export const firstMoment = (moments: Moments, at: Instant, limit: Instant): Moment | undefined => {
  for (const range of rangesFrom(moments, at, limit)) return { at: Math.max(range.first, at), piece: range.piece };
  return undefined;
};
