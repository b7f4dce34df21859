/**
 * A parcel followed day after day, forwards, from the hand-over to the client's hands (counting.md 14, by hand).
 * It is as plain as it can be, so that it can be believed: it imports nothing of the product and nothing of the other
 * reckoning, knows no booking, searches nothing backwards, and never asks when a kit ought to be handed over.
 */
import { Temporal } from "temporal-polyfill";

/** The post as a salon's settings write it. */
export interface Carrier {
  readonly zone: string;
  /** `mon` … `sun`. */
  readonly collection: readonly string[];
  /** `HH:MM` to `24:00`, by the zone's clock. */
  readonly lastCollection: string;
  readonly delivery: readonly string[];
  readonly deliveredBy: string;
  readonly transit: number;
  readonly count: "delivery" | "calendar";
  /** Dates, `2026-12-24`, and ranges, `2026-12-24/2027-01-02`, both ends included. */
  readonly closed: readonly string[];
  /** Public holidays that this carrier keeps, as single dates. */
  readonly daysOff: readonly string[];
}

/** Whole seconds since 1970-01-01T00:00:00Z. */
type Seconds = number;

export interface Journey {
  /** The local date whose collection took the parcel. */
  readonly collected: DateText;
  /** When the parcel is in the client's hands. */
  readonly inHand: Seconds;
}

/** A parcel that nobody has brought after so many days is lost to the post's calendar. */
const PATIENCE_DAYS = 900;

const NAMES = ["", "mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;

/** What a parcel is doing at the end of a day. */
type Parcel = { readonly is: "at the counter" } | { readonly is: "under way"; readonly counted: number };

/** A local date, `2026-12-24`; such dates stand in the order of their letters. */
type DateText = string;

interface Page {
  readonly weekday: string;
  readonly dayAfter: DateText;
}
const calendar = new Map<DateText, Page>();
const turnTo = (date: DateText): Page => {
  const known = calendar.get(date);
  if (known) return known;
  const day = Temporal.PlainDate.from(date);
  const page = { weekday: NAMES[day.dayOfWeek] ?? "", dayAfter: day.add({ days: 1 }).toString() };
  calendar.set(date, page);
  return page;
};

const isShut = (carrier: Carrier, today: DateText): boolean => {
  const isClosed = carrier.closed.some((range) => {
    const [first = "", last = first] = range.split("/");
    return first <= today && today <= last;
  });
  return isClosed || carrier.daysOff.includes(today);
};

const worksOn = (carrier: Carrier, weekdays: readonly string[], date: DateText): boolean =>
  weekdays.includes(turnTo(date).weekday) && !isShut(carrier, date);

const readings = new Map<string, Seconds>();

/** When a clock first shows a time of a date, or a later one (counting.md 2). */
const clockShows = (zone: string, date: DateText, time: string): Seconds => {
  const key = `${zone} ${date} ${time}`;
  const known = readings.get(key);
  if (known !== undefined) return known;
  const wanted = Temporal.PlainDateTime.from(time === "24:00" ? `${turnTo(date).dayAfter}T00:00` : `${date}T${time}`);
  const shown = wanted.toZonedDateTime(zone, { disambiguation: "earlier" });
  // A time that no clock shows is read before the gap; the clock gets past it when it is put forward.
  const isSkipped = !shown.toPlainDateTime().equals(wanted);
  const first = isSkipped ? shown.getTimeZoneTransition("next") : shown;
  if (!first) throw new Error(`${zone} never shows ${wanted.toString()}`);
  const seconds = first.epochMilliseconds / 1_000;
  readings.set(key, seconds);
  return seconds;
};

/** The local date two days before an instant: a collection at 24:00 is over when its date is. */
const wellBefore = (zone: string, at: Seconds): DateText =>
  Temporal.Instant.fromEpochMilliseconds(at * 1_000)
    .toZonedDateTimeISO(zone)
    .toPlainDate()
    .subtract({ days: 2 })
    .toString();

/** Follows a parcel handed over at an instant; undefined where no carrier takes or brings it. */
export const followParcel = (carrier: Carrier, handedOver: Seconds): Journey | undefined => {
  let parcel: Parcel = { is: "at the counter" };
  let collected = "";
  let date = wellBefore(carrier.zone, handedOver);
  for (let day = 0; day < PATIENCE_DAYS; day++, date = turnTo(date).dayAfter) {
    if (parcel.is === "at the counter") {
      if (!worksOn(carrier, carrier.collection, date)) continue;
      if (clockShows(carrier.zone, date, carrier.lastCollection) < handedOver) continue;
      parcel = { is: "under way", counted: 0 };
      collected = date;
      continue;
    }
    const hasRound = worksOn(carrier, carrier.delivery, date);
    const counted: number = parcel.counted + (carrier.count === "calendar" || hasRound ? 1 : 0);
    if (hasRound && counted >= carrier.transit) {
      return { collected, inHand: clockShows(carrier.zone, date, carrier.deliveredBy) };
    }
    parcel = { is: "under way", counted };
  }
  return undefined;
};

const nextAfter = (
  carrier: Carrier,
  weekdays: readonly string[],
  time: string,
  after: Seconds,
): Seconds | undefined => {
  let date = wellBefore(carrier.zone, after);
  for (let day = 0; day < PATIENCE_DAYS; day++, date = turnTo(date).dayAfter) {
    if (!worksOn(carrier, weekdays, date)) continue;
    const at = clockShows(carrier.zone, date, time);
    if (at > after) return at;
  }
  return undefined;
};

/** The first last collection later than an instant. */
export const nextCollection = (carrier: Carrier, after: Seconds): Seconds | undefined =>
  nextAfter(carrier, carrier.collection, carrier.lastCollection, after);

/** The first delivery later than an instant. */
export const nextDelivery = (carrier: Carrier, after: Seconds): Seconds | undefined =>
  nextAfter(carrier, carrier.delivery, carrier.deliveredBy, after);
