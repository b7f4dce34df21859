/** Reads the settings' times, spans and dates. What is wrong with one comes back as a refusal, never as a throw. */
import { type Day, DAY_SECONDS, parseDay, type Seconds } from "../time/instant.ts";
import { parseDuration } from "../time/duration.ts";
import { refusal } from "./refusal.ts";
import type { Refusal } from "./types.ts";

/** Part of a day by the clock, in seconds after midnight: 0 to 86,400. */
export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
}

/** Dates from one to another, both included. */
export interface Dates {
  readonly from: Day;
  readonly to: Day;
}

/** Collects refusals while settings are read, so that a salon hears of all of them at once. */
export type Refusals = Refusal[];

const timeOf = (text: string): Seconds | undefined => {
  const parts = /^(\d{2}):(\d{2})$/.exec(text);
  const [hours, minutes] = [Number(parts?.[1]), Number(parts?.[2])];
  const exact = parts && minutes < 60 && (hours < 24 || (hours === 24 && minutes === 0));
  return exact ? hours * 3600 + minutes * 60 : undefined;
};

/** `16:30`; 0 with a refusal where it is no time of day. */
export const readTime = (text: string, at: string, refusals: Refusals): Seconds => {
  const time = timeOf(text);
  if (time !== undefined) return time;
  refusals.push(
    refusal({
      code: "not-a-time",
      at,
      value: text,
      limit: "a time from 00:00 to 24:00",
      reason: "it is read as hours and minutes by the salon's clock",
      remedy: "write one such as 16:30",
    }),
  );
  return 0;
};

/** `09:00-17:30`; undefined with a refusal where it is no span or ends at or before its start (counting.md 4). */
export const readSpan = (text: string, at: string, refusals: Refusals): Span | undefined => {
  const [from, to] = /^[^-]+-[^-]+$/.test(text) ? text.split("-").map((each) => timeOf(each.trim())) : [];
  if (from === undefined || to === undefined) {
    refusals.push(
      refusal({
        code: "not-a-span",
        at,
        value: text,
        limit: "two times from 00:00 to 24:00 with a hyphen between them",
        reason: "it is read by the salon's clock",
        remedy: "write one such as 09:00-17:30",
      }),
    );
    return undefined;
  }
  if (to <= from) {
    refusals.push(
      refusal({
        code: "span-ends-before-start",
        at,
        value: text,
        limit: "a span that ends after its start on the same day",
        reason: "a night belongs to two days",
        remedy: "write 20:00-24:00 and, on the next day, 00:00-02:00",
      }),
    );
    return undefined;
  }
  return { from, to };
};

/** Spans of one day in order, those that overlap or touch made one. */
export const uniteSpans = (spans: readonly Span[]): readonly Span[] => {
  const united: Span[] = [];
  for (const span of [...spans].toSorted((one, other) => one.from - other.from)) {
    const last = united.at(-1);
    if (last && span.from <= last.to) united[united.length - 1] = { from: last.from, to: Math.max(last.to, span.to) };
    else united.push(span);
  }
  return united;
};

/** `2026-12-24/2027-01-02` or one date, both ends included; undefined with a refusal otherwise. */
export const readDates = (text: string, at: string, refusals: Refusals): Dates | undefined => {
  const ends = text.split("/").map((each) => parseDay(each.trim()));
  const [from, to = from] = ends;
  if (from === undefined || to === undefined || ends.length > 2 || ends.includes(undefined)) {
    refusals.push(
      refusal({
        code: "not-dates",
        at,
        value: text,
        limit: "a date, or two dates with a slash between them",
        reason: "both ends are included and read in the salon's zone",
        remedy: "write 2026-12-24 or 2026-12-24/2027-01-02",
      }),
    );
    return undefined;
  }
  if (to < from) {
    refusals.push(
      refusal({
        code: "dates-reversed",
        at,
        value: text,
        limit: "two dates of which the first is not the later",
        reason: "no day lies between them",
        remedy: "write the earlier date first",
      }),
    );
    return undefined;
  }
  return { from, to };
};

/** An exact duration (counting.md 1); 0 with a refusal where the text is none. */
export const readDuration = (text: string, at: string, refusals: Refusals): Seconds => {
  const seconds = parseDuration(text);
  if (typeof seconds === "number") return seconds;
  const days = /^P(\d{1,3})D$/.exec(text)?.[1];
  refusals.push(
    refusal({
      code: seconds,
      at,
      value: text,
      limit: "in exact hours, such as PT48H",
      reason:
        seconds === "not-exact-hours"
          ? "two days are 47 hours when the clocks go forward and 49 when they go back (RFC 5545 §3.3.6)"
          : "it is no ISO 8601 duration in hours, minutes and seconds",
      remedy: days
        ? `write PT${(Number(days) * DAY_SECONDS) / 3600}H if that many hours are meant`
        : "write hours, such as PT48H",
    }),
  );
  return 0;
};
