/** Laws of repetition: against a reckoning day by day that shares no code, and against rules that mean harm. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { OCCURRENCES_MAX } from "../../src/bounds.ts";
import { expandRule } from "../../src/diary/expandRule.ts";
import { parseRule, type Rule } from "../../src/diary/parseRule.ts";
import { DAY_SECONDS, HOUR, type Wall } from "../../src/time/instant.ts";
import { randomRule } from "../recurrence/random-rule.ts";
import { walkEveryHour } from "../recurrence/walk-every-hour.ts";

const ruleOf = (text: string): Rule => {
  const rule = parseRule(text);
  if (typeof rule === "string") throw new Error(`${text}: ${rule}`);
  return rule;
};
const utc = (...parts: [number, number, number]): Wall => Date.UTC(parts[0], parts[1] - 1, parts[2]) / 1000;
const FROM = utc(2026, 11, 1);
const TO = utc(2027, 12, 6);

const DAYS = ["SU", "MO", "TU", "WE", "TH", "FR", "SA"] as const;
const weeksBetween = (first: Date, second: Date): number => {
  const monday = (date: Date): number => Math.floor(date.getTime() / 86_400_000) - ((date.getUTCDay() + 6) % 7);
  return (monday(second) - monday(first)) / 7;
};
const monthsBetween = (first: Date, second: Date): number =>
  (second.getUTCFullYear() - first.getUTCFullYear()) * 12 + second.getUTCMonth() - first.getUTCMonth();

/** Walks day by day from the start and asks each day whether the rule means it (RFC 5545 §3.3.10). */
const walk = (
  freq: "DAILY" | "WEEKLY" | "MONTHLY",
  interval: number,
  by: { readonly days: readonly string[]; readonly dates: readonly number[] },
  count: number | null,
  start: Wall,
): Wall[] => {
  const first = new Date(start * 1000);
  const found: Wall[] = [start];
  const most = count ?? Number.POSITIVE_INFINITY;
  for (let wall = start + DAY_SECONDS; wall < TO && found.length < most; wall += DAY_SECONDS) {
    const day = new Date(wall * 1000);
    const steps =
      freq === "DAILY"
        ? (wall - start) / DAY_SECONDS
        : freq === "WEEKLY"
          ? weeksBetween(first, day)
          : monthsBetween(first, day);
    if (steps % interval !== 0) continue;
    const named = DAYS[day.getUTCDay()] as string;
    const dayFits =
      by.days.length > 0 ? by.days.includes(named) : freq !== "WEEKLY" || day.getUTCDay() === first.getUTCDay();
    const dateFits =
      by.dates.length > 0
        ? by.dates.includes(day.getUTCDate())
        : freq !== "MONTHLY" || by.days.length > 0 || day.getUTCDate() === first.getUTCDate();
    if (dayFits && dateFits) found.push(wall);
  }
  return found.filter((wall) => wall >= FROM && wall < TO);
};

test("rules give what a walk day by day gives, however long before the horizon they began", () => {
  const cases = fc.record({
    freq: fc.constantFrom("DAILY", "WEEKLY", "MONTHLY"),
    interval: fc.integer({ min: 1, max: 5 }),
    days: fc.subarray([...DAYS], { maxLength: 4 }),
    dates: fc.subarray([1, 2, 15, 28, 29, 30, 31], { maxLength: 3 }),
    count: fc.option(fc.integer({ min: 1, max: 400 }), { nil: null }),
    daysAgo: fc.integer({ min: -100, max: 4_000 }),
  });
  fc.assert(
    fc.property(cases, ({ freq, interval, days, dates, count, daysAgo }) => {
      const by = { days, dates: freq === "WEEKLY" ? [] : dates };
      const start = FROM - daysAgo * DAY_SECONDS + 10 * HOUR;
      const parts = [
        `FREQ=${freq};INTERVAL=${interval}`,
        ...(days.length > 0 ? [`BYDAY=${days.join(",")}`] : []),
        ...(by.dates.length > 0 ? [`BYMONTHDAY=${by.dates.join(",")}`] : []),
        ...(count === null ? [] : [`COUNT=${count}`]),
      ];
      expect(expandRule(ruleOf(parts.join(";")), start, null, FROM, TO)).toEqual(
        walk(freq, interval, by, count, start),
      );
    }),
    { numRuns: 200 },
  );
});

