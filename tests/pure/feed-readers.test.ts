import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import type { EventContent } from "../../src/feed/types.ts";
import { HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { at, contentAt, contextOf, homeSteps, planOf } from "./feed-plans.ts";
import { feedOf, london, properties, readWithIcalJs, readWithNodeIcal, readWithTsIcs, zoneOf } from "./feed-readers.ts";

describe("28: other readers find the same instants", () => {
  const readers = [
    ["ical.js", readWithIcalJs],
    ["ts-ics", readWithTsIcs],
    ["node-ical", readWithNodeIcal],
  ] as const;

  test.each(readers)("%s reads a client's feed", (_, read) => {
    const contents = clientEvents(planOf("on-track", homeSteps()), contextOf());
    const expected = contents.map(({ time }) => [time.from, time.to]);
    for (const zone of [london, null]) expect(read(feedOf(contents, zone))).toEqual(expected);
  });

  const zones = [
    "Europe/London",
    "America/New_York",
    "Australia/Lord_Howe",
    "Africa/Cairo",
    "America/Santiago",
    "Pacific/Auckland",
  ];
  const [from2027, to2027] = [at("2027-01-01T00:00:00Z"), at("2028-01-01T00:00:00Z")];
  const quarterHourFrom = (from: Instant): EventContent => contentAt(from, from + 15 * MINUTE, { uid: String(from) });

  test.each(
    zones.flatMap((name) => [
      { name, reader: "ical.js", read: readWithIcalJs },
      { name, reader: "node-ical", read: readWithNodeIcal },
    ]),
  )("$reader reads every half hour around the changes of 2027 in $name", ({ name, read }) => {
    const zone = zoneOf(name);
    const contents = zone.zone
      .changes(from2027, to2027)
      .flatMap((change) =>
        Array.from({ length: 100 }, (_, index) => quarterHourFrom(change.at + (index - 50) * 30 * MINUTE)),
      );
    expect(contents).toHaveLength(200);
    expect(read(feedOf(contents, zone))).toEqual(contents.map(({ time }) => [time.from, time.to]));
  });

  /** ts-ics 2.4.6 reads VTIMEZONE onsets in the host's own zone: measured up to 16 hours early on a host in Auckland. */
  test.each(zones)("ts-ics reads the year 2027 in %s but for the day before a change", (name) => {
    const zone = zoneOf(name);
    const contents: EventContent[] = [];
    for (let from = from2027; from < to2027; from += 31 * HOUR) {
      if (zone.zone.changes(from, from + 26 * HOUR).length === 0) contents.push(quarterHourFrom(from));
    }
    expect(contents.length).toBeGreaterThan(275);
    expect(readWithTsIcs(feedOf(contents, zone))).toEqual(contents.map(({ time }) => [time.from, time.to]));
  });

  test("both passes of London's repeated hour are told apart, in UTC (RFC 5545 §3.3.5)", () => {
    const [first, second] = [at("2026-10-25T00:30:00Z"), at("2026-10-25T01:30:00Z")];
    const text = feedOf([contentAt(first, first + 60), contentAt(second, second + 60)]);
    expect(properties(text, "DTSTART").slice(-2)).toEqual(["DTSTART:20261025T003000Z", "DTSTART:20261025T013000Z"]);
  });

  test("a time outside the years of the definition is written in UTC", () => {
    const from = at("2031-06-01T09:00:00Z");
    expect(properties(feedOf([contentAt(from, from + 60)]), "DTSTART").at(-1)).toBe("DTSTART:20310601T090000Z");
  });

  test("48 hours across the March change are 48 hours to a reader (RFC 5545 §3.3.6, IANA tzdata 2025b)", () => {
    // Colour Monday 30 March 2026 10:00 London: 48 exact hours before is Saturday 28 March 09:00, not 10:00.
    const colour = at("2026-03-30T09:00:00Z");
    const due = colour - 48 * HOUR;
    const text = feedOf([contentAt(due - HOUR, due), contentAt(colour, colour + HOUR)]);
    expect(properties(text, "DTEND")[0]).toBe("DTEND:20260328T090000Z");
    expect(readWithIcalJs(text)[0]?.[1]).toBe((readWithIcalJs(text)[1]?.[0] ?? 0) - 48 * HOUR);
  });

  test("48 hours across the October change are 48 hours to a reader (RFC 5545 §3.3.6, IANA tzdata 2025b)", () => {
    const colour = at("2026-10-26T10:00:00Z");
    const text = feedOf([contentAt(colour - 49 * HOUR, colour - 48 * HOUR), contentAt(colour, colour + HOUR)]);
    expect(properties(text, "DTEND")[0]).toBe("DTEND:20261024T100000Z");
    expect(readWithIcalJs(text)[0]?.[1]).toBe((readWithIcalJs(text)[1]?.[0] ?? 0) - 48 * HOUR);
  });
});
