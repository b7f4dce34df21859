/** When a client is awake: the span of her settings on every local day. Only shows times, never moves a deadline. */
import { HOUR, type Instant, MINUTE, midnight, type Seconds } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

export interface WakingDay {
  readonly from: Instant;
  readonly to: Instant;
}

/** @param clientHours `08:00-21:00`, as plan/salonHours.ts has accepted it */
const spanOf = (clientHours: string): readonly [Seconds, Seconds] => {
  const [, beginHour, beginMinute, endHour, endMinute] = /(\d\d):(\d\d)\s*-\s*(\d\d):(\d\d)/.exec(clientHours) ?? [];
  if (endMinute === undefined) throw new Error("the client's hours are no span of two times");
  return [Number(beginHour) * HOUR + Number(beginMinute) * MINUTE, Number(endHour) * HOUR + Number(endMinute) * MINUTE];
};

/** The client's hours of the local day that holds `at`, or of one some days later. */
export const wakingDay = (clientHours: string, zone: Zone, at: Instant, later = 0): WakingDay => {
  const [begin, end] = spanOf(clientHours);
  const day = midnight(zone.dayAt(at) + later);
  return { from: zone.firstReading(day + begin), to: zone.firstReading(day + end) };
};

/** The moment itself where she is awake, else an hour before the end of the hours before it: time to read and to act. */
export const awakeBy = (at: Instant, clientHours: string, zone: Zone): Instant => {
  const today = wakingDay(clientHours, zone, at);
  if (at >= today.from && at < today.to) return at;
  const last = at >= today.to ? today : wakingDay(clientHours, zone, at, -1);
  return Math.max(last.from, last.to - HOUR);
};

/** The first moment at or after `at` at which she is awake. */
export const awakeFrom = (at: Instant, clientHours: string, zone: Zone): Instant => {
  const today = wakingDay(clientHours, zone, at);
  if (at < today.to) return Math.max(at, today.from);
  return wakingDay(clientHours, zone, at, 1).from;
};
