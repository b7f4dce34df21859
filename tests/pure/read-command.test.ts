/** What `npm run read` says of a calendar: the shape of its JSON, that nothing is lost, and the table for a person. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { readArguments } from "../../src/local/readArguments.ts";
import { readCalendar } from "../../src/local/readCalendar.ts";
import { writeJson } from "../../src/local/readJson.ts";
import { writeTable } from "../../src/local/readTable.ts";
import { parseDay } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const instant = z.string().regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/);
const date = z.string().regex(/^\d{4}-\d\d-\d\d$/);
const name = z.string().min(1);
const timed = z.object({ start: instant, date: z.null(), certain: z.literal(true), reason: z.null() });
const allDay = z.object({ start: z.null(), date, certain: z.literal(true), reason: z.null() });
const uncertain = z.object({ start: z.null(), date: z.null(), certain: z.literal(false), reason: name, text: name });
const entryShape = z.intersection(
  z.strictObject({
    uid: name,
    recurrenceId: name.nullable(),
    start: instant.nullable(),
    date: date.nullable(),
    certain: z.boolean(),
    reason: name.nullable(),
    doubt: name.nullable(),
    text: name.nullable(),
    repeats: z.boolean(),
    cancelled: z.boolean(),
    written: z.string(),
    tzid: z.string().nullable(),
    zone: name.nullable(),
    summary: z.string(),
  }),
  z.union([timed, allDay, uncertain]),
);
const skipShape = z.strictObject({
  uid: name,
  recurrenceId: name.nullable(),
  written: z.string(),
  reason: name,
  text: name,
});
const occurrenceShape = z.strictObject({
  uid: name,
  recurrenceId: name.nullable(),
  start: instant.nullable(),
  date: date.nullable(),
  end: instant.nullable(),
  summary: z.string(),
});
const fileShape = z.strictObject({
  file: name,
  status: z.enum(["read", "refused"]),
  reason: name.nullable(),
  text: name.nullable(),
  raw: z.number().int(),
  calendar: z.string().nullable(),
  producer: z.string().nullable(),
  zone: name,
  entries: z.array(entryShape),
  skipped: z.array(skipShape),
  occurrences: z.array(occurrenceShape).optional(),
  doubts: z.array(skipShape).optional(),
});

const zoneNamed = (given: string): Zone => Zone.named(given) as Zone;
const day = (text: string): number => parseDay(text) as number;

const octetsOf = async function* (text: string): AsyncGenerator<Uint8Array> {
  yield new TextEncoder().encode(text);
};
const noFault = (error: unknown): never => {
  throw error;
};

interface Asked {
  readonly zone?: string;
  readonly from?: string;
  readonly to?: string;
}

const written = async (text: string, as: "json" | "table", { zone, from, to }: Asked = {}) => {
  const window = from && to ? { from: day(from), to: day(to) } : null;
  const request = { zone: zoneNamed(zone ?? "UTC"), zoneGiven: zone !== undefined, window };
  const pieces: string[] = [];
  const output = { write: async (piece: string) => void pieces.push(piece) };
  const read = await readCalendar(octetsOf(text), noFault);
  const all = await (as === "json" ? writeJson : writeTable)("book.ics", read, request, output);
  return { all, text: pieces.join("") };
};

const jsonOf = async (text: string, asked?: Asked) => {
  const { all, text: line } = await written(text, "json", asked);
  expect(line.trimEnd()).not.toContain("\n");
  return { all, ...fileShape.parse(JSON.parse(line)) };
};

const event = (...lines: string[]): string[] => ["BEGIN:VEVENT", ...lines, "END:VEVENT"];
const diary = (...lines: string[]): string =>
  ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillfen//Book//EN", ...lines, "END:VCALENDAR", ""].join("\r\n");

const MARA = event("UID:mara", "DTSTART;TZID=Europe/London:20261211T103000", "SUMMARY:Full head colour - Mara");
const CLOSED = event("UID:closed", "DTSTART;VALUE=DATE:20261225", "SUMMARY:Closed");
const SUKI = event("UID:suki", "DTSTART:20270702T090000", "SUMMARY:Balayage - Suki");
const LOST_ZONE = event("UID:odile", "DTSTART;TZID=Back Room:20261212T103000", "SUMMARY:Roots - Odile");

describe("the JSON of a calendar", () => {
  it("gives every entry its start, its date, or the reason why it has none", async () => {
    const read = await jsonOf(diary(...MARA, ...CLOSED, ...SUKI, ...LOST_ZONE), { zone: "Pacific/Auckland" });
    expect(read).toMatchObject({ status: "read", reason: null, raw: 4, producer: "-//Quillfen//Book//EN", all: false });
    const starts = read.entries.map(({ uid, start, date: on, reason }) => [uid, start, on, reason]);
    expect(starts).toEqual([
      ["mara", "2026-12-11T10:30:00Z", null, null],
      ["closed", null, "2026-12-25", null],
      ["suki", "2027-07-01T21:00:00Z", null, null],
      ["odile", null, null, "zone-unknown"],
    ]);
  });

  it("names a change by the original start, in UTC or as a date", async () => {
    const change = (id: string, start: string, uid: string) =>
      event(`UID:${uid}`, `RECURRENCE-ID${id}`, `DTSTART${start}`);
    const { entries } = await jsonOf(
      diary(
        ...change(";TZID=Europe/London:20260707T100000", ";TZID=Europe/London:20260708T140000", "a"),
        ...change(";VALUE=DATE:20261225", ";VALUE=DATE:20261226", "b"),
        ...change(":20260707T100000", ":20260708T140000Z", "c"),
      ),
      { zone: "Europe/London" },
    );
    const original = ["2026-07-07T09:00:00Z", "2026-12-25", "2026-07-07T09:00:00Z"];
    expect(entries.map(({ recurrenceId }) => recurrenceId)).toEqual(original);
  });

  it("says of a cancelled entry that it is", async () => {
    const text = diary(
      ...event("UID:c", "STATUS:Cancelled", "DTSTART:20261211T103000Z", "SUMMARY:Roots - Odile"),
      ...MARA,
    );
    expect((await jsonOf(text)).entries.map(({ cancelled }) => cancelled)).toEqual([true, false]);
    const { text: table } = await written(text, "table");
    expect(table).toContain("10:30    (cancelled) Roots - Odile");
    expect(table).toMatch(/; 1\s+cancelled/);
  });

  it("reads times without a zone in UTC where none is given, whatever the host's", async () => {
    const { entries, zone, all } = await jsonOf(diary(...SUKI));
    expect([entries[0]?.start, zone, all]).toEqual(["2027-07-02T09:00:00Z", "UTC", true]);
  });

  it("keeps what stands before a cut beside the refusal", async () => {
    const whole = diary(...MARA, ...SUKI);
    const read = await jsonOf(whole.slice(0, whole.indexOf("SUMMARY:Balayage")));
    expect(read).toMatchObject({ status: "refused", reason: "diary-cut-off", raw: 2, all: false });
    expect(read.entries.map(({ uid }) => uid)).toEqual(["mara"]);
    expect(read.skipped.map(({ uid, reason }) => [uid, reason])).toEqual([["suki", "not-closed"]]);
  });

  it("refuses a page and an empty file with nothing in them", async () => {
    for (const text of ["<html><body>Sign in</body></html>", "", '{"error":"sign in"}']) {
      expect(await jsonOf(text)).toMatchObject({
        status: "refused",
        reason: "diary-not-calendar",
        raw: 0,
        entries: [],
      });
    }
  });

  it("puts a repeated entry and an older version among the skipped", async () => {
    const older = event("UID:mara", "SEQUENCE:1", "DTSTART:20261210T103000Z");
    const newer = event("UID:mara", "SEQUENCE:2", "DTSTART:20261211T103000Z");
    const read = await jsonOf(diary(...older, ...newer, ...CLOSED, ...CLOSED));
    expect(read.entries.map(({ uid, start }) => [uid, start])).toEqual([
      ["mara", "2026-12-11T10:30:00Z"],
      ["closed", null],
    ]);
    expect(read.skipped.map(({ uid, reason }) => [uid, reason])).toEqual([
      ["mara", "superseded"],
      ["closed", "repeated"],
    ]);
    expect(read.all).toBe(true);
  });

  it("says what it doubts of a series whose start is certain", async () => {
    const start = "DTSTART:20261201T100000Z";
    const doubts = ["RRULE:FREQ=OFTEN", "RRULE:FREQ=DAILY\r\nEXDATE:soon", "RDATE:2026-13-45"].map((line, index) =>
      event(`UID:${index}`, start, line),
    );
    const { entries, all } = await jsonOf(diary(...doubts.flat()));
    expect(entries.map(({ certain, doubt }) => [certain, doubt])).toEqual([
      [true, "rule-not-read"],
      [true, "exclusion-not-read"],
      [true, "addition-not-read"],
    ]);
    expect(all).toBe(false);
  });

  it("gives no start that cannot be written in four digits of a year", async () => {
    const late = event("UID:late", "DTSTART;TZID=America/New_York:99991231T233000");
    const { entries } = await jsonOf(diary(...late));
    expect(entries[0]).toMatchObject({ certain: false, reason: "time-not-read" });
  });
});

describe("the occurrences of a window", () => {
  const weekly = event("UID:w", "DTSTART;TZID=Europe/London:20261020T100000", "RRULE:FREQ=WEEKLY;COUNT=4", "SUMMARY:A");
  const moved = event(
    "UID:w",
    "RECURRENCE-ID;TZID=Europe/London:20261027T100000",
    "DTSTART;TZID=Europe/London:20261028T140000",
    "SUMMARY:B",
  );
  const cancelled = event(
    "UID:w",
    "RECURRENCE-ID;TZID=Europe/London:20261103T100000",
    "DTSTART;TZID=Europe/London:20261103T100000",
    "STATUS:CANCELLED",
  );
  const text = diary(...weekly, ...moved, ...cancelled, ...CLOSED);
  const whenIn = async (from: string, to: string) => {
    const { occurrences = [] } = await jsonOf(text, { zone: "Europe/London", from, to });
    return occurrences.map(({ recurrenceId, start, date: on }) => [recurrenceId, start ?? on]);
  };

  it("are where they moved to, keep the hour across the change of the clocks, and leave the cancelled one out", async () => {
    expect(await whenIn("2026-10-01", "2027-01-01")).toEqual([
      ["2026-10-20T09:00:00Z", "2026-10-20T09:00:00Z"],
      ["2026-11-10T10:00:00Z", "2026-11-10T10:00:00Z"],
      ["2026-10-27T10:00:00Z", "2026-10-28T14:00:00Z"],
      [null, "2026-12-25"],
    ]);
  });

  it("begin on the first day and before the last", async () => {
    expect(await whenIn("2026-10-28", "2026-11-10")).toEqual([["2026-10-27T10:00:00Z", "2026-10-28T14:00:00Z"]]);
    expect(await whenIn("2026-12-25", "2026-12-26")).toEqual([[null, "2026-12-25"]]);
    expect(await whenIn("2026-12-24", "2026-12-25")).toEqual([]);
  });

  it("are each there once where the window is longer than is worked out at a time", async () => {
    const daily = diary(...event("UID:d", "DTSTART:20250101T100000Z", "RRULE:FREQ=DAILY;COUNT=1500"));
    const { occurrences = [], doubts } = await jsonOf(daily, { from: "2024-01-01", to: "2034-01-01" });
    expect(new Set(occurrences.map(({ start }) => start)).size).toBe(1500);
    expect([occurrences.length, doubts]).toEqual([1500, []]);
  });
});

const LINES = [
  "BEGIN:VCALENDAR",
  "END:VCALENDAR",
  "BEGIN:VEVENT",
  "BEGIN:VEVENT",
  "END:VEVENT",
  "END:VEVENT",
  "BEGIN:VALARM",
  "END:VALARM",
  "BEGIN:VTIMEZONE",
  "END:VTIMEZONE",
  "TZID:Back Room",
  "UID:a",
  "UID:b",
  "UID:",
  "SEQUENCE:2",
  "RECURRENCE-ID:20261201T100000Z",
  "RECURRENCE-ID:never",
  "DTSTART:20261201T100000Z",
  "DTSTART;TZID=Back Room:20261201T100000",
  "DTSTART;VALUE=DATE:20261201",
  "DTSTART:1997-11-02T::",
  "DTSTART;TZID=:20261201T100000",
  "RRULE:FREQ=DAILY;COUNT=3",
  "RRULE:FREQ=DAILY;FREQ=DAILY",
  "EXDATE:20261202T100000Z",
  "SUMMARY:\u001b[2J\u202eCut",
  "no line at all",
  "<html>",
] as const;

describe("every VEVENT of a text", () => {
  it("is told of once, as an entry or as skipped with its reason, however the text is broken", async () => {
    const texts = fc.array(fc.constantFrom(...LINES), { maxLength: 60 });
    const law = fc.asyncProperty(texts, fc.boolean(), async (lines, isCalendar) => {
      const text = (isCalendar ? ["BEGIN:VCALENDAR", ...lines] : lines).join("\n");
      const { raw, entries, skipped } = await jsonOf(text, { from: "2026-11-30", to: "2026-12-10" });
      expect(raw).toBe(lines.filter((line) => line === "BEGIN:VEVENT").length);
      expect(entries.length + skipped.length).toBe(raw);
    });
    await fc.assert(law, { numRuns: 300 });
  });
});

/** As many columns as characters: these texts hold none that are wider. */
const widest = (text: string): number => Math.max(...text.split("\n").map((line) => line.length));