test("rules of every part give what a walk hour by hour gives, each part asked by its definition in RFC 5545 §3.3.10", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 ** 31 }), (seed) => {
      const { text, start, days } = randomRule(seed);
      const end = start + Math.min(days, 800) * DAY_SECONDS;
      expect(expandRule(ruleOf(text), start, null, start, end, 100_000), text).toEqual(walkEveryHour(text, start, end));
    }),
    { numRuns: Number(process.env["RULE_RUNS"] ?? 150), seed: Number(process.env["RULE_SEED"] ?? Date.now()) },
  );
});

test("a window in the middle of a rule holds what the whole of it holds there", () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 ** 31 }), fc.integer({ min: 0, max: 700 }), (seed, daysLater) => {
      const { text, start } = randomRule(seed);
      const rule = ruleOf(text);
      const from = start + daysLater * DAY_SECONDS;
      const to = from + 60 * DAY_SECONDS;
      const whole = expandRule(rule, start, null, start, to, 100_000);
      if (typeof whole === "string") throw new Error(whole);
      expect(expandRule(rule, start, null, from, to, 100_000), text).toEqual(whole.filter((wall) => wall >= from));
    }),
    { numRuns: 300 },
  );
});

test("the last week of a year is whole where it reaches into the year of the start (ISO 8601: 1 January 2027 is in week 53 of 2026)", () => {
  const text = "FREQ=YEARLY;BYWEEKNO=53;BYDAY=FR,SA,SU";
  const start = utc(2027, 1, 1);
  const found = expandRule(ruleOf(text), start, null, start, utc(2034, 1, 1));
  expect(found).toEqual([
    ...[1, 2, 3].map((day) => utc(2027, 1, day)),
    utc(2032, 12, 31),
    ...[1, 2].map((day) => utc(2033, 1, day)),
  ]);
  expect(walkEveryHour(text, start, utc(2034, 1, 1))).toEqual(found);
});

test("a rule ends with its UNTIL, that very second included", () => {
  const start = utc(2026, 12, 1);
  const daily = ruleOf("FREQ=DAILY");
  expect(expandRule(daily, start, start + 2 * DAY_SECONDS, FROM, TO)).toHaveLength(3);
  expect(expandRule(daily, start, start + 2 * DAY_SECONDS - 1, FROM, TO)).toHaveLength(2);
  expect(expandRule(daily, start, start - 1, FROM, TO)).toEqual([]);
});

test("a rule with more occurrences than any diary has is stopped", () => {
  expect(expandRule(ruleOf("FREQ=HOURLY"), FROM, null, FROM, TO)).toBe("too-many-occurrences");
  expect(expandRule(ruleOf("FREQ=HOURLY;INTERVAL=24"), FROM, null, FROM, TO)).toHaveLength(400);
  expect(OCCURRENCES_MAX).toBeGreaterThan(400);
});

test("a minute-by-minute rule is read where it is no denser than any other", () => {
  const daily = expandRule(ruleOf("FREQ=DAILY"), FROM, null, FROM, TO);
  expect(expandRule(ruleOf("FREQ=MINUTELY;INTERVAL=1440"), FROM, null, FROM, TO)).toEqual(daily);
  expect(expandRule(ruleOf("FREQ=SECONDLY;INTERVAL=86400"), FROM, null, FROM, TO)).toEqual(daily);
  expect(expandRule(ruleOf("FREQ=MINUTELY;COUNT=3"), FROM, null, FROM, TO)).toEqual([FROM, FROM + 60, FROM + 120]);
  expect(expandRule(ruleOf("FREQ=SECONDLY"), FROM, null, FROM, TO)).toBe("too-many-occurrences");
});

const numbersOf = (from: number, to: number): string =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index).join(",");

