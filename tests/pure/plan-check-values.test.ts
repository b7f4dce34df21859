/**
 * Counted back by hand or by a source outside this project: the source stands beside each row. Numbers (CP, C, D, T, K)
 * are those of the trade's check values; "common practice, no source" marks facts of the trade nobody has published.
 */
import { describe, expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { type HolidayTable, loadHolidays, NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan, Step, StepKind } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatInstant, type Instant, midnight, parseDay, parseWall } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const HOME_KIT = { route: "home-kit", protocol: "home-kit-120h" };
const WALK_IN = { route: "in-salon", protocol: ["salon-48h"] };

const rulesOf = (given: Record<string, unknown>, holidays: HolidayTable = NO_HOLIDAYS): Rules => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: "Europe/London",
    tests: [HOME_KIT, WALK_IN],
    ...given,
  });
  const compiled = compileRules(settings, holidays, "salon-of-the-check-values");
  if (!compiled.ok) throw new Error(compiled.refusals.map((each) => each.text).join("\n"));
  return compiled.rules;
};
/** `2026-12-11 10:30` by the salon's clock. */
const local = (rules: Rules, text: string): Instant =>
  rules.zone.firstReading(parseWall(text.replace(" ", "T")) as number);
const shown = (rules: Rules, at: Instant): string =>
  formatInstant(rules.zone.wallAt(at)).replace("T", " ").slice(0, 16);

/** The plan of a colour long before it, or at `now`. */
const planFor = (rules: Rules, start: string, facts: readonly Fact[] = [], now?: string): Plan => {
  const at = local(rules, start);
  return countBack(
    { booking: bookingAt(at), facts, samePerson: true, now: now ? local(rules, now) : at - 90 * 86_400 },
    rules,
  );
};
const stepIn = (plan: Plan, kind: StepKind, n: number | null = null): Step =>
  plan.steps.find((step) => step.kind === kind && step.n === n) as Step;
const dueIn = (rules: Rules, plan: Plan, kind: StepKind): string => shown(rules, stepIn(plan, kind).due);

describe("common practice, no source", () => {
  const rules = rulesOf({ post: { transit: 7, count: "calendar" } });
  const plan = planFor(rules, "2026-12-11 10:30");

  test("CP1, CP10: a walk-in test for Friday 10:30 is on by Wednesday 10:30, and only while the doors are open", () => {
    const walkIn = rulesOf({ tests: [WALK_IN] });
    expect(dueIn(walkIn, planFor(walkIn, "2026-12-11 10:30"), "application")).toBe("2026-12-09 10:30");
    const shut = rulesOf({ tests: [WALK_IN], opening: { mon: ["09:00-17:30"], fri: ["09:00-17:30"] } });
    const early = planFor(shut, "2026-12-11 10:30");
    expect(dueIn(shut, early, "application")).toBe("2026-12-07 17:00");
    expect(shown(shut, stepIn(early, "application").opens)).toBe("2026-12-07 09:00");
  });
  test("CP2, CP3, CP4, CP5: a home kit is on by Sunday, off on Tuesday, looked at on Tuesday and Thursday", () => {
    expect(dueIn(rules, plan, "application")).toBe("2026-12-06 10:30");
    expect(shown(rules, stepIn(plan, "removal").opens)).toBe("2026-12-08 10:30");
    expect(shown(rules, stepIn(plan, "reading", 1).opens)).toBe("2026-12-08 11:00");
    expect(shown(rules, stepIn(plan, "reading", 2).opens)).toBe("2026-12-10 10:30");
  });
  test("CP6: a slow kit is in hand on Saturday 18:00 and leaves with the Friday collection two weeks before", () => {
    expect(dueIn(rules, plan, "arrival")).toBe("2026-12-05 18:00");
    expect(dueIn(rules, plan, "shipping")).toBe("2026-11-27 16:30");
    expect(shown(rules, plan.routes[0]?.until as number)).toBe("2026-11-27 16:30");
  });
  test("CP7: the screening comes before the kit is sent, a day before it by default", () => {
    expect(dueIn(rules, plan, "screening")).toBe("2026-11-26 16:30");
    expect(plan.steps.map((step) => step.kind)).toEqual([
      "screening",
      "shipping",
      "arrival",
      "application",
      "removal",
      "reading",
      "reading",
      "result",
    ]);
  });
  test("CP7, CP8: an earlier clear home test leaves only the screening, repeated", () => {
    const earlier = clearTest(rules, "booking-0", "2026-06-01 10:00");
    const later = planFor(rules, "2026-12-11 10:30", earlier);
    expect(later.route).toBe("on-file");
    expect(later.steps.map((step) => step.kind)).toEqual(["rescreening"]);
    // The last time one whole new test fits: the walk-in of CP1, asked at the counter.
    expect(dueIn(rules, later, "rescreening")).toBe("2026-12-09 10:30");
  });
  test("CP9: anything that shows stops the colour", () => {
    const shows = makeFact({ kind: "reacted", at: local(rules, "2026-12-06 20:00") });
    const stopped = planFor(rules, "2026-12-11 10:30", [shows], "2026-12-07 09:00");
    expect([stopped.standing, stopped.why[0]?.code]).toEqual(["stop", "stop"]);
  });
});

