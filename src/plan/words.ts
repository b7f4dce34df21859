/** Times in words, by the salon's clock and in its language. What they say never depends on the present moment. */
import { DAY_SECONDS, type Instant, type Seconds } from "../time/instant.ts";
import { formatDuration } from "../time/duration.ts";
import type { Rules } from "./rules.ts";

/** Nearer than this to the appointment a weekday alone names one day only. */
const WEEKDAY_SUFFICES: Seconds = 6 * DAY_SECONDS;

/** `Wed 10:30`, or `Wed 9 Dec, 10:30` where it is more than six days from `near` or there is nothing near. */
export const inWords = (at: Instant, near: Instant | null, rules: Rules): string => {
  const { zone, settings } = rules;
  const write = (options: Intl.DateTimeFormatOptions): string =>
    zone.inWords(at, settings.language, options).replaceAll(/\s/g, " ");
  const time = write({ hour: settings.language === "en-US" ? "numeric" : "2-digit", minute: "2-digit" });
  const isNear = near !== null && Math.abs(at - near) <= WEEKDAY_SUFFICES;
  if (isNear) return `${write({ weekday: "short" })} ${time}`;
  return `${write({ weekday: "short", day: "numeric", month: "short" }).replace(/^(\S+?),? (\d)/, "$1 $2")}, ${time}`;
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
