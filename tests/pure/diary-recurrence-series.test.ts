/**
 * Series as files write them: added and excluded dates, ends, changes to one occurrence and to all that follow, the clocks.
 * Each case names what it rests on; dates of clock changes are tzdata's.
 */
import { expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { formatDay, formatInstant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const london = Zone.named("Europe/London") as Zone;
const HORIZON = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };

/** `2026-12-01T10:00`, `2026-12-01` for a day, `… x` where it is cancelled; and the reasons that are told. */
const read = (...events: readonly (readonly string[])[]): { starts: string[]; reasons: string[] } => {
  const lines = events.flatMap((event) => ["BEGIN:VEVENT", "UID:series", ...event, "END:VEVENT"]);
  const text = `${["BEGIN:VCALENDAR", ...lines, "END:VCALENDAR"].join("\r\n")}\r\n`;
  const indexed = indexDiary(new TextEncoder().encode(text));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  const readings = indexed.blocks.map((block) => readBlock(block, london, HORIZON));
  return {
    starts: readings
      .flatMap((reading) => reading.entries)
      .map(({ start, date, cancelled }) => {
        const written = start === null ? formatDay(date as number) : formatInstant(start).slice(0, 16);
        return cancelled ? `${written} x` : written;
      })
      .toSorted(),
    reasons: readings.flatMap((reading) => reading.skipped).map(({ reason }) => reason),
  };
};

const TEN = "DTSTART;TZID=Europe/London:20261201T100000";
const DAILY = "RRULE:FREQ=DAILY;COUNT=4";
const at10 = (...days: number[]): string[] => days.map((day) => `2026-12-${String(day).padStart(2, "0")}T10:00`);

interface SeriesCase {
  readonly says: string;
  readonly event: readonly string[];
  readonly starts: readonly string[];
  readonly reasons?: readonly string[];
}

const CASES: readonly SeriesCase[] = [
  {
    says: "an RDATE in another zone is that zone's time (RFC 5545 §3.8.5.2)",
    event: [TEN, "RDATE;TZID=America/New_York:20261205T100000"],
    starts: ["2026-12-01T10:00", "2026-12-05T15:00"],
  },
  {
    says: "an RDATE in UTC, several in one line and several lines count, one that the rule has too counts once",
    event: [TEN, "RRULE:FREQ=DAILY;COUNT=2", "RDATE:20261202T100000Z,20261207T090000Z", "RDATE:20261208T090000Z"],
    starts: [...at10(1, 2), "2026-12-07T09:00", "2026-12-08T09:00"],
  },
  {
    says: "an RDATE that is a PERIOD counts by its start (RFC 5545 §3.3.9)",
    event: [TEN, "RDATE;VALUE=PERIOD:20261205T100000Z/PT1H,20261206T100000Z/20261206T110000Z"],
    starts: at10(1, 5, 6),
  },
  {
    says: "an RDATE without a zone means the clock of its series, as its EXDATE does",
    event: [
      "DTSTART;TZID=America/New_York:20261201T100000",
      "RDATE:20261205T100000,20261206T100000",
      "EXDATE:20261206T100000",
    ],
    starts: ["2026-12-01T15:00", "2026-12-05T15:00"],
  },
  {
    says: "RDATEs of an all-day series are dates",
    event: ["DTSTART;VALUE=DATE:20261201", "RDATE;VALUE=DATE:20261205,20261206"],
    starts: ["2026-12-01", "2026-12-05", "2026-12-06"],
  },
  {
    says: "an RDATE that is no time is told",
    event: [TEN, "RDATE:nonsense"],
    starts: at10(1),
    reasons: ["addition-not-read"],
  },
  ...[
    "TZID=Europe/London:20261202T100000",
    ":20261202T100000Z",
    "TZID=America/New_York:20261202T050000",
    ":20261202T100000",
  ]
    .map((form) => (form.startsWith(":") ? `EXDATE${form}` : `EXDATE;${form}`))
    .concat(
      "EXDATE;VALUE=DATE:20261202",
      "EXDATE:20261202",
      "EXDATE:20261129T100000Z,20261202T100000Z",
      "EXDATE;TZID=GMT Standard Time:20261202T100000",
    )
    .map((line) => ({
      says: `${line} takes the second out, and COUNT does not make up for it (RFC 5545 §3.8.5.1)`,
      event: [TEN, DAILY, line],
      starts: at10(1, 3, 4),
    })),
  {
    says: "an EXDATE with a time takes a date out of an all-day series",
    event: [
      "DTSTART;VALUE=DATE:20261201",
      DAILY,
      "EXDATE;TZID=Europe/London:20261202T000000",
      "EXDATE:20261203T000000Z",
    ],
    starts: ["2026-12-01", "2026-12-04"],
  },
  {
    says: "an EXDATE at another time of that day takes nothing out",
    event: [TEN, "RRULE:FREQ=DAILY;COUNT=2", "EXDATE:20261202T090000Z"],
    starts: at10(1, 2),
  },
  {
    says: "an EXDATE takes the start itself out: none is left (libical test-data/recur.txt)",
    event: ["DTSTART:20261201T114500Z", "RRULE:FREQ=DAILY;COUNT=1", "EXDATE:20261201T114500Z"],
    starts: [],
  },
  {
    says: "EXRULE does not take out a start that it does not name (RFC 2445 §4.8.5.2; libical's case of two EXRULEs)",
    event: [
      TEN,
      "RRULE:FREQ=DAILY;UNTIL=20261208T000000Z",
      "EXRULE:FREQ=WEEKLY;BYDAY=SU",
      "EXRULE:FREQ=WEEKLY;BYDAY=SA",
    ],
    starts: at10(1, 2, 3, 4, 7),
  },
  {
    says: "a start outside its rule is the first of COUNT (RFC 5545 §3.3.10); taken out, the 13ths stay (§3.8.5.3)",
    event: [
      "DTSTART;TZID=Europe/London:20261202T100000",
      "RRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13;COUNT=2",
      "EXDATE:20261202T100000Z",
    ],
    starts: ["2027-08-13T09:00"],
  },
  {
    says: "several rules give the union of both, each with its own COUNT",
    event: [TEN, "RRULE:FREQ=DAILY;COUNT=2", "RRULE:FREQ=WEEKLY;COUNT=3"],
    starts: at10(1, 2, 8, 15),
  },
  {
    says: "of several rules one that cannot be read costs itself alone",
    event: [TEN, "RRULE:FREQ=DAILY;COUNT=2", "RRULE:FREQ=OFTEN"],
    starts: at10(1, 2),
    reasons: ["rule-not-read"],
  },
  ...["20261203", "20261203T100000", "20261203T100000Z", "20261203T235959Z"].map((until) => ({
    says: `UNTIL=${until} is the last, itself included (RFC 5545 §3.3.10: "in an inclusive manner")`,
    event: [TEN, `RRULE:FREQ=DAILY;UNTIL=${until}`],
    starts: at10(1, 2, 3),
  })),
  {
    says: "UNTIL a second before an occurrence ends the rule before it",
    event: [TEN, "RRULE:FREQ=DAILY;UNTIL=20261203T095959Z"],
    starts: at10(1, 2),
  },
  ...["20261203", "20261203T000000Z", "20261203T235959Z"].map((until) => ({
    says: `UNTIL=${until} ends a series of dates with that date`,
    event: ["DTSTART;VALUE=DATE:20261201", `RRULE:FREQ=DAILY;UNTIL=${until}`],
    starts: ["2026-12-01", "2026-12-02", "2026-12-03"],
  })),
  {
    says: "times of day say nothing about a series of dates (RFC 5545 §3.3.10)",
    event: ["DTSTART;VALUE=DATE:20261201", "RRULE:FREQ=DAILY;BYHOUR=9,10;COUNT=2"],
    starts: ["2026-12-01", "2026-12-02"],
  },
  {
    says: "dates cannot follow the hour",
    event: ["DTSTART;VALUE=DATE:20261201", "RRULE:FREQ=HOURLY;COUNT=2"],
    starts: ["2026-12-01"],
    reasons: ["rule-not-supported"],
  },
  {
    says: "29 February comes every four years, and never on another day (RFC 5545 §3.3.10: invalid dates are ignored)",
    event: ["DTSTART;TZID=Europe/London:20240229T100000", "RRULE:FREQ=YEARLY"],
    starts: [],
  },
  {
    says: "with SKIP=FORWARD it is 1 March (RFC 7529 §4.1)",
    event: ["DTSTART;TZID=Europe/London:20240229T100000", "RRULE:RSCALE=GREGORIAN;FREQ=YEARLY;SKIP=FORWARD"],
    starts: ["2027-03-01T10:00"],
  },
  {
    says: "the skipped hour of London, 28 March 2027, is read by the offset before it (RFC 5545 §3.3.5)",
    event: ["DTSTART;TZID=Europe/London:20270327T013000", "RRULE:FREQ=DAILY;COUNT=3"],
    starts: ["2027-03-27T01:30", "2027-03-28T01:30", "2027-03-29T00:30"],
  },
  {
    says: "the repeated hour of New York, 1 November 2026, is its first pass (RFC 5545 §3.3.5)",
    event: ["DTSTART;TZID=America/New_York:20261101T013000", "RRULE:FREQ=DAILY;COUNT=2"],
    starts: ["2026-11-01T05:30", "2026-11-02T06:30"],
  },
  {
    says: "Auckland's changes of 4 April and 26 September 2027 keep the wall time on either side",
    event: [
      "DTSTART;TZID=Pacific/Auckland:20270403T023000",
      "RRULE:FREQ=DAILY;COUNT=2",
      "RRULE:FREQ=WEEKLY;INTERVAL=25;COUNT=2",
    ],
    starts: ["2027-04-02T13:30", "2027-04-03T13:30", "2027-09-24T14:30"],
  },
];

test.each(CASES)("$says", ({ event, starts, reasons = [] }) => {
  expect(read(event)).toEqual({ starts, reasons });
});

const SECOND = ["TZID=Europe/London:20261202T100000", "TZID=America/New_York:20261202T050000", "VALUE=DATE:20261202"]
  .map((form) => `RECURRENCE-ID;${form}`)
  .concat("RECURRENCE-ID:20261202T100000Z", "RECURRENCE-ID:20261202T100000");
const MOVED = "DTSTART;TZID=Europe/London:20261202T140000";

test.each(SECOND)("%s names the second occurrence: moved, it stands once", (id) => {
  expect(read([TEN, DAILY], [id, MOVED])).toEqual({
    starts: ["2026-12-01T10:00", "2026-12-02T14:00", ...at10(3, 4)],
    reasons: [],
  });
});

test.each(SECOND)("%s, cancelled, takes exactly that one away", (id) => {
  expect(read([TEN, DAILY], [id, "DTSTART;TZID=Europe/London:20261202T100000", "STATUS:CANCELLED"]).starts).toEqual([
    "2026-12-01T10:00",
    "2026-12-02T10:00 x",
    ...at10(3, 4),
  ]);
});

test("of two changes of one occurrence the higher SEQUENCE stays, however each names it (RFC 5545 §3.8.7.4)", () => {
  const [first = "", , byDate = ""] = SECOND;
  const found = read([TEN, DAILY], [first, MOVED, "SEQUENCE:1"], [byDate, "DTSTART:20261202T160000Z", "SEQUENCE:2"]);
  expect(found).toEqual({ starts: ["2026-12-01T10:00", "2026-12-02T16:00", ...at10(3, 4)], reasons: ["superseded"] });
});

test("a change of an occurrence that is taken out stays out, and is told", () => {
  const found = read([TEN, DAILY, "EXDATE:20261202T100000Z"], [SECOND[0] as string, MOVED]);
  expect(found).toEqual({ starts: at10(1, 3, 4), reasons: ["taken-out"] });
});

test("a change of an occurrence that the rule does not have is an appointment by itself", () => {
  const found = read([TEN, DAILY], ["RECURRENCE-ID:20261220T100000Z", "DTSTART:20261221T100000Z"]);
  expect(found).toEqual({ starts: [...at10(1, 2, 3, 4), "2026-12-21T10:00"], reasons: [] });
});

test("changes go out of the horizon and come in from beyond it", () => {
  const weekly = ["DTSTART:20261006T100000Z", "RRULE:FREQ=WEEKLY;COUNT=6"];
  const found = read(
    weekly,
    ["RECURRENCE-ID:20261013T100000Z", "DTSTART:20261120T100000Z"],
    ["RECURRENCE-ID:20261103T100000Z", "DTSTART:20261020T100000Z"],
  );
  expect(found).toEqual({ starts: ["2026-11-10T10:00", "2026-11-20T10:00"], reasons: [] });
});

const AND_FUTURE = (day: string): string => `RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/London:${day}T100000`;

test("of several changes to all that follow, each holds until the next (RFC 5545 §3.8.4.4)", () => {
  const found = read(
    ["DTSTART;TZID=Europe/London:20261201T100000", "RRULE:FREQ=DAILY;COUNT=7"],
    [AND_FUTURE("20261203"), "DTSTART;TZID=Europe/London:20261203T150000"],
    [AND_FUTURE("20261205"), "DTSTART;TZID=Europe/London:20261206T090000"],
  );
  expect(found.starts).toEqual([
    ...at10(1, 2),
    "2026-12-03T15:00",
    "2026-12-04T15:00",
    "2026-12-06T09:00",
    "2026-12-07T09:00",
    "2026-12-08T09:00",
  ]);
});

test("a newer change of the one occurrence leaves those that follow where the older change puts them", () => {
  const future = [AND_FUTURE("20261202"), "DTSTART;TZID=Europe/London:20261202T150000", "SEQUENCE:1"];
  const one = ["RECURRENCE-ID:20261202T100000Z", "DTSTART:20261202T180000Z"];
  expect(read([TEN, DAILY], future, [...one, "SEQUENCE:2"])).toEqual({
    starts: ["2026-12-01T10:00", "2026-12-02T18:00", "2026-12-03T15:00", "2026-12-04T15:00"],
    reasons: [],
  });
  expect(read([TEN, DAILY], future, [...one, "SEQUENCE:0"])).toEqual({
    starts: ["2026-12-01T10:00", "2026-12-02T15:00", "2026-12-03T15:00", "2026-12-04T15:00"],
    reasons: ["superseded"],
  });
});

test("all that follow can be cancelled, and one among them can still be changed by itself", () => {
  const found = read(
    [TEN, DAILY],
    [AND_FUTURE("20261202"), "DTSTART;TZID=Europe/London:20261202T100000", "STATUS:CANCELLED"],
    ["RECURRENCE-ID:20261203T100000Z", "DTSTART:20261203T130000Z"],
  );
  expect(found.starts).toEqual(["2026-12-01T10:00", "2026-12-02T10:00 x", "2026-12-03T13:00", "2026-12-04T10:00 x"]);
});

test("RANGE=THISANDPRIOR, which RFC 5545 took away, changes the one it names and is told", () => {
  const found = read([TEN, DAILY], ["RECURRENCE-ID;RANGE=THISANDPRIOR:20261203T100000Z", "DTSTART:20261203T150000Z"]);
  expect(found).toEqual({ starts: [...at10(1, 2), "2026-12-03T15:00", ...at10(4)], reasons: ["range-not-supported"] });
});

test("a day of an all-day series gets a time, and an appointment becomes a day", () => {
  const day = read(
    ["DTSTART;VALUE=DATE:20261201", "RRULE:FREQ=DAILY;COUNT=3"],
    ["RECURRENCE-ID;VALUE=DATE:20261202", "DTSTART:20261202T090000Z"],
    ["RECURRENCE-ID;TZID=Europe/London:20261203T000000", "DTSTART:20261203T090000Z"],
  );
  expect(day.starts).toEqual(["2026-12-01", "2026-12-02T09:00", "2026-12-03T09:00"]);
  const time = read(
    [TEN, "RRULE:FREQ=DAILY;COUNT=2"],
    ["RECURRENCE-ID:20261202T100000Z", "DTSTART;VALUE=DATE:20261202"],
  );
  expect(time.starts).toEqual(["2026-12-01T10:00", "2026-12-02"]);
});

test("a change in the skipped hour finds its occurrence by wall time and by instant", () => {
  const series = ["DTSTART;TZID=Europe/London:20270327T013000", "RRULE:FREQ=DAILY;COUNT=2"];
  for (const id of [";TZID=Europe/London:20270328T013000", ":20270328T013000Z"]) {
    const found = read(series, [`RECURRENCE-ID${id}`, "DTSTART:20270328T120000Z"]);
    expect(found.starts).toEqual(["2027-03-27T01:30", "2027-03-28T12:00"]);
  }
});

test("a PERIOD ends where it says, by a time or by a duration (RFC 5545 §3.3.9); the others as the series does", () => {
  const periods = "RDATE;VALUE=PERIOD:20261205T100000Z/PT3H,20261206T100000Z/20261206T104500Z";
  const text = ["BEGIN:VCALENDAR", "BEGIN:VEVENT", "UID:series", TEN, "DURATION:PT1H", periods, "END:VEVENT"];
  const indexed = indexDiary(new TextEncoder().encode(`${[...text, "END:VCALENDAR"].join("\r\n")}\r\n`));
  if ("refusal" in indexed || !indexed.blocks[0]) throw new Error("no block");
  const { entries } = readBlock(indexed.blocks[0], london, HORIZON);
  expect(entries.map(({ start, end }) => ((end as number) - (start as number)) / 60)).toEqual([60, 180, 45]);
});

const readIn = (zone: Zone, ...lines: string[]) => {
  const text = ["BEGIN:VCALENDAR", ...lines, "END:VCALENDAR", ""].join("\r\n");
  const indexed = indexDiary(new TextEncoder().encode(text));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed.blocks.map((block) => readBlock(block, zone, HORIZON));
};

test("a period without a zone begins and ends on the clock of its series, not on the salon's (RFC 5545 §3.3.9)", () => {
  const [reading] = readIn(
    Zone.named("Pacific/Auckland") as Zone,
    "BEGIN:VEVENT",
    "UID:a",
    "DTSTART;TZID=Europe/Vienna:20261201T130000",
    "RDATE;VALUE=PERIOD:20261204T160000/20261204T170000",
    "END:VEVENT",
  );
  const added = reading?.entries.find(({ recurrenceId }) => recurrenceId === "2026-12-04T15:00:00Z");
  expect([added?.start, added?.end].map((at) => formatInstant(at as number))).toEqual([
    "2026-12-04T15:00:00Z",
    "2026-12-04T16:00:00Z",
  ]);
});

test("a change to all that follow in a series that the file does not hold is said, though a newer change took its day", () => {
  const all = ["BEGIN:VEVENT", "UID:a", "DTSTART;VALUE=DATE:20261211", "RRULE:FREQ=WEEKLY;COUNT=5", "SEQUENCE:0"];
  const one = [
    "BEGIN:VEVENT",
    "UID:a",
    "DTSTART;VALUE=DATE:20261212",
    "RECURRENCE-ID;VALUE=DATE:20261211",
    "SEQUENCE:1",
  ];
  const range = "RECURRENCE-ID;RANGE=THISANDFUTURE;VALUE=DATE:20261211";
  const [reading] = readIn(london, ...all, range, "END:VEVENT", ...one, "END:VEVENT");
  expect(reading?.entries.map(({ date }) => formatDay(date as number))).toEqual(["2026-12-12"]);
  expect(reading?.skipped.map(({ reason }) => reason)).toEqual(["rule-not-supported"]);
});
