import fc from "fast-check";
import ICAL from "ical.js";
import nodeIcal from "node-ical";
import { convertIcsCalendar } from "ts-ics";
import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { cleanLine, cleanText } from "../../src/feed/contentLine.ts";
import { feedZone } from "../../src/feed/feedZone.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import type { EventContent, FeedZone } from "../../src/feed/types.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import { writeFeed } from "../../src/feed/writeFeed.ts";
import { HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { at, COLOUR, contentAt, contextOf, HEAD, homeSteps, PAGE, planOf, PUT_ON, STAMPS } from "./feed-plans.ts";

const zoneOf = (name: string): FeedZone =>
  feedZone(Zone.named(name) as Zone, at("2026-01-01T00:00:00Z"), at("2028-12-31T00:00:00Z")) as FeedZone;
const london = zoneOf("Europe/London");

const feedOf = (contents: readonly EventContent[], zone: FeedZone | null = london): string =>
  writeFeed(
    HEAD,
    zone,
    contents.map((content) => writeEvent(content, STAMPS, zone)),
  );
const unfold = (text: string): string => text.replaceAll("\r\n ", "");
const linesOf = (text: string): readonly string[] => unfold(text).split("\r\n").slice(0, -1);
const properties = (text: string, name: string): readonly string[] =>
  linesOf(text).filter((line) => new RegExp(`^${name}[;:]`).test(line));

/** Starts and ends as ical.js reads them, through the feed's own VTIMEZONE. */
const readWithIcalJs = (text: string): readonly (readonly [Instant, Instant])[] => {
  const calendar = new ICAL.Component(ICAL.parse(text));
  for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
  const read = calendar.getAllSubcomponents("vevent").map((component) => {
    const event = new ICAL.Event(component, { exceptions: [] });
    return [event.startDate.toUnixTime(), event.endDate.toUnixTime()] as const;
  });
  ICAL.TimezoneService.reset();
  return read;
};
const readWithTsIcs = (text: string): readonly (readonly [Instant, Instant])[] =>
  (convertIcsCalendar(undefined, text).events ?? []).map(
    (event) => [event.start.date.getTime() / 1000, (event.end?.date.getTime() ?? Number.NaN) / 1000] as const,
  );
const readWithNodeIcal = (text: string): readonly (readonly [Instant, Instant])[] =>
  Object.values(nodeIcal.sync.parseICS(text)).flatMap((entry) =>
    entry?.type === "VEVENT"
      ? [[entry.start.getTime() / 1000, (entry.end?.getTime() ?? Number.NaN) / 1000] as const]
      : [],
  );

test("a small feed, byte for byte", () => {
  expect(feedOf([contentAt(PUT_ON - HOUR, PUT_ON)])).toBe(
    [
      "BEGIN:VCALENDAR",
      "VERSION:2.0",
      "PRODID:-//Countback//Skin-test deadlines//EN",
      "UID:0f0e0d0c-0b0a-5908-8706-050403020100",
      "NAME:Skin test\\, Juniper Lane",
      "X-WR-CALNAME:Skin test\\, Juniper Lane",
      "DESCRIPTION:What to do before your colour",
      "X-WR-CALDESC:What to do before your colour",
      `URL:${PAGE}`,
      "REFRESH-INTERVAL;VALUE=DURATION:PT1H",
      "X-PUBLISHED-TTL:PT1H",
      "COLOR:teal",
      "X-APPLE-CALENDAR-COLOR:#008080",
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
      "BEGIN:VEVENT",
      "UID:b1|application|-",
      "DTSTAMP:20261102T080000Z",
      "CREATED:20261101T080000Z",
      "LAST-MODIFIED:20261102T080000Z",
      "SEQUENCE:1",
      "DTSTART;TZID=Europe/London:20261206T093000",
      "DTEND;TZID=Europe/London:20261206T103000",
      "SUMMARY:Put your skin test on by Sun 10:30",
      "DESCRIPTION:One.\\n\\nTwo.",
      `URL:${PAGE}`,
      "STATUS:CONFIRMED",
      "TRANSP:TRANSPARENT",
      "CLASS:PRIVATE",
      "CATEGORIES:application",
      "RELATED-TO;RELTYPE=FINISHTOSTART;GAP=PT48H:b1|colour|-",
      "END:VEVENT",
      "END:VCALENDAR",
      "",
    ].join("\r\n"),
  );
});

describe("the checklist of calendar practice §4", () => {
  const plan = planOf("on-track", homeSteps());
  const contents = clientEvents(plan, contextOf());
  const text = feedOf(contents);

  test("1: the same events give the same bytes", () => {
    expect(feedOf(clientEvents(planOf("on-track", homeSteps()), contextOf()))).toBe(text);
  });

  test("1: an event's bytes do not depend on the events around it", () => {
    for (const content of contents) expect(text).toContain(writeEvent(content, STAMPS, london));
    expect(feedOf(contents.slice(1))).toBe(text.replace(writeEvent(contents[0] as EventContent, STAMPS, london), ""));
  });

  test("3: DTSTAMP is LAST-MODIFIED, in UTC", () => {
    expect(properties(text, "DTSTAMP").map((line) => line.slice(8))).toEqual(
      properties(text, "LAST-MODIFIED").map((line) => line.slice(14)),
    );
    expect(new Set(properties(text, "DTSTAMP"))).toEqual(new Set(["DTSTAMP:20261102T080000Z"]));
  });

  test("3: the calendar has no stamp of its own, so one moved booking changes no line but its own", () => {
    expect(text.slice(0, text.indexOf("BEGIN:VTIMEZONE"))).not.toMatch(/LAST-MODIFIED|DTSTAMP/);
  });

  test("22: every line ends with CRLF, the last too, and has at most 75 octets", () => {
    expect(text.endsWith("END:VCALENDAR\r\n")).toBe(true);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    for (const line of text.split("\r\n")) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
  });

  test("24: an address is not escaped", () => {
    const url = "https://count.example/c/a,b;c";
    expect(properties(feedOf([contentAt(PUT_ON, PUT_ON + HOUR, { url })]), "URL")).toContain(`URL:${url}`);
  });

  test("25: calendar properties, then the zone, then the events", () => {
    const order = linesOf(text).filter((line) => line.startsWith("BEGIN:") && !/DAYLIGHT|STANDARD/.test(line));
    expect(order.slice(0, 3)).toEqual(["BEGIN:VCALENDAR", "BEGIN:VTIMEZONE", "BEGIN:VEVENT"]);
    expect(text.slice(text.indexOf("BEGIN:VTIMEZONE"))).not.toMatch(/\r\n(?:NAME|X-WR|COLOR|REFRESH)/);
    expect(linesOf(text).at(-2)).toBe("END:VEVENT");
  });

  test("26: there is no METHOD, and 31: no floating time", () => {
    expect(properties(text, "METHOD")).toEqual([]);
    for (const line of [...properties(text, "DTSTART"), ...properties(text, "DTEND")]) {
      expect(line).toMatch(/;TZID=Europe\/London:\d{8}T\d{6}$|:\d{8}T\d{6}Z$|^DTSTART:2000/);
    }
  });

  test("27: an empty feed is a calendar with a zone, UTC's where the feed is in UTC", () => {
    for (const [zone, tzid] of [
      [london, "Europe/London"],
      [null, "Etc/UTC"],
    ] as const) {
      const calendar = new ICAL.Component(ICAL.parse(feedOf([], zone)));
      expect(calendar.getAllSubcomponents().map(({ name }) => name)).toEqual(["vtimezone"]);
      expect(calendar.getFirstSubcomponent("vtimezone")?.getFirstPropertyValue("tzid")).toBe(tzid);
    }
  });

  test("29: a thousand of a salon's events stay below 1 MB", () => {
    const events = Array.from({ length: 125 }, () => salonEvents(plan, contextOf())).flat();
    expect(events).toHaveLength(1_000);
    expect(new TextEncoder().encode(feedOf(events)).length).toBeLessThan(1_000_000);
  });

  test("33: an all-day event is of dates, its end exclusive", () => {
    const time = {
      allDay: true,
      from: at("2026-12-09T00:00:00Z") / 86_400,
      to: at("2026-12-12T00:00:00Z") / 86_400,
    } as const;
    const notice = feedOf([contentAt(0, 0, { kind: "notice", time, before: null })]);
    expect(properties(notice, "DTSTART").at(-1)).toBe("DTSTART;VALUE=DATE:20261209");
    expect(properties(notice, "DTEND")).toEqual(["DTEND;VALUE=DATE:20261212"]);
    expect(notice).not.toContain("X-MICROSOFT");
  });

  test("34: REFRESH-INTERVAL and X-PUBLISHED-TTL are equal durations", () => {
    expect(text).toContain("REFRESH-INTERVAL;VALUE=DURATION:PT1H\r\nX-PUBLISHED-TTL:PT1H\r\n");
  });

  test("35: the deadline is a VEVENT, and there is no VTODO", () => {
    expect(linesOf(text).filter((line) => line === "BEGIN:VEVENT")).toHaveLength(contents.length);
    expect(text).not.toContain("VTODO");
  });

  test("37: a cancelled event says so in STATUS", () => {
    expect(feedOf([contentAt(PUT_ON, PUT_ON + HOUR, { cancelled: true })])).toContain("STATUS:CANCELLED\r\n");
  });

  test("38 and 39: every event is TRANSPARENT and PRIVATE and carries its kind", () => {
    expect(properties(text, "TRANSP")).toHaveLength(contents.length);
    expect(properties(text, "CLASS")).toHaveLength(contents.length);
    expect(properties(text, "CATEGORIES").map((line) => line.slice(11))).toEqual(contents.map(({ kind }) => kind));
  });

  test("40: RELATED-TO has RELTYPE and GAP, the rule's hours, and never VALUE=UID (RFC 9253 §6.2)", () => {
    const related = properties(text, "RELATED-TO");
    expect(related).toHaveLength(contents.length - 1);
    for (const line of related) expect(line).toMatch(/^RELATED-TO;RELTYPE=FINISHTOSTART;GAP=PT\d+H:b1\|colour\|-$/);
    // CP2 (common practice, no source): a home test at least 120 hours before the colour.
    expect(related[2]).toContain("GAP=PT120H");
  });
});

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

  test("48 hours across the March change are 48 hours to a reader (trade.md C1, RFC 5545 §3.3.6)", () => {
    // Colour Monday 30 March 2026 10:00 London: 48 exact hours before is Saturday 28 March 09:00, not 10:00.
    const colour = at("2026-03-30T09:00:00Z");
    const due = colour - 48 * HOUR;
    const text = feedOf([contentAt(due - HOUR, due), contentAt(colour, colour + HOUR)]);
    expect(properties(text, "DTEND")[0]).toBe("DTEND;TZID=Europe/London:20260328T090000");
    expect(readWithIcalJs(text)[0]?.[1]).toBe((readWithIcalJs(text)[1]?.[0] ?? 0) - 48 * HOUR);
  });

  test("48 hours across the October change are 48 hours to a reader (trade.md C2, RFC 5545 §3.3.6)", () => {
    const colour = at("2026-10-26T10:00:00Z");
    const text = feedOf([contentAt(colour - 49 * HOUR, colour - 48 * HOUR), contentAt(colour, colour + HOUR)]);
    expect(properties(text, "DTEND")[0]).toBe("DTEND;TZID=Europe/London:20261024T110000");
    expect(readWithIcalJs(text)[0]?.[1]).toBe((readWithIcalJs(text)[1]?.[0] ?? 0) - 48 * HOUR);
  });
});

