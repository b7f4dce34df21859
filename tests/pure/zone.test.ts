/** Zones against published changes and RFC 5545's two examples; trade facts are the IANA database's own. */
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { expect, test } from "vitest";
import { formatInstant, parseInstant, parseWall } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

const zone = (name: string): Zone => {
  const found = Zone.named(name);
  if (!found) throw new Error(`no zone ${name}`);
  return found;
};
const wall = (text: string): number => parseWall(text) ?? Number.NaN;

// RFC 5545 §3.3.5 prints both local times; the UTC instants follow from the offsets it names.
test("reads a repeated hour as its first pass and a skipped one by the offset before the gap", () => {
  const newYork = zone("America/New_York");
  expect(formatInstant(newYork.diaryReading(wall("2007-11-04T01:30:00")))).toBe("2007-11-04T05:30:00Z");
  expect(formatInstant(newYork.diaryReading(wall("2007-03-11T02:30:00")))).toBe("2007-03-11T07:30:00Z");
});

// counting.md 2: Santiago's Sunday 6 September 2026 begins at 01:00 (IANA database).
test("reads our own skipped time as the moment of the change", () => {
  const santiago = zone("America/Santiago");
  expect(formatInstant(santiago.firstReading(wall("2026-09-06T00:00")))).toBe("2026-09-06T04:00:00Z");
  expect(formatInstant(santiago.diaryReading(wall("2026-09-06T00:30")))).toBe("2026-09-06T04:30:00Z");
});

// IANA database, changes of 2026 to 2028 (tzdata 2025b; years whose law is settled in every release since).
test.each([
  ["Europe/London", ["2026-03-29T01:00:00Z", "2026-10-25T01:00:00Z", "2027-03-28T01:00:00Z", "2027-10-31T01:00:00Z"]],
  [
    "America/New_York",
    ["2026-03-08T07:00:00Z", "2026-11-01T06:00:00Z", "2027-03-14T07:00:00Z", "2027-11-07T06:00:00Z"],
  ],
  [
    "Australia/Lord_Howe",
    ["2026-04-04T15:00:00Z", "2026-10-03T15:30:00Z", "2027-04-03T15:00:00Z", "2027-10-02T15:30:00Z"],
  ],
  ["Africa/Cairo", ["2026-04-23T22:00:00Z", "2026-10-29T21:00:00Z", "2027-04-29T22:00:00Z", "2027-10-28T21:00:00Z"]],
  ["Asia/Kolkata", []],
])("knows every change of %s", (name, changes) => {
  const found = zone(name).changes(
    parseInstant("2026-01-01T00:00:00Z") ?? 0,
    parseInstant("2028-01-01T00:00:00Z") ?? 0,
  );
  expect(found.map(({ at }) => formatInstant(at))).toEqual(changes);
});

test("gives Temporal's offsets and its compatible reading at any wall time of any of these zones", () => {
  const names = [
    "Europe/London",
    "America/New_York",
    "Australia/Lord_Howe",
    "America/Santiago",
    "America/St_Johns",
    "Pacific/Apia",
    "Asia/Kathmandu",
  ];
  fc.assert(
    fc.property(fc.constantFrom(...names), fc.integer({ min: 1_230_000_000, max: 1_860_000_000 }), (name, seconds) => {
      const local = Temporal.Instant.fromEpochMilliseconds(seconds * 1000)
        .toZonedDateTimeISO("UTC")
        .toPlainDateTime();
      const theirs = local.toZonedDateTime(name, { disambiguation: "compatible" });
      expect(zone(name).diaryReading(seconds)).toBe(theirs.epochMilliseconds / 1000);
      const offset =
        Temporal.Instant.fromEpochMilliseconds(seconds * 1000).toZonedDateTimeISO(name).offsetNanoseconds / 1e9;
      expect(zone(name).offsetAt(seconds)).toBe(offset);
    }),
    { numRuns: 2_000 },
  );
});

test("knows no abbreviation that means several clocks, and spells a name as the database does", () => {
  for (const name of ["BST", "IST", "CST", "Mars/Base", "posix/Europe/London", "Europe/Londn", "", "+01:00"])
    expect(Zone.named(name)).toBeUndefined();
  expect(Zone.named("europe/london")?.name).toBe("Europe/London");
});
