import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { feedZone } from "../../src/feed/feedZone.ts";
import type { FeedZone } from "../../src/feed/types.ts";
import { HOUR, MINUTE, partsOfDay } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { at } from "./feed-plans.ts";

const zoneOf = (name: string): Zone => Zone.named(name) as Zone;
const years = (name: string, first = "2026", last = "2028"): FeedZone | null =>
  feedZone(zoneOf(name), at(`${first}-03-01T00:00:00Z`), at(`${last}-03-01T00:00:00Z`));

/** Reads a definition with ical.js: seconds east of UTC at a wall time. */
const readWith = (text: string): ((wall: number) => number) => {
  const zone = new ICAL.Timezone(new ICAL.Component(ICAL.parse(text)));
  return (wall) => {
    const { year, month, dayOfMonth } = partsOfDay(Math.floor(wall / 86_400));
    const [hour, minute] = [Math.floor((wall % 86_400) / HOUR), Math.floor((wall % HOUR) / MINUTE)];
    return zone.utcOffset(ICAL.Time.fromData({ year, month, day: dayOfMonth, hour, minute, second: 0, isDate: false }));
  };
};

describe("a definition gives IANA's offsets over three years, read by ical.js", () => {
  test.each([
    "Europe/London",
    "Europe/Dublin",
    "America/New_York",
    "Australia/Lord_Howe",
    "Africa/Cairo",
    "America/Santiago",
    "America/St_Johns",
    "Pacific/Auckland",
    "Asia/Jerusalem",
  ])("%s", (name) => {
    const zone = zoneOf(name);
    const made = years(name) as FeedZone;
    const offsetOf = readWith(made.text);
    const changes = zone.changes(made.from, made.to);
    expect(changes).toHaveLength(6);
    for (let instant = made.from; instant < made.to; instant += 7 * HOUR) {
      // The repeated hour is never written as a wall time: readers differ there.
      if (zone.offsetAt(instant - 3 * HOUR) !== zone.offsetAt(instant + 3 * HOUR)) continue;
      expect(offsetOf(zone.wallAt(instant)), String(instant)).toBe(zone.offsetAt(instant));
    }
    for (const { at: change, offset } of changes) {
      expect(offsetOf(zone.wallAt(change - 3 * HOUR))).toBe(zone.offsetAt(change - 1));
      expect(offsetOf(zone.wallAt(change + 3 * HOUR))).toBe(offset);
    }
  });
});

test("London's rules are the last Sundays of March and October at 01:00 UTC (IANA tzdata 2025b)", () => {
  expect(years("Europe/London")?.text).toBe(
    [
      "BEGIN:VTIMEZONE",
      "TZID:Europe/London",
      "BEGIN:DAYLIGHT",
      "DTSTART:20000326T010000",
      "TZOFFSETFROM:+0000",
      "TZOFFSETTO:+0100",
      "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU",
      "END:DAYLIGHT",
      "BEGIN:STANDARD",
      "DTSTART:20001029T020000",
      "TZOFFSETFROM:+0100",
      "TZOFFSETTO:+0000",
      "RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU",
      "END:STANDARD",
      "END:VTIMEZONE",
      "",
    ].join("\r\n"),
  );
});

test("a half-hour shift and a half-hour zone keep their minutes", () => {
  expect(years("Australia/Lord_Howe")?.text).toContain("TZOFFSETFROM:+1030\r\nTZOFFSETTO:+1100");
  expect(years("America/St_Johns")?.text).toContain("TZOFFSETFROM:-0330\r\nTZOFFSETTO:-0230");
});

test("a zone without changes has one observance and no rule", () => {
  const text = years("Asia/Kolkata")?.text ?? "";
  expect(text).toContain("TZOFFSETFROM:+0530\r\nTZOFFSETTO:+0530");
  expect(text).not.toContain("RRULE");
  expect(readWith(text)(at("2027-07-01T12:00:00Z"))).toBe(5.5 * HOUR);
});

test("a zone whose clocks follow the moon has no definition, so its feed is in UTC", () => {
  expect(years("Africa/Casablanca")).toBeNull();
});

test("every window of the same years has the same text, and it holds for those whole years only", () => {
  const zone = zoneOf("Europe/London");
  const early = feedZone(zone, at("2026-01-01T00:00:00Z"), at("2027-01-01T00:00:00Z")) as FeedZone;
  const late = feedZone(zone, at("2026-12-31T23:59:59Z"), at("2027-12-31T23:59:59Z")) as FeedZone;
  expect(late).toEqual(early);
  expect([early.from, early.to]).toEqual([at("2026-01-01T00:00:00Z"), at("2028-01-01T00:00:00Z")]);
});
