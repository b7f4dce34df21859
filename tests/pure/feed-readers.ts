/** Writing and reading feeds for the tests: the bytes as lines, and as three other readers understand them. */
import ICAL from "ical.js";
import nodeIcal from "node-ical";
import { convertIcsCalendar } from "ts-ics";
import { feedZone } from "../../src/feed/feedZone.ts";
import type { EventContent, FeedZone } from "../../src/feed/types.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import { writeFeed } from "../../src/feed/writeFeed.ts";
import type { Instant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { at, HEAD, STAMPS } from "./feed-plans.ts";

export const zoneOf = (name: string): FeedZone =>
  feedZone(Zone.named(name) as Zone, at("2026-01-01T00:00:00Z"), at("2028-12-31T00:00:00Z")) as FeedZone;
export const london = zoneOf("Europe/London");

export const feedOf = (contents: readonly EventContent[], zone: FeedZone | null = london): string =>
  writeFeed(
    HEAD,
    zone,
    contents.map((content) => writeEvent(content, STAMPS, zone)),
  );
export const unfold = (text: string): string => text.replaceAll("\r\n ", "");
export const linesOf = (text: string): readonly string[] => unfold(text).split("\r\n").slice(0, -1);
export const properties = (text: string, name: string): readonly string[] =>
  linesOf(text).filter((line) => new RegExp(`^${name}[;:]`).test(line));

/** Starts and ends as ical.js reads them, through the feed's own VTIMEZONE. */
export const readWithIcalJs = (text: string): readonly (readonly [Instant, Instant])[] => {
  const calendar = new ICAL.Component(ICAL.parse(text));
  for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
  const read = calendar.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component, { exceptions: [] });
    return [event.startDate.toUnixTime(), event.endDate.toUnixTime()] as const;
  });
  ICAL.TimezoneService.reset();
  return read;
};
export const readWithTsIcs = (text: string): readonly (readonly [Instant, Instant])[] =>
  (convertIcsCalendar(undefined, text).events ?? []).map(
    (event) => [event.start.date.getTime() / 1000, (event.end?.date.getTime() ?? Number.NaN) / 1000] as const,
  );
export const readWithNodeIcal = (text: string): readonly (readonly [Instant, Instant])[] =>
  Object.values(nodeIcal.sync.parseICS(text)).flatMap((entry) =>
    entry?.type === "VEVENT"
      ? [[entry.start.getTime() / 1000, (entry.end?.getTime() ?? Number.NaN) / 1000] as const]
      : [],
  );
