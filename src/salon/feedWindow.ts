/**
 * Which of a feed's events fit into the size that every calendar loads. What says that something is wrong comes first, then
 * what lies ahead, nearest first, then the recent past. Pure.
 */

/** An event as the window sees it: where it begins, in seconds, and how large its text is, in octets. */
export interface Sized {
  readonly start: number;
  readonly octets: number;
  readonly isNotice: boolean;
}

/** Shares of the room that notices, and then the past, may fill before anything ahead is left out for them. */
const NOTICES_SHARE = 1 / 4;
const PAST_SHARE = 1 / 5;

/**
 * The places of the events that fit, in their order; all of them where all fit.
 * @param events sorted by start
 * @param today the start of the present day
 * @param room octets
 */
export const fitWindow = (events: readonly Sized[], today: number, room: number): readonly number[] => {
  const places = events.map((_, place) => place);
  if (events.reduce((sum, { octets }) => sum + octets, 0) <= room) return places;
  const chosen = new Set<number>();
  let left = room;
  const take = (candidates: readonly number[], most: number): void => {
    let spent = 0;
    const taken: number[] = [];
    for (const place of candidates) {
      if (chosen.has(place)) continue;
      const { octets } = events[place] as Sized;
      // The first that does not fit ends it: a feed without a hole can say from when to when it reaches.
      if (spent + octets > most || octets > left) return dropEdge(taken, startOf(place));
      chosen.add(place);
      taken.push(place);
      spent += octets;
      left -= octets;
    }
  };
  /** Nor does it show some of what begins at one moment, unless that is all there is. */
  const dropEdge = (taken: readonly number[], edge: number): void => {
    const torn = taken.filter((place) => startOf(place) === edge);
    if (torn.length === taken.length) return;
    for (const place of torn) {
      chosen.delete(place);
      left += (events[place] as Sized).octets;
    }
  };
  const startOf = (place: number): number => (events[place] as Sized).start;
  const notices = places.filter((place) => (events[place] as Sized).isNotice);
  const ahead = places.filter((place) => startOf(place) >= today);
  const past = places.filter((place) => startOf(place) < today).toReversed();
  take(notices, room * NOTICES_SHARE);
  take(past, room * PAST_SHARE);
  take(ahead, left);
  take(past, left);
  return places.filter((place) => chosen.has(place));
};
