/**
 * Shapes that keep some reader busy or fill its memory (tests/fuzz/shapes.ts, most from public advisories, from memory): each
 * is read to its end and accounts for every VEVENT. What it costs at several times the size, and how that grows, is measured
 * by `npm run shapes`, not here.
 */
import { gzipSync } from "node:zlib";
import { expect, test } from "vitest";
import { DIARY_ENTRIES_MAX, OCCURRENCES_MAX, UID_MAX } from "../../src/bounds.ts";
import { compileSorting } from "../../src/diary/compileSorting.ts";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { sortEntry } from "../../src/diary/sortEntry.ts";
import { settingsSchema } from "../../src/settings.ts";
import { Zone } from "../../src/time/zone.ts";
import { readShape } from "../fuzz/readShape.ts";
import { SHAPES } from "../fuzz/shapes.ts";

/** A bound for machines that do much else: none takes a second on an idle one. */
const PATIENCE_MS = 30_000;

test.for(SHAPES.map(({ name, size, make }) => [name, size, make] as const))(
  "%s: read to the end, and accounted for",
  { timeout: PATIENCE_MS },
  ([, size, make]) => {
    const { raw, accounted } = readShape(make(Math.ceil(size / 2)));
    expect(accounted).toBe(raw);
  },
);

const octets = (text: string): Uint8Array => new TextEncoder().encode(text);
const zone = Zone.named("Europe/London") as Zone;
const horizon = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
const read = (text: string) => {
  const indexed = indexDiary(octets(text));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed.blocks.map((block) => readBlock(block, zone, horizon));
};

test("a packed calendar is refused as none, and so are a page and an empty body", () => {
  const calendar = "BEGIN:VCALENDAR\nEND:VCALENDAR\n";
  const codeOf = (bytes: Uint8Array): string | undefined => {
    const indexed = indexDiary(bytes);
    return "refusal" in indexed ? indexed.refusal.code : undefined;
  };
  expect([gzipSync(calendar), octets(`<html>${calendar}`), octets("")].map(codeOf)).toEqual(
    Array.from({ length: 3 }, () => "diary-not-calendar"),
  );
  expect(codeOf(octets(calendar))).toBeUndefined();
});

test("an event begun a thousand components deep is still one, and so is the next", () => {
  const deep = "BEGIN:X-A\n".repeat(1_000);
  const event = (uid: string) => `BEGIN:VEVENT\nUID:${uid}\nDTSTART:20261201T103000Z\nSUMMARY:Tint\n`;
  const indexed = indexDiary(octets(`BEGIN:VCALENDAR\n${deep}${event("a")}${event("b")}END:VEVENT\nEND:VCALENDAR\n`));
  const { raw, blocks } = "refusal" in indexed ? { raw: 0, blocks: [] } : indexed;
  expect([raw, blocks.map(({ uid }) => uid)]).toEqual([2, ["a", "b"]]);
  expect(blocks.map((block) => readBlock(block, zone, horizon).skipped.map(({ reason }) => reason))).toEqual([
    ["not-closed"],
    [],
  ]);
});

test("a zone is one however it is spelled, so that no diary fills memory with it", () => {
  expect(Zone.named("EUROPE/london")).toBe(zone);
  expect(Zone.named("europe/LONDON")).toBe(zone);
});

test("a UID of half a megabyte is not repeated in the key of every appointment", () => {
  const event = `BEGIN:VEVENT\nUID:${"u".repeat(500_000)}\nDTSTART:20261201T103000Z\nRRULE:FREQ=DAILY\nEND:VEVENT\n`;
  const other = event.replace("uuu", "uuv");
  const readings = read(`BEGIN:VCALENDAR\n${event}${other}END:VCALENDAR\n`);
  expect(readings.length).toBe(2);
  const keys = readings.flatMap(({ entries }) => entries.map(({ key }) => key));
  expect(new Set(keys).size).toBeGreaterThan(700);
  expect(Math.max(...keys.map(({ length }) => length))).toBeLessThan(UID_MAX + 30);
});

