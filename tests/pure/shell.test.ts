/** The shell's small rules: links, keys, validators, versions. */
import fc from "fast-check";
import { expect, test } from "vitest";
import packageJson from "../../package.json" with { type: "json" };
import { HOLIDAY_DATA } from "../../src/salon/desk.ts";
import { hashKey, makeKey, makeLink, newSalonId, readLink, salonOfKey } from "../../src/salon/link.ts";
import { partsOf } from "../../src/salon/partsOf.ts";
import { matchesNone } from "../../src/salon/feedAsk.ts";

test("a link reads back as what it was made of, and no changed character opens anything", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 0xffffffff }),
      fc.integer({ min: 1, max: 0xffff }),
      fc.nat(),
      fc.nat({ max: 63 }),
      (client, generation, place, shift) => {
        const claim = { salon: newSalonId(), holder: { client }, generation };
        const link = makeLink(claim, "secret");
        expect(readLink(link, "secret")).toEqual(claim);
        expect(readLink(link, "other secret")).toBeUndefined();
        const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
        const at = place % link.length;
        const changed = link.slice(0, at) + letters[shift] + link.slice(at + 1);
        if (changed !== link) expect(readLink(changed, "secret")).toBeUndefined();
      },
    ),
    { numRuns: 300 },
  );
});

test("a key names its salon under its own secret only, and its hash tells nothing of it", () => {
  const salon = newSalonId();
  const key = makeKey(salon, "secret");
  expect(salonOfKey(key, "secret")).toBe(salon);
  for (const other of [`${key}A`, key.slice(1), "", key.toLowerCase()])
    expect(salonOfKey(other, "secret")).toBeUndefined();
  expect(salonOfKey(key, "other secret")).toBeUndefined();
  expect(makeKey(salon, "secret")).not.toBe(key);
  expect(hashKey(key)).not.toContain(key.slice(0, 12));
});

// RFC 9110 §13.1.2: a list, weak comparison, and the asterisk.
test.each([
  ['"a"', true],
  ['W/"a"', true],
  ['"b", "a"', true],
  ['"b",W/"a"', true],
  ["*", true],
  ['"b"', false],
  ["a", false],
  ['"A"', false],
  ["", false],
])('If-None-Match %s against "a" is %s', (header, isMatch) => {
  expect(matchesNone(header, '"a"')).toBe(isMatch);
});

test("the holiday data that a store is made by are those that are installed", () => {
  expect(HOLIDAY_DATA).toBe(`date-holidays ${packageJson.dependencies["date-holidays"]}`);
});

test("a text comes together again from its parts, and no part ends in half a character", () => {
  fc.assert(
    fc.property(fc.string({ unit: "grapheme" }), fc.integer({ min: 2, max: 7 }), (text, most) => {
      const parts = partsOf(text, most);
      expect(parts.join("")).toBe(text);
      for (const part of parts) {
        expect(part.length).toBeLessThanOrEqual(most);
        expect(part.isWellFormed()).toBe(true);
      }
    }),
  );
});
