/**
 * To what date something is kept, and by what date a request is answered. Sources beside the rows: the ICO's checklist for small
 * organisations, gov.uk's bank holidays, NHBF ("at least six years"), TC39 Temporal.
 */
import { expect, test } from "vitest";
import { loadHolidays } from "../../src/plan/holidays.ts";
import { answerBy } from "../../src/salon/answerBy.ts";
import { addPeriod, isCalendarPeriod } from "../../src/time/calendar.ts";
import { type Day, formatDay, parseDay } from "../../src/time/instant.ts";
import { Temporal } from "temporal-polyfill";
import * as fc from "fast-check";

const day = (text: string): Day => parseDay(text) as Day;
const england = new Set((await loadHolidays("GB", "ENG", 2025, 2029)).salon.map((each) => each.day));
const inEngland = (each: Day): boolean => england.has(each);
const noWeekends = (received: string): string => {
  // The ICO's own examples leave weekdays aside: the corresponding date is what they print.
  const due = answerBy(day(received), () => false);
  return formatDay(due);
};

test("a request is answered by the same day of the next month, or that month's last (ICO, Time to respond)", () => {
  // ICO SME checklist: received 3 September, answered by 3 October. In 2025 that is a Friday.
  expect(noWeekends("2025-09-03")).toBe("2025-10-03");
  // schoolspeople.co.uk on the ICO's rule: 31 January gives 28 or 29 February. 2025 and 2028: a Friday and a Tuesday.
  expect(noWeekends("2025-01-31")).toBe("2025-02-28");
  expect(noWeekends("2028-01-31")).toBe("2028-02-29");
});

test("where that is a weekend or a public holiday, by the next working day (ICO's rule; gov.uk bank holidays)", () => {
  expect(formatDay(answerBy(day("2026-09-03"), inEngland))).toBe("2026-10-05");
  expect(formatDay(answerBy(day("2026-11-25"), inEngland))).toBe("2026-12-29");
  expect(formatDay(answerBy(day("2026-03-03"), inEngland))).toBe("2026-04-07");
});

test("a test signed on 15 June 2026 is kept through 15 June 2032 (NHBF: at least six years)", () => {
  expect(formatDay(addPeriod(day("2026-06-15"), "P6Y"))).toBe("2032-06-15");
});

test("a period is added as Temporal adds it: years and months first, to the last day of a shorter month, then days", () => {
  const periods = fc.tuple(fc.nat(20), fc.nat(30), fc.nat(60), fc.nat(400));
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 60_000 }), periods, (begin, [years, months, weeks, days]) => {
      const period = `P${years}Y${months}M${weeks}W${days}D`;
      expect(isCalendarPeriod(period)).toBe(true);
      const expected = Temporal.PlainDate.from(formatDay(begin)).add({ years, months }).add({ weeks, days });
      expect(formatDay(addPeriod(begin, period))).toBe(expected.toString());
    }),
  );
});

test.each(["P", "6Y", "PT48H", "P-1Y", "P1.5Y", "P1D1Y", ""])("%j is no calendar period", (text) => {
  expect(isCalendarPeriod(text)).toBe(false);
});
