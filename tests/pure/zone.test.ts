import { expect, test } from "vitest";
import { formatInstant, parseWall } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

test("reads a repeated hour as its first pass (RFC 5545 §3.3.5, New York 20071104T013000)", () => {
  const zone = Zone.named("America/New_York") as Zone;
  expect(formatInstant(zone.diaryReading(parseWall("2007-11-04T01:30:00") as number))).toBe("2007-11-04T05:30:00Z");
});
