/**
 * Published intervals and terms, counted back by hand and put to the engine. The source stands beside each row: what it
 * prints, or "computed from" what it prints; "policy" is a rule of this service. T1, T2 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { addMonths } from "../../src/time/calendar.ts";
import type { Fact, Plan } from "../../src/plan/types.ts";
import { formatDay, HOUR, parseDay } from "../../src/time/instant.ts";
import {
  clearTest,
  counts,
  dueIn,
  HOME_KIT,
  local,
  looksIn,
  opensIn,
  planFor,
  rulesOf,
  shown,
  stepIn,
  WALK_IN,
} from "./check-values-salon.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

describe("published intervals", () => {
  const only = (protocol: string | readonly string[], zone = "Europe/London") =>
    rulesOf({ zone, tests: [{ route: "in-salon", protocol }] });

  test.each([
    ["salon-48h", 'colourwell-colourwise.eu, "How to do the 48 hour Allergy Alert Test?": at least a full 48 hours'],
    ["salon-48h", 'NHBF, "Allergy alert testing": no less than 48 hours before'],
    ["two-looks-48h", "Japan Hair Color Industry Association, 4_patchtest: from 48 hours before"],
    ["salon-48h", "FDA, Cosmetics Safety Q&A: Hair Dyes: leave it there for two days"],
  ])("T1: %s keeps 48 hours to the second (%s)", (protocol) => {
    const rules = only(protocol);
    const plan = planFor(rules, "2026-06-12 10:00");
    expect([dueIn(rules, plan, "application"), stepIn(plan, "application").rule.duration]).toEqual([
      "2026-06-10 10:00",
      "PT48H",
    ]);
    const on = ["2026-06-10 10:00", "2026-06-10 10:00:01"].map((at) => counts(rules, "2026-06-12 10:00", at));
    expect(on).toEqual([true, false]);
  });
  test('T2: Canada, 24 hours, then washed (Health Canada, "Hair dyes"; Cosmetic Regulations, C.R.C. c. 869, s. 22, 2006)', () => {
    const rules = only("wash-off-24h", "America/Toronto");
    const plan = planFor(rules, "2026-06-10 10:00");
    expect([dueIn(rules, plan, "application"), opensIn(rules, plan, "removal"), ...looksIn(rules, plan)]).toEqual([
      "2026-06-09 10:00",
      "2026-06-10 10:00",
      "2026-06-10 10:00",
    ]);
    const on = ["2026-06-09 10:00", "2026-06-09 10:00:01"].map((at) => counts(rules, "2026-06-10 10:00", at));
    expect(on).toEqual([true, false]);
    // Computed from the same and the IANA database: the clocks go forward on Sunday 8 March 2026.
    expect(dueIn(rules, planFor(rules, "2026-03-08 10:00"), "application")).toBe("2026-03-07 09:00");
  });
  test("T3, T4: 24 to 48 hours before Wednesday 10:00, both ends included (computed from Ohio Administrative Code 4709-9-12)", () => {
    const rules = only("window-24-48h", "America/New_York");
    const plan = planFor(rules, "2026-06-10 10:00");
    expect(opensIn(rules, plan, "application")).toBe("2026-06-08 10:00");
    expect(dueIn(rules, plan, "application")).toBe("2026-06-09 10:00");
    const on = ["2026-06-08 09:59:59", "2026-06-08 10:00", "2026-06-09 10:00", "2026-06-09 10:00:01"];
    expect(on.map((at) => counts(rules, "2026-06-10 10:00", at))).toEqual([false, true, true, false]);
    // 72 hours before.
    const tooEarly = makeFact({ kind: "applied", at: local(rules, "2026-06-07 10:00") });
    const refused = planFor(rules, "2026-06-10 10:00", [tooEarly], "2026-06-07 12:00");
    expect(refused.applied).toBe(false);
    expect(refused.why.map((each) => each.code)).toContain("applied-too-early");
  });
  test("T5: a 48-hour least beside Ohio's window leaves one second (computed from OAC 4709-9-12 and NHBF, Allergy alert testing)", () => {
    const rules = only(["window-24-48h", "salon-48h"], "America/New_York");
    const plan = planFor(rules, "2026-06-10 10:00");
    const { opens, due, rule } = stepIn(plan, "application");
    expect([shown(rules, opens), shown(rules, due), rule.protocol]).toEqual([
      "2026-06-08 10:00",
      "2026-06-08 10:00",
      "salon-48h",
    ]);
    expect(plan.routes[0]?.why.text).toContain("window-24-48h");
    const on = ["2026-06-08 09:59:59", "2026-06-08 10:00", "2026-06-08 10:00:01"];
    expect(on.map((at) => counts(rules, "2026-06-10 10:00", at))).toEqual([false, true, false]);
  });
  test("T6: looks half an hour and 48 hours after 10:00 (computed from Japan Hair Color Industry Association, 4_patchtest)", () => {
    const rules = only("two-looks-48h", "Asia/Tokyo");
    const plan = planFor(rules, "2026-06-12 10:00");
    expect([dueIn(rules, plan, "application"), ...looksIn(rules, plan)]).toEqual([
      "2026-06-10 10:00",
      "2026-06-10 10:30",
      "2026-06-12 10:00",
    ]);
  });
  test("T7: on at 10:00, off at 10:45, 48 hours from there, and the plan says so (computed from CTPA, 26 April 2023)", () => {
    const rules = only("salon-45min-48h");
    const applied = makeFact({ kind: "applied", at: local(rules, "2026-06-10 10:00") });
    const plan = planFor(rules, "2026-06-12 10:45", [applied], "2026-06-10 10:05");
    expect(plan.applied).toBe(true);
    expect([opensIn(rules, plan, "removal"), ...looksIn(rules, plan)]).toEqual([
      "2026-06-10 10:45",
      "2026-06-12 10:45",
    ]);
    expect(counts(rules, "2026-06-12 10:44:59", "2026-06-10 10:00")).toBe(false);
    // Which instant starts the 48 hours is not said there: the later is taken, and named.
    expect(planFor(rules, "2026-06-12 10:45").routes[0]?.why.text).toContain("off at least 48 hours before");
  });
});

/** Which route a plan takes, and the reason of its on-file route where it has one. */
const onFileIn = (plan: Plan): readonly (string | undefined)[] => [
  plan.route ?? "none",
  plan.routes.find((each) => each.route === "on-file")?.why.code,
];

