/**
 * The VTIMEZONE of a feed: two yearly rules derived from the zone's changes, and used only if they give exactly those
 * changes again. A zone that no such rules describe has none; its feed is written in UTC. Never asks the host's zone.
 */
import { DAY_SECONDS, dayFrom, type Instant, partsOfDay, type Seconds } from "../time/instant.ts";
import type { Change, Zone } from "../time/zone.ts";
import type { FeedZone } from "./types.ts";
import { findYearlyRule, type Onset, onsetInYear, type YearlyRule } from "./yearlyRule.ts";

interface Observance {
  readonly rule: YearlyRule;
  readonly before: Seconds;
  readonly after: Seconds;
}

/**
 * The rules are written as beginning here, whatever the window: the text then changes only with the rules, and readers
 * that leave out a rule's first year (ts-ics 2.4.6) lose nothing.
 */
const RULES_SINCE_YEAR = 2000;

/** The definition of UTC, for feeds whose times are in UTC. */
export const UTC_DEFINITION = [
  "BEGIN:VTIMEZONE",
  "TZID:Etc/UTC",
  "BEGIN:STANDARD",
  "DTSTART:19700101T000000",
  "TZOFFSETFROM:+0000",
  "TZOFFSETTO:+0000",
  "END:STANDARD",
  "END:VTIMEZONE",
  "",
].join("\r\n");

/**
 * The definition that holds in the whole years (UTC) from that of `from` to that of `to`, both included; its text is the
 * same for every window of the same years, and mostly for all. Null where yearly rules do not give the zone's offsets (RFC 5545 §3.6.5).
 */
export const feedZone = (zone: Zone, from: Instant, to: Instant): FeedZone | null => {
  const [firstYear, lastYear] = [yearOf(from), yearOf(to)];
  const [start, end] = [startOfYear(firstYear), startOfYear(lastYear + 1)];
  const changes = zone.changes(start, end);
  const observances = changes.length === 0 ? [] : deriveObservances(zone, changes);
  if (!observances || !describes(observances, changes, firstYear, lastYear)) return null;
  const text = observances.length === 0 ? fixedText(zone.offsetAt(start)) : yearlyText(observances);
  return {
    zone,
    tzid: zone.name,
    text: `BEGIN:VTIMEZONE\r\nTZID:${zone.name}\r\n${text}END:VTIMEZONE\r\n`,
    from: start,
    to: end,
  };
};

/** One observance forwards and one back, or undefined where the changes are not of two such kinds. */
const deriveObservances = (zone: Zone, changes: readonly Change[]): readonly Observance[] | undefined => {
  const onsets = changes.map(({ at, offset }): Onset & { readonly after: Seconds } => {
    const before = zone.offsetAt(at - 1);
    return { wall: at + before, before, after: offset };
  });
  const kinds = Map.groupBy(onsets, ({ before, after }) => `${before}/${after}`);
  const observances = [...kinds.values()].map((kind): Observance | undefined => {
    const rule = findYearlyRule(kind);
    const [first] = kind;
    return rule && first ? { rule, before: first.before, after: first.after } : undefined;
  });
  return observances.length === 2 && observances.every((each) => each !== undefined) ? observances : undefined;
};

/** Whether the rules, run over the years, give these changes and no other. */
const describes = (
  observances: readonly Observance[],
  changes: readonly Change[],
  firstYear: number,
  lastYear: number,
): boolean => {
  const run: Change[] = [];
  for (let year = firstYear; year <= lastYear; year++) {
    for (const { rule, before, after } of observances) {
      run.push({ at: onsetInYear(rule, year) - before, offset: after });
    }
  }
  run.sort((left, right) => left.at - right.at);
  return JSON.stringify(run) === JSON.stringify(changes);
};

const yearlyText = (observances: readonly Observance[]): string =>
  observances
    .toSorted((left, right) => right.after - left.after)
    .map(({ rule, before, after }) => {
      const name = after > before ? "DAYLIGHT" : "STANDARD";
      const begins = wallText(onsetInYear(rule, RULES_SINCE_YEAR));
      return `BEGIN:${name}\r\nDTSTART:${begins}\r\nTZOFFSETFROM:${offsetText(before)}\r\nTZOFFSETTO:${offsetText(after)}\r\nRRULE:${rule.text}\r\nEND:${name}\r\n`;
    })
    .join("");

const fixedText = (offset: Seconds): string =>
  `BEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:${offsetText(offset)}\r\nTZOFFSETTO:${offsetText(offset)}\r\nEND:STANDARD\r\n`;

const two = (value: number): string => String(value).padStart(2, "0");

/** `+0530`, `-033000` only where there are seconds (RFC 5545 §3.3.14). */
const offsetText = (offset: Seconds): string => {
  const size = Math.abs(offset);
  const seconds = size % 60 ? two(size % 60) : "";
  return `${offset < 0 ? "-" : "+"}${two(Math.floor(size / 3600))}${two(Math.floor(size / 60) % 60)}${seconds}`;
};

const wallText = (wall: number): string => new Date(wall * 1000).toISOString().slice(0, 19).replaceAll(/[-:]/g, "");

const yearOf = (instant: Instant): number => partsOfDay(Math.floor(instant / DAY_SECONDS)).year;

const startOfYear = (year: number): Instant => (dayFrom(year, 1, 1) as number) * DAY_SECONDS;
