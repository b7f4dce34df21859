/** The values of RDATE and EXDATE lines (RFC 5545 §3.8.5): dates, times and periods, one reading each. */
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import type { ContentLine } from "./parseContentLine.ts";
import { parseNominal } from "./parseNominal.ts";
import { type EventTimes, linesOf } from "./readEvent.ts";
import { type Clocks, resolveStart, type TimeReading } from "./resolveStart.ts";

export interface DateValue {
  readonly reading: TimeReading;
  /** Where a PERIOD ends, if it says so in a way that can be read. */
  readonly ends: Instant | undefined;
}

/** A PERIOD counts by its start, which is read as a time. */
const periodless = (line: ContentLine): ContentLine => {
  if (line.params.get("VALUE")?.trim().toUpperCase() !== "PERIOD") return line;
  return { ...line, params: new Map([...line.params].filter(([name]) => name !== "VALUE")) };
};

/** The end of a period: a time, or a duration from its start (RFC 5545 §3.3.9). */
const endOfPeriod = (line: ContentLine, clocks: Clocks, start: TimeReading, end: string): Instant | undefined => {
  if (start.kind !== "time") return undefined;
  const duration = parseNominal(end);
  if (!duration) {
    const read = resolveStart(line, clocks, end);
    return read.kind === "time" && read.at >= start.at ? read.at : undefined;
  }
  const day = start.clock.instantOf(start.wall + duration.days * DAY_SECONDS);
  return day === undefined ? undefined : day + duration.seconds;
};

/** All values of all lines of that name, in the file's order. */
export const readDates = (event: EventTimes, name: "RDATE" | "EXDATE", clocks: Clocks): DateValue[] =>
  linesOf(event, name)
    .map(periodless)
    .flatMap((line) =>
      line.value
        .split(",")
        .filter((value) => value.trim() !== "")
        .map((value) => {
          const [begin = "", end] = value.split("/");
          const reading = resolveStart(line, clocks, begin);
          return { reading, ends: end === undefined ? undefined : endOfPeriod(line, clocks, reading, end) };
        }),
    );
