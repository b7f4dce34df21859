/**
 * Reads the settings' times, spans and dates (lengths: lengths.ts). What is wrong with one comes back as a refusal, never as
 * a throw.
 */
import { type Day, DAY_SECONDS, HOUR, MINUTE, parseDay, type Seconds } from "../time/instant.ts";
import { refusal } from "./refusal.ts";
import type { Refusal } from "./types.ts";

export { readDuration } from "./lengths.ts";

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
  return exact ? hours * HOUR + minutes * MINUTE : undefined;
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
      reason: "it is read by the salon's clock, two digits for the hour and two for the minutes",
      remedy: "write one such as 16:30",
    }),
  );
  return 0;
};

const clock = (seconds: Seconds): string =>
  [Math.floor(seconds / HOUR), (seconds % HOUR) / MINUTE].map((part) => String(part).padStart(2, "0")).join(":");

/** Only opening hours have a span for each weekday, and so a next day for the rest of a night. */
const mendReversed = (from: Seconds, to: Seconds, at: string): { readonly reason: string; readonly remedy: string } => {
  const hasNextDay = at.startsWith("opening.");
  if (from === to) {
    return {
      reason: "no time lies between its ends",
      remedy: "write a later end, such as 09:00-17:30, or 00:00-24:00 for the whole day",
    };
  }
  if (!hasNextDay) {
    return {
      reason: "one span stands for every day and cannot run over midnight",
      remedy: "write the earlier time first and at most 24:00 last, such as 08:00-21:00",
    };
  }
  const evening = `${clock(from)}-24:00`;
  const isLate = from < DAY_SECONDS;
  const morning = to > 0 ? `00:00-${clock(to)}` : null;
  const parts = [
    isLate ? evening : null,
    morning && (isLate ? `on the next day, ${morning}` : `${morning} on the next day`),
  ];
  return {
    reason: "a night belongs to two days",
    remedy: `write ${parts.filter((part) => part !== null).join(" and, ")}`,
  };
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
        reason: "each is read by the salon's clock, two digits for the hour and two for the minutes",
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
        ...mendReversed(from, to, at),
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
