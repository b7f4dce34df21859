/**
 * The post's calendar (counting.md 12 and 14): which days collect and deliver, when a deposit arrives.
 * A deposit counts the same day up to and including the second of the last collection (Directive 97/67/EC, Annex II).
 */
import type { Settings } from "../settings.ts";
import { type Day, type Instant, midnight, type Seconds, weekdayOf } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

/** Days that a search over post days goes at most; a carrier shut for longer has no moment. */
const SEARCH_DAYS = 1_000;

export interface Post {
  /** The instant of a day's last collection. */
  readonly collectionOn: (day: Day) => Instant;
  /** The instant by which a day's post is there. */
  readonly deliveredOn: (day: Day) => Instant;
  /** The day on which a deposit of that collection day arrives. */
  readonly arrivalOf: (deposit: Day) => Day | undefined;
  /** The first collection day whose last collection is at or after an instant. */
  readonly collectionAfter: (at: Instant) => Day | undefined;
  /** The last collection day whose post is there at or before `by`; not before `floor`. */
  readonly collectionFor: (by: Instant, floor: Instant) => Day | undefined;
  /** The last delivery day whose delivered-by is at or before `by`; not before `floor`. */
  readonly deliveryBefore: (by: Instant, floor: Instant) => Day | undefined;
}

/** Keeps what was reckoned of a day: every booking of a salon asks about the same ones. */
const onceADay = <Value>(reckon: (day: Day) => Value): ((day: Day) => Value) => {
  const known = new Map<Day, Value>();
  return (day) => {
    const found = known.get(day);
    if (found !== undefined || known.has(day)) return found as Value;
    const value = reckon(day);
    known.set(day, value);
    return value;
  };
};

/** The post of a salon. `isShut` says which local dates have neither collection nor delivery. */
export const makePost = (
  zone: Zone,
  settings: {
    readonly collection: ReadonlySet<number>;
    readonly delivery: ReadonlySet<number>;
    readonly lastCollection: Seconds;
    readonly deliveredBy: Seconds;
    readonly transit: number;
    readonly count: Settings["post"]["count"];
  },
  isShut: (day: Day) => boolean,
): Post => {
  const isOff = onceADay(isShut);
  const collects = (day: Day): boolean => settings.collection.has(weekdayOf(day)) && !isOff(day);
  const delivers = (day: Day): boolean => settings.delivery.has(weekdayOf(day)) && !isOff(day);
  const collectionOn = onceADay((day) => zone.firstReading(midnight(day) + settings.lastCollection));
  const deliveredOn = onceADay((day) => zone.firstReading(midnight(day) + settings.deliveredBy));

  const arrivalOf = onceADay((deposit): Day | undefined => {
    let left = settings.transit;
    const last = deposit + settings.transit + SEARCH_DAYS;
    for (let day = deposit + 1; day <= last; day++) {
      if (settings.count === "calendar") {
        if (day >= deposit + settings.transit && delivers(day)) return day;
      } else if (delivers(day) && --left === 0) return day;
    }
    return undefined;
  });
  const collectionAfter = (at: Instant): Day | undefined => {
    const today = zone.dayAt(at) - 1;
    for (let day = today; day <= today + SEARCH_DAYS; day++) if (collects(day) && collectionOn(day) >= at) return day;
    return undefined;
  };
  const collectionFor = (by: Instant, floor: Instant): Day | undefined => {
    for (let day = zone.dayAt(by) + 1 - settings.transit; collectionOn(day) >= floor; day--) {
      const arrival = collects(day) ? arrivalOf(day) : undefined;
      if (arrival !== undefined && deliveredOn(arrival) <= by) return day;
    }
    return undefined;
  };
  const deliveryBefore = (by: Instant, floor: Instant): Day | undefined => {
    for (let day = zone.dayAt(by) + 1; deliveredOn(day) >= floor; day--) {
      if (delivers(day) && deliveredOn(day) <= by) return day;
    }
    return undefined;
  };
  return { collectionOn, deliveredOn, arrivalOf, collectionAfter, collectionFor, deliveryBefore };
};
