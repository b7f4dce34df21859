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

  test("Easter Monday is not named where Good Friday alone took the day from the post", () => {
    // Kit on Mon 29 March, in hand Sat 27. Wed 24, Thu 25, Sat 27 are the three days; with a Friday, Thu, Fri, Sat.
    const plan = planAt("2027-04-03T09:00:00Z", "2027-03-01T10:00:00Z");
    expect(said(plan, "shipping-moved")).toBe(
      "Fri 26 Mar (Good Friday): no post. Posting the kit is due Tue 23 Mar, 16:30 instead of Wed 24 Mar, 16:30.",
    );
  });

  test("where no day alone moves the posting all that do together are named, each for what it is", async () => {
    const rules = await rulesOf("ENG", {
      opening: { tue: ["09:00-17:30"], thu: ["09:00-17:30"] },
      closed: ["2026-04-02"],
      tests: [{ route: "home-kit", protocol: "home-kit-120h" }],
    });
    // Kit on Wed 8, in hand Tue 7: Tue 7, Sat 4, Thu 2, so collected Wed 1, so handed over Tue 31 March at closing.
    // Nothing shut: Tue 7, Mon 6, Sat 4, so collected Fri 3, so handed over Thu 2 at closing. With Good Friday or Easter
    // Monday alone it is collected Thu 2, a day off; with Thu 2 alone it is collected Wed 1.
    const plan = planAt("2026-04-13T09:30:00Z", "2026-03-20T10:00:00Z", rules);
    expect(said(plan, "shipping-moved")).toBe(
      "Thu 2 Apr (days off): the salon is shut. Fri 3 Apr (Good Friday) and Mon 6 Apr (Easter Monday): no post. Posting the kit is due Tue 31 Mar, 17:30 instead of Thu 2 Apr, 17:30.",
    );
  });

  test("days off are named whole, over their Sunday, and a result that would be due then anyway is not said", async () => {
    const rules = await rulesOf("ENG", {
      closed: ["2026-12-24/2026-12-29"],
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    const plan = planAt("2026-12-30T10:30:00Z", "2026-12-01T10:00:00Z", rules);
    expect(said(plan, "application-moved")).toBe(
      "Thu 24 Dec to Tue 29 Dec (days off): the salon is shut. The last walk-in is due Wed 23 Dec, 17:00 instead of Mon 10:30.",
    );
    // On at Mon 10:30, the test would be looked at on Wed 10:30, the start: the result is due then either way.
    expect(said(plan, "result-moved")).toBeUndefined();
  });

  test("a Sunday that is shut anyway is not named, though a range of days off ends with it", async () => {
    const rules = await rulesOf("ENG", {
      closed: ["2026-11-14/2026-11-15"],
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    expect(said(planAt("2026-11-17T10:30:00Z", "2026-11-01T10:00:00Z", rules), "application-moved")).toBe(
      "Sat 14 Nov (days off): the salon is shut. The last walk-in is due Fri 17:00 instead of Sat 17:00.",
    );
  });

  test("a day off moves the result alone", async () => {
    const rules = await rulesOf("ENG", {
      closed: ["2026-11-17"],
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    // Wed 18 Nov 09:00: nobody walks in at Mon 09:00, so Sat 17:00; looked at from Mon 17:00, before that day's closing.
    const plan = planAt("2026-11-18T09:00:00Z", "2026-11-01T10:00:00Z", rules);
    expect(said(plan, "application-moved")).toBeUndefined();
    expect(said(plan, "result-moved")).toBe(
      "Tue 17 Nov (days off): the salon is shut. The result is due Mon 17:30 instead of Tue 17:30.",
    );
  });

  test("a day that the settings take from the post is named, where the salon has a day off then too", async () => {
    // Kit on Sun 6 Dec, in hand Sat 5: Thu 3, Fri 4, Sat 5, so collected Wed 2, or else Tue 1.
    for (const closed of [[], ["2026-12-02/2026-12-03"]]) {
      const rules = await rulesOf("ENG", { closed, post: { closed: ["2026-12-02"] } });
      expect(said(planAt("2026-12-11T10:30:00Z", "2026-11-20T10:00:00Z", rules), "shipping-moved")).toBe(
        "Wed 2 Dec (days off): no post. Posting the kit is due Tue 1 Dec, 16:30 instead of Wed 2 Dec, 16:30.",
      );
    }
  });

  test("holidays without post amid the salon's days off are named, and not the days on which there is post", async () => {
    const rules = await rulesOf("ENG", {
      closed: ["2026-12-24/2027-01-02"],
      tests: [{ route: "home-kit", protocol: "home-kit-120h" }],
    });
    // Kit on Thu 31 Dec, in hand Wed 30: Wed 30, Tue 29, Thu 24, so collected Wed 23. Nothing shut: Wed 30, Tue 29, Mon 28,
    // so collected Fri 25. With the salon alone open it is Wed 23 still; with any of the holidays alone it is collected
    // Thu 24, so handed over Wed 23 at closing.
    expect(said(planAt("2027-01-05T10:30:00Z", "2026-12-01T10:00:00Z", rules), "shipping-moved")).toBe(
      "Fri 25 Dec (Christmas Day), Sat 26 Dec (Boxing Day) and Mon 28 Dec (Boxing Day, substitute day): no post. Posting the kit is due Wed 23 Dec, 16:30 instead of Fri 25 Dec, 16:30.",
    );
  });

  test("days off are shut though holidays have hours", async () => {
    const week = Object.fromEntries(["mon", "tue", "wed", "thu", "fri", "sat"].map((day) => [day, ["09:00-17:30"]]));
    const rules = await rulesOf("ENG", {
      opening: { ...week, holiday: ["09:00-10:00"] },
      closed: ["2026-12-29/2027-01-02"],
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    // Walk-in by Sat 2 Jan 10:30; shut since Tue 29, so Mon 28, half an hour before that day's closing at 10:00.
    expect(said(planAt("2027-01-04T10:30:00Z", "2026-12-01T10:00:00Z", rules), "application-moved")).toBe(
      "Mon 28 Dec (Boxing Day, substitute day): the salon keeps other hours. Tue 29 Dec to Sat 2 Jan (days off): the salon is shut. The last walk-in is due Mon 28 Dec, 09:30 instead of Sat 10:30.",
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

  test("a night that ends in the due, and a day after the start, are found too", async () => {
    const night = await rulesOf("ENG", {
      opening: { mon: ["09:00-17:30"], tue: ["09:00-17:30"], holiday: ["20:00-24:00"] },
      lastWalkIn: "PT0H",
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    // By Tue 7 April 08:00, before the doors open: Easter Monday's midnight, or else its closing as on any Monday.
    expect(said(planAt("2026-04-09T07:00:00Z", "2026-04-01T10:00:00Z", night), "application-moved")).toBe(
      "Mon 6 Apr (Easter Monday): the salon keeps other hours. The last walk-in is due Tue 00:00 instead of Mon 17:30.",
    );
    const week = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].map((day) => [day, ["00:00-24:00"]]);
    const always = await rulesOf("ENG", {
      opening: Object.fromEntries(week),
      closed: ["2026-11-19"],
      lastWalkIn: "PT60H",
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
    });
    // Wed 18 Nov 23:00: by Mon 23:00, and 60 hours before the doors close on Wed at midnight, Mon 12:00.
    expect(said(planAt("2026-11-18T23:00:00Z", "2026-11-01T10:00:00Z", always), "application-moved")).toBe(
      "Thu 19 Nov (days off): the salon is shut. The last walk-in is due Mon 12:00 instead of Mon 23:00.",
    );
  });

  test("nothing is said of a step that is done", () => {
    const posted = makeFact({ kind: "posted", at: at("2026-03-30T10:00:00Z") });
    const plan = planAt("2026-04-10T09:30:00Z", "2026-03-30T12:00:00Z", england, [posted]);
    expect(said(plan, "shipping-moved")).toBeUndefined();
  });

  // Scotland's summer bank holiday, Monday 3 August 2026 (gov.uk).
  test("a region's day off says that the region is missing, and with the region set it does not", async () => {
    const [start, now] = ["2026-08-07T09:30:00Z", "2026-07-10T10:00:00Z"] as const;
    expect(said(planAt(start, now, await rulesOf(null)), "region-missing")).toBe(
      "Mon 3 Aug (Summer bank holiday) is a holiday in part of the country only, and the settings name no region: the post is taken to be shut then and the salon to be open. Set holidays.region.",
    );
    expect(said(planAt(start, now, await rulesOf("XYZ")), "region-unknown")).toBe(
      "Mon 3 Aug (Summer bank holiday) is a holiday in part of the country only, and the holiday data do not know the region in the settings: the post is taken to be shut then and the salon to be open. Set holidays.region.",
    );
    for (const region of ["ENG", "SCT"]) {
      const codes = planAt(start, now, await rulesOf(region)).why.map(({ code }) => code);
      expect(codes.filter((code) => code.startsWith("region-"))).toEqual([]);
    }
  });

  test("a region's day off is no matter of the post for a walk-in, and of nobody once the test is on", async () => {
    const rules = await rulesOf(null, { tests: [{ route: "in-salon", protocol: "salon-48h" }] });
    const start = "2026-08-05T09:30:00Z";
    expect(said(planAt(start, "2026-07-10T10:00:00Z", rules), "region-missing")).toBe(
      "Mon 3 Aug (Summer bank holiday) is a holiday in part of the country only, and the settings name no region: the salon is taken to be open then. Set holidays.region.",
    );
    const applied = makeFact({ kind: "applied", at: at("2026-08-03T09:00:00Z"), route: "in-salon" });
    const on = planAt(start, "2026-08-03T12:00:00Z", rules, [applied]);
    expect(on.steps.find(({ kind }) => kind === "application")?.state).toBe("done");
    expect(said(on, "region-missing")).toBeUndefined();
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