/** Applied and looked at clear, at every look of home-kit-120h. */
const clearTest = (rules: Rules, booking: string, on: string, given: Partial<Fact> = {}): Fact[] => {
  const at = local(rules, on);
  return [
    makeFact({ kind: "applied", at, booking, route: "home-kit", ...given }),
    makeFact({ kind: "read", at: at + 48.5 * 3600, booking, outcome: "clear" }),
    makeFact({ kind: "read", at: at + 96 * 3600, booking, outcome: "clear" }),
  ];
};

describe("exact hours across a change of the clocks (RFC 5545 §3.3.6 and the IANA time zone database)", () => {
  const rows = [
    ["C1", "Europe/London", "2026-03-30 10:00", "2026-03-28 09:00"],
    ["C2", "Europe/London", "2026-10-26 10:00", "2026-10-24 11:00"],
    ["C3", "America/New_York", "2026-03-09 10:00", "2026-03-07 09:00"],
    ["C4", "America/New_York", "2026-11-02 10:00", "2026-10-31 11:00"],
    ["C5", "Australia/Sydney", "2026-04-06 10:00", "2026-04-04 11:00"],
    ["C6", "Australia/Sydney", "2026-10-05 10:00", "2026-10-03 09:00"],
    ["C7", "Australia/Lord_Howe", "2026-10-05 10:00", "2026-10-03 09:30"],
    ["C8", "Pacific/Apia", "2026-10-05 10:00", "2026-10-03 10:00"],
    ["C9", "Africa/Casablanca", "2026-02-16 10:00", "2026-02-14 11:00"],
    ["C10", "Africa/Cairo", "2026-04-25 10:00", "2026-04-23 09:00"],
  ] as const;
  test.each(rows)("%s: %s, a colour at %s is tested by %s", (_row, zone, start, due) => {
    const rules = rulesOf({ zone, tests: [WALK_IN] });
    expect(dueIn(rules, planFor(rules, start), "application")).toBe(due);
  });
});

describe("looks counted in hours from the application (Higgins & Collins, Dermatitis 2013: D2 48 h, D4 96 h, D7 168 h)", () => {
  const rows = [
    ["D3", "2026-04-13 10:00", ["2026-04-15 10:00", "2026-04-17 10:00", "2026-04-20 10:00"]],
    ["D4", "2026-10-23 10:00", ["2026-10-25 09:00", "2026-10-27 09:00", "2026-10-30 09:00"]],
    ["D5", "2027-03-26 10:00", ["2027-03-28 11:00", "2027-03-30 11:00", "2027-04-02 11:00"]],
  ] as const;
  test.each(rows)("%s: on at %s", (_row, on, looks) => {
    const protocol = {
      lead: { least: "PT168H" },
      readings: [{ after: "PT48H" }, { after: "PT96H" }, { after: "PT168H" }],
    };
    const rules = rulesOf({ tests: [{ route: "in-salon", protocol: "days" }], protocols: { days: protocol } });
    const applied = makeFact({ kind: "applied", at: local(rules, on) });
    const start = shown(rules, applied.at + 200 * 3600);
    const plan = planFor(rules, start, [applied], on);
    const opens = plan.steps.filter((step) => step.kind === "reading").map((step) => shown(rules, step.opens));
    expect(opens).toEqual(looks);
  });
});

