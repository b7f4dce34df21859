/**
 * The post, simulated day by day: rule 14. Never knows a booking or the salon's hours.
 */
import { type Days, lastUpTo, listed, weekdayKey } from "./hours.ts";
import { type DayNumber, type Moment, minutesOf, wallMoment } from "./moments.ts";
import type { ReckonSettings } from "./types.ts";

export interface Delivery {
  readonly day: DayNumber;
  readonly at: Moment;
}
export interface Collection {
  readonly at: Moment;
  readonly delivered: Delivery;
}
export interface Post {
  readonly deliveries: readonly Delivery[];
  readonly collections: readonly Collection[];
}

/** Every collection of these days with the delivery of what lay in the box by then. */
export const simulatePost = (settings: ReckonSettings, holidays: ReadonlySet<DayNumber>, days: Days): Post => {
  const post = settings.post ?? {};
  const shut = (day: DayNumber): boolean =>
    listed(day, post.closed ?? []) || ((post.holidays ?? true) && holidays.has(day));
  const collects = (day: DayNumber): boolean =>
    (post.collection ?? ["mon", "tue", "wed", "thu", "fri"]).includes(weekdayKey(day)) && !shut(day);
  const delivers = (day: DayNumber): boolean =>
    (post.delivery ?? ["mon", "tue", "wed", "thu", "fri", "sat"]).includes(weekdayKey(day)) && !shut(day);
  const transit = post.transit ?? 3;

  const deliveryDay = (deposit: DayNumber): DayNumber | undefined => {
    if (post.count === "calendar") {
      for (let day = deposit + transit; day <= days.to; day += 1) if (delivers(day)) return day;
      return undefined;
    }
    let counted = 0;
    for (let day = deposit + 1; day <= days.to; day += 1) {
      if (delivers(day)) counted += 1;
      if (counted === transit) return day;
    }
    return undefined;
  };
  const deliveredOn = (day: DayNumber): Delivery => ({
    day,
    at: wallMoment(settings.zone, day, minutesOf(post.deliveredBy ?? "18:00")),
  });

  const deliveries: Delivery[] = [];
  const collections: Collection[] = [];
  for (let day = days.from; day <= days.to; day += 1) {
    if (delivers(day)) deliveries.push(deliveredOn(day));
    const arrives = collects(day) ? deliveryDay(day) : undefined;
    if (arrives === undefined) continue;
    const at = wallMoment(settings.zone, day, minutesOf(post.lastCollection ?? "16:30"));
    collections.push({ at, delivered: deliveredOn(arrives) });
  }
  return { deliveries, collections };
};

/** The last delivery at or before a moment (rule 12). */
export const lastDelivery = (post: Post, moment: Moment): Delivery | undefined =>
  lastUpTo(post.deliveries, (each) => each.at, moment);

/** The last collection whose post is delivered at or before a moment. */
export const lastCollectionFor = (post: Post, moment: Moment): Collection | undefined =>
  lastUpTo(post.collections, (each) => each.delivered.at, moment);

/** Rule 28: the first collection at or after a hand-over. */
export const collectionOf = (post: Post, handedOver: Moment): Collection | undefined =>
  post.collections.find((each) => each.at >= handedOver);
