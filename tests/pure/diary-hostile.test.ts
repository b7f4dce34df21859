/**
 * Shapes that keep some reader busy or fill its memory (tests/fuzz/shapes.ts, most from public advisories, from memory): each
 * is read to its end and accounts for every VEVENT. What it costs at several times the size, and how that grows, is measured
 * by `npm run shapes`, not here.
 */
import { expect, test } from "vitest";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { Zone } from "../../src/time/zone.ts";
import { readShape } from "../fuzz/readShape.ts";
import { SHAPES } from "../fuzz/shapes.ts";

test.for(SHAPES.map(({ name, size, make }) => [name, size, make] as const))(
  "%s: read to the end, and accounted for",
  ([, size, make]) => {
    const { raw, accounted } = readShape(make(size));
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