describe("published intervals", () => {
  test("T3, T4: 24 to 48 hours before Wednesday 10:00 (Ohio Administrative Code 4709-9-12)", () => {
    const rules = rulesOf({ zone: "America/New_York", tests: [{ route: "in-salon", protocol: "window-24-48h" }] });
    const plan = planFor(rules, "2026-06-10 10:00");
    expect(shown(rules, stepIn(plan, "application").opens)).toBe("2026-06-08 10:00");
    expect(dueIn(rules, plan, "application")).toBe("2026-06-09 10:00");
    const tooEarly = makeFact({ kind: "applied", at: local(rules, "2026-06-07 10:00") });
    const refused = planFor(rules, "2026-06-10 10:00", [tooEarly], "2026-06-07 12:00");
    expect(refused.applied).toBe(false);
    expect(refused.why.map((each) => each.code)).toContain("applied-too-early");
  });
  test("T5: a 48-hour minimum beside Ohio's window leaves one instant (OAC 4709-9-12; NHBF, Allergy alert testing)", () => {
    const both = { route: "in-salon", protocol: ["window-24-48h", "salon-48h"] };
    const rules = rulesOf({ zone: "America/New_York", tests: [both] });
    const plan = planFor(rules, "2026-06-10 10:00");
    const { opens, due, rule } = stepIn(plan, "application");
    expect([shown(rules, opens), shown(rules, due), rule.protocol]).toEqual([
      "2026-06-08 10:00",
      "2026-06-08 10:00",
      "salon-48h",
    ]);
    expect(plan.routes[0]?.why.text).toContain("window-24-48h");
  });
  test("T6: looks half an hour and 48 hours after 10:00 (Japan Hair Color Industry Association, 4_patchtest)", () => {
    const rules = rulesOf({ tests: [{ route: "in-salon", protocol: "two-looks-48h" }] });
    const plan = planFor(rules, "2026-06-12 10:00");
    expect(dueIn(rules, plan, "application")).toBe("2026-06-10 10:00");
    expect(shown(rules, stepIn(plan, "reading", 1).opens)).toBe("2026-06-10 10:30");
    expect(shown(rules, stepIn(plan, "reading", 2).opens)).toBe("2026-06-12 10:00");
  });
  test("T7: on at 10:00, wiped off at 10:45, 48 hours from there (CTPA, 26 April 2023)", () => {
    const rules = rulesOf({ tests: [{ route: "in-salon", protocol: "salon-45min-48h" }] });
    const applied = makeFact({ kind: "applied", at: local(rules, "2026-06-10 10:00") });
    const plan = planFor(rules, "2026-06-12 10:45", [applied], "2026-06-10 10:05");
    expect(plan.applied).toBe(true);
    expect(shown(rules, stepIn(plan, "removal").opens)).toBe("2026-06-10 10:45");
    expect(shown(rules, stepIn(plan, "reading", 1).opens)).toBe("2026-06-12 10:45");
    expect(planFor(rules, "2026-06-12 10:44", [applied], "2026-06-10 10:05").applied).toBe(false);
  });
});

