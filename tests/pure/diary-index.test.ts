/** Laws of the indexer: chunks, refusals, fingerprints, and octets that mean harm. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { DIARY_MAX_BYTES } from "../../src/bounds.ts";
import { DiaryIndexer, type Indexed, indexDiary } from "../../src/diary/indexDiary.ts";
import { listEvents } from "../../src/diary/listEvents.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import type { Block, IndexedDiary } from "../../src/diary/types.ts";
import { Zone } from "../../src/time/zone.ts";

const octets = (text: string): Uint8Array => new TextEncoder().encode(text);
const calendar = (...events: string[]): string => `BEGIN:VCALENDAR\r\n${events.join("")}END:VCALENDAR\r\n`;
const event = (...lines: string[]): string => `BEGIN:VEVENT\r\n${lines.join("\r\n")}\r\nEND:VEVENT\r\n`;
const read = (text: string): IndexedDiary => {
  const indexed = indexDiary(octets(text));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  return indexed;
};
/** A block's text is decoded when it is asked for, so two are compared with all of it. */
const decoded = (block: Block): Block => JSON.parse(JSON.stringify(block)) as Block;
const allOf = (indexed: Indexed): unknown =>
  "refusal" in indexed ? indexed : { ...indexed, blocks: indexed.blocks.map(decoded) };
const onlyBlock = (text: string): Block => decoded(read(text).blocks[0] as Block);

const root = join(import.meta.dirname, "../../fixtures/diaries");
const fixtures = readdirSync(root).map((name) => new Uint8Array(readFileSync(join(root, name, "diary.ics"))));

const inChunks = (bytes: Uint8Array, cuts: readonly number[]): Indexed => {
  const indexer = new DiaryIndexer();
  let from = 0;
  for (const to of [...cuts, bytes.length].toSorted((first, second) => first - second)) {
    if (to < from) continue;
    indexer.push(bytes.subarray(from, to));
    from = to;
  }
  return indexer.end();
};

test("splitting a diary anywhere changes nothing", () => {
  for (const bytes of fixtures) {
    const whole = allOf(indexDiary(bytes));
    const cuts = Array.from({ length: bytes.length }, (_, index) => index);
    expect(allOf(inChunks(bytes, cuts))).toEqual(whole);
  }
  fc.assert(
    fc.property(fc.constantFrom(...fixtures), fc.array(fc.nat({ max: 2_000 }), { maxLength: 8 }), (bytes, cuts) => {
      const inside = cuts.map((cut) => Math.min(cut, bytes.length));
      expect(allOf(inChunks(bytes, inside))).toEqual(allOf(indexDiary(bytes)));
    }),
  );
});

test("octets that mean harm never throw, and every VEVENT is accounted for", { timeout: 20_000 }, () => {
  const zone = Zone.named("Europe/Dublin") as Zone;
  const horizon = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
  const piece = fc.oneof(
    fc.constantFrom(
      ...'BEGIN:VCALENDAR|END:VCALENDAR|BEGIN:VEVENT|END:VEVENT|BEGIN:VTIMEZONE|END:VTIMEZONE|BEGIN:STANDARD|END:STANDARD|TZID:Q|TZOFFSETFROM:+9999|TZOFFSETTO:+0100|DTSTART:20261211T103000Z|DTSTART;TZID=Q:20261211T103000|DTSTART;VALUE=DATE:20261211|RRULE:FREQ=YEARLY;INTERVAL=999999999|RRULE:FREQ=DAILY;UNTIL=x|RDATE:,,|EXDATE:1|RECURRENCE-ID:20261211T103000Z|DURATION:P99999W|DTEND:00000101T000000|UID:__proto__|UID:x|SEQUENCE:-1|ATTENDEE;CN="a:b|ATTENDEE:mailto:%E0%A4|SUMMARY:\\|STATUS:'.split(
        "|",
      ),
    ),
    fc.string({ unit: "binary", maxLength: 20 }),
  );
  const lines = fc.array(piece, { maxLength: 40 }).map((pieces) => octets(pieces.join("\r\n")));
  const mutilated = fc
    .tuple(fc.constantFrom(...fixtures), fc.nat({ max: 2_000 }), fc.uint8Array({ maxLength: 12 }))
    .map(([bytes, at, noise]) => Uint8Array.from([...bytes.subarray(0, at), ...noise, ...bytes.subarray(at)]));
  fc.assert(
    fc.property(fc.oneof(lines, mutilated, fc.uint8Array({ maxLength: 200 })), (bytes) => {
      const indexed = indexDiary(bytes);
      if ("refusal" in indexed) return;
      let listed = 0;
      for (const block of indexed.blocks) {
        const { events, aside } = listEvents(block, zone);
        listed += events.length + aside.length;
        readBlock(block, zone, horizon);
      }
      expect(listed).toBe(indexed.raw);
    }),
    { numRuns: 700 },
  );
});

