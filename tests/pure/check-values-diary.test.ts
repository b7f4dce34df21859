/**
 * Printed examples of RFC 5545 and its kin from the bytes of a diary to the deadline counted back from them. Recurrence
 * (§3.8.5.3) is in diary-rfc.test.ts. C15, C16 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { parseNominal } from "../../src/diary/parseNominal.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import type { Entry } from "../../src/diary/types.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import { settingsSchema } from "../../src/settings.ts";
import { parseDuration } from "../../src/time/duration.ts";
import { formatInstant, HOUR } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import { dueIn, planFor, rulesOf, shown, WALK_IN } from "./check-values-salon.ts";

/** The entries of one event's lines, between two years. */
const entriesOf = (
  zoneName: string,
  years: readonly [number, number],
  ...lines: readonly string[]
): readonly Entry[] => {
  const text = ["BEGIN:VCALENDAR", "BEGIN:VEVENT", "UID:printed", ...lines, "END:VEVENT", "END:VCALENDAR", ""];
  const indexed = indexDiary(new TextEncoder().encode(text.join("\r\n")));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  const [from, to] = years.map((year) => Date.UTC(year, 0, 1) / 1000) as [number, number];
  const readings = indexed.blocks.map((block) => readBlock(block, Zone.named(zoneName) as Zone, { from, to }));
  expect(readings.flatMap((reading) => reading.skipped)).toEqual([]);
  return readings.flatMap((reading) => reading.entries);
};

/** The application's due of a walk-in for a New York booking that a diary wrote so; with the start that was read. */
const countedFrom = (written: string): readonly string[] => {
  const rules = rulesOf({ zone: "America/New_York", tests: [WALK_IN] });
  const [entry] = entriesOf("America/New_York", [2007, 2008], `DTSTART;TZID=America/New_York:${written}`);
  const start = entry?.start as number;
  return [formatInstant(start), dueIn(rules, planFor(rules, shown(rules, start)), "application")];
};

describe("a diary's wall time and 48 hours before it", () => {
  test("C15: 20071104T013000 in New York is 01:30 EDT, the first of two (RFC 5545 §3.3.5; UTC computed)", () => {
    expect(countedFrom("20071104T013000")).toEqual(["2007-11-04T05:30:00Z", "2007-11-02 01:30"]);
  });
  test("C16: 20070311T023000 in New York is 03:30 EDT (RFC 5545 §3.3.5; UTC computed), so the test is on by 02:30 EST", () => {
    expect(countedFrom("20070311T023000")).toEqual(["2007-03-11T07:30:00Z", "2007-03-09 02:30"]);
  });
});

