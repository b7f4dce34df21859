/** What the second reader of rules is asked for is bounded by what it would build, before it builds it. Bounds of this project, no source. */
import { expect, test } from "vitest";
import { expandAgain } from "../../src/diary/expandAgain.ts";
import { allSteps } from "../../src/diary/expandRule.ts";
import { parseRule } from "../../src/diary/parseRule.ts";

const wall = (text: string): number => Date.parse(`${text}Z`) / 1000;
const END = wall("2027-12-01T00:00:00");

const ask = (text: string, start: string) => {
  const rule = parseRule(text);
  if (typeof rule === "string") throw new Error(rule);
  const steps = allSteps();
  const before = steps.leftAgain;
  const answer = expandAgain(rule, wall(start), null, END - 400 * 86_400, END, steps);
  return { answer, price: before - steps.leftAgain };
};

test("a counted rule costs what its periods hold, and one that holds too much is not asked about", () => {
  const weekdays = "FREQ=YEARLY;BYDAY=MO,TU,WE,TH,FR;BYHOUR=0,1,2,23;COUNT=1";
  expect(ask(weekdays, "1996-04-01T01:00:00")).toEqual({ answer: undefined, price: 0 });
  expect(ask(weekdays, "2020-04-01T01:00:00").answer).toEqual([]);
  const [few, many] = ["BYHOUR=9;COUNT=9000", "BYHOUR=9,10,11,12;COUNT=9000"].map((part) =>
    ask(`FREQ=MONTHLY;BYDAY=MO,WE;${part}`, "2020-04-01T09:00:00"),
  );
  expect(few?.answer?.length).toBeGreaterThan(100);
  expect(many?.answer?.length).toBe((few?.answer?.length ?? 0) * 4);
  expect(many?.price).toBeGreaterThan(few?.price ?? Number.POSITIVE_INFINITY);
});

test("a rule without a count is as cheap from long ago as from today, and is asked about", () => {
  const lastWorkingDay = ask("FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1", "1996-04-30T09:00:00");
  expect(lastWorkingDay.answer?.length).toBeGreaterThanOrEqual(13);
});
