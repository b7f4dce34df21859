/** Lengths that settings are refused for, each with its own reason and what to write instead (counting.md 1, 7). */
import { describe, expect, test } from "vitest";
import { own, refusalsOf } from "./refused-settings.ts";

describe("lengths", () => {
  // RFC 5545 §3.3.6 has whole numbers, each with its letter; the remedies are reckoned by hand.
  test.each([
    ["PT", "not-a-duration", "PT followed by hours", "write one such as PT48H or PT30M"],
    ["PT48H30", "not-a-duration", "PT followed by hours", "write one such as PT48H or PT30M"],
    ["", "not-a-duration", "not empty", "write one such as PT48H or PT30M"],
    ["  ", "not-a-duration", "not empty", "write one such as PT48H or PT30M"],
    ["48h", "not-a-duration", "not 48h", "write PT48H"],
    ["30 minutes", "not-a-duration", "not 30 minutes", "write PT30M"],
    ["pt48h", "not-a-duration", "not pt48h", "write PT48H"],
    ["+PT48H", "not-a-duration", "not +PT48H", "write PT48H"],
    ["-PT48H", "negative-duration", "never negative", "write PT48H"],
    ["-PT1.5H", "negative-duration", "never negative", "leave out the minus sign"],
    ["PT1.5H", "fractional-duration", "fraction", "write PT1H30M"],
    ["PT1,1H", "fractional-duration", "fraction", "write PT1H6M"],
    ["PT0.5S", "fractional-duration", "fraction", "write it in whole seconds"],
    ["PT9601H", "duration-too-long", "at most PT9600H", "write a shorter one"],
    ["PT9999999H", "duration-too-long", "400 days", "write a shorter one"],
    ["PT9600H1S", "duration-too-long", "400 days", "write a shorter one"],
  ])("%j as a lead is %s and nothing is said of the clocks", (least, code, says, remedy) => {
    const [found, ...others] = refusalsOf(own({ lead: { least } }));
    expect(others).toEqual([]);
    expect([found?.code, found?.value]).toEqual([code, least]);
    expect(found?.text).toMatch(/^protocols\.own\.lead\.least must be /);
    for (const part of [says, remedy]) expect(found?.text).toContain(part);
    expect(found?.text).not.toContain("clocks");
  });
  test.each([
    ["P2D", "PT48H"],
    ["P1W", "PT168H"],
    ["P1DT12H", "PT36H"],
    ["P1M", "hours, such as PT48H"],
    ["P1Y", "hours, such as PT48H"],
    ["-P2D", "hours, such as PT48H"],
  ])("%s hangs on the calendar, and %s is what to write", (least, remedy) => {
    const [found] = refusalsOf(own({ lead: { least } }));
    expect(found?.code).toBe("not-exact-hours");
    expect(found?.text).toContain("47 hours when the clocks go forward");
    expect(found?.remedy).toContain(`write ${remedy}`);
  });
  test("400 days of hours is the longest length there is", () => {
    expect(refusalsOf({ lastWalkIn: "PT9600H" })).toEqual([]);
  });
  test.each<[string, Record<string, unknown>]>([
    ["protocols.own.lead.least", { lead: { least: "PT0H" } }],
    ["protocols.own.lead.most", { lead: { least: "PT48H", most: "PT0M" } }],
    ["protocols.own.wear", { wear: "PT0H" }],
    ["protocols.own.removeWithin", { removeWithin: "PT0S" }],
    ["protocols.own.readings[0].after", { readings: [{ after: "PT0H" }] }],
    ["protocols.own.readings[0].within", { readings: [{ after: "PT48H", within: "PT0H" }] }],
  ])("no time at all is refused for %s", (at, protocol) => {
    const found = refusalsOf(own(protocol));
    expect(found.map((each) => [each.at, each.code])).toEqual([[at, "no-length"]]);
    expect(found[0]?.text).toMatch(/must be longer than nothing, not PT0[HMS]: .+; write one such as PT\d+[HM]\.$/);
  });
  test("a margin and a last walk-in may be no time at all; a screening must open before it is due", () => {
    const walkIn = { route: "in-salon", protocol: "salon-48h" };
    expect(refusalsOf({ lastWalkIn: "PT0H", tests: [{ ...walkIn, screening: { margin: "PT0H" } }] })).toEqual([]);
    const shut = refusalsOf({ tests: [{ ...walkIn, screening: { opens: "PT0H" } }] });
    expect(shut.map((each) => [each.at, each.code])).toEqual([["tests[0].screening.opens", "no-length"]]);
  });
});