describe("what an earlier result must meet", () => {
  const withMonths = (months: number) => rulesOf({ tests: [{ ...WALK_IN, onFile: { months } }] });
  const after = (months: number, on: string, start: string): readonly (string | undefined)[] => {
    const rules = withMonths(months);
    const threeDaysBefore = shown(rules, local(rules, start) - 72 * HOUR);
    return onFileIn(planFor(rules, start, clearTest(rules, on, [48 * HOUR]), threeDaysBefore));
  };

  test('T10: six months and a day after the last test asks for a new one (computed from NHBF, "Allergy alert testing")', () => {
    expect(after(6, "2026-06-10 10:00", "2026-12-10 10:00")).toEqual(["on-file", "on-file"]);
    expect(after(6, "2026-06-10 10:00", "2026-12-11 10:00")).toEqual(["in-salon", "too-old"]);
  });
  test("T11: by a twelve-month rule that test is not due again yet (computed from FHA protocol, 12 months)", () => {
    expect(after(12, "2026-06-10 10:00", "2026-12-11 10:00")).toEqual(["on-file", "on-file"]);
    expect(after(12, "2026-06-10 10:00", "2027-06-10 10:00")).toEqual(["on-file", "on-file"]);
    expect(after(12, "2026-06-10 10:00", "2027-06-11 10:00")).toEqual(["in-salon", "too-old"]);
  });
  test("R7: a month after 31 January 2019 is 28 February (TC39 Temporal documentation, plaindate.md)", () => {
    expect(formatDay(addMonths(parseDay("2019-01-31") as number, 1))).toBe("2019-02-28");
    expect(after(1, "2019-01-31 10:00", "2019-02-28 10:00")).toEqual(["on-file", "on-file"]);
    expect(after(1, "2019-01-31 10:00", "2019-03-01 10:00")).toEqual(["in-salon", "too-old"]);
  });
  test("R8: a test of 31 August counts to 28 February under a six-month rule (computed from NHBF and Temporal's plaindate.md)", () => {
    expect(after(6, "2026-08-31 10:00", "2027-02-28 10:00")).toEqual(["on-file", "on-file"]);
    expect(after(6, "2026-08-31 10:00", "2027-03-01 10:00")).toEqual(["in-salon", "too-old"]);
  });
  test("T12: a test of yesterday of another brand asks for a new one (computed from NHBF and FHA: product or brand change)", () => {
    const rules = rulesOf({
      zone: "America/Toronto",
      services: [{ name: "Colour", words: ["tint"], product: "Brand B" }],
      tests: [{ route: "in-salon", protocol: "wash-off-24h", onFile: { product: "same" } }],
    });
    const tested = (product: string | null): readonly (string | undefined)[] => {
      const yesterday = clearTest(rules, "2026-06-09 10:00", [24 * HOUR], { product });
      return onFileIn(planFor(rules, "2026-06-10 11:00", yesterday, "2026-06-10 10:30")).slice(1);
    };
    expect([tested("Brand B"), tested("Brand A"), tested(null)]).toEqual([
      ["on-file"],
      ["other-product"],
      ["other-product"],
    ]);
  });
  test("T13: a tested shade lighter than the planned one asks for a new test (computed from FHA: darker shade than tested)", () => {
    const rules = rulesOf({
      services: [{ name: "Colour", words: ["tint"], product: "Brand A", shade: 5 }],
      tests: [{ ...HOME_KIT, onFile: { months: 6, product: "same", shade: "not-darker" } }, WALK_IN],
    });
    // Depth runs from 1, the darkest, to 10, the lightest: 6 is lighter than 5.
    const tested = (shade: number | null): readonly (string | undefined)[] =>
      onFileIn(
        planFor(
          rules,
          "2026-12-11 10:30",
          clearTest(rules, "2026-08-31 10:00", [48.5 * HOUR, 96 * HOUR], { product: "brand a", shade }),
        ),
      );
    expect([tested(6), tested(null), tested(5), tested(4)]).toEqual([
      ["home-kit", "darker-shade"],
      ["home-kit", "darker-shade"],
      ["on-file", "on-file"],
      ["on-file", "on-file"],
    ]);
  });
});