test("a diary over the bound is refused with its size, and the sender is drained", () => {
  const indexer = new DiaryIndexer();
  const chunk = octets(event("UID:a", "DTSTART:20261211T103000Z", `X-FILL:${"x".repeat(900_000)}`));
  const count = Math.ceil(30_000_000 / chunk.length);
  indexer.push(octets("BEGIN:VCALENDAR\r\n"));
  for (let index = 0; index < count; index++) indexer.push(chunk);
  const bytes = "BEGIN:VCALENDAR\r\n".length + count * chunk.length;
  expect(indexer.end()).toEqual({ refusal: { code: "diary-too-large", bytes, max: DIARY_MAX_BYTES }, seen: null });
});

test("a diary of 25 MB is read, and one line of it however long", () => {
  const indexer = new DiaryIndexer();
  indexer.push(octets("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:a\r\nDTSTART:20261211T103000Z\r\nDESCRIPTION:"));
  const chunk = octets("x".repeat(1_000_000));
  for (let index = 0; index < 25; index++) indexer.push(chunk);
  indexer.push(octets("\r\nSUMMARY:Tint\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"));
  const indexed = indexer.end();
  expect("blocks" in indexed && indexed.blocks[0]?.events[0]).toContain("SUMMARY:Tint");
});

test("a feed that renews its stamps, its order or its alarms has not changed", () => {
  const [first, second] = [
    ["UID:a", "DTSTART:20261211T103000Z", "SUMMARY:Tint"],
    ["UID:a", "RECURRENCE-ID:20261212T103000Z"],
  ];
  const before = onlyBlock(calendar(event(...first, "DTSTAMP:20261101T000000Z"), event(...second)));
  const after = onlyBlock(
    calendar(
      event(...second, "LAST-MODIFIED:20261102T000000Z"),
      event(...first, "DTSTAMP:20261102T000000Z", "BEGIN:VALARM", "TRIGGER:-PT1H", "END:VALARM"),
    ),
  );
  expect(after).toEqual(before);
});

test.each(["DTSTART:20261211T103001Z", "SUMMARY:Tint.", "STATUS:CANCELLED", "DESCRIPTION:tel:1", "SEQUENCE:1"])(
  "a change to %s changes the fingerprint",
  (line) => {
    const lines = ["UID:a", "DTSTART:20261211T103000Z", "SUMMARY:Tint"];
    const name = line.split(":")[0] as string;
    const changed = [...lines.filter((each) => !each.startsWith(name)), line];
    expect(onlyBlock(calendar(event(...changed))).hash).not.toBe(onlyBlock(calendar(event(...lines))).hash);
  },
);

test("a changed zone definition changes those entries that name it, and no others", () => {
  const zone = (offset: string): string =>
    `BEGIN:VTIMEZONE\r\nTZID:Q\r\nBEGIN:STANDARD\r\nDTSTART:19700101T000000\r\nTZOFFSETFROM:${offset}\r\nTZOFFSETTO:${offset}\r\nEND:STANDARD\r\nEND:VTIMEZONE\r\n`;
  const events = event("UID:a", "DTSTART;TZID=Q:20261211T103000") + event("UID:b", "DTSTART:20261211T103000Z");
  const [before, after] = ["+0100", "+0200"].map((offset) => read(calendar(zone(offset), events)).blocks);
  expect(after?.find((block) => block.uid === "a")?.hash).not.toBe(before?.find((block) => block.uid === "a")?.hash);
  expect(after?.find((block) => block.uid === "b")).toEqual(before?.find((block) => block.uid === "b"));
});

test("an entry without a UID has a name of its content: the same again, another for another", () => {
  const named = (summary: string): string =>
    onlyBlock(calendar(event("DTSTART:20261211T103000Z", `SUMMARY:${summary}`))).uid;
  expect(named("Tint")).toBe(named("Tint"));
  expect(named("Tint")).not.toBe(named("Cut"));
});

test("fingerprints of 50,000 different entries differ", () => {
  const hashes = new Set<string>();
  const text = calendar(
    ...Array.from({ length: 50_000 }, (_, index) =>
      event(`UID:${index}`, `DTSTART:20261211T103000Z`, `SUMMARY:Tint ${index % 7}`),
    ),
  );
  for (const block of read(text).blocks) hashes.add(block.hash);
  expect(hashes.size).toBe(50_000);
});

test("more under one UID than a row can hold is said, not dropped", () => {
  const filler = "y".repeat(90_000);
  const text = calendar(
    ...Array.from({ length: 20 }, (_, index) =>
      event("UID:a", `DTSTART:202612${10 + index}T103000Z`, `DESCRIPTION:${filler}`),
    ),
  );
  const block = onlyBlock(text);
  const zone = Zone.named("UTC") as Zone;
  const { entries, skipped } = readBlock(block, zone, { from: 0, to: Date.UTC(2030, 0, 1) / 1000 });
  expect(entries.length + skipped.length).toBe(20);
  expect(skipped.length).toBeGreaterThan(0);
  expect(new Set(skipped.map((each) => each.reason))).toEqual(new Set(["too-large"]));
});
