/** Times as the desk reads them: short for what is near, with the date for what is not. */
import { catalogueOf } from "../../feed/language/catalogueOf.ts";
import { clockTime, dateInWords, longTime, shortTime } from "../../feed/timeInWords.ts";
import { type Instant, wholeMinute } from "../../time/instant.ts";
import { Zone } from "../../time/zone.ts";
import type { Signed } from "./desk.ts";

export interface Times {
  readonly zone: Zone;
  /** `Wed 10:30`. */
  readonly short: (at: Instant) => string;
  /** `Wed 9 Dec 2026, 10:30`. */
  readonly long: (at: Instant) => string;
  /** `Wed 9 Dec, 10:30`, and with its year what is half a year away. */
  readonly dated: (at: Instant) => string;
  /** `Wed 9 Dec`. */
  readonly date: (at: Instant) => string;
  /** `10:30`. */
  readonly clock: (at: Instant) => string;
  /** `today 10:30`, `tomorrow 10:30`, and with its date what is farther away than six days. */
  readonly near: (at: Instant) => string;
  /** As a field for a local time holds it: `2026-12-09T10:30`. */
  readonly field: (at: Instant) => string;
}

/** Nearer than this a date without its year names one day only. */
const YEAR_IS_PLAIN_DAYS = 180;

export const timesOf = ({ head: { settings, now } }: Pick<Signed, "head">): Times => {
  const zone = Zone.named(settings.zone) as Zone;
  const words = catalogueOf(settings.language).time;
  const short = (at: Instant): string => shortTime(at, zone, words);
  const long = (at: Instant): string => longTime(at, zone, words);
  const date = (at: Instant): string => dateInWords(zone.dayAt(at), words);
  const clock = (at: Instant): string => clockTime(at, zone, words);
  const today = zone.dayAt(now);
  const dated = (at: Instant): string =>
    Math.abs(zone.dayAt(at) - today) < YEAR_IS_PLAIN_DAYS ? `${date(at)}, ${clock(at)}` : long(at);
  const near = (exact: Instant): string => {
    const at = wholeMinute(exact);
    const days = zone.dayAt(at) - today;
    if (days === 0 || days === 1 || days === -1) {
      return `${days === 0 ? "today" : days === 1 ? "tomorrow" : "yesterday"} ${clock(at)}`;
    }
    return Math.abs(days) < 7 ? short(at) : dated(at);
  };
  return {
    zone,
    short,
    long,
    dated,
    date,
    clock,
    near,
    field: (at) => new Date(zone.wallAt(at) * 1000).toISOString().slice(0, 16),
  };
};
