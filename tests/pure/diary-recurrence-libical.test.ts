/**
 * The rules of libical's public test list, among them nearly every example of RFC 5545 §3.8.5.3, read by the first reader
 * and by the whole line with its second one.
 */
import { expect, test } from "vitest";
import { UTC_CLOCK } from "../../src/diary/clock.ts";
import { expandLine } from "../../src/diary/expandLine.ts";
import { allSteps, expandRule } from "../../src/diary/expandRule.ts";
import type { CertainStart, Occurrence } from "../../src/diary/expandSeries.ts";
import { parseRule } from "../../src/diary/parseRule.ts";
import { DAY_SECONDS, dayOf, midnight, type Wall } from "../../src/time/instant.ts";
import { LIBICAL_CASES } from "../recurrence/libical-cases.ts";
import { readInstances, wallOf } from "../recurrence/written-instances.ts";

/** The farthest instance of the list is of 2093. */
const REACH = 100 * 366 * DAY_SECONDS;

const wallsOf = (occurrences: readonly Occurrence[]): Wall[] =>
  occurrences.map((each) => (each.kind === "time" ? each.wall : midnight(each.day)));

const startOf = (start: string): CertainStart => {
  const wall = wallOf(start);
  if (!start.includes("T")) return { kind: "date", day: dayOf(wall) };
  return { kind: "time", at: wall, wall, clock: UTC_CLOCK, floating: false };
};

/**
 * What the list expects, with the start in front: libical's iterator leaves out a start that its rule does not name, where
 * RFC 5545 §3.3.10 has it count "as the first occurrence". The last of a COUNT is then in dispute.
 */
const expectedOf = (rule: string, start: string, instances: string): Wall[] => {
  const listed = readInstances(start, instances);
  if (listed[0] === wallOf(start)) return listed;
  const count = /COUNT=(\d+)/.exec(rule)?.[1];
  return [wallOf(start), ...listed].slice(0, count === undefined ? undefined : Number(count));
};

/** Where the readings of RFC 5545 itself differ, and libical has the other one: see the test below. */
const isOpen = (rule: string): boolean => /^FREQ=YEARLY;BYMONTHDAY=[^;]*;COUNT=\d+$/.test(rule);

const cases = LIBICAL_CASES.filter(({ rule }) => !isOpen(rule));

test("the list is read as a whole: 150 rules, two of them open", () => {
  expect(LIBICAL_CASES).toHaveLength(150);
  expect(cases).toHaveLength(148);
});

test.each(cases)("$rule from $start", ({ rule, start, instances }) => {
  const from = wallOf(start);
  const expected = expectedOf(rule, start, instances);
  const reading = expandLine(rule, startOf(start), from, from + REACH, allSteps(), true);
  if (typeof reading === "string") throw new Error(reading);
  expect(wallsOf(reading.agreed)).toEqual(expected);
  expect(wallsOf(reading.disputed)).toEqual(readInstances(start, instances).filter((wall) => !expected.includes(wall)));
});

test.each(cases.filter(({ rule, start }) => start.includes("T") && !rule.includes("UNTIL")))(
  "$rule from $start is the same from any day on",
  ({ rule, start, instances }) => {
    const read = parseRule(rule);
    if (typeof read === "string") throw new Error(read);
    const expected = expectedOf(rule, start, instances);
    for (const from of [expected[1], expected.at(-1)]) {
      if (from === undefined) continue;
      const found = expandRule(read, wallOf(start), null, from, (expected.at(-1) as Wall) + 1);
      expect(found).toEqual(expected.filter((wall) => wall >= from));
    }
  },
);

test.each(LIBICAL_CASES.filter(({ rule }) => isOpen(rule)))(
  "$rule from $start: each month by the table of RFC 5545, the start's month by libical; only what both have is certain",
  ({ rule, start, instances }) => {
    const from = wallOf(start);
    const endless = rule.replace(/;COUNT=\d+/, "");
    const listed = readInstances(start, instances);
    const reading = expandLine(endless, startOf(start), from, (listed.at(-1) as Wall) + 1, allSteps(), true);
    if (typeof reading === "string") throw new Error(reading);
    expect(wallsOf(reading.agreed)).toEqual(listed);
    expect(reading.disputed.length).toBeGreaterThan(listed.length * 5);
    expect(reading.answers?.map((answer) => answer.length)).toEqual([
      listed.length + reading.disputed.length,
      listed.length,
    ]);
  },
);
