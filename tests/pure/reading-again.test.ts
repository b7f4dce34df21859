/**
 * Laws of reading a diary again: whatever was kept from earlier readings, a reading finds what one from nothing finds.
 * The reading from nothing is the reference; what it finds is checked against standards in the other diary tests.
 */
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import type { Block } from "../../src/diary/types.ts";
import { compileDesk, type SalonDesk } from "../../src/salon/desk.ts";
import { type BlockRead, findsNothingNew, horizonOf, readingBy } from "../../src/salon/blockReads.ts";
import { type DiaryReading, readBlocks } from "../../src/salon/readBlocks.ts";
import { settingsSchema } from "../../src/settings.ts";
import { type Day, dayFrom, formatDay } from "../../src/time/instant.ts";

const START = dayFrom(2026, 11, 20) as Day;
const AHEAD = 400;

const deskOf = async (services: readonly string[]): Promise<SalonDesk> => {
  const settings = settingsSchema.parse({
    name: "Quillfen Colour Room",
    zone: "Europe/Dublin",
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
    services: [{ name: "Colour", words: [...services] }],
  });
  const place = { id: "f3b6c1de-90f4-5a0e-8f5c-5d8f0c7a1b22", origin: "https://x.example", linkSecret: "s".repeat(32) };
  const made = await compileDesk(settings, place, 2026);
  if (!made.ok) throw new Error("the settings were refused");
  return made.desk;
};
let desks: readonly SalonDesk[];
beforeAll(async () => {
  desks = [await deskOf(["tint"]), await deskOf(["tint", "gloss"])];
});

const basic = (day: Day): string => formatDay(day).replaceAll("-", "");

/** Days at which entries begin: anywhere near, and close around both edges of the horizon. */
const startDay = fc.oneof(
  fc.integer({ min: START - 60, max: START + 60 }),
  fc.integer({ min: START + AHEAD - 8, max: START + AHEAD + 20 }),
  fc.integer({ min: START - 36, max: START - 20 }),
);
const event = fc
  .record({
    uid: fc.integer({ min: 0, max: 11 }),
    day: startDay,
    shape: fc.constantFrom("T103000Z", "T233000", "T003000", ""),
    zone: fc.constantFrom("", ";TZID=Pacific/Auckland", ";TZID=America/Los_Angeles", ";TZID=Own/Zone"),
    summary: fc.constantFrom("Tint - Ann Brill", "Gloss - Bea Holm", "Cut", "Lunch"),
    more: fc.constantFrom<(day: Day) => string>(
      () => "",
      () => "RRULE:FREQ=WEEKLY\n",
      (day) => `RRULE:FREQ=DAILY;UNTIL=${basic(day + 20)}T000000Z\n`,
      () => "RRULE:FREQ=MONTHLY;COUNT=14\n",
      (day) => `RDATE:${basic(day + 395)}T090000Z\n`,
      (day) => `RECURRENCE-ID:${basic(day - 3)}T103000Z\n`,
    ),
  })
  .map(({ uid, day, shape, zone, summary, more }) => {
    const start =
      shape === "" ? `;VALUE=DATE:${basic(day)}` : `${shape.endsWith("Z") ? "" : zone}:${basic(day)}${shape}`;
    return `BEGIN:VEVENT\nUID:${uid}\nDTSTART${start}\nDURATION:PT1H\nSUMMARY:${summary}\n${more(day)}END:VEVENT\n`;
  });
const OWN_ZONE =
  "BEGIN:VTIMEZONE\nTZID:Own/Zone\nBEGIN:STANDARD\nDTSTART:20200101T000000\nTZOFFSETFROM:+0330\nTZOFFSETTO:+0330\nEND:STANDARD\nEND:VTIMEZONE\n";
const diary = fc
  .array(event, { maxLength: 14 })
  .map((events) => new TextEncoder().encode(`BEGIN:VCALENDAR\n${events.join("")}${OWN_ZONE}END:VCALENDAR\n`));

const indexOn = (bytes: Uint8Array, day: Day, desk: SalonDesk) => {
  const indexed = indexDiary(bytes, horizonOf(day, desk.rules.zone));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed;
};
const keep = ({ blocks }: DiaryReading): Map<string, BlockRead> => new Map(blocks.map(({ read }) => [read.uid, read]));
/** What a reading found, whatever order its blocks came in. */
const foundIn = ({ found, bookings, tests, cancelled, unclear }: DiaryReading) => ({
  counts: found.counts,
  skipped: found.skipped.toSorted((one, other) => (JSON.stringify(one) < JSON.stringify(other) ? -1 : 1)),
  unsorted: found.unsorted.map(({ entry }) => entry).sort(),
  bookings,
  tests: tests.toSorted((one, other) => one.start - other.start || (one.key < other.key ? -1 : 1)),
  cancelled: [...cancelled].sort(),
  unclear: [...unclear].sort(),
});

const readings = fc.array(
  fc.record({
    days: fc.constantFrom(0, 0, 1, 1, 2, 9),
    words: fc.constantFrom(0, 0, 0, 1),
    text: fc.constantFrom(0, 0, 0, 1),
  }),
  { minLength: 1, maxLength: 7 },
);