describe("the table of a calendar", () => {
  it("says how times without a zone were read, and which zone nobody knows", async () => {
    const { text } = await written(diary(...MARA, ...CLOSED, ...SUKI, ...LOST_ZONE), "table");
    const words = text.replace(/\s+/g, " ");
    expect(words).toContain("4 in the text: 3 understood, with starts from 2026-12-11 to 2027-07-02");
    expect(words).toContain("1 time and 1 all-day date without a zone: read in UTC, since no --zone is given");
    expect(words).toContain('1 in "Back Room", NOT UNDERSTOOD');
    expect(words).toContain("1 × time not certain: nothing says which clock its time zone means.");
    expect(words).toContain("2026-12-11 Fri 10:30 Full head colour - Mara");
    expect(words).toContain("2026-12-25 Fri all day Closed");
  });

  it("is at most 80 columns wide and holds nothing that a terminal obeys", async () => {
    const nasty = `\u001b]0;x\u0007${"W".repeat(200)}\u202e\u009b2J`;
    const lines = ["X-WR-CALNAME:", "X-PUBLISHED:"].map((each) => each + nasty);
    const entries = ["DTSTART:20261201T100000Z", `DTSTART;TZID=${nasty}:20261201T100000`, `DTSTART:${nasty}`].flatMap(
      (start, index) => event(`UID:${nasty}${index}`, start, `SUMMARY:${nasty}`, `RRULE:${nasty}`),
    );
    const asked = { zone: "Europe/London", from: "2026-11-01", to: "2027-01-01" };
    const { text } = await written(diary(...lines, ...entries), "table", asked);
    expect(text).toContain("WWWW");
    expect(widest(text)).toBeLessThanOrEqual(80);
    expect(text.replaceAll("\n", "")).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });

  it("shows the latest starts and counts the others", async () => {
    const many = Array.from({ length: 30 }, (_, index) =>
      event(`UID:${index}`, `DTSTART:202601${String(index + 1).padStart(2, "0")}T100000Z`, `SUMMARY:Day ${index + 1}.`),
    );
    const { text, all } = await written(diary(...many.flat()), "table");
    expect(all).toBe(true);
    expect(text.match(/Day \d+\./g)?.map((each) => Number(each.slice(4, -1)))).toEqual(
      Array.from({ length: 20 }, (_, index) => index + 11),
    );
    expect(text).toContain("… and 10 earlier");
  });
});