describe("lengths", () => {
  const lasting = (length: string, start = "20200308T000000"): string => {
    const [entry] = entriesOf("America/Los_Angeles", [2020, 2021], `DTSTART;TZID=America/Los_Angeles:${start}`, length);
    return formatInstant(entry?.end as number);
  };
  test("C12: from 8 March 2020 00:00 in Los Angeles P1D lasts to 00:00, PT24H to 01:00 (TC39 Temporal documentation, zoneddatetime.md)", () => {
    expect([lasting("DURATION:P1D"), lasting("DURATION:PT24H")]).toEqual([
      "2020-03-09T07:00:00Z",
      "2020-03-09T08:00:00Z",
    ]);
  });
  test("C17: P15DT5H0M20S is 15 days, 5 hours and 20 seconds, P7W 49 days; days first (RFC 5545 §3.3.6)", () => {
    expect(parseNominal("P15DT5H0M20S")).toEqual({ days: 15, seconds: 5 * HOUR + 20 });
    expect(parseNominal("P7W")).toEqual({ days: 49, seconds: 0 });
    // From 1 March 00:00 PST the clocks go forward on the 8th: 15 days on it is 16 March 00:00 PDT, 07:00Z.
    expect(lasting("DURATION:P15DT5H0M20S", "20200301T000000")).toBe("2020-03-16T12:00:20Z");
    expect(lasting("DURATION:P7W", "20200301T000000")).toBe("2020-04-19T07:00:00Z");
  });
  test.each(["P15DT5H0M20S", "P7W", "P2D", "-P2D", "P1D"])(
    "%s is no length for a rule of a test: its hours hang on the calendar (RFC 5545 §3.3.6)",
    (text) => {
      expect(parseDuration(text)).toBe("not-exact-hours");
      const settings = settingsSchema.parse({
        name: "A salon",
        zone: "Europe/London",
        tests: [{ route: "in-salon", protocol: "own" }],
        protocols: { own: { lead: { least: text }, readings: [{ after: "PT24H" }] } },
      });
      const compiled = compileRules(settings, NO_HOLIDAYS, "x");
      expect(compiled.ok ? [] : compiled.refusals.map(({ code, value }) => [code, value])).toContainEqual([
        "not-exact-hours",
        text,
      ]);
    },
  );
  test("C18: an alarm two days before the end (RFC 5545 §3.6.6, TRIGGER;RELATED=END:-P2D) is neither a start, an end, a name nor a person of the entry", () => {
    const event = ["DTSTART;TZID=Europe/London:20261211T103000", "SUMMARY:Tint", "DURATION:PT2H"];
    const alarm = [
      "BEGIN:VALARM",
      "TRIGGER;RELATED=END:-P2D",
      "REPEAT:2",
      "DURATION:PT15M",
      "ACTION:EMAIL",
      "ATTENDEE;CN=Wrenna Tolk:mailto:wrenna@tolk.example",
      "SUMMARY:Root tint reminder",
      "DESCRIPTION:Bring your own brush",
      "END:VALARM",
    ];
    const plain = entriesOf("Europe/London", [2026, 2027], ...event);
    expect(plain.map(({ start, end, summary }) => [start, end, summary])).toEqual([
      [Date.UTC(2026, 11, 11, 10, 30) / 1000, Date.UTC(2026, 11, 11, 12, 30) / 1000, "Tint"],
    ]);
    expect(entriesOf("Europe/London", [2026, 2027], ...event, ...alarm)).toEqual(plain);
    expect(entriesOf("Europe/London", [2026, 2027], ...alarm, ...event)).toEqual(plain);
  });
});

describe("weeks by their number, in a rule that repeats", () => {
  const datesIn = (year: number, week: number, day: string, start: string): readonly string[] =>
    entriesOf(
      "Europe/London",
      [year, year + 1],
      `DTSTART;TZID=Europe/London:${start}T100000`,
      `RRULE:FREQ=YEARLY;BYWEEKNO=${week};BYDAY=${day}`,
    )
      .map((entry) => formatInstant(entry.start as number).slice(0, 10))
      .toSorted();
  // A series begins years before; of 2006, 1 January is the Sunday of 2005's last week.
  test.each<readonly [string, number, number, string, string, readonly string[], string]>([
    ["W1", 2019, 1, "MO", "20180101", ["2019-12-30"], "published articles on ISO week dates: 2020-W01-1"],
    [
      "W1",
      2006,
      52,
      "SU",
      "20041226",
      ["2006-01-01", "2006-12-31"],
      "published articles on ISO week dates: 2006-W52-7",
    ],
    ["W1", 2024, 51, "FR", "20221223", ["2024-12-20"], "published articles on ISO week dates: 2024-W51-5"],
    ["W2", 2026, 53, "TH", "20201231", ["2026-12-31"], "computed from the ISO 8601 week rule: 2026-W53-4"],
    ["W2", 2027, 53, "SU", "20210103", ["2027-01-03"], "computed from the ISO 8601 week rule: 2026-W53-7"],
    ["W2", 2027, 1, "MO", "20251229", ["2027-01-04"], "computed from the ISO 8601 week rule: 2027-W01-1"],
  ])("%s: in %i, of week %i, %s, of a series from %s: %j (%s)", (_row, year, week, day, start, expected) => {
    expect(datesIn(year, week, day, start)).toEqual(expected);
  });
});
