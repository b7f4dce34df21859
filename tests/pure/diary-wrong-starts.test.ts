/** Starts that are easily read wrongly without a word: each is right, or said to be not certain. */
import { expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { listEvents } from "../../src/diary/listEvents.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { readWindow } from "../../src/local/readCalendar.ts";
import { dayFrom, formatInstant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const LONDON = Zone.named("Europe/London") as Zone;

const zoneText = (winter: string, summer: string, start: string, end = ""): string[] => [
  "BEGIN:VTIMEZONE",
  "TZID:Own",
  "BEGIN:STANDARD",
  `DTSTART:${start}`,
  `TZOFFSETFROM:${summer}`,
  `TZOFFSETTO:${winter}`,
  `RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU${end}`,
  "END:STANDARD",
  "BEGIN:DAYLIGHT",
  `DTSTART:${start}`,
  `TZOFFSETFROM:${winter}`,
  `TZOFFSETTO:${summer}`,
  "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU",
  "END:DAYLIGHT",
  "END:VTIMEZONE",
];
const event = (...lines: string[]): string[] => ["BEGIN:VEVENT", "UID:one", ...lines, "END:VEVENT"];
const calendar = (...lines: string[]): string => ["BEGIN:VCALENDAR", ...lines, "END:VCALENDAR", ""].join("\r\n");

const blocksOf = (text: string) => {
  const indexed = indexDiary(new TextEncoder().encode(text));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed.blocks;
};
/** Starts in the file's words; null where not certain. */
const startsOf = (text: string): (string | null)[] =>
  blocksOf(text)
    .flatMap((block) => listEvents(block, LONDON).events)
    .map(({ start }) => (start === null ? null : formatInstant(start)));
const occurrencesOf = (text: string): string[] =>
  blocksOf(text)
    .flatMap((block) => {
      const window = { from: dayFrom(2026, 1, 1) as number, to: dayFrom(2027, 1, 1) as number };
      return readWindow(block, LONDON, window).occurrences;
    })
    .map(({ start }) => formatInstant(start as number))
    .toSorted();

test.each([
  ["0100", "0200"],
  ["+100", "+200"],
  [" +0100", " +0200"],
])("an offset written %j is none (RFC 5545 3.3.14: a sign and two digits each)", (winter, summer) => {
  const text = calendar(...zoneText(winter, summer, "19700101T000000"), ...event("DTSTART;TZID=Own:20260710T100000"));
  expect(startsOf(text)).toEqual([null]);
});

test("a rule that does not name its DTSTART leaves the time up to its first onset open (RFC 5545 3.8.5.3)", () => {
  const zone = zoneText("+0100", "+0200", "20260101T000000");
  expect(startsOf(calendar(...zone, ...event("DTSTART;TZID=Own:20260210T100000")))).toEqual([null]);
  const later = event("DTSTART;TZID=Own:20260810T100000");
  expect(startsOf(calendar(...zone, ...later))).toEqual(["2026-08-10T08:00:00Z"]);
});

test("a summer time that nothing ends is not believed in winter", () => {
  const zone = zoneText("+0100", "+0200", "19700101T000000", ";UNTIL=20251026T010000Z");
  const [winter, later] = ["20260210T100000", "20270210T100000"].map((at) => event(`DTSTART;TZID=Own:${at}`));
  expect(startsOf(calendar(...zone, ...(winter ?? [])))).toEqual(["2026-02-10T09:00:00Z"]);
  expect(startsOf(calendar(...zone, ...(later ?? [])))).toEqual([null]);
});

test("one UID in two calendars that define its zone differently", () => {
  const one = calendar(...zoneText("+0100", "+0200", "19700101T000000"), ...event("DTSTART;TZID=Own:20260710T100000"));
  const two = calendar(...zoneText("-0500", "-0400", "19700101T000000"), ...event("DTSTART;TZID=Own:20260710T110000"));
  expect(startsOf(one + two)).toEqual([null, null]);
  expect(startsOf(one + one.replace("T100000\r\nEND:VEVENT", "T110000\r\nEND:VEVENT"))).toEqual([
    "2026-07-10T08:00:00Z",
    "2026-07-10T09:00:00Z",
  ]);
});

test("an exclusion without a zone takes out the series' own wall time and no other", () => {
  const text = calendar(
    ...event(
      "DTSTART;TZID=America/New_York:20260420T090000",
      "RRULE:FREQ=WEEKLY;BYHOUR=9,14;COUNT=4",
      "EXDATE:20260427T140000",
    ),
  );
  expect(occurrencesOf(text)).toEqual(["2026-04-20T13:00:00Z", "2026-04-20T18:00:00Z", "2026-04-27T13:00:00Z"]);
});

test("an exclusion without a zone takes out an added time that is written in UTC", () => {
  const text = calendar(
    ...event("DTSTART;TZID=America/New_York:20260420T090000", "RDATE:20260612T153000Z", "EXDATE:20260612T113000"),
  );
  expect(occurrencesOf(text)).toEqual(["2026-04-20T13:00:00Z"]);
});

test("a change that names a day alone changes the added occurrence of that day", () => {
  const text = calendar(
    ...event("DTSTART;TZID=Europe/London:20260420T090000", "RRULE:FREQ=WEEKLY;COUNT=2", "RDATE:20260521T113000Z"),
    ...event("RECURRENCE-ID;VALUE=DATE:20260521", "DTSTART;TZID=Europe/London:20260522T120000"),
  );
  expect(occurrencesOf(text)).toEqual(["2026-04-20T08:00:00Z", "2026-04-27T08:00:00Z", "2026-05-22T11:00:00Z"]);
});

test("two starts at one instant by two clocks are two series", () => {
  const [utc, local] = ["DTSTART:20260305T103000Z", "DTSTART;TZID=Europe/London:20260305T103000"];
  expect(startsOf(calendar(...event(utc, local)))).toEqual(["2026-03-05T10:30:00Z"]);
  expect(startsOf(calendar(...event(utc, local, "RRULE:FREQ=WEEKLY;COUNT=6")))).toEqual([null]);
});

test.each([
  ["the series' own rule", "RRULE:FREQ=WEEKLY;COUNT=4", []],
  ["another rule", "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=2", ["shift-not-followed"]],
])("a change to this and all that follow with %s", (_name, rule, reasons) => {
  const text = calendar(
    ...event("DTSTART;TZID=Europe/London:20260401T090000", "RRULE:FREQ=WEEKLY;COUNT=4"),
    ...event("RECURRENCE-ID;RANGE=THISANDFUTURE:20260415T080000Z", "DTSTART;TZID=Europe/London:20260416T120000", rule),
  );
  const horizon = {
    from: LONDON.startOfDay(dayFrom(2026, 1, 1) as number),
    to: LONDON.startOfDay(dayFrom(2027, 1, 1) as number),
  };
  const skipped = blocksOf(text).flatMap((block) => readBlock(block, LONDON, horizon).skipped);
  expect(skipped.map(({ reason }) => reason)).toEqual(reasons);
});
