/** The shell's small rules: addresses, links, keys, polls, validators, versions. */
import fc from "fast-check";
import { expect, test } from "vitest";
import packageJson from "../../package.json" with { type: "json" };
import { diaryAddress } from "../../src/salon/address.ts";
import { HOLIDAY_DATA } from "../../src/salon/desk.ts";
import { hashKey, makeKey, makeLink, newSalonId, readLink, salonOfKey } from "../../src/salon/link.ts";
import { partsOf } from "../../src/salon/partsOf.ts";
import { jitterOf, nextPollAt } from "../../src/salon/schedule.ts";
import { matchesNone } from "../../src/web/serveFeed.ts";

// Reserved and private ranges: RFC 6890, RFC 4193, RFC 4291; names: RFC 6761, RFC 6762, RFC 8375.
test.each([
  "http://127.0.0.1/",
  "http://127.1/",
  "http://2130706433/",
  "http://0177.0.0.1/",
  "http://10.1.2.3/",
  "http://172.16.0.1/",
  "http://172.31.255.255/",
  "http://192.168.1.1/",
  "http://169.254.169.254/",
  "http://100.64.0.1/",
  "http://0.0.0.0/",
  "http://224.0.0.1/",
  "http://255.255.255.255/",
  "http://[::1]/",
  "http://[::]/",
  "http://[fe80::1]/",
  "http://[fd00::1]/",
  "http://[::ffff:127.0.0.1]/",
  "http://[64:ff9b::a00:1]/",
  "http://[2002:7f00:1::]/",
  "http://localhost/",
  "http://LOCALHOST./",
  "http://printer.local/",
  "http://nas.home.arpa/",
  "http://db.internal/",
  "http://intranet/",
  "http://a.localhost/",
])("%s is never asked for a diary", (address) => {
  expect(diaryAddress(address, false)).toBe("local-address");
});

test.each([
  ["ftp://calendar.example/a.ics", "scheme"],
  ["javascript:alert(1)", "scheme"],
  ["/etc/passwd", "not-an-address"],
  ["", "not-an-address"],
])("%s is refused as %s", (address, fault) => {
  expect(diaryAddress(address, false)).toBe(fault);
});

test("public hosts are asked, webcal by http and webcals by https", () => {
  for (const [given, asked] of [
    ["https://calendar.example/a.ics?key=1", "https://calendar.example/a.ics?key=1"],
    ["webcal://calendar.example/a.ics", "http://calendar.example/a.ics"],
    ["WEBCALS://calendar.example/a.ics", "https://calendar.example/a.ics"],
    ["http://93.184.215.14/a.ics", "http://93.184.215.14/a.ics"],
    ["http://[2606:2800:21f::1]/a.ics", "http://[2606:2800:21f::1]/a.ics"],
  ] as const) {
    expect(String(diaryAddress(given, false))).toBe(asked);
  }
});

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

test("a failing diary is asked ever more rarely, never before Retry-After, and salons spread over a tenth of the interval", () => {
  const diary = { name: "main", url: "https://calendar.example/a.ics", pollMinutes: 15 };
  const minutes = (failures: number, retryAfter: number | null = null) =>
    nextPollAt(diary, failures, retryAfter, 0, 0) / 60;
  expect([0, 1, 2, 3, 4, 5, 50].map((failures) => minutes(failures))).toEqual([15, 30, 60, 120, 240, 360, 360]);
  expect(minutes(0, 7_200)).toBe(120);
  expect(minutes(0, 9_999_999)).toBe(1_440);
  fc.assert(
    fc.property(fc.string(), (name) => {
      const jitter = jitterOf(name);
      expect(jitter).toBeGreaterThanOrEqual(0);
      expect(nextPollAt(diary, 0, null, 0, jitter)).toBeLessThanOrEqual(15 * 60 * 1.1);
    }),
  );
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
