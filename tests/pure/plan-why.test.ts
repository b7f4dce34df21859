/**
 * Reasons that a front desk asks for: which shut day moved what, which route closed and which still fits, whose region is
 * missing. Holidays as gov.uk publishes them for England and Wales and for Scotland; the post's rule is Directive
 * 97/67/EC, Annex II (D + n, n working days); leads are the presets' (NHBF and others; the home kit's: common practice, no
 * source). The dates in the sentences are reckoned by hand from those.
 */
import { describe, expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { loadHolidays } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { parseInstant, type Instant } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const at = (text: string): Instant => parseInstant(text) as Instant;

const rulesOf = async (region: string | null, more: Readonly<Record<string, unknown>> = {}): Promise<Rules> => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: "Europe/London",
    country: "GB",
    holidays: { region },
    opening: Object.fromEntries(["mon", "tue", "wed", "thu", "fri", "sat"].map((day) => [day, ["09:00-17:30"]])),
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    ...more,
  });
  const compiled = compileRules(settings, await loadHolidays("GB", region, 2025, 2029), "salon");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  return compiled.rules;
};
const england = await rulesOf("ENG");

const planAt = (start: string, now: string, rules = england, facts: readonly Fact[] = []): Plan =>
  countBack({ booking: bookingAt(at(start)), facts, samePerson: true, now: at(now) }, rules);
const said = (plan: Plan, code: string): string | undefined => plan.why.find((why) => why.code === code)?.text;