describe("what is asked and what is seen", () => {
  const rules = rulesOf({ tests: [{ ...WALK_IN, onFile: { months: 6 } }] });
  const START = "2026-06-12 10:00";
  const fact = (kind: Fact["kind"], at: string, given: Partial<Fact> = {}): Fact =>
    makeFact({ kind, at: local(rules, at), ...given });
  const whole = [
    fact("screened", "2026-06-10 09:30", { outcome: "pass" }),
    fact("applied", "2026-06-10 10:00", { route: "in-salon" }),
    fact("read", "2026-06-12 10:00", { outcome: "clear" }),
    fact("confirmed", "2026-06-12 10:00"),
  ];
  const codesOf = (plan: Plan): readonly string[] => [plan.standing, ...plan.why.map((each) => each.code)];

  test("T8: under 16 neither colour nor test, whatever a test shows (the label of Regulation (EC) 1223/2009, Annex III; NHBF)", () => {
    // No date of birth is kept: a person answers, and the answer stops the booking.
    const young = fact("screened", "2026-06-10 09:00", { outcome: "do-not-colour", reason: "under-16" });
    expect(planFor(rules, START, whole, START).standing).toBe("ready");
    expect(codesOf(planFor(rules, START, [young, ...whole], START)).slice(0, 3)).toEqual([
      "stop",
      "stop",
      "stop-under-16",
    ]);
  });
  test("T15: a tattoo without a reaction needs a test (NHBF); with one, no colour (Annex III, as reported)", () => {
    const earlier = clearTest(rules, "2026-04-10 10:00", [48 * HOUR]);
    const asked = (given: Partial<Fact>): Plan =>
      planFor(rules, START, [...earlier, fact("screened", "2026-06-08 10:00", given)], "2026-06-08 10:00");
    expect(onFileIn(asked({ outcome: "pass" }))).toEqual(["on-file", "on-file"]);
    expect(onFileIn(asked({ outcome: "test-needed" }))).toEqual(["in-salon", "asked-anew"]);
    expect(asked({ outcome: "do-not-colour", reason: "past-reaction" }).standing).toBe("stop");
  });
  test("T16: a result never entered is not read, never clear (policy)", () => {
    const unread = whole.filter(({ kind }) => kind !== "read");
    const atStart = planFor(rules, START, unread, START);
    expect([atStart.standing, stepIn(atStart, "reading", 1).state, stepIn(atStart, "result").state]).toEqual([
      "due",
      "planned",
      "planned",
    ]);
    const past = planFor(rules, START, unread, "2026-06-12 10:00:01");
    expect(codesOf(past)).toEqual(expect.arrayContaining(["past", "not-ready", "not-read"]));
    expect(stepIn(past, "reading", 1).state).toBe("unrecorded");
  });
  test("T17: itching 20 hours on ends the test: do not colour (Japan Hair Color Industry Association, 4_patchtest)", () => {
    const itches = makeFact({ kind: "reacted", at: local(rules, "2026-06-10 10:00") + 20 * HOUR });
    for (const now of ["2026-06-11 06:00", START]) {
      const plan = planFor(rules, START, [...whole, itches], now);
      expect(codesOf(plan).slice(0, 3)).toEqual(["stop", "stop", "stop-reaction"]);
    }
    const before = planFor(rules, START, [...whole, itches], "2026-06-11 05:59:59");
    expect(before.standing).not.toBe("stop");
    // Nor does it serve a later booking, which is stopped as well.
    const later = [...whole, itches].map((each) => ({ ...each, booking: "booking-0" }));
    const next = planFor(rules, "2026-08-12 10:00", later, "2026-08-05 10:00");
    expect([next.standing, ...onFileIn(next)]).toEqual(["stop", "in-salon", "asked-anew"]);
  });
  test("an earlier result of a person known by name alone, not read at every look, or asked about since, never counts (policy)", () => {
    const kit = rulesOf({ tests: [{ ...HOME_KIT, onFile: { months: 6 } }, WALK_IN] });
    const facts = clearTest(kit, "2026-08-31 10:00", [48.5 * HOUR, 96 * HOUR]);
    const [start, now] = [local(kit, "2026-12-11 10:30"), local(kit, "2026-11-21 10:00")];
    const routeBy = (given: readonly Fact[], samePerson: boolean): readonly (string | undefined)[] =>
      onFileIn(countBack({ booking: bookingAt(start), facts: given, samePerson, now }, kit));
    expect(routeBy(facts, true)).toEqual(["on-file", "on-file"]);
    expect(routeBy(facts, false)).toEqual(["home-kit", "person-not-confirmed"]);
    expect(routeBy(facts.slice(0, 2), true)).toEqual(["home-kit", "not-clear"]);
    const asked = makeFact({ kind: "screened", at: now - 60, outcome: "test-needed" });
    expect(routeBy([...facts, asked], true)).toEqual(["home-kit", "asked-anew"]);
  });
});
