/** 29: a feed stays below a million octets (reports of Google's and Nextcloud's limits), and says what it leaves out. */
import { expect, test } from "vitest";
import { FEED_MAX_BYTES } from "../../src/bounds.ts";
import { compileDesk } from "../../src/salon/desk.ts";
import { emptyState } from "../../src/salon/emptyState.ts";
import { PLAIN } from "../../src/salon/feedForm.ts";
import { fitWindow, type Sized } from "../../src/salon/feedWindow.ts";
import { renderFeed } from "../../src/salon/renderFeed.ts";
import type { State, StoredEvent } from "../../src/salon/types.ts";
import { DAY_SECONDS, HOUR, type Instant } from "../../src/time/instant.ts";
import { at, contentAt, settingsOf } from "./feed-plans.ts";

const NOW = at("2026-12-01T09:00:00Z");

const made = await compileDesk(settingsOf(), { id: "s", origin: "https://count.example", linkSecret: "x" }, 2026);
if (!made.ok) throw new Error("the settings of the tests are refused");
const { desk } = made;

const eventAt = (from: Instant, n: number, words: string): StoredEvent => ({
  audience: "salon",
  booking: "b",
  who: "salon",
  service: null,
  content: contentAt(from, from + HOUR, { uid: `e${n}`, description: words }),
  stamps: { created: NOW, lastModified: NOW, sequence: 0 },
  timed: NOW,
  expires: from + 40 * DAY_SECONDS,
  shown: true,
});

const wordsOf = (words: number | string): string => (typeof words === "string" ? words : "é".repeat(words / 2));

/** @param words of each, or how many octets they have */
const stateOf = (count: number, words: number | string, now = NOW): State => ({
  ...emptyState(now),
  settledTo: now,
  events: new Map(
    Array.from({ length: count }, (_, n) => [
      `salon e${n}`,
      eventAt(NOW + (n - count / 4) * 3 * HOUR, n, wordsOf(words)),
    ]),
  ),
});

const unfold = (text: string): string => text.replaceAll("\r\n ", "");
const startsOf = (text: string): string[] =>
  Array.from(unfold(text).matchAll(/DTSTART[^:]*:(\S+)/g), ([, start = ""]) => start).filter((start) =>
    start.startsWith("202"),
  );

test("29: a thousand events of a kilobyte and a half are cut to what calendars load, as text and as jCal", () => {
  const state = stateOf(1_000, 1_500);
  for (const form of [PLAIN, { ...PLAIN, jcal: true }, { ...PLAIN, once: true }, { ...PLAIN, tasks: true }]) {
    const { body } = renderFeed("salon", state, desk, NOW, form);
    expect(Buffer.byteLength(body)).toBeLessThan(1_000_000);
    expect(Buffer.byteLength(body)).toBeGreaterThan(FEED_MAX_BYTES * 0.9);
  }
});

test("29: of many short events, and of words full of what JSON escapes, jCal is below a million too", () => {
  for (const words of ["", '"\\'.repeat(100)]) {
    const { body } = renderFeed("salon", stateOf(4_000, words), desk, NOW, { ...PLAIN, jcal: true });
    expect(Buffer.byteLength(body)).toBeLessThan(1_000_000);
    expect(Buffer.byteLength(body)).toBeGreaterThan(FEED_MAX_BYTES * 0.8);
  }
});

test("29: what is left out is said in the calendar's description, and what is shown has no hole", () => {
  const { body, until, modified } = renderFeed("salon", stateOf(1_000, 1_500), desk, NOW);
  const shown = body.split("BEGIN:VEVENT").length - 1;
  expect(unfold(body)).toMatch(new RegExp(`^DESCRIPTION:.*Left out before or after: ${1_000 - shown}\\.\\r$`, "m"));
  expect(unfold(body)).toMatch(new RegExp(`^X-WR-CALDESC:.*Left out before or after: ${1_000 - shown}\\.\\r$`, "m"));
  const all = startsOf(renderFeed("salon", stateOf(1_000, 2), desk, NOW).body);
  const kept = startsOf(body);
  const first = all.indexOf(kept[0] ?? "");
  expect(kept).toEqual(all.slice(first, first + kept.length));
  expect(until).toBe(at("2026-12-02T00:00:00Z"));
  expect(modified).toBe(Math.max(NOW, at("2026-12-01T00:00:00Z")));
});

test("29: a feed that fits is whole, says nothing of it, and does not move with the day", () => {
  const { body, until } = renderFeed("salon", stateOf(1_000, 100), desk, NOW);
  expect(body.split("BEGIN:VEVENT")).toHaveLength(1_001);
  expect(body).not.toContain("Left out");
  expect(until).toBeNull();
  const later = stateOf(1_000, 100);
  expect(renderFeed("salon", { ...later, settledTo: NOW + 20 * DAY_SECONDS }, desk, NOW).body).toBe(body);
});

test("notices come first, then what lies ahead from the nearest on, then the past from the nearest back", () => {
  const sized = (start: number, isNotice = false): Sized => ({ start, octets: 10, isNotice });
  const events = [sized(1), sized(2, true), sized(3), sized(4), sized(10), sized(11), sized(12), sized(13), sized(14)];
  expect(fitWindow(events, 10, 50)).toEqual([1, 3, 4, 5, 6]);
  expect(fitWindow(events, 10, 90)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  expect(fitWindow(events.slice(0, 5), 10, 40)).toEqual([1, 2, 3, 4]);
  // Of what begins at one moment, some alone would be said to be all.
  const together = [sized(10), sized(11), sized(12), sized(12), sized(12), sized(13)];
  expect(fitWindow(together, 10, 40)).toEqual([0, 1]);
  expect(fitWindow([sized(12), sized(12), sized(12)], 10, 20)).toEqual([0, 1]);
});
