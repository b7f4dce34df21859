/** Shapes of rules, of exclusions and additions, and of many events under one UID. */
import { calendar, day, event, list, one, second, type Shape, START, times } from "./shapeText.ts";

const DAILY = "RRULE:FREQ=DAILY";
/** Counted from the first year, and never hit: each step must be taken. */
const WALKED = "RRULE:FREQ=DAILY;COUNT=999999999;BYMONTH=2;BYMONTHDAY=30";
/** So many events of UIDs of their own with the same lines. */
const many = (size: number, ...lines: string[]): Uint8Array =>
  calendar(times(size, (index) => event(`UID:${index}`, ...lines)));
/** A daily series and so many changes of single occurrences. */
const changed = (size: number, range: string): Uint8Array =>
  calendar(
    event("UID:a", START, DAILY) +
      times(size, (index) =>
        event(
          "UID:a",
          `RECURRENCE-ID;${range}TZID=Europe/London:${day(index)}T103000`,
          `DTSTART;TZID=Europe/London:${day(index)}T110000`,
        ),
      ),
  );

export const SERIES_SHAPES: readonly Shape[] = [
  {
    name: "exclusions on one line",
    size: 4_000,
    make: (size) => one(DAILY, `EXDATE:${times(size, (index) => `${day(index)}T103000Z,`)}x`),
  },
  {
    name: "exclusions on lines of their own",
    size: 4_000,
    make: (size) => one(DAILY, ...list(size, (index) => `EXDATE:${day(index)}T103000Z`)),
  },
  {
    name: "added dates",
    size: 4_000,
    make: (size) => one(`RDATE:${times(size, (index) => `${day(index)}T103000Z,`)}20261231T103000Z`),
  },
  {
    name: "added times of one month",
    size: 4_000,
    make: (size) => one(`RDATE:${times(size, (index) => `${day(index % 30)}${second(index)}Z,`)}20261231T103000Z`),
  },
  { name: "rules on one event", size: 2_500, make: (size) => one(...list(size, () => "RRULE:FREQ=WEEKLY;COUNT=3")) },
  {
    name: "rules on one event, each a thousand times",
    size: 500,
    make: (size) => one(...list(size, () => "RRULE:FREQ=HOURLY;COUNT=1000")),
  },
  {
    name: "rules on one event that must be walked",
    size: 500,
    make: (size) => calendar(event("UID:a", "DTSTART:00010101T103000Z", ...list(size, () => WALKED))),
  },
  { name: "rules that must be walked", size: 10, make: (size) => many(size, "DTSTART:00010101T103000Z", WALKED) },
  {
    name: "rules counting to four thousand million",
    size: 25,
    make: (size) => many(size, "DTSTART:19000101T103000Z", "RRULE:FREQ=DAILY;COUNT=4000000000"),
  },
  {
    name: "rules that never hit",
    size: 100,
    make: (size) => many(size, START, "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"),
  },
  {
    name: "rules until the year 9999",
    size: 250,
    make: (size) => many(size, START, "RRULE:FREQ=DAILY;UNTIL=99991231"),
  },
  {
    name: "rules of every second",
    size: 50,
    make: (size) => many(size, START, "RRULE:FREQ=SECONDLY", "RRULE:FREQ=MINUTELY;BYSECOND=0,1,2,3,4,5,6,7,8,9"),
  },
  {
    name: "ordinary weekly series",
    size: 500,
    make: (size) =>
      many(size, "DTSTART;TZID=Europe/London:20200106T103000", "RRULE:FREQ=WEEKLY;BYDAY=MO", "SUMMARY:Tint - Mara"),
  },
  { name: "starts on one event", size: 2_500, make: (size) => one(...list(size, () => START)) },
  {
    name: "attendees on one event",
    size: 5_000,
    make: (size) => one(...list(size, (index) => `ATTENDEE;CN=Ann ${index}:mailto:a${index}@example.com`)),
  },
  {
    name: "events of one UID",
    size: 25_000,
    make: (size) => calendar(times(size, (index) => event("UID:same", `DTSTART:${day(index % 300)}${second(index)}Z`))),
  },
  {
    name: "daily series of one UID",
    size: 100,
    make: (size) => calendar(times(size, (index) => event("UID:same", `DTSTART:${day(0)}${second(index)}Z`, DAILY))),
  },
  {
    name: "events without a UID",
    size: 25_000,
    make: (size) =>
      calendar(times(size, (index) => event(`DTSTART:${day(index % 400)}T103000Z`, `SUMMARY:Tint ${index}`))),
  },
  {
    name: "events of the year 0",
    size: 5_000,
    make: (size) => many(size, "DTSTART:00000101T000000Z", "DTEND:00000101T000000Z"),
  },
  {
    name: "events of the year 9999",
    size: 5_000,
    make: (size) => many(size, "DTSTART:99991231T235959Z", "DURATION:P99999999999W"),
  },
  { name: "changes to one series", size: 5_000, make: (size) => changed(size, "") },
  { name: "changes to all that follow", size: 1_250, make: (size) => changed(size, "RANGE=THISANDFUTURE;") },
  {
    name: "entries and changes of one UID",
    size: 1_000,
    make: (size) =>
      calendar(
        times(size, (index) =>
          [
            event("UID:a", `DTSTART:${day(0)}${second(index)}Z`),
            event("UID:a", `RECURRENCE-ID:${day(index % 300)}${second(index)}Z`, `DTSTART:${day(index % 300)}T110000Z`),
          ].join(""),
        ),
      ),
  },
];
