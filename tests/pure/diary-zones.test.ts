/** The zones a diary names, and that the host's own zone has no say in any of it. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { findZone } from "../../src/diary/findZone.ts";
import { indexDiary } from "../../src/diary/indexDiary.ts";
import { readBlock } from "../../src/diary/readBlock.ts";
import { WINDOWS_LABELS } from "../../src/diary/windowsLabels.ts";
import { WINDOWS_ZONES } from "../../src/diary/windowsZones.ts";
import { Zone } from "../../src/time/zone.ts";

const host = process.env["TZ"];
afterEach(() => {
  process.env["TZ"] = host;
});

test("reading never depends on the host's zone", () => {
  const root = join(import.meta.dirname, "../../fixtures/diaries");
  const salon = Zone.named("Europe/Dublin") as Zone;
  const horizon = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
  const readAll = (): unknown =>
    readdirSync(root).map((name) => {
      const indexed = indexDiary(readFileSync(join(root, name, "diary.ics")));
      return "refusal" in indexed ? indexed : indexed.blocks.map((block) => readBlock(block, salon, horizon));
    });
  const hours = new Set<number>();
  const readings = ["UTC", "America/New_York", "Pacific/Auckland", "Australia/Lord_Howe"].map((zone) => {
    process.env["TZ"] = zone;
    hours.add(new Date(0).getHours() * 60 + new Date(0).getMinutes());
    return readAll();
  });
  // The check is worth nothing unless the host really moved.
  expect(hours.size).toBe(4);
  for (const reading of readings) expect(reading).toEqual(readings[0]);
});

test("every zone of the Windows table is one that the runtime knows", () => {
  const unknown = [...WINDOWS_ZONES.values(), ...WINDOWS_LABELS.values()].filter((name) => !Zone.named(name));
  expect(unknown).toEqual([]);
  expect(WINDOWS_ZONES.size).toBe(139);
});

test.each([
  ["Europe/London", "Europe/London"],
  ["/mozilla.org/20050126_1/Europe/London", "Europe/London"],
  ["/softwarestudio.org/Tzfile/America/Argentina/Salta", "America/Argentina/Salta"],
  [' "America/Chicago" ', "America/Chicago"],
  ["W. Europe Standard Time", "Europe/Berlin"],
  ["(GMT-08:00) Pacific Time (US & Canada); Tijuana", "America/Los_Angeles"],
  ["tzone://Microsoft/Utc", "Etc/UTC"],
  ["UTC", "UTC"],
])("%s names %s", (tzid, name) => {
  const instants = [Date.UTC(2026, 0, 1), Date.UTC(2026, 6, 1)].map((ms) => ms / 1000);
  const offsets = (zone: Zone | undefined): unknown => instants.map((instant) => zone?.offsetAt(instant));
  expect(offsets(findZone(tzid))).toEqual(offsets(Zone.named(name) as Zone));
});

test.each([
  "BST",
  "IST",
  "CST",
  "PST",
  "London",
  "Europe-London",
  "British Summer Time",
  "+0100",
  "UTC+1",
  "SystemV/EST5",
  "",
  " ",
  "tzone://Microsoft/Custom",
  "Customized Time Zone",
])("%s names no zone", (tzid) => {
  expect(findZone(tzid)).toBeUndefined();
});

/** A zone of the file's own, always so many hours east. */
const ownZone = (hours: string): string =>
  `BEGIN:VTIMEZONE\nTZID:Back Room\nBEGIN:STANDARD\nDTSTART:19700101T000000\nTZOFFSETFROM:${hours}\nTZOFFSETTO:${hours}\nEND:STANDARD\nEND:VTIMEZONE\n`;
const startIn = (text: string): readonly (number | string | null)[] => {
  const indexed = indexDiary(new TextEncoder().encode(`BEGIN:VCALENDAR\n${text}END:VCALENDAR\n`));
  if ("refusal" in indexed) throw new Error(indexed.refusal.code);
  const horizon = { from: Date.UTC(2026, 10, 1) / 1000, to: Date.UTC(2027, 11, 6) / 1000 };
  const readings = indexed.blocks.map((block) => readBlock(block, Zone.named("Europe/Dublin") as Zone, horizon));
  return readings.flatMap(({ entries, skipped }) => [
    ...entries.map(({ start }) => start),
    ...skipped.map(({ reason }) => reason),
  ]);
};
const at10 = (zone: string): string => `BEGIN:VEVENT\nUID:a\nDTSTART;${zone}:20261211T100000\nEND:VEVENT\n`;

test("a name that one calendar defines twice and differently is nobody's clock (RFC 5545 §3.6.5)", () => {
  const east = ownZone("+0200");
  expect(startIn(east + at10("TZID=Back Room"))).toEqual([Date.UTC(2026, 11, 11, 8) / 1000]);
  expect(startIn(east + east + at10("TZID=Back Room"))).toEqual([Date.UTC(2026, 11, 11, 8) / 1000]);
  expect(startIn(east + ownZone("-0400") + at10("TZID=Back Room"))).toEqual(["zone-unknown"]);
  expect(startIn(ownZone("-0400") + at10("TZID=Back Room") + east)).toEqual(["zone-unknown"]);
});

test("one time in two zones is in neither; the same zone twice is one", () => {
  expect(startIn(at10("TZID=Europe/London;TZID=America/New_York"))).toEqual(["zone-unknown"]);
  expect(startIn(at10("TZID=America/New_York;TZID=America/New_York"))).toEqual([Date.UTC(2026, 11, 11, 15) / 1000]);
  expect(startIn(at10("TZID=;TZID=America/New_York"))).toEqual([Date.UTC(2026, 11, 11, 15) / 1000]);
});
