/** Worked examples printed in RFC 5545 (and one of libical's public test list), read through the whole reader. */
import { expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { parseNominal } from "../../src/diary/parseNominal.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { DAY_SECONDS, formatInstant, HOUR } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const year = (number: number): number => Date.UTC(number, 0, 1) / 1000;
const salon = Zone.named("Pacific/Auckland") as Zone;
const newYork = Zone.named("America/New_York") as Zone;

/** The starts of a New York series, as instants in order. */
const starts = (start: string, ...lines: string[]): string[] => {
  const text = ["BEGIN:VCALENDAR", "BEGIN:VEVENT", "UID:series", `DTSTART;TZID=America/New_York:${start}`, ...lines];
  const indexed = indexDiary(new TextEncoder().encode(`${[...text, "END:VEVENT", "END:VCALENDAR"].join("\r\n")}\r\n`));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  const readings = indexed.blocks.map((block) => readBlock(block, salon, { from: year(1990), to: year(2010) }));
  expect(readings.flatMap((reading) => reading.skipped)).toEqual([]);
  return readings
    .flatMap((reading) => reading.entries)
    .map((entry) => formatInstant(entry.start as number))
    .toSorted();
};

/** `1997-09-02` at 09:00 New York: 13:00Z under EDT (−04:00), 14:00Z under EST (−05:00). */
const at9 = (dates: readonly string[], zone: "EDT" | "EST"): string[] =>
  dates.map((date) => `${date}T${zone === "EDT" ? "13" : "14"}:00:00Z`);

test("weekly for ten occurrences keeps 09:00 across the October change (RFC 5545 §3.8.5.3)", () => {
  expect(starts("19970902T090000", "RRULE:FREQ=WEEKLY;COUNT=10")).toEqual([
    ...at9(
      ["1997-09-02", "1997-09-09", "1997-09-16", "1997-09-23", "1997-09-30", "1997-10-07", "1997-10-14", "1997-10-21"],
      "EDT",
    ),
    ...at9(["1997-10-28", "1997-11-04"], "EST"),
  ]);
});

test("every ten days, five occurrences (RFC 5545 §3.8.5.3)", () => {
  expect(starts("19970902T090000", "RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5")).toEqual(
    at9(["1997-09-02", "1997-09-12", "1997-09-22", "1997-10-02", "1997-10-12"], "EDT"),
  );
});

test("daily until 24 December 1997: the last is the 23rd (RFC 5545 §3.8.5.3; 113 days counted from the printed list)", () => {
  const found = starts("19970902T090000", "RRULE:FREQ=DAILY;UNTIL=19971224T000000Z");
  expect(found).toHaveLength(113);
  expect(found[0]).toBe("1997-09-02T13:00:00Z");
  expect(found.filter((each) => each < "1997-10-26")).toHaveLength(54);
  expect(found.filter((each) => each < "1997-10-26").every((each) => each.endsWith("T13:00:00Z"))).toBe(true);
  expect(found.filter((each) => each >= "1997-10-26").every((each) => each.endsWith("T14:00:00Z"))).toBe(true);
  expect(found.at(-1)).toBe("1997-12-23T14:00:00Z");
});

test("the 15th and 30th skip the 30th of February (RFC 5545 §3.8.5.3)", () => {
  expect(starts("20070115T090000", "RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5")).toEqual([
    ...at9(["2007-01-15", "2007-01-30", "2007-02-15"], "EST"),
    ...at9(["2007-03-15", "2007-03-30"], "EDT"),
  ]);
});

test.each([
  ["MO", ["1997-08-05", "1997-08-10", "1997-08-19", "1997-08-24"]],
  ["SU", ["1997-08-05", "1997-08-17", "1997-08-19", "1997-08-31"]],
])("the week's first day decides which alternate Sunday follows: WKST=%s (RFC 5545 §3.8.5.3)", (day, dates) => {
  expect(starts("19970805T090000", `RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=${day}`)).toEqual(
    at9(dates, "EDT"),
  );
});

test("monthly from the 31st leaves out the shorter months (libical src/test/icalrecur_test.txt)", () => {
  const found = starts("20070131T090000", "RRULE:FREQ=MONTHLY;COUNT=12").map((each) => each.slice(0, 10));
  expect(found).toEqual([
    "2007-01-31",
    "2007-03-31",
    "2007-05-31",
    "2007-07-31",
    "2007-08-31",
    "2007-10-31",
    "2007-12-31",
    "2008-01-31",
    "2008-03-31",
    "2008-05-31",
    "2008-07-31",
    "2008-08-31",
  ]);
});

test("a repeated wall time is its first pass: 20071104T013000 is 01:30 EDT (RFC 5545 §3.3.5)", () => {
  expect(starts("20071104T013000")).toEqual(["2007-11-04T05:30:00Z"]);
});

test("a skipped wall time takes the offset before the gap: 20070311T023000 is 03:30 EDT (RFC 5545 §3.3.5)", () => {
  const found = starts("20070311T023000");
  expect(found).toEqual(["2007-03-11T07:30:00Z"]);
  expect(newYork.wallAt(Date.parse(found[0] as string) / 1000) % DAY_SECONDS).toBe(3.5 * HOUR);
});

test("reads the printed durations P15DT5H0M20S and P7W (RFC 5545 §3.3.6)", () => {
  expect(parseNominal("P15DT5H0M20S")).toEqual({ days: 15, seconds: 5 * HOUR + 20 });
  expect(parseNominal("P7W")).toEqual({ days: 49, seconds: 0 });
  expect(parseNominal("-PT15M")).toBeUndefined();
});

test("DTEND keeps the exact length of each occurrence and DURATION the nominal one (RFC 5545 §3.8.5.3)", () => {
  const ends = (line: string): string[] => {
    const text = `BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART;TZID=America/New_York:20071103T120000\n${line}\nRRULE:FREQ=DAILY;COUNT=2\nEND:VEVENT\nEND:VCALENDAR\n`;
    const indexed = indexDiary(new TextEncoder().encode(text));
    if ("refusal" in indexed) throw new Error(indexed.refusal.code);
    const [block] = indexed.blocks;
    if (!block) throw new Error("no block");
    const { entries } = readBlock(block, salon, { from: year(2007), to: year(2008) });
    return entries.map((entry) => formatInstant(entry.end as number));
  };
  // The clocks go back in the night to 4 November 2007: the first day from noon to noon has 25 hours.
  expect(ends("DTEND;TZID=America/New_York:20071104T120000")).toEqual(["2007-11-04T17:00:00Z", "2007-11-05T18:00:00Z"]);
  expect(ends("DURATION:P1D")).toEqual(["2007-11-04T17:00:00Z", "2007-11-05T17:00:00Z"]);
});
