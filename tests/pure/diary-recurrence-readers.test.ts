/** What two readers of a rule disagree about gets no plan and is told with both answers; and where no other reader is asked. */
import { expect, test, vi } from "vitest";
import type { expandAgain } from "../../src/diary/expandAgain.ts";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { parseRule } from "../../src/diary/parseRule.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { secondReaderOf } from "../../src/diary/secondReading.ts";
import type { BlockReading } from "../../src/diary/types.ts";
import { DAY_SECONDS, type Day, formatInstant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

/** Stands in for the second reader where a test wants it to be wrong. */
const second = vi.hoisted(() => ({ answer: undefined as typeof expandAgain | undefined }));
vi.mock("../../src/diary/expandAgain.ts", async (load) => {
  const real = await load<{ expandAgain: typeof expandAgain }>();
  return { expandAgain: (...asked: Parameters<typeof expandAgain>) => (second.answer ?? real.expandAgain)(...asked) };
});

const london = Zone.named("Europe/London") as Zone;
const HORIZON = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };

const read = (...events: readonly (readonly string[])[]): BlockReading => {
  const lines = events.flatMap((event) => ["BEGIN:VEVENT", "UID:series", ...event, "END:VEVENT"]);
  const indexed = indexDiary(
    new TextEncoder().encode(`${["BEGIN:VCALENDAR", ...lines, "END:VCALENDAR"].join("\r\n")}\r\n`),
  );
  if ("refusal" in indexed || !indexed.blocks[0]) throw new Error("no block");
  return readBlock(indexed.blocks[0], london, HORIZON);
};
const startsOf = ({ entries }: BlockReading): string[] =>
  entries.map((each) => formatInstant(each.start as number).slice(0, 10));

/** As Google's and Windows' calendars write a yearly appointment (dateutil's issue 1072, node-ical's issue 531). */
const BIRTHDAY = ["DTSTART:20240207T100000Z", "RRULE:FREQ=YEARLY;WKST=MO;INTERVAL=1;BYMONTHDAY=7"];

test("a yearly day of the month without its month: the start's month is certain, the eleven others are told", () => {
  const reading = read(BIRTHDAY);
  expect(startsOf(reading)).toEqual(["2027-02-07"]);
  // 7 November 2026 to 7 November 2027 are thirteen 7ths, one of them certain.
  expect(reading.skipped).toHaveLength(12);
  expect(reading.skipped[0]).toEqual({
    uid: "series",
    recurrenceId: "2026-11-07T10:00:00Z",
    start: "2026-11-07T10:00:00Z",
    reason: "readers-disagree",
    text: expect.stringContaining(
      "One reading: 2026-11-07, 2026-12-07, 2027-01-07 … (13); another: 2027-02-07. Disputed in all: 12.",
    ),
  });
});

test("a disputed date that the file itself changes, adds or takes out is disputed no more", () => {
  const reading = read(
    [...BIRTHDAY, "EXDATE:20261107T100000Z", "RDATE:20261207T100000Z"],
    ["RECURRENCE-ID:20270107T100000Z", "DTSTART:20270108T100000Z"],
  );
  expect(startsOf(reading).toSorted()).toEqual(["2026-12-07", "2027-01-08", "2027-02-07"]);
  expect(reading.skipped.map(({ recurrenceId }) => recurrenceId?.slice(0, 10))).toEqual(
    ["03", "04", "05", "06", "07", "08", "09", "10", "11"].map((month) => `2027-${month}-07`),
  );
});

test("a disputed exclusion makes what it takes out disputed", () => {
  const reading = read(["DTSTART:20270107T100000Z", "RRULE:FREQ=MONTHLY;COUNT=3", "EXRULE:FREQ=YEARLY;BYMONTHDAY=7"]);
  expect(startsOf(reading)).toEqual([]);
  expect(reading.skipped.map(({ recurrenceId }) => recurrenceId?.slice(0, 10))).toEqual(["2027-02-07", "2027-03-07"]);
});

/** fmeringdal/rust-rrule's issue 119: Google's calendar shows four, the start and three Wednesdays. */
const THREE_WEDNESDAYS = ["DTSTART:20261203T100000Z", "RRULE:FREQ=WEEKLY;BYDAY=WE;COUNT=3"];

test("a start that its rule does not name counts as the first of COUNT; the one that others show besides is told", () => {
  const reading = read(THREE_WEDNESDAYS);
  expect(startsOf(reading)).toEqual(["2026-12-03", "2026-12-09", "2026-12-16"]);
  expect(reading.skipped.map(({ reason, start }) => [reason, start])).toEqual([
    ["readers-disagree", "2026-12-23T10:00:00Z"],
  ]);
  const named = read(["DTSTART:20261202T100000Z", "RRULE:FREQ=WEEKLY;BYDAY=WE;COUNT=3"]);
  expect([startsOf(named).length, named.skipped]).toEqual([3, []]);
  const ended = read(["DTSTART:20261203T100000Z", "RRULE:FREQ=WEEKLY;BYDAY=WE;COUNT=3;UNTIL=20261216T100000Z"]);
  expect([startsOf(ended).length, ended.skipped]).toEqual([3, []]);
});

test.each(["UNTIL=20261201T095959Z", "UNTIL=20261201T095959", "UNTIL=20261130"])(
  "a rule with %s is over before its start: RFC 5545 §3.8.5.3 has the start, calendars show none",
  (until) => {
    const reading = read(["DTSTART:20261201T100000Z", `RRULE:FREQ=WEEKLY;${until}`]);
    expect(startsOf(reading)).toEqual([]);
    expect(reading.skipped).toEqual([
      {
        uid: "series",
        recurrenceId: "2026-12-01T10:00:00Z",
        start: "20261201T100000Z",
        reason: "readers-disagree",
        text: expect.stringContaining("One reading: 2026-12-01; another: none."),
      },
    ]);
  },
);

