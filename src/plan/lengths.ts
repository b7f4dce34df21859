/** Reads the settings' lengths of time, all in exact hours (counting.md 1). What is wrong with one comes back as a refusal. */
import { LENGTH_MAX_HOURS } from "../bounds.ts";
import { type DurationFault, formatDuration, parseDuration } from "../time/duration.ts";
import { DAY_SECONDS, HOUR, MINUTE, type Seconds } from "../time/instant.ts";
import { refusal } from "./refusal.ts";
import type { Refusals } from "./spans.ts";

const LENGTH_MAX: Seconds = LENGTH_MAX_HOURS * HOUR;
const PLAIN = "a length in exact hours, minutes and seconds, such as PT48H or PT30M";

interface Words {
  readonly limit: string;
  readonly reason: string;
  readonly remedy: string;
}

/** An exact duration, nothing at all included; 0 with a refusal where the text is none or is too long. */
export const readDuration = (text: string, at: string, refusals: Refusals): Seconds => {
  const seconds = parseDuration(text);
  if (typeof seconds === "number" && seconds <= LENGTH_MAX) return seconds;
  const code = typeof seconds === "number" ? "duration-too-long" : seconds;
  refusals.push(refusal({ code, at, value: text, ...wordsOf(code, text) }));
  return 0;
};

/** The same where nothing at all makes no sense: a lead, a wear, a look, the time to do something in. */
export const readLength = (text: string, at: string, refusals: Refusals, example: string): Seconds => {
  const before = refusals.length;
  const seconds = readDuration(text, at, refusals);
  if (seconds > 0 || refusals.length > before) return seconds;
  refusals.push(
    refusal({
      code: "no-length",
      at,
      value: text,
      limit: "longer than nothing",
      reason: "nobody can wait for, look at or do anything in no time",
      remedy: `write one such as ${example}`,
    }),
  );
  return 0;
};

const wordsOf = (code: DurationFault | "duration-too-long", text: string): Words => {
  switch (code) {
    case "not-exact-hours":
      return {
        limit: "in exact hours, such as PT48H",
        reason: "two days are 47 hours when the clocks go forward and 49 when they go back (RFC 5545 §3.3.6)",
        remedy: inHours(text),
      };
    case "negative-duration":
      return {
        limit: PLAIN,
        reason: "a length of time is never negative",
        remedy:
          typeof parseDuration(text.slice(1)) === "number" ? `write ${text.slice(1)}` : "leave out the minus sign",
      };
    case "fractional-duration":
      return {
        limit: "a length in whole hours, minutes and seconds, such as PT1H30M",
        reason: "no part of it may be a fraction",
        remedy: withoutFraction(text),
      };
    case "duration-too-long":
      return {
        limit: `at most PT${LENGTH_MAX_HOURS}H`,
        reason: "nothing is looked for more than 400 days away",
        remedy: "write a shorter one",
      };
    case "not-a-duration":
      return {
        limit: PLAIN,
        reason: "it is read as PT followed by hours with an H, minutes with an M and seconds with an S",
        remedy: asWritten(text),
      };
  }
};

/** Weeks and days as the hours that may be meant; months and years are no number of hours. */
const inHours = (text: string): string => {
  const parts = /^P(?:(\d{1,3})W)?(?:(\d{1,3})D)?(T.+)?$/.exec(text);
  const rest = parts?.[3] ? parseDuration(`P${parts[3]}`) : 0;
  if (!parts || typeof rest !== "number") return "write hours, such as PT48H";
  const days = Number(parts[1] ?? 0) * 7 + Number(parts[2] ?? 0);
  return `write ${formatDuration(days * DAY_SECONDS + rest)} if that many hours are meant`;
};

const withoutFraction = (text: string): string => {
  const part = (unit: string): number =>
    Number(new RegExp(`([\\d.,]+)${unit}`).exec(text)?.[1]?.replace(",", ".") ?? 0);
  const seconds = part("H") * HOUR + part("M") * MINUTE + part("S");
  const whole = Math.round(seconds);
  return whole > 0 && Math.abs(whole - seconds) < 1e-6 && whole <= LENGTH_MAX
    ? `write ${formatDuration(whole)}`
    : "write it in whole seconds, such as PT1S";
};

/** `48h`, `30 minutes` and `pt48h` are easily put right. */
const asWritten = (text: string): string => {
  const spoken = /^(\d{1,4}) ?(?:(h|hrs?|hours?)|m|mins?|minutes?)$/i.exec(text.trim());
  if (spoken) return `write PT${spoken[1]}${spoken[2] ? "H" : "M"}`;
  const upper = text.trim().toUpperCase().replace(/^\+/, "");
  return typeof parseDuration(upper) === "number" ? `write ${upper}` : "write one such as PT48H or PT30M";
};
