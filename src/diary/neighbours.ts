/** Which new bookings lie near which that are gone, in two rows sorted by their starts. Never compares all with all. */
import { CANDIDATES_MAX } from "../bounds.ts";
import type { Instant, Seconds } from "../time/instant.ts";
import type { KnownBooking, OwnedBooking } from "./identity.ts";
import type { Group } from "./Unmatched.ts";

export interface Neighbours {
  readonly known: KnownBooking;
  /** The first of them, as many as are shown to a person. */
  readonly candidates: readonly OwnedBooking[];
  /** It has one candidate, and is that one's only. */
  readonly isOnly: boolean;
}

/** @param group both rows ascending by start */
export const neighbours = ({ known, found }: Group, reach: Seconds): readonly Neighbours[] => {
  const [gone, come] = [known.map(({ start }) => start), found.map((owned) => owned.found.start)];
  return known.map((each) => {
    const [first, end] = within(come, each.start, reach);
    const [back, backEnd] = end - first === 1 ? within(gone, come[first] as Instant, reach) : [0, 0];
    const candidates = found.slice(first, Math.min(end, first + CANDIDATES_MAX));
    return { known: each, candidates, isOnly: backEnd - back === 1 };
  });
};

/** Places [first, end) of the starts that lie within `reach` of one. */
const within = (starts: readonly Instant[], start: Instant, reach: Seconds): readonly [first: number, end: number] => [
  firstAtLeast(starts, start - reach),
  firstAtLeast(starts, start + reach + 1),
];

const firstAtLeast = (starts: readonly Instant[], least: Instant): number => {
  let [low, high] = [0, starts.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((starts[middle] as Instant) < least) low = middle + 1;
    else high = middle;
  }
  return low;
};