test.each([
  [`FREQ=DAILY;BYHOUR=${numbersOf(0, 23)};BYMINUTE=${numbersOf(0, 59)};BYSECOND=${numbersOf(0, 59)}`, "rule-too-dense"],
  ["FREQ=DAILY;BYSETPOS=0", "rule-not-read"],
  ["FREQ=DAILY;INTERVAL=0", "rule-not-read"],
  ["FREQ=DAILY;COUNT=0", "rule-not-read"],
  ["FREQ=WEEKLY;BYDAY=XX", "rule-not-read"],
  ["FREQ=MONTHLY;BYDAY=0MO", "rule-not-read"],
  ["FREQ=DAILY;WKST=XX", "rule-not-read"],
  ["FREQ=DAILY;FREQ=WEEKLY", "rule-not-read"],
  ["INTERVAL=2", "rule-not-read"],
  ["", "rule-not-read"],
  ["FREQ=YEARLY;RSCALE=HEBREW", "rule-not-supported"],
  ["FREQ=YEARLY;RSCALE=GREGORIAN;SKIP=SIDEWAYS", "rule-not-supported"],
  ["FREQ=MONTHLY;RSCALE=GREGORIAN;SKIP=FORWARD;BYMONTHDAY=31;BYDAY=MO", "rule-not-supported"],
  ["FREQ=DAILY;BYEASTER=0", "rule-not-supported"],
  // What RFC 5545 §3.3.10 says "MUST NOT" of, and readers take in different ways.
  ["FREQ=WEEKLY;BYMONTHDAY=15", "rule-not-supported"],
  ["FREQ=WEEKLY;BYDAY=1MO", "rule-not-supported"],
  ["FREQ=YEARLY;BYWEEKNO=20;BYDAY=1MO", "rule-not-supported"],
  ["FREQ=MONTHLY;BYWEEKNO=20", "rule-not-supported"],
  ["FREQ=DAILY;BYYEARDAY=100", "rule-not-supported"],
])("%s is refused: %s", (text, fault) => {
  expect(parseRule(text)).toBe(fault);
});

const [long, ago] = [";COUNT=4000000000", utc(1900, 1, 1)];

test.each([
  // node-ical's issue 542: 31,536,000 times in a year fill the memory of an engine that builds them first.
  [
    `FREQ=YEARLY;COUNT=1;BYMONTH=${numbersOf(1, 12)};BYMONTHDAY=${numbersOf(1, 31)};BYHOUR=${numbersOf(0, 23)};BYMINUTE=${numbersOf(0, 59)}`,
    FROM,
    1,
  ],
  // ical.js 2.2.1 never returns from this one (libical's list has it).
  ["FREQ=DAILY;BYMONTHDAY=-1,-2;COUNT=5", utc(2026, 11, 30), 5],
  ["FREQ=DAILY", ago, 400],
  [`FREQ=DAILY${long}`, ago, 400],
  [`FREQ=DAILY;BYDAY=MO${long}`, ago, 57],
  [`FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1${long}`, ago, 13],
  [`FREQ=HOURLY;BYHOUR=10${long}`, ago, 400],
  [`FREQ=YEARLY;BYYEARDAY=${numbersOf(1, 366)};BYSETPOS=1`, ago, 1],
  [`FREQ=YEARLY;BYDAY=MO,TU,WE,TH,FR,SA,SU;BYMONTH=${numbersOf(1, 12)};BYMONTHDAY=${numbersOf(1, 31)}`, ago, 400],
  ["FREQ=DAILY;INTERVAL=999999999", FROM - HOUR, 0],
  ["FREQ=YEARLY;INTERVAL=999999999999", FROM - HOUR, 0],
  [`FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30;COUNT=5`, ago, 0],
  [`FREQ=SECONDLY;BYMONTH=2;BYMONTHDAY=30;COUNT=5`, ago, 0],
  ["FREQ=YEARLY;BYWEEKNO=53;BYMONTH=6", ago, 0],
])("%s is read in bounded time", (text, start, many) => {
  const began = performance.now();
  const found = expandRule(ruleOf(text), start, null, FROM, TO);
  // Each took less than 100 ms on a busy machine, most less than 30; a slow machine must not fail them.
  expect(performance.now() - began).toBeLessThan(2_000);
  expect(found).toHaveLength(many);
});