test("a reading finds what one from nothing finds, however the day, the words and the text have changed", () => {
  let readAgain = 0;
  let carried = 0;
  fc.assert(
    fc.property(diary, diary, readings, (first, second, steps) => {
      let known: ReadonlyMap<string, BlockRead> = new Map();
      let day = START;
      for (const { days, words, text } of steps) {
        day += days;
        const desk = desks[words] as SalonDesk;
        const { blocks, raw } = indexOn(text === 0 ? first : second, day, desk);
        const by = readingBy(desk);
        const reading = readBlocks("main", blocks, known, raw, day, by);
        expect(foundIn(reading)).toEqual(foundIn(readBlocks("main", blocks, new Map(), raw, day, by)));
        const news = reading.blocks.filter(({ isNew }) => isNew).length;
        readAgain += news;
        carried += reading.blocks.length - news;
        known = keep(reading);
        expect(findsNothingNew(blocks, known, day, by)).toBe(true);
      }
    }),
    { numRuns: 150 },
  );
  expect(Math.min(readAgain, carried)).toBeGreaterThan(100);
});

test("a reading from the text that was kept finds what comes into sight later, without the diary being sent again", () => {
  fc.assert(
    fc.property(diary, fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 6 }), (bytes, steps) => {
      const desk = desks[0] as SalonDesk;
      const by = readingBy(desk);
      const indexed = indexOn(bytes, START, desk);
      let kept: readonly Block[] = indexed.blocks;
      let known: ReadonlyMap<string, BlockRead> = new Map();
      let day = START;
      for (const days of [0, ...steps]) {
        day += days;
        const reading = readBlocks("main", kept, known, indexed.raw, day, by);
        const { bookings } = foundIn(reading);
        const { blocks, raw } = indexOn(bytes, day, desk);
        expect(bookings).toEqual(foundIn(readBlocks("main", blocks, new Map(), raw, day, by)).bookings);
        known = keep(reading);
        kept = reading.blocks.map(({ block }) => block);
      }
    }),
    { numRuns: 100 },
  );
});

test("a day later, of a thousand single entries only those at the horizon's edges are read again", () => {
  const desk = desks[0] as SalonDesk;
  const events = Array.from(
    { length: 1_000 },
    (_, index) =>
      `BEGIN:VEVENT\nUID:${index}\nDTSTART:${basic(START - 25 + Math.floor((index * 500) / 1_000))}T103000Z\nSUMMARY:Tint - Ann\nEND:VEVENT\n`,
  );
  const bytes = new TextEncoder().encode(`BEGIN:VCALENDAR\n${events.join("")}END:VCALENDAR\n`);
  const by = readingBy(desk);
  const { blocks, raw } = indexOn(bytes, START, desk);
  const first = readBlocks("main", blocks, new Map(), raw, START, by);
  const next = readBlocks("main", blocks, keep(first), raw, START + 1, by);
  const anew = next.blocks.filter(({ isNew }) => isNew).length;
  expect(anew).toBeGreaterThan(0);
  expect(anew).toBeLessThanOrEqual(2 * 12);
  expect(next.found.counts["entries"]).toBe((first.found.counts["entries"] ?? 0) + 2);
});

test("an entry whose UID is written as the name of another block's entry keeps a key of its own", () => {
  const desk = desks[0] as SalonDesk;
  const events = ["a", "a", "a#2"].map(
    (uid, index) =>
      `BEGIN:VEVENT\nUID:${uid}\nDTSTART:20261211T1${index}3000Z\nSUMMARY:Tint - Ann ${index}\nEND:VEVENT\n`,
  );
  const bytes = new TextEncoder().encode(`BEGIN:VCALENDAR\n${events.join("")}END:VCALENDAR\n`);
  const { blocks, raw } = indexOn(bytes, START, desk);
  const { bookings } = readBlocks("main", blocks, new Map(), raw, START, readingBy(desk));
  expect(bookings).toHaveLength(3);
  expect(new Set(bookings.map(({ key }) => key)).size).toBe(3);
});

test("such a key does not hang on what has passed", () => {
  const desk = desks[0] as SalonDesk;
  const events = [
    ["a#2", "20261224T103000Z"],
    ["a", "20261025T103000Z"],
    ["a", "20261211T103000Z"],
    ["a", "20261218T103000Z"],
  ].map(([uid, start]) => `BEGIN:VEVENT\nUID:${uid}\nDTSTART:${start}\nSUMMARY:Tint - Ann Brill\nEND:VEVENT\n`);
  // Nobody knows when an event is that breaks off, so the block it stands in comes first.
  const text = `BEGIN:VCALENDAR\n${events.join("")}BEGIN:VEVENT\nUID:a#2\nEND:VCALENDAR\n`;
  const bytes = new TextEncoder().encode(text);
  const later = START + 12;
  const [kept, sent] = [indexOn(bytes, START, desk), indexOn(bytes, later, desk)].map(({ blocks, raw }) => {
    const { bookings } = readBlocks("main", blocks, new Map(), raw, later, readingBy(desk));
    return bookings.map(({ key, start }) => ({ key, start }));
  });
  expect(new Set(sent?.map(({ key }) => key)).size).toBe(3);
  expect(kept).toEqual(sent);
});
