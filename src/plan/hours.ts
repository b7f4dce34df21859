/**
 * Hours that come back day by day (the salon's, the client's), resolved to instants and kept once reckoned.
 * A wall time is resolved as counting.md 2 says, by Zone.firstReading; nothing here reads a wall clock afterwards.
 */
import { DAY_SECONDS, type Day, type Instant, MINUTE, midnight, type Seconds } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { Span } from "./spans.ts";

/** The part of an open stretch that lies in one local day, [from, to), and the ends of the whole stretch. */
export interface Piece {
  readonly from: Instant;
  readonly to: Instant;
  /** Where the stretch began; at least `reach` days back it may be cut, which no margin can notice. */
  readonly stretchFrom: Instant;
  /** Where the stretch ends; cut likewise. */
  readonly stretchTo: Instant;
}

export interface Hours {
  readonly zone: Zone;
  /** The pieces of a local day, in order, none touching another. */
  readonly onDay: (day: Day) => readonly Piece[];
}

/**
 * Hours from the spans of each local day. `longestMargin` is the longest time that will be taken off a stretch's end;
 * a stretch is followed that far over midnights, and no farther, since a salon may be open day and night.
 */
export const makeHours = (zone: Zone, spansOn: (day: Day) => readonly Span[], longestMargin: Seconds): Hours => {
  const reach = Math.min(402, 2 + Math.ceil(longestMargin / DAY_SECONDS));
  const rawDays = new Map<Day, readonly { from: Instant; to: Instant }[]>();
  const days = new Map<Day, readonly Piece[]>();

  const rawOn = (day: Day): readonly { from: Instant; to: Instant }[] => {
    const known = rawDays.get(day);
    if (known) return known;
    const raw: { from: Instant; to: Instant }[] = [];
    for (const span of spansOn(day)) {
      const from = zone.firstReading(midnight(day) + span.from);
      const to = zone.firstReading(midnight(day) + span.to);
      const last = raw.at(-1);
      if (to <= from) continue;
      if (last && last.to >= from) last.to = to;
      else raw.push({ from, to });
    }
    rawDays.set(day, raw);
    return raw;
  };

  const startOfStretch = (day: Day, from: Instant): Instant => {
    let start = from;
    for (let back = day - 1; back >= day - reach; back--) {
      const last = rawOn(back).at(-1);
      if (last?.to !== start) return start;
      start = last.from;
      if (rawOn(back).length > 1) return start;
    }
    return start;
  };
  const endOfStretch = (day: Day, to: Instant): Instant => {
    let end = to;
    for (let ahead = day + 1; ahead <= day + reach; ahead++) {
      const first = rawOn(ahead)[0];
      if (first?.from !== end) return end;
      end = first.to;
      if (rawOn(ahead).length > 1) return end;
    }
    return end;
  };

  const onDay = (day: Day): readonly Piece[] => {
    const known = days.get(day);
    if (known) return known;
    const raw = rawOn(day);
    const pieces = raw.map(({ from, to }, index) => ({
      from,
      to,
      stretchFrom: index === 0 ? startOfStretch(day, from) : from,
      stretchTo: index === raw.length - 1 ? endOfStretch(day, to) : to,
    }));
    days.set(day, pieces);
    return pieces;
  };
  return { zone, onDay };
};

/**
 * The day at which a search ends that is bounded by an instant: three past its date in UTC, which no zone's date reaches.
 * The instant itself decides what is found; a year away, the zone need not be asked.
 */
export const searchEnd = (at: Instant, way: 1 | -1): Day => Math.floor(at / DAY_SECONDS) + 3 * way;

/** Whether an instant lies in the hours: [open, close) (counting.md 3). */
export const isOpen = (hours: Hours, at: Instant): boolean =>
  [0, 1].some((later) => hours.onDay(hours.zone.dayAt(at) + later).some((piece) => piece.from <= at && at < piece.to));

/** The first whole minute in the hours at or after `at`, up to and including `limit`; undefined where there is none. */
export const firstOpenMinute = (hours: Hours, at: Instant, limit: Instant): Instant | undefined => {
  const last = searchEnd(limit, 1);
  for (let day = hours.zone.dayAt(at) - 1; day <= last; day++) {
    for (const piece of hours.onDay(day)) {
      const minute = Math.ceil(Math.max(at, piece.from) / MINUTE) * MINUTE;
      if (minute > limit) return undefined;
      if (minute < piece.to) return minute;
    }
  }
  return undefined;
};

/** `at` where the hours are open then, else when they next open, up to `limit`; undefined where they do not. */
export const nextOpening = (hours: Hours, at: Instant, limit: Instant): Instant | undefined => {
  const last = searchEnd(limit, 1);
  for (let day = hours.zone.dayAt(at) - 1; day <= last; day++) {
    const piece = hours.onDay(day).find((each) => each.to > at);
    if (piece) return piece.from <= limit ? Math.max(at, piece.from) : undefined;
  }
  return undefined;
};
