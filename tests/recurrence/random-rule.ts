/** A random rule that RFC 5545 §3.3.10 allows, the same for the same number. */
import { DAY_SECONDS, HOUR, MINUTE, type Wall } from "../../src/time/instant.ts";

export interface RandomRule {
  readonly text: string;
  readonly start: Wall;
  /** How long the window is, from the start. */
  readonly days: number;
}

/** mulberry32: public domain arithmetic, good enough to choose by. */
const numbersFrom = (seed: number): (() => number) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
};

const WEEKDAYS = ["MO", "TU", "WE", "TH", "FR", "SA", "SU"];
const START_FROM = Date.UTC(2016, 0, 1) / 1000;

export const randomRule = (seed: number): RandomRule => {
  const next = numbersFrom(seed);
  const whole = (least: number, most: number): number => least + Math.floor(next() * (most - least + 1));
  const chance = (share: number): boolean => next() < share;
  const pick = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)] as T;
  const some = (least: number, most: number, signed: boolean, upTo: number): string =>
    [
      ...new Set(Array.from({ length: whole(1, upTo) }, () => whole(least, most) * (signed && chance(0.4) ? -1 : 1))),
    ].join(",");

  const freq = pick(["YEARLY", "YEARLY", "MONTHLY", "MONTHLY", "WEEKLY", "WEEKLY", "DAILY", "HOURLY"]);
  const byDate = freq === "YEARLY" || freq === "MONTHLY";
  const parts = [`FREQ=${freq}`];
  if (chance(0.5)) parts.push(`INTERVAL=${whole(1, 5)}`);
  if (chance(0.4)) parts.push(`COUNT=${whole(1, 30)}`);
  if (chance(0.4)) parts.push(`WKST=${pick(WEEKDAYS)}`);
  if (chance(0.3)) parts.push(`BYMONTH=${some(1, 12, false, 4)}`);
  const hasWeeks = freq === "YEARLY" && chance(0.2);
  if (hasWeeks) parts.push(`BYWEEKNO=${some(1, 53, true, 4)}`);
  if ((freq === "YEARLY" || freq === "HOURLY") && chance(0.2)) parts.push(`BYYEARDAY=${some(1, 366, true, 12)}`);
  if (freq !== "WEEKLY" && chance(0.35)) parts.push(`BYMONTHDAY=${some(1, 31, true, 5)}`);
  if (chance(0.5)) {
    const counts = byDate && !hasWeeks && chance(0.5);
    const most = freq === "MONTHLY" ? 5 : 20;
    const days = Array.from(
      { length: whole(1, 4) },
      () => `${counts ? whole(1, most) * (chance(0.3) ? -1 : 1) : ""}${pick(WEEKDAYS)}`,
    );
    parts.push(`BYDAY=${[...new Set(days)].join(",")}`);
  }
  if (chance(0.15)) parts.push(`BYHOUR=${some(0, 23, false, 3)}`);
  if (chance(0.1)) parts.push(`BYMINUTE=${some(0, 59, false, 2)}`);
  if (parts.some((part) => part.startsWith("BY")) && freq !== "DAILY" && chance(0.25))
    parts.push(`BYSETPOS=${some(1, 4, true, 3)}`);
  const start = START_FROM + whole(0, 4_000) * DAY_SECONDS + whole(0, 23) * HOUR + whole(0, 59) * MINUTE;
  return { text: parts.join(";"), start, days: freq === "YEARLY" ? 3_000 : freq === "HOURLY" ? 60 : 700 };
};