describe("the post (Directive 97/67/EC Annex II, and gov.uk's bank holidays)", async () => {
  const england = await loadHolidays("GB", "ENG", 2025, 2028);
  const scotland = await loadHolidays("GB", "SCT", 2025, 2028);
  const ireland = await loadHolidays("IE", null, 2026, 2026);
  const day = (text: string): number => parseDay(text) as number;
  const weekdays = ["mon", "tue", "wed", "thu", "fri"];
  const sixDays = [...weekdays, "sat"];
  const post = (transit: number, delivery: readonly string[], holidays: HolidayTable) =>
    rulesOf({ post: { transit, delivery, collection: sixDays } }, holidays).post;

  test.each([
    ["K2", "2026-04-02", 1, sixDays, england, "2026-04-04"],
    ["K3, England", "2026-04-04", 1, sixDays, england, "2026-04-07"],
    ["K3, Scotland", "2026-04-04", 1, sixDays, scotland, "2026-04-06"],
    ["K4, England", "2026-04-01", 3, weekdays, england, "2026-04-08"],
    ["K4, Scotland", "2026-04-01", 3, weekdays, scotland, "2026-04-07"],
    ["K6", "2026-12-24", 1, sixDays, england, "2026-12-29"],
    ["K7", "2027-12-24", 1, sixDays, england, "2027-12-29"],
    ["K7, new year", "2027-12-31", 1, sixDays, england, "2028-01-04"],
  ] as const)("%s: posted %s, D+%i arrives", (_row, deposit, transit, delivery, holidays, arrival) => {
    expect(post(transit, delivery, holidays).arrivalOf(day(deposit))).toBe(day(arrival));
  });
  test.each([
    ["K5", "2026-04-07", 1, sixDays, "2026-04-04"],
    ["K5, D+3", "2026-04-07", 3, weekdays, "2026-03-31"],
    ["K8", "2026-12-22", 1, sixDays, "2026-12-21"],
    ["K8, D+3", "2026-12-22", 3, weekdays, "2026-12-17"],
  ] as const)("%s: in hand on %s, D+%i, posted by", (_row, inHand, transit, delivery, posted) => {
    const by = midnight(day(inHand)) + 86_400;
    expect(post(transit, delivery, england).collectionFor(by, by - 60 * 86_400)).toBe(day(posted));
  });
  test("K1: a deposit counts the same day up to the second of the last collection", () => {
    const rules = rulesOf({});
    const at = local(rules, "2026-12-07 16:30");
    expect(rules.post.collectionAfter(at)).toBe(day("2026-12-07"));
    expect(rules.post.collectionAfter(at + 1)).toBe(day("2026-12-08"));
  });
  test("H1, H3: England keeps gov.uk's eight days of 2026 and Boxing Day itself; Scotland no Easter Monday", () => {
    const year = england.salon.filter((each) => each.day >= day("2026-01-01") && each.day <= day("2026-12-31"));
    const govUk = [
      "2026-01-01",
      "2026-04-03",
      "2026-04-06",
      "2026-05-04",
      "2026-05-25",
      "2026-08-31",
      "2026-12-25",
      "2026-12-28",
    ];
    expect(year.map((each) => each.day)).toEqual([...govUk, "2026-12-26"].toSorted().map(day));
    expect(scotland.salon.some((each) => each.day === day("2026-04-06"))).toBe(false);
  });
  test("Ireland's Good Friday and its Monday 28 December 2026 close (date-holidays, type bank)", () => {
    const days = ireland.post.map((each) => each.day);
    expect(days).toEqual(expect.arrayContaining([day("2026-04-03"), day("2026-12-26"), day("2026-12-28")]));
  });
  test("without a region any region's day closes the post and national days the salon", async () => {
    const britain = await loadHolidays("GB", null, 2026, 2026);
    const has = (days: HolidayTable["post"], text: string): boolean => days.some((each) => each.day === day(text));
    expect(britain.place).toBe("region-missing");
    expect([has(britain.post, "2026-03-17"), has(britain.salon, "2026-03-17")]).toEqual([true, false]);
    expect((await loadHolidays("WS", null, 2026, 2026)).place).toBe("country-unknown");
  });
});

describe("what an earlier result must meet (T10 to T13, NHBF and FHA; R8)", () => {
  const rules = rulesOf({
    services: [{ name: "Colour", words: ["tint"], product: "line A", shade: 5 }],
    tests: [{ ...HOME_KIT, onFile: { months: 6, product: "same", shade: "not-darker" } }, WALK_IN],
  });
  const routeFor = (start: string, given: Partial<Fact>, on = "2026-08-31 10:00"): string | null =>
    planFor(rules, start, clearTest(rules, "booking-0", on, given)).route;
  const same = { product: "Line A", shade: 5 };

  test("R8, T10: a test of 31 August counts to 28 February and not a day longer under a six-month rule", () => {
    expect(routeFor("2027-02-28 10:00", same)).toBe("on-file");
    expect(routeFor("2027-03-01 10:00", same)).toBe("home-kit");
  });
  test("T12, T13: another product, a lighter tested shade or an unknown one asks for a new test", () => {
    expect(routeFor("2026-12-11 10:30", { ...same, product: "line B" })).toBe("home-kit");
    expect(routeFor("2026-12-11 10:30", { ...same, shade: 6 })).toBe("home-kit");
    expect(routeFor("2026-12-11 10:30", { ...same, shade: null })).toBe("home-kit");
    expect(routeFor("2026-12-11 10:30", { ...same, shade: 4 })).toBe("on-file");
  });
  test("a name alone, a look not read, or a test-needed since never lets an earlier result count", () => {
    const facts = clearTest(rules, "booking-0", "2026-08-31 10:00", same);
    const at = local(rules, "2026-12-11 10:30");
    const now = at - 20 * 86_400;
    const byName = countBack({ booking: bookingAt(at), facts, samePerson: false, now }, rules);
    expect([byName.route, byName.why.at(-1)?.code]).toEqual(["home-kit", "person-not-confirmed"]);
    expect(planFor(rules, "2026-12-11 10:30", facts.slice(0, 2)).route).toBe("home-kit");
    const asked = makeFact({ kind: "screened", at: now - 60, outcome: "test-needed" });
    expect(countBack({ booking: bookingAt(at), facts: [...facts, asked], samePerson: true, now }, rules).route).toBe(
      "home-kit",
    );
  });
});
