/** Blocks that mean harm or are merely enormous: each is read in bounded time, and what is given up is told. */
import { expect, test } from "vitest";
import { readBlock } from "../../src/diary/readBlock.ts";
import type { Block } from "../../src/diary/types.ts";
import { Zone } from "../../src/time/zone.ts";

const london = Zone.named("Europe/London") as Zone;
const HORIZON = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
const DAY_MS = 86_400_000;

const blockOf = (...events: readonly (readonly string[])[]): Block => ({
  uid: "series",
  hash: "",
  span: { first: 0, last: 99_999 },
  count: events.length,
  events: events.map((lines) => ["BEGIN:VEVENT", ...lines, "SUMMARY:Tint - Ada", "END:VEVENT"].join("\n")),
  zones: [],
});
const start = (day: string): string => `DTSTART;TZID=Europe/London:${day}T100000`;
/** The days from one on, as `20261101`. */
const days = (from: string, many: number): string[] =>
  Array.from({ length: many }, (_, index) =>
    new Date(Date.parse(from) + index * DAY_MS).toISOString().slice(0, 10).replaceAll("-", ""),
  );
const many = (length: number, line: (index: number) => string): string[] =>
  Array.from({ length }, (_, index) => line(index));

test.each([
  {
    says: "16,000 exclusions of a daily series, one a line",
    events: [
      [
        start("20100101"),
        "RRULE:FREQ=DAILY",
        ...days("2010-01-01", 6_200).map((day) => `EXDATE;TZID=Europe/London:${day}T100000`),
        ...days("1980-01-01", 9_800).map((day) => `EXDATE:${day}T100000Z`),
      ],
    ],
    // 6,200 days from 1 January 2010 end with 22 December 2026: 9 days of December are left, 334 to November, and 5.
    entries: 348,
    reasons: [],
  },
  {
    says: "5,000 added dates, 400 of them inside the horizon",
    events: [[start("20150101"), ...days("2015-01-01", 5_000).map((day) => `RDATE;TZID=Europe/London:${day}T100000`)]],
    entries: 400,
    reasons: [],
  },
  {
    says: "5,000 added times inside the horizon are no appointment",
    events: [
      [
        start("20261201"),
        ...many(
          5_000,
          (index) => `RDATE:202612${10 + (index % 20)}T${10 + (index % 9)}${10 + (index % 49)}${10 + (index % 47)}Z`,
        ),
      ],
    ],
    entries: 1,
    reasons: ["too-many-occurrences"],
  },
  {
    says: "200 rules counted from 1900 share the steps of one block",
    events: [
      [
        start("19000101"),
        ...many(200, (index) => `RRULE:FREQ=DAILY;BYMONTHDAY=${1 + (index % 28)};BYHOUR=${index % 24};COUNT=90000`),
      ],
    ],
    reasons: ["rule-runs-away"],
  },
  {
    says: "200 rules that a second reader is asked about share them too",
    events: [
      [
        start("20261201"),
        ...many(200, (index) => `RRULE:FREQ=MONTHLY;BYDAY=MO,TU,WE;BYSETPOS=${1 + (index % 5)};BYHOUR=${index % 5}`),
      ],
    ],
    reasons: [],
  },
  {
    says: "a thousand changes to all that follow",
    events: [
      [start("20240101"), "RRULE:FREQ=DAILY"],
      ...days("2024-01-01", 1_000).map((day) => [
        `RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/London:${day}T100000`,
        `DTSTART;TZID=Europe/London:${day}T110000`,
      ]),
    ],
    entries: 400,
    reasons: [],
  },
])("$says", ({ events, entries, reasons }) => {
  const began = performance.now();
  const reading = readBlock(blockOf(...events), london, HORIZON);
  // On a busy machine none took more than 200 ms; 200 rules took 76 s before their steps were counted together.
  expect(performance.now() - began).toBeLessThan(4_000);
  if (entries !== undefined) expect(reading.entries).toHaveLength(entries);
  expect(reading.entries.length).toBeLessThanOrEqual(1_000);
  expect(reading.skipped.map(({ reason }) => reason)).toEqual(reasons);
});

test("a rule that is given up costs neither its own start nor the entry beside it", () => {
  const reading = readBlock(
    blockOf([start("20261201"), "RRULE:FREQ=SECONDLY"], [start("20261202"), "RRULE:FREQ=WEEKLY;COUNT=2"]),
    london,
    HORIZON,
  );
  expect(reading.entries).toHaveLength(3);
  expect(reading.skipped.map(({ reason }) => reason)).toEqual(["too-many-occurrences"]);
});