describe("what the command is asked", () => {
  it.each([
    [[], "no calendar is named"],
    [["a.ics", "--zone", "Europe/Lodnon"], '--zone is "Europe/Lodnon"'],
    [["a.ics", "--zone", "BST"], '--zone is "BST"'],
    [["a.ics", "--zone"], "--zone has no value"],
    [["a.ics", "--from", "2026-12-01"], "--from is given without --to"],
    [["a.ics", "--to=2026-12-01"], "--to is given without --from"],
    [["a.ics", "--from", "2026-02-30", "--to", "2026-03-01"], '--from is "2026-02-30"'],
    [["a.ics", "--from", "2026-03-01", "--to", "2026-03-01"], "--to is 2026-03-01: it must be later than --from"],
    [["a.ics", "--from", "1500-01-01", "--to", "2026-03-01"], "more than 200 years apart"],
    [["a.ics", "--jason"], "--jason is no option"],
    [["a.ics", "--json=yes"], "--json=yes is no option"],
    [["a.ics", "--json", "--json"], "--json is given twice"],
  ])("%j is refused with the thing named and a remedy", (args, words) => {
    const asked = readArguments(args);
    expect(asked.kind).toBe("wrong");
    expect(asked.kind === "wrong" && asked.text).toContain(words);
  });
});
