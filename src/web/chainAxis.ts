/**
 * Where the instants of a plan stand on an axis: which stretch of days it shows, at which share of its width each instant lies,
 * and which lane a mark takes so that none hides another. Numbers only.
 */
import { isDoneFrom } from "../feed/eventTime.ts";
import type { Shade } from "../plan/shades.ts";
import { DAY_SECONDS, type Day, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import type { ChainMark, ChainShown } from "./chain.ts";

export interface Axis {
  readonly from: Instant;
  /** Exclusive. */
  readonly to: Instant;
}

/** The moment that a mark stands for: from when on it is done, or by when. */
export const momentOf = (mark: Pick<ChainMark, "kind" | "opens" | "due">): Instant =>
  isDoneFrom(mark) ? mark.opens : mark.due;

/** How far now may lie beside the steps and still be part of the picture. */
const NOW_WITHIN = 8 * DAY_SECONDS;

/** Whole days that hold every step and the colour, and now where it is not far from them. */
export const axisOf = ({ marks, colour, now }: ChainShown, zone: Zone): Axis => {
  const moments = [colour, ...marks.flatMap((mark) => [momentOf(mark), mark.due])];
  const [first, last] = [Math.min(...moments), Math.max(...moments)];
  const from = now < first && now >= first - NOW_WITHIN ? now : first;
  const to = now > last && now <= last + NOW_WITHIN ? now : last;
  return { from: zone.startOfDay(zone.dayAt(from)), to: zone.startOfDay(zone.dayAt(to) + 1) };
};

/** How far along the axis an instant lies, in hundredths of its length; what lies outside stands at its end. */
export const alongOf = (at: Instant, { from, to }: Axis): number =>
  (100 * (Math.min(Math.max(at, from), to) - from)) / (to - from);

export const isWithin = (at: Instant, { from, to }: Axis): boolean => at >= from && at < to;

/** Every day of the axis with the instant at which it begins. */
export const daysOf = (axis: Axis, zone: Zone): readonly { readonly day: Day; readonly from: Instant }[] => {
  const [first, last] = [zone.dayAt(axis.from), zone.dayAt(axis.to - 1)];
  return Array.from({ length: last - first + 1 }, (_, index) => ({
    day: first + index,
    from: zone.startOfDay(first + index),
  }));
};

/** Shut days in a row that are shut alike, as one stretch; only what lies on the axis. */
export const stretchesOf = (
  shades: readonly Shade[],
  axis: Axis,
): readonly Pick<Shade, "from" | "to" | "salon" | "post">[] => {
  const stretches: Pick<Shade, "from" | "to" | "salon" | "post">[] = [];
  for (const { from, to, salon, post } of shades) {
    if (to <= axis.from || from >= axis.to) continue;
    const last = stretches.at(-1);
    if (last && last.to === from && last.salon === salon && last.post === post) {
      stretches[stretches.length - 1] = { ...last, to };
    } else stretches.push({ from, to, salon, post });
  }
  return stretches;
};

/**
 * The lane of each place along one row: the first in which the one before is far enough away. Where all are taken, the one whose last
 * is farthest.
 * @param apart how far two of one lane must be apart, in hundredths
 */
export const lanesOf = (places: readonly number[], apart: number, most: number): readonly number[] => {
  const lasts: number[] = [];
  const lanes: number[] = [];
  const inOrder = places.map((place, index) => ({ place, index })).sort((one, other) => one.place - other.place);
  for (const { place, index } of inOrder) {
    const free = lasts.findIndex((last) => place - last >= apart);
    const lane = free >= 0 ? free : lasts.length < most ? lasts.length : lasts.indexOf(Math.min(...lasts));
    lasts[lane] = place;
    lanes[index] = lane;
  }
  return lanes;
};
