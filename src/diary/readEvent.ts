/**
 * One VEVENT's lines → its times, resolved, with everything its occurrences hang on. Never reads its words
 * (parseEvents.ts) and never expands its rules (expandSeries.ts).
 */
import { DAY_SECONDS, type Instant, type Seconds } from "../time/instant.ts";
import { type EventFault, splitEvent } from "./eventText.ts";
import { type ContentLine, parseContentLine } from "./parseContentLine.ts";
import { parseNominal } from "./parseNominal.ts";
import { type CertainTime, type Clocks, resolveStart, type TimeReading } from "./resolveStart.ts";

/** How long an entry lasts: exact from DTEND, nominal from DURATION (RFC 5545 §3.8.5.3); null where nothing says. */
export type Length =
  | { readonly kind: "exact"; readonly seconds: Seconds }
  | { readonly kind: "nominal"; readonly days: number; readonly seconds: Seconds }
  | null;

export type StartReading = TimeReading | { readonly kind: "not-certain"; readonly code: "time-missing" | "time-twice" };

export interface EventTimes {
  /** Its place in the block. */
  readonly index: number;
  readonly text: string;
  readonly lines: readonly ContentLine[];
  readonly fault: EventFault | null;
  readonly start: StartReading;
  /** As the file wrote it. */
  readonly writtenStart: string;
  readonly length: Length;
  readonly recurrenceId: TimeReading | null;
  readonly writtenRecurrenceId: string | null;
  /** RANGE=THISANDFUTURE: it changes every later occurrence too. */
  readonly andFuture: boolean;
  readonly sequence: number;
}

/** Lines of one name, in the file's order. */
export const linesOf = (event: Pick<EventTimes, "lines">, name: string): ContentLine[] =>
  event.lines.filter((line) => line.name === name);

const readStart = (lines: readonly ContentLine[], clocks: Clocks, isRule: boolean): StartReading => {
  const [first, ...others] = lines.map((line) => resolveStart(line, clocks));
  if (!first) return { kind: "not-certain", code: "time-missing" };
  // One instant by two clocks is two series.
  const differs = (other: TimeReading): boolean =>
    placeOf(other) !== placeOf(first) ||
    (isRule && other.kind === "time" && first.kind === "time" && other.clock !== first.clock);
  return others.some(differs) ? { kind: "not-certain", code: "time-twice" } : first;
};

const placeOf = (reading: TimeReading): string =>
  reading.kind === "time" ? `time ${reading.at}` : reading.kind === "date" ? `date ${reading.day}` : "nowhere";

const readLength = (event: { readonly lines: readonly ContentLine[] }, start: StartReading, clocks: Clocks): Length => {
  if (start.kind !== "time") return null;
  const [endLine] = linesOf(event, "DTEND");
  if (endLine) {
    const end = resolveStart(endLine, clocks);
    return end.kind === "time" && end.at >= start.at ? { kind: "exact", seconds: end.at - start.at } : null;
  }
  const [durationLine] = linesOf(event, "DURATION");
  const duration = durationLine && parseNominal(durationLine.value);
  return duration ? { kind: "nominal", ...duration } : null;
};

/** @param text one of a block's `events` */
export const readEvent = (text: string, index: number, clocks: Clocks): EventTimes => {
  const { lines: written, fault } = splitEvent(text);
  const lines = written.map(parseContentLine);
  const event = { lines };
  const startLines = linesOf(event, "DTSTART");
  const start = readStart(startLines, clocks, linesOf(event, "RRULE").length > 0);
  const [idLine] = linesOf(event, "RECURRENCE-ID");
  const sequence = Number(linesOf(event, "SEQUENCE")[0]?.value.trim() ?? 0);
  return {
    index,
    text,
    lines,
    fault,
    start,
    writtenStart: startLines.map((line) => line.value.trim()).join(" "),
    length: readLength(event, start, clocks),
    recurrenceId: idLine ? resolveStart(idLine, clocks) : null,
    writtenRecurrenceId: idLine ? idLine.value.trim() : null,
    andFuture: idLine?.params.get("RANGE")?.trim().toUpperCase() === "THISANDFUTURE",
    sequence: Number.isInteger(sequence) ? sequence : 0,
  };
};

/** When an occurrence that begins at `start` ends; null where nothing says. */
export const endOf = (length: Length, start: Pick<CertainTime, "at" | "wall" | "clock">): Instant | null => {
  if (length === null) return null;
  if (length.kind === "exact" || length.days === 0) return start.at + length.seconds;
  const day = start.clock.instantOf(start.wall + length.days * DAY_SECONDS);
  return day === undefined ? null : day + length.seconds;
};