test.each([
  ["another rule that has it", ["RRULE:FREQ=DAILY;COUNT=1"], []],
  ["an added date", ["RDATE:20261201T100000Z"], []],
  ["an exclusion", ["EXDATE:20261201T100000Z"], []],
  ["a change", [], ["RECURRENCE-ID:20261201T100000Z", "DTSTART:20261201T120000Z"]],
])("the start of a rule that is over before it is in dispute no more beside %s", (_, lines, change) => {
  const master = ["DTSTART:20261201T100000Z", "RRULE:FREQ=WEEKLY;UNTIL=20261130T100000Z", ...lines];
  const reading = read(master, ...(change.length > 0 ? [change] : []));
  expect(startsOf(reading)).toHaveLength(lines.join().startsWith("EXDATE") ? 0 : 1);
  expect(reading.skipped).toEqual([]);
});

test("a date's rule that ends the day before is over; on the day itself it is not", () => {
  const day = ["DTSTART;VALUE=DATE:20261201", "RRULE:FREQ=WEEKLY;UNTIL="];
  const until = (last: string): BlockReading => read([day[0] as string, `${day[1]}${last}`]);
  expect(until("20261130").skipped.map(({ start }) => start)).toEqual(["20261201"]);
  expect(until("20261201").entries).toHaveLength(1);
});

test("no more than twenty rows stand there, and each tells how many there are", () => {
  const days = Array.from({ length: 28 }, (_, index) => index + 1).join(",");
  const { skipped } = read(["DTSTART:20240201T100000Z", `RRULE:FREQ=YEARLY;BYMONTHDAY=${days}`]);
  expect(skipped).toHaveLength(20);
  expect(skipped[0]?.text).toMatch(/Disputed in all: \d{3}\.$/);
});

test("what the second reader has besides, and what it has not, is told and gets no entry", () => {
  const LAST_FRIDAY = ["DTSTART:20261127T100000Z", "RRULE:FREQ=MONTHLY;BYDAY=FR;BYSETPOS=-1;COUNT=3"];
  expect(startsOf(read(LAST_FRIDAY))).toEqual(["2026-11-27", "2026-12-25", "2027-01-29"]);
  second.answer = (_rule, start) => [start, start + 28 * DAY_SECONDS, start + 56 * DAY_SECONDS];
  const reading = read(LAST_FRIDAY);
  second.answer = undefined;
  expect(startsOf(reading)).toEqual(["2026-11-27", "2026-12-25"]);
  expect(reading.skipped.map(({ reason, start }) => `${reason} ${start}`)).toEqual([
    "readers-disagree 2027-01-22T10:00:00Z",
    "readers-disagree 2027-01-29T10:00:00Z",
  ]);
});

test("a second reader that gives up says nothing against the first", () => {
  second.answer = () => undefined;
  const reading = read(["DTSTART:20261127T100000Z", "RRULE:FREQ=MONTHLY;BYDAY=FR;BYSETPOS=-1;COUNT=3"]);
  second.answer = undefined;
  expect([startsOf(reading).length, reading.skipped]).toEqual([3, []]);
});

const JUNE: Day = Date.UTC(2026, 5, 15) / 86_400_000;
const NEW_YEAR: Day = Date.UTC(2027, 0, 3) / 86_400_000;

test.each([
  ["FREQ=DAILY", "none"],
  ["FREQ=WEEKLY;BYDAY=TU,TH;COUNT=10", "none"],
  ["FREQ=MONTHLY;BYMONTHDAY=15", "none"],
  ["FREQ=YEARLY;BYMONTH=6;BYMONTHDAY=15", "none"],
  ["FREQ=MONTHLY;BYDAY=2TU", "none"],
  ["FREQ=MONTHLY;BYMONTHDAY=1,-1;COUNT=9", "none"],
  ["FREQ=MONTHLY;BYMONTH=2;BYDAY=2TU", "again"],
  ["FREQ=YEARLY;BYMONTH=2;BYDAY=2TU", "again"],
  ["FREQ=MONTHLY;BYDAY=MO,TU;BYSETPOS=-1", "again"],
  ["FREQ=YEARLY;BYWEEKNO=20", "again"],
  ["FREQ=YEARLY;BYYEARDAY=100", "again"],
  ["FREQ=DAILY;BYMONTHDAY=-1,-2", "again"],
  ["FREQ=DAILY;BYMONTH=1;COUNT=3", "again"],
  ["FREQ=YEARLY;BYMONTHDAY=7", "month-of-start"],
  ["FREQ=YEARLY;BYYEARDAY=100;BYDAY=MO", "none"],
  ["FREQ=YEARLY;BYMONTH=3;BYMONTHDAY=7;BYDAY=1MO", "none"],
  ["FREQ=MONTHLY;RSCALE=GREGORIAN;SKIP=FORWARD;BYMONTHDAY=-31", "none"],
] as const)("%s is put before: %s", (text, reader) => {
  const rule = parseRule(text);
  if (typeof rule === "string") throw new Error(rule);
  expect(secondReaderOf(rule, JUNE)).toBe(reader);
});

test("weeks of a start that may belong to another year are not put before the reader that loses them", () => {
  const rule = parseRule("FREQ=YEARLY;BYWEEKNO=53");
  if (typeof rule === "string") throw new Error(rule);
  expect([secondReaderOf(rule, NEW_YEAR), secondReaderOf(rule, JUNE)]).toEqual(["none", "again"]);
});