test.each([
  // Days looked at: a window of 400 and its neighbours, however long ago the rule began; a counted rule is counted from there.
  ["FREQ=DAILY", 403],
  ["FREQ=DAILY;BYMONTHDAY=-1", 403],
  ["FREQ=WEEKLY;BYDAY=TU", 60],
  ["FREQ=MONTHLY", 500],
  ["FREQ=MONTHLY;BYDAY=MO,TU,WE;BYSETPOS=-1", 500],
  ["FREQ=YEARLY;BYMONTH=12;BYDAY=2TU", 4 * 31],
  ["FREQ=YEARLY;BYWEEKNO=20", 5 * 371],
  ["FREQ=HOURLY;BYHOUR=10", 2 * 403],
])("%s from 1900 looks at no more than %i days or times of its window", (text, most) => {
  const steps = { left: 1_000_000, leftAgain: 0 };
  expect(expandRule(ruleOf(text), ago, null, FROM, TO, OCCURRENCES_MAX, steps)).not.toHaveLength(0);
  expect(1_000_000 - steps.left).toBeLessThanOrEqual(most);
});

test("what would take longer is stopped by its steps, not by a clock", () => {
  const endless = ruleOf("FREQ=SECONDLY;BYHOUR=1;BYMINUTE=2;BYSECOND=3,9;INTERVAL=7;COUNT=4000000000");
  const steps = { left: 1_000, leftAgain: 0 };
  expect(expandRule(endless, ago, null, FROM, TO, OCCURRENCES_MAX, steps)).toBe("rule-runs-away");
  expect(steps.left).toBeLessThan(0);
});

test("no rule that is let through keeps the reader for long, be it sparse, enormous or never met", {
  timeout: 30_000,
}, () => {
  const numbers = (least: number, most: number): fc.Arbitrary<string> =>
    fc.array(fc.integer({ min: least, max: most }), { minLength: 1, maxLength: 12 }).map((list) => list.join(","));
  const part = fc.oneof(
    numbers(-31, 31).map((list) => `BYMONTHDAY=${list}`),
    numbers(1, 12).map((list) => `BYMONTH=${list}`),
    numbers(-53, 53).map((list) => `BYWEEKNO=${list}`),
    numbers(-366, 366).map((list) => `BYYEARDAY=${list}`),
    numbers(-366, 366).map((list) => `BYSETPOS=${list}`),
    numbers(0, 23).map((list) => `BYHOUR=${list}`),
    numbers(0, 59).map((list) => `BYMINUTE=${list}`),
    fc.constantFrom(
      "BYDAY=MO",
      "BYDAY=5MO,-5TU",
      "BYDAY=-53SU",
      "COUNT=5",
      "COUNT=100000",
      "INTERVAL=7",
      "INTERVAL=999999999",
    ),
  );
  const rule = fc
    .tuple(
      fc.constantFrom("YEARLY", "MONTHLY", "WEEKLY", "DAILY", "HOURLY", "MINUTELY", "SECONDLY"),
      fc.array(part, { maxLength: 4 }),
    )
    .map(([freq, parts]) => `FREQ=${freq};${parts.join(";")}`);
  fc.assert(
    fc.property(rule, fc.constantFrom(utc(1970, 1, 1), utc(2016, 2, 29), utc(2026, 12, 11)), (text, start) => {
      const read = parseRule(text);
      if (typeof read === "string") return;
      const began = performance.now();
      const found = expandRule(read, start, null, FROM, TO);
      // Steps bound it to a tenth of a second; without the bounds some never end.
      expect(performance.now() - began).toBeLessThan(2_000);
      if (typeof found !== "string") expect(found.length).toBeLessThanOrEqual(OCCURRENCES_MAX);
    }),
    { numRuns: 500 },
  );
});
