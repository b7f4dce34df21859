/** The books of a block are compared, and a difference is told: made to fire by breaking the parts they watch. */
import { sync } from "node-ical";
import { afterEach, expect, test, vi } from "vitest";
import * as series from "../../src/diary/expandSeries.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import type { Block, BlockReading } from "../../src/diary/types.ts";
import { Zone } from "../../src/time/zone.ts";

vi.mock("../../src/diary/expandSeries.ts", { spy: true });
vi.mock("node-ical", { spy: true });
afterEach(() => {
  vi.mocked(series.expandSeries).mockRestore();
  vi.mocked(sync.parseICS).mockRestore();
});

const london = Zone.named("Europe/London") as Zone;
const HORIZON = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };

const EVENTS = [
  "BEGIN:VEVENT\nDTSTART:20261211T103000Z\nSUMMARY:Tint - Ada\nRRULE:FREQ=WEEKLY;COUNT=2\nEND:VEVENT",
  "BEGIN:VEVENT\nDTSTART:20261212T110000Z\nRECURRENCE-ID:20261218T103000Z\nSUMMARY:Tint - Ada\nEND:VEVENT",
];
const block = (count = EVENTS.length): Block => ({
  uid: "ada",
  hash: "",
  span: { first: 0, last: 99_999 },
  count,
  events: EVENTS,
  zones: [],
});
const told = ({ entries, skipped }: BlockReading): (string | number)[] => [
  entries.length,
  ...skipped.map(({ reason }) => reason),
];

test("a block whose events all gave something has nothing to tell", () => {
  expect(told(readBlock(block(), london, HORIZON))).toEqual([2]);
});

test("an event that came in and is not among those read is told, with both counts", () => {
  const reading = readBlock(block(3), london, HORIZON);
  expect(told(reading)).toEqual([2, "count-differs"]);
  expect(reading.skipped[0]?.text).toContain("3 came in, 2 were read");
});

test("a series that loses its first occurrence on the way is told", async () => {
  const { expandSeries } = await vi.importActual<typeof series>("../../src/diary/expandSeries.ts");
  vi.mocked(series.expandSeries).mockImplementationOnce((...asked) => ({ ...expandSeries(...asked), occurrences: [] }));
  expect(told(readBlock(block(), london, HORIZON))).toEqual([1, "unaccounted"]);
});

test("a parser that finds another number of events is not believed for any of them", async () => {
  const stranger = { type: "VEVENT", summary: "Nobody asked" };
  const real = (await vi.importActual<typeof import("node-ical")>("node-ical")).sync.parseICS;
  expect(told(readBlock(block(), london, HORIZON))).toEqual([2]);
  vi.mocked(sync.parseICS).mockImplementation((text: string) => ({ ...real(text), stranger }) as never);
  expect(told(readBlock(block(), london, HORIZON))).toEqual([0, "text-not-read", "text-not-read"]);
});
