import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import type { EventContent } from "../../src/feed/types.ts";
import { HOUR } from "../../src/time/instant.ts";
import { at, contentAt, contextOf, homeSteps, PAGE, planOf, PUT_ON, STAMPS } from "./feed-plans.ts";
import { feedOf, linesOf, london, properties } from "./feed-readers.ts";

test("a small feed, byte for byte", () => {
  expect(feedOf([contentAt(PUT_ON - HOUR, PUT_ON)])).toBe(
    [
      "BEGIN:VCALENDAR",
      "VERSION:2.0",
      "PRODID:-//Countback//Skin-test deadlines//EN",
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

describe("what calendar programs need of the bytes", () => {
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

  test("the calendar has no UID of its own: vdirsyncer 0.19 takes the first UID of a text for its entry's", () => {
    const head = text.slice(0, text.indexOf("BEGIN:VEVENT"));
    expect(head).not.toMatch(/^UID/m);
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