describe("23: no name, whatever stands in it, makes a line of its own", () => {
  const names = [
    "Cut\nX-EVIL:1",
    "Cut\r\nX-EVIL:1\r\nBEGIN:VEVENT",
    "Cut\rX-EVIL:1",
    "Cut\u2028X-EVIL:1\u2029X-EVIL:2\u0085X-EVIL:3",
    "\0\x01\x1b\x7f\ufeff",
    '\\;,:"^\\n\\N^n',
    "👩🏽‍🦰💇‍♀️\ud83d",
    "y".repeat(10_000),
    "\r\n ".repeat(500),
    "{salon} {client} {nothing}",
    "$& $1 $`",
  ];
  const shape = (text: string): readonly string[] => linesOf(text).map((line) => /^[A-Z-]+/.exec(line)?.[0] ?? line);

  const feedsNamed = (name: string): readonly string[] => {
    const context = contextOf({ show: { clients: "names" } });
    const settings = {
      ...context.settings,
      name,
      contact: { phone: name, email: name, address: name },
      tests: context.settings.tests.map((each) => ({ ...each, kit: { ...each.kit, name, instructions: name } })),
    };
    const plan = planOf("on-track", homeSteps());
    const hostile = {
      ...plan,
      booking: { ...plan.booking, uid: name, client: { id: "c", name } },
      steps: plan.steps.map((step) => ({
        ...step,
        uid: name,
        rule: { protocol: name, duration: "PT48H", source: name },
      })),
    };
    const told = { ...context, settings, pageUrl: `https://count.example/${name}` };
    const head = { ...HEAD, uid: name, name, description: name, url: `https://count.example/${name}` };
    return [clientEvents(hostile, told), salonEvents(hostile, told)].map((contents) =>
      writeFeed(
        head,
        london,
        contents.map((content) => writeEvent(content, STAMPS, london)),
      ),
    );
  };
  const plain = feedsNamed("Juniper").map(shape);
  /** A calendar whose name is empty once it is cleaned has no name; nothing else may differ. */
  const expected = (name: string): readonly (readonly string[])[] =>
    cleanLine(name) === "" && cleanText(name) === "" ? plain.map((lines) => lines.filter(isNeeded)) : plain;
  const isNeeded = (line: string, index: number): boolean =>
    index > 12 || !["NAME", "X-WR-CALNAME", "DESCRIPTION", "X-WR-CALDESC"].includes(line);

  test.each(names.map((name) => [JSON.stringify(name).slice(0, 40), name]))("%s", (_, name) => {
    const feeds = feedsNamed(name);
    expect(feeds.map(shape)).toEqual(expected(name));
    for (const text of feeds) {
      expect(readWithIcalJs(text)).toHaveLength(linesOf(text).filter((line) => line === "BEGIN:VEVENT").length);
      for (const line of text.split("\r\n")) expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    }
  });

  test("any other name", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", minLength: 1, maxLength: 80 }), (name) => {
        expect(feedsNamed(name).map(shape)).toEqual(expected(name));
      }),
      { numRuns: 60 },
    );
  });

  test("30: SUMMARY and NAME stay within 255 characters and keep the time", () => {
    const text = feedsNamed("y".repeat(10_000)).join("");
    for (const line of [
      ...properties(text, "SUMMARY"),
      ...properties(text, "NAME"),
      ...properties(text, "X-WR-CALNAME"),
    ]) {
      expect(line.slice(line.indexOf(":") + 1).length).toBeLessThanOrEqual(255);
    }
    expect(properties(text, "SUMMARY").filter((line) => line.includes("kit by Fri 16:30"))).toHaveLength(1);
  });

  test("a text comes back from a reader as it went in", () => {
    const description = 'One, two; three\\four\n"five": \\n six\n\nseven';
    const text = feedOf([contentAt(COLOUR, COLOUR + HOUR, { description })]);
    const event = new ICAL.Component(ICAL.parse(text)).getFirstSubcomponent("vevent");
    expect(event?.getFirstPropertyValue("description")).toBe(description);
  });
});
