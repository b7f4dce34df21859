/** Times in words, by the salon's clock and in its language. What they say never depends on the present moment. */
import { type Day, DAY_SECONDS, type Instant, midnight, MINUTE, type Seconds } from "../time/instant.ts";
import { formatDuration } from "../time/duration.ts";
import type { Rules } from "./rules.ts";

/** Nearer than this to the appointment a weekday alone names one day only. */
const WEEKDAY_SUFFICES: Seconds = 6 * DAY_SECONDS;

const DATE: Intl.DateTimeFormatOptions = { weekday: "short", day: "numeric", month: "short" };
const WEEKDAY: Intl.DateTimeFormatOptions = { weekday: "short" };
const CLOCK: Intl.DateTimeFormatOptions = { hour: "2-digit", minute: "2-digit" };
const CLOCK_US: Intl.DateTimeFormatOptions = { hour: "numeric", minute: "2-digit" };

const DATE_WITH_YEAR: Intl.DateTimeFormatOptions = { ...DATE, year: "numeric" };
const SECONDS: Intl.DateTimeFormatOptions = { second: "2-digit" };
/** Farther from the appointment than this a date without its year could be meant for another. */
const YEAR_IS_PLAIN: Seconds = 180 * DAY_SECONDS;

/**
 * `Wed 10:30`, or `Wed 9 Dec, 10:30` where it is more than six days from `near` or there is nothing near; with the year
 * where it is half a year away, and with the second where it is no whole minute. With date and year always where the rules say so.
 */
export const inWords = (at: Instant, near: Instant | null, rules: Rules): string => {
  const { zone, settings, dates } = rules;
  const isFull = dates === "full";
  const write = (options: Intl.DateTimeFormatOptions): string =>
    zone.inWords(at, settings.language, options).replaceAll(/\s/g, " ");
  const clock = settings.language === "en-US" ? CLOCK_US : CLOCK;
  const time = write(at % MINUTE === 0 ? clock : { ...clock, ...SECONDS });
  const isNear = !isFull && near !== null && Math.abs(at - near) <= WEEKDAY_SUFFICES;
  if (isNear) return `${write(WEEKDAY)} ${time}`;
  const isFar = isFull || (near !== null && Math.abs(at - near) > YEAR_IS_PLAIN);
  return `${write(isFar ? DATE_WITH_YEAR : DATE).replace(/^(\S+?),? (\d)/, "$1 $2")}, ${time}`;
};

/** `Fri 3 Apr`, or `Thu 24 Dec to Sat 2 Jan`. */
export const daysInWords = (from: Day, to: Day, { zone, settings, dates }: Rules): string => {
  const options = dates === "full" || to - from > YEAR_IS_PLAIN / DAY_SECONDS ? DATE_WITH_YEAR : DATE;
  const write = (day: Day): string =>
    zone
      .inWords(zone.firstReading(midnight(day) + DAY_SECONDS / 2), settings.language, options)
      .replaceAll(/\s/g, " ")
      .replace(",", "");
  return from === to ? write(from) : `${write(from)} to ${write(to)}`;
};

const count = (amount: string | undefined, unit: string): string =>
  amount ? `${amount} ${unit}${amount === "1" ? "" : "s"}` : "";

/** `48 hours`, `48 hours 45 minutes`. */
export const lengthInWords = (seconds: Seconds): string => {
  const parts = /^PT(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$/.exec(formatDuration(seconds));
  return [count(parts?.[1], "hour"), count(parts?.[2], "minute"), count(parts?.[3], "second")]
    .filter(Boolean)
    .join(" ");
};

/** Said with every result. */
export const NOT_A_PROMISE = "A clear test does not mean that no reaction will happen.";

/** The trade's word in the salon's language. */
export const colourWord = (rules: Rules): string => (rules.settings.language === "en-US" ? "color" : "colour");
