import fc from "fast-check";
import ICAL from "ical.js";
import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { cleanLine, cleanText } from "../../src/feed/contentLine.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import { writeFeed } from "../../src/feed/writeFeed.ts";
import { HOUR } from "../../src/time/instant.ts";
import { COLOUR, contentAt, contextOf, HEAD, homeSteps, planOf, STAMPS } from "./feed-plans.ts";
import { feedOf, linesOf, london, properties, readWithIcalJs } from "./feed-readers.ts";

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
    const head = { ...HEAD, name, description: name, url: `https://count.example/${name}` };
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
