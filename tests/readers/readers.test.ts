/**
 * The feeds of a hundred random salons as six readers of other people understand them: the same moments, the same words, not
 * one warning, whatever the host's zone. What is expected comes from what the salons hold, never from the feeds' bytes.
 * Readers: ical.js 2.2.1, node-ical 0.27.2, ts-ics 2.4.6 (npm); python-icalendar 4.0.3, libical 3.0.16, khal 0.10.5 fed by
 * vdirsyncer 0.19.0 (Debian 12).
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { HOUR } from "../../src/time/instant.ts";
import type { Zone } from "../../src/time/zone.ts";
import { eventByHand, taskByHand } from "./byHand.ts";
import { compareFeed, compareUnnamed, type Field, type WantedFeed } from "./compareEvents.ts";
import { expectedEvent, expectedHead, expectedTask, isNearChange } from "./expectedEvents.ts";
import { fallApart } from "./listedWords.ts";
import { publishSalons, SALONS } from "./randomSalons.ts";
import { type ReaderName, runReader } from "./runReader.ts";
import { listWithKhal, subscribe } from "./subscribe.ts";
import type { ReadEvent } from "./types.ts";

interface Feed extends WantedFeed {
  readonly name: string;
  readonly text: string;
  readonly isTasks: boolean;
  /** Null of a calendar written by hand. */
  readonly zone: Zone | null;
}

const folder = mkdtempSync(join(tmpdir(), "countback-readers-"));
const feedFolder = join(folder, "feeds");
let feeds: readonly Feed[] = [];