describe("which shut day moved what", () => {
  test("Good Friday takes a day from the post: three delivery days to Saturday 4 April begin on Tuesday", () => {
    // Application Sun 5 April, in hand Sat 4 by 18:00. Wed 1, Thu 2, Sat 4 are the three days; with a Friday, Thu, Fri, Sat.
    const plan = planAt("2026-04-10T09:30:00Z", "2026-03-20T10:00:00Z");
    expect(said(plan, "shipping-moved")).toBe(
      "Fri 3 Apr (Good Friday): no post. Posting the kit is due Tue 31 Mar, 16:30 instead of Wed 1 Apr, 16:30.",
    );
  });

  test("Christmas and both Boxing days move the walk-in that a lost kit would need, and with it the posting", () => {
    // Walk-in for Wed 30 Dec 10:30: Mon 28 is shut, so Thu 24; the kit must be there before Thu 24 opens.
    const plan = planAt("2026-12-30T10:30:00Z", "2026-12-01T10:00:00Z");
    expect(said(plan, "shipping-moved")).toBe(
      "Fri 25 Dec (Christmas Day), Sat 26 Dec (Boxing Day) and Mon 28 Dec (Boxing Day, substitute day): the salon is shut. Posting the kit is due Fri 18 Dec, 16:30 instead of Mon 21 Dec, 16:30.",
    );
  });

  test("days off move the last walk-in and the result", async () => {
    const rules = await rulesOf("ENG", {
      closed: ["2026-12-24/2026-12-29"],
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    const plan = planAt("2026-12-30T10:30:00Z", "2026-12-01T10:00:00Z", rules);
    expect(said(plan, "application-moved")).toBe(
      "Thu 24 Dec to Mon 28 Dec (days off): the salon is shut. The last walk-in is due Wed 23 Dec, 17:00 instead of Mon 10:30.",
    );
    expect(said(plan, "result-moved")).toBe(
      "Tue 29 Dec (days off): the salon is shut. The result is due Wed 10:30 instead of Tue 17:30.",
    );
  });

  test("holiday hours are said as other hours, and a day that moves nothing is not said", async () => {
    const rules = await rulesOf("ENG", {
      opening: { mon: ["09:00-17:30"], tue: ["09:00-17:30"], wed: ["09:00-17:30"], holiday: ["09:00-10:00"] },
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    // Walk-in for Wed 8 April 10:30: Easter Monday, 09:00 to 10:00, half an hour before closing.
    const plan = planAt("2026-04-08T09:30:00Z", "2026-04-01T10:00:00Z", rules);
    expect(said(plan, "application-moved")).toBe(
      "Mon 6 Apr (Easter Monday): the salon keeps other hours. The last walk-in is due Mon 09:30 instead of Mon 10:30.",
    );
    expect(planAt("2026-06-24T09:30:00Z", "2026-06-01T10:00:00Z", rules).why.map(({ code }) => code)).toEqual([
      "screening-due",
    ]);
  });

  test("nothing is said of a step that is done", () => {
    const posted = makeFact({ kind: "posted", at: at("2026-03-30T10:00:00Z") });
    const plan = planAt("2026-04-10T09:30:00Z", "2026-03-30T12:00:00Z", england, [posted]);
    expect(said(plan, "shipping-moved")).toBeUndefined();
  });

  test("a region's day off says that the region is missing, and with the region set it does not", async () => {
    // Scotland's summer bank holiday, Monday 3 August 2026 (gov.uk).
    const unset = planAt("2026-08-07T09:30:00Z", "2026-07-10T10:00:00Z", await rulesOf(null));
    expect(said(unset, "region-missing")).toMatch(
      /^Mon 3 Aug \(Summer bank holiday\) is a holiday in part of the country/,
    );
    for (const region of ["ENG", "SCT"]) {
      const plan = planAt("2026-08-07T09:30:00Z", "2026-07-10T10:00:00Z", await rulesOf(region));
      expect(said(plan, "region-missing")).toBeUndefined();
    }
  });
});

describe("which route closed, and which still fits", () => {
  test("past the last post the walk-in takes over and says so, with both moments", () => {
    // Colour Fri 11 Dec 10:30. Kit on by Sun 6, in hand Sat 5: Wed 2 Dec, 16:30. Walk-in by Wed 9, 10:30.
    const plan = planAt("2026-12-11T10:30:00Z", "2026-12-02T16:30:01Z");
    expect(plan.route).toBe("in-salon");
    expect(said(plan, "fell-over")).toBe(
      "The last post for the kit was Wed 2 Dec, 16:30; a walk-in test by Wed 10:30 still fits.",
    );
    expect(said(planAt("2026-12-11T10:30:00Z", "2026-12-02T16:30:00Z"), "fell-over")).toBeUndefined();
  });

  test("a requested route that has closed is said, though it is not the salon's first", async () => {
    const asked = makeFact({ kind: "route", at: at("2026-12-01T10:00:00Z"), route: "in-salon" });
    const short = { lead: { least: "PT1H" }, readings: [{ after: "PT30M" }] };
    const rules = await rulesOf("ENG", {
      protocols: { short: { ...short, source: { note: "invented for this test" } } },
      tests: [
        { route: "home-kit", protocol: "short" },
        { route: "in-salon", protocol: "salon-48h" },
      ],
      post: { transit: 1 },
    });
    const plan = planAt("2026-12-11T10:30:00Z", "2026-12-09T10:30:01Z", rules, [asked]);
    expect(plan.route).toBe("home-kit");
    // On by Friday 09:30, so in hand on Thursday 18:00, so posted on Wednesday 9 by 16:30.
    expect(said(plan, "fell-over")).toBe(
      "The last walk-in for the skin test was Wed 10:30; a kit handed to the post by Wed 16:30 still fits.",
    );
  });

  test("silence in its grace is no falling over: nothing has taken the walk-in's place", () => {
    const plan = planAt("2026-12-11T10:30:00Z", "2026-12-09T10:30:01Z");
    expect(plan.standing).toBe("late");
    expect(said(plan, "fell-over")).toBeUndefined();
    expect(said(plan, "not-recorded")).toMatch(/^Nothing is recorded. The last moment for it was Wed 10:30./);
  });

  test("a posted kit that comes too late hands over to the walk-in", () => {
    const posted = makeFact({ kind: "posted", at: at("2026-12-04T10:00:00Z") });
    const plan = planAt("2026-12-11T10:30:00Z", "2026-12-04T12:00:00Z", england, [posted]);
    expect(said(plan, "fell-over")).toBe(
      "The posted kit comes too late to go on; a walk-in test by Wed 10:30 still fits.",
    );
  });

  test("no sentence of a reason promises anything", () => {
    for (const now of [
      "2026-11-20T10:00:00Z",
      "2026-12-04T10:00:00Z",
      "2026-12-10T10:00:00Z",
      "2026-12-12T10:00:00Z",
    ]) {
      for (const { text } of planAt("2026-12-11T10:30:00Z", now).why) {
        expect(text).toMatch(/^[A-Z].*[.?]$/);
        expect(text).not.toMatch(/\bsafe\b|guarantee|harmless/i);
      }
    }
  });
});