test("thousands of daily series under one UID give no more entries than a diary may hold, and the rest is said", () => {
  const series = Array.from(
    { length: 2_000 },
    (_, index) =>
      `BEGIN:VEVENT\nUID:a\nDTSTART:20261201T10${String(Math.floor(index / 60)).padStart(2, "0")}${String(index % 60).padStart(2, "0")}Z\nRRULE:FREQ=DAILY\nEND:VEVENT\n`,
  );
  const [reading] = read(`BEGIN:VCALENDAR\n${series.join("")}END:VCALENDAR\n`);
  expect(reading?.entries.length).toBeLessThanOrEqual(DIARY_ENTRIES_MAX + OCCURRENCES_MAX);
  expect(reading?.skipped.length).toBeGreaterThan(1_900);
});

test("words, names and templates that look like regular expressions are plain text", () => {
  const sorting = compileSorting(
    settingsSchema.parse({
      name: "(x+x+)+y",
      zone: "UTC",
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
      services: [{ name: "Tint", words: ["(z+z+)+$", "tint"] }],
      staff: ["(a|a)*$"],
      clientFrom: ["{service} (.*)*$ {client}", "{client}[^-]+-{service}"],
    }),
  );
  const [entry] = read(
    "BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART:20261201T103000Z\nSUMMARY:Tint (.*)*$ Mara Quill\nEND:VEVENT\nEND:VCALENDAR\n",
  ).flatMap(({ entries }) => entries);
  if (!entry) throw new Error("the entry was not read");
  expect(sortEntry(entry, sorting)).toMatchObject({ kind: "booking", service: "Tint", client: { name: "Mara Quill" } });
  const busy = `${"z".repeat(50_000)}${"x".repeat(50_000)}${"a".repeat(50_000)}!`;
  expect(sortEntry({ ...entry, summary: busy }, sorting).kind).toBe("unsorted");
});

test("sixteen thousand exclusions on one line take out all that they name, and not one appointment comes back", () => {
  const dayOf = (index: number): string =>
    new Date(Date.UTC(2000, 0, 1 + index)).toISOString().slice(0, 10).replaceAll("-", "");
  const excluded = Array.from({ length: 16_000 }, (_, index) => `${dayOf(index)}T103000Z`).join(",");
  const text = (exclusions: string): string =>
    `BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART:20261201T103000Z\nRRULE:FREQ=DAILY\nSUMMARY:Tint\n${exclusions}END:VEVENT\nEND:VCALENDAR\n`;
  expect(read(text(""))[0]?.entries.length).toBeGreaterThan(300);
  expect(read(text(`EXDATE:${excluded}\n`))[0]?.entries).toEqual([]);
});

test("exclusions too long to be kept make their entry one that is said, never one whose taken-out days are back", () => {
  const long = `EXDATE:${"20261202T103000Z,".repeat(70_000)}20261203T103000Z\n`;
  const [reading] = read(
    `BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nDTSTART:20261201T103000Z\nRRULE:FREQ=DAILY\nSUMMARY:Tint\n${long}END:VEVENT\nEND:VCALENDAR\n`,
  );
  expect(reading?.entries).toEqual([]);
  expect(reading?.skipped.map(({ reason }) => reason)).toEqual(["too-large"]);
});

test.for(["before", "behind"])(
  "a newer version too large to keep, its UID %s what makes it so, still replaces the older one",
  (place) => {
    const guests = Array.from(
      { length: 30_000 },
      (_, guest) => `ATTENDEE;CN=Person ${guest}:mailto:person-number-${guest}@example.com\n`,
    );
    const name = "UID:a\nSEQUENCE:2\nDTSTART:20261213T103000Z\n";
    const newer = place === "before" ? name + guests.join("") : guests.join("") + name;
    const readings = read(
      `BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\nSEQUENCE:1\nDTSTART:20261211T103000Z\nSUMMARY:Tint\nEND:VEVENT\nBEGIN:VEVENT\n${newer}END:VEVENT\nEND:VCALENDAR\n`,
    );
    expect(readings.flatMap(({ entries }) => entries)).toEqual([]);
    expect(readings.map(({ skipped }) => skipped.map(({ reason }) => reason).sort())).toEqual([
      ["superseded", "too-large"],
    ]);
  },
);