beforeAll(async () => {
  const published = (await publishSalons()).map(
    ({ name, text, isTasks, head, events, desk }): Feed => ({
      name,
      text,
      isTasks,
      head: expectedHead(head),
      events: events.map(isTasks ? expectedTask : expectedEvent),
      zone: desk.rules.zone,
    }),
  );
  const byHand = [eventByHand, taskByHand].map((each) => ({
    ...each,
    isTasks: each === taskByHand,
    head: { name: null, about: null },
    zone: null,
  }));
  feeds = [...published, ...byHand];
  mkdirSync(feedFolder);
  for (const { name, text } of feeds) writeFileSync(join(feedFolder, `${name}.ics`), text);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A failure's message: a few differences tell as much as thousands. */
const few = (differences: readonly string[]): readonly string[] => differences.slice(0, 12);

describe("the salons have what readers stumble over", () => {
  const everyEvent = (): readonly ReadEvent[] => feeds.flatMap(({ events }) => events);
  const count = (isWanted: (event: ReadEvent) => boolean): number => everyEvent().filter(isWanted).length;

  test("a hundred salons in twenty zones, each with its clients' feeds", () => {
    expect(new Set(feeds.map(({ name }) => name.slice(0, 4)).filter((name) => /^s\d/.test(name))).size).toBe(SALONS);
    expect(new Set(feeds.map(({ zone }) => zone?.name)).size).toBeGreaterThanOrEqual(20);
    expect(feeds.length).toBeGreaterThan(3 * SALONS);
    expect(everyEvent().length).toBeGreaterThan(30 * SALONS);
  });

  test("tombstones, all-day events, moved events, hostile and long words", () => {
    expect(count(({ status }) => status === "CANCELLED")).toBeGreaterThan(10 * SALONS);
    expect(count(({ start }) => typeof start === "string")).toBeGreaterThan(SALONS);
    expect(count(({ sequence }) => sequence > 1)).toBeGreaterThan(SALONS);
    expect(count(({ description }) => /[\\;,]/.test(description))).toBeGreaterThan(10 * SALONS);
    expect(count(({ description }) => /[^\p{ASCII}“”]/u.test(description))).toBeGreaterThan(3 * SALONS);
    expect(count(({ description }) => description.includes("BEGIN:VEVENT"))).toBeGreaterThan(0);
    expect(count(({ description }) => description.length > 4_000)).toBeGreaterThan(0);
  });

  test("lists of to-dos, with reminders and without, some ticked off", () => {
    const lists = feeds.filter(({ isTasks }) => isTasks);
    const tasks = lists.flatMap(({ events }) => events);
    expect(tasks.length).toBeGreaterThan(SALONS);
    expect(new Set(tasks.map(({ status }) => status))).toEqual(new Set(["NEEDS-ACTION", "COMPLETED", "CANCELLED"]));
    expect(tasks.filter(({ alarms }) => alarms.length > 0).length).toBeGreaterThan(0);
    for (const { text } of lists) expect(text).not.toContain("\r\nBEGIN:VEVENT");
  });

  test("events right around the changes of the clocks, and events a day away that are written in local time", () => {
    const near = (hours: number): number =>
      feeds.reduce(
        (sum, { events, zone }) => sum + events.filter((each) => zone && isNearChange(each, zone, hours * HOUR)).length,
        0,
      );
    expect(near(3)).toBeGreaterThan(SALONS);
    expect(near(37)).toBeGreaterThan(4 * SALONS);
    const local = feeds.filter(({ text }) => text.includes("DTSTART;TZID=")).length;
    expect(local).toBeGreaterThan(SALONS);
  });
});

const ALL: readonly Field[] = ["start", "end", "summary", "description", "status", "sequence", "stamp", "alarms"];
/** Readers that take escapes off in several passes. */
const BLURS: ReadonlySet<ReaderName> = new Set(["node-ical", "python-icalendar"]);
const differencesOf = async (reader: ReaderName, hostZone: string, ...more: readonly string[]) => {
  const output = join(folder, [reader, hostZone.replaceAll("/", "-"), ...more].join("-"));
  const { printed, feeds: read } = await runReader(reader, hostZone, feedFolder, output, ...more);
  const answers = new Map(read.map((answer) => [answer.feed, answer]));
  expect(answers.size).toBe(feeds.length);
  const differences: string[] = [];
  for (const { name, isTasks, head, events } of feeds) {
    const answer = answers.get(name) ?? { feed: name, problems: ["no answer"], head: {}, events: [] };
    if (reader !== "ts-ics") {
      differences.push(...compareFeed({ head, events }, answer, () => ALL, BLURS.has(reader)));
      continue;
    }
    if (isTasks && events.some(({ alarms }) => alarms.length > 0)) continue;
    const wanted = events.map((event) => ({
      ...event,
      alarms: event.alarms.map((alarm) => ({ ...alarm, uid: null })),
    }));
    differences.push(...compareFeed({ head, events: wanted }, answer, () => ALL, false));
  }
  return { printed, differences };
};

describe.each<ReaderName>(["ical.js", "node-ical", "ts-ics", "python-icalendar", "libical"])("%s", (reader) => {
  const hosts = reader === "libical" || reader === "python-icalendar" ? [] : ["America/New_York"];
  test.each(["UTC", "Pacific/Auckland", ...hosts])(
    "reads every feed as it was meant, on a host in %s",
    async (hostZone) => {
      const { printed, differences } = await differencesOf(reader, hostZone);
      expect(printed).toBe("");
      expect(few(differences)).toEqual([]);
    },
  );
});

test("python-icalendar reads the same from the feeds' own definitions, the zones having names that nobody knows", async () => {
  const { printed, differences } = await differencesOf("python-icalendar", "UTC", "own");
  expect(printed).toBe("");
  expect(few(differences)).toEqual([]);
});

test("no comma and no semicolon of any words stands there unescaped", () => {
  const read = feeds.map(({ text }) => fallApart(text));
  expect(read.reduce((sum, { lines }) => sum + lines, 0)).toBeGreaterThan(60 * SALONS);
  expect(few(read.flatMap(({ apart }) => apart))).toEqual([]);
});

describe("khal, fed by vdirsyncer", () => {
  const subscription = join(folder, "subscription");

  test("vdirsyncer fetches every feed without a warning", async () => {
    const names = feeds.map(({ name }) => name);
    const { printed } = await subscribe(names, feedFolder, subscription, "Pacific/Auckland");
    expect(printed).toBe("");
  });

  test.each([
    { hostZone: "Pacific/Auckland", shownIn: { zone: "UTC", offset: 0 } },
    { hostZone: "America/New_York", shownIn: { zone: "Asia/Kolkata", offset: 5.5 * HOUR } },
  ])("khal shows every event in $shownIn.zone on a host in $hostZone", async ({ hostZone, shownIn }) => {
    const days = feeds
      .flatMap(({ events }) => events.flatMap(({ start, end }) => [start, end]))
      .map((when) => (typeof when === "number" ? new Date(when * 1000).toISOString().slice(0, 10) : when))
      .filter((when) => when !== null)
      .sort();
    const [from = "", to = ""] = [days[0], days.at(-1)];
    const dayBefore = new Date(Date.parse(from) - 24 * HOUR * 1000).toISOString().slice(0, 10);
    const dayAfter = new Date(Date.parse(to) + 24 * HOUR * 1000).toISOString().slice(0, 10);
    const { printed, feeds: listed } = await listWithKhal(subscription, shownIn, hostZone, dayBefore, dayAfter);
    expect(printed).toBe("");
    const differences = feeds.flatMap(({ name, isTasks, events }) => {
      // khal shows events, and of tasks nothing.
      const wanted = events.filter(({ start }) => start !== null && !isTasks);
      return compareUnnamed(name, wanted, listed.get(name) ?? []);
    });
    expect(few(differences)).toEqual([]);
  });
});
