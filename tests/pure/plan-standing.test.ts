/**
 * From records to standing (counting.md 20 to 28, 30). The source of every expectation is the rule named beside it; what
 * a reaction means is the published label: "do not colour if you have ever experienced any reaction" (Regulation (EC)
 * 1223/2009, Annex III).
 */
import { describe, expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import { testAhead } from "../../src/plan/testAhead.ts";
import type { Fact, Plan, StepKind } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatInstant, type Instant, parseInstant } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const rulesOf = (given: Record<string, unknown> = {}): Rules => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: "Etc/UTC",
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    opening: {
      mon: ["09:00-17:30"],
      tue: ["09:00-17:30"],
      wed: ["09:00-17:30"],
      thu: ["09:00-17:30"],
      fri: ["09:00-17:30"],
      sat: ["09:00-17:30"],
    },
    ...given,
  });
  const compiled = compileRules(settings, NO_HOLIDAYS, "salon");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  return compiled.rules;
};
const rules = rulesOf();
/** `12-09 10:30` of 2026, UTC; the colour is on Friday 11 December, 10:30. */
const at = (text: string): Instant => parseInstant(`2026-${text.replace(" ", "T")}:00Z`) as Instant;
const COLOUR = at("12-11 10:30");
const planAt = (now: string, facts: readonly Fact[], salon = rules): Plan =>
  countBack({ booking: bookingAt(COLOUR), facts, samePerson: true, now: at(now) }, salon);
const fact = (kind: Fact["kind"], when: string, given: Partial<Fact> = {}): Fact =>
  makeFact({ kind, at: at(when), ...given });
const codes = (plan: Plan): readonly string[] => plan.why.map((each) => each.code);
const stateOf = (plan: Plan, kind: StepKind): string | undefined =>
  plan.steps.find((step) => step.kind === kind)?.state;
const shown = (instant: Instant | null | undefined): string | null =>
  instant ? formatInstant(instant).slice(5, 16) : null;

const passed = fact("screened", "12-08 10:00", { outcome: "pass" });
const applied = fact("applied", "12-08 10:05", { route: "in-salon" });
const clear = fact("read", "12-10 10:10", { outcome: "clear" });
const confirmed = fact("confirmed", "12-10 10:15");
const whole = [passed, applied, clear, confirmed];

describe("a test that went on and does not count (rule 27)", () => {
  const tooLate = fact("applied", "12-10 12:00", { route: "home-kit" });

  test("stays in sight until it is off and looked at, also where no route is left", () => {
    const planned = (now: string, facts: readonly Fact[]): readonly unknown[] => {
      const plan = planAt(now, facts);
      return [plan.leftRoute, ...plan.leftBehind.map(({ kind, state, opens }) => [kind, state, shown(opens)])];
    };
    const late = fact("applied", "12-07 12:00", { route: "home-kit" });
    expect(planned("12-07 13:00", [late])).toEqual([
      "home-kit",
      ["removal", "planned", "12-09T12:00"],
      ["reading", "planned", "12-09T12:30"],
      ["reading", "planned", "12-11T12:00"],
    ]);
    expect(planAt("12-10 13:00", [tooLate]).standing).toBe("no-time");
    expect(planned("12-10 13:00", [tooLate]).length).toBeGreaterThan(1);
    const uids = planAt("12-07 13:00", [late]);
    expect(new Set([...uids.steps, ...uids.leftBehind].map(({ uid }) => uid)).size).toBe(
      uids.steps.length + uids.leftBehind.length,
    );
  });
});

describe("what the salon must hear of (rule 30)", () => {
  const reacted = (when: string, recorded: string, booking = "booking-1"): Fact => ({
    ...fact("reacted", when),
    recorded: at(recorded),
    booking,
  });
  const alarmAt = (now: string, each: Fact) => planAt(now, [each]).alarm;

  test("is a reaction, also once the appointment has passed and of what came after it", () => {
    const before = reacted("12-10 09:00", "12-10 09:00");
    expect(alarmAt("12-10 10:00", before)).toEqual({ kind: "stop", since: at("12-10 09:00") });
    expect(alarmAt("12-12 10:00", before)).toEqual({ kind: "stop", since: at("12-10 09:00") });
    const after = reacted("12-13 09:00", "12-14 09:00");
    expect(alarmAt("12-15 10:00", after)).toEqual({ kind: "stop", since: at("12-14 09:00") });
  });

  test("is nothing of a colour that was, where an old reaction to something else is told later", () => {
    expect(alarmAt("12-15 10:00", reacted("12-01 09:00", "12-14 09:00", "another"))).toBeNull();
  });
});

describe("ready (rule 23)", () => {
  test("is passed, looked at clear and confirmed, and not a second before", () => {
    expect(planAt("12-10 10:14", whole).standing).not.toBe("ready");
    expect(planAt("12-10 10:15", whole).standing).toBe("ready");
    expect(planAt("12-11 10:30", whole).standing).toBe("ready");
  });
  test("never comes by the client's link, nor from a client's own clear alone", () => {
    const byLink = { ...confirmed, via: "client-link" } as const;
    expect(planAt("12-10 12:00", [passed, applied, clear, byLink]).standing).not.toBe("ready");
    const reported = planAt("12-10 12:00", [passed, applied, { ...clear, via: "client-link" }]);
    expect(reported.standing).not.toBe("ready");
    expect(codes(reported)).toContain("reported-clear");
  });
  test.each([
    ["not screened", [applied, clear, confirmed]],
    ["not read: silence is never clear", [passed, applied, confirmed]],
    ["read before the look opened", [passed, applied, { ...clear, at: at("12-10 10:04") }, confirmed]],
    ["confirmed before the look", [passed, applied, clear, { ...confirmed, at: at("12-10 10:09") }]],
    ["asked for a new test since", [...whole, fact("screened", "12-10 10:12", { outcome: "test-needed" })]],
    [
      "applied too late",
      [
        passed,
        { ...applied, at: at("12-09 10:31") },
        { ...clear, at: at("12-11 10:20") },
        fact("confirmed", "12-11 10:25"),
      ],
    ],
  ])("does not come where it was %s", (_what, facts) => {
    expect(planAt("12-11 10:26", facts).standing).not.toBe("ready");
  });
  test("comes by a test put on after a test-needed", () => {
    const asked = fact("screened", "12-08 10:00", { outcome: "test-needed" });
    expect(planAt("12-11 10:00", [asked, applied, clear, confirmed]).standing).toBe("ready");
  });
  test("says what a clear test does not mean", () => {
    expect(planAt("12-11 10:00", whole).why[0]?.text).toContain("does not mean that no reaction will happen");
  });
});

describe("stop (rules 23, 24, 30)", () => {
  const now = "12-11 10:00";
  test.each([
    ["a reaction under another booking", fact("reacted", "12-01 09:00", { booking: "booking-0" }), "stop-reaction"],
    [
      "a reaction seen at a look, before any look opened",
      fact("read", "12-08 11:00", { outcome: "reaction" }),
      "stop-reaction",
    ],
    [
      "a past reaction told at another screening",
      fact("screened", "11-01 09:00", { booking: "booking-0", outcome: "do-not-colour", reason: "past-reaction" }),
      "stop-past-reaction",
    ],
    [
      "an under-16 at this screening",
      fact("screened", "12-07 09:00", { outcome: "do-not-colour", reason: "under-16" }),
      "stop-under-16",
    ],
    [
      "the newest screening says so",
      fact("screened", "12-10 12:00", { outcome: "do-not-colour", reason: "other" }),
      "stop-do-not-colour",
    ],
    ["a look not sure after the test", fact("read", "12-10 11:00", { outcome: "not-sure" }), "stop-not-sure"],
  ])("%s beats a booking that was ready", (_what, stops, code) => {
    const plan = planAt(now, [...whole, stops]);
    expect([plan.standing, ...codes(plan).slice(0, 2)]).toEqual(["stop", "stop", code]);
    expect(plan.steps.length).toBeGreaterThan(0);
  });
  test("a later clear does not lift a not-sure, a new test does", () => {
    const unsure = fact("read", "12-08 18:00", { outcome: "not-sure" });
    expect(planAt(now, [...whole, unsure]).standing).toBe("stop");
    expect(
      planAt("12-09 10:00", [passed, applied, unsure, fact("applied", "12-09 09:00", { route: "in-salon" })]).standing,
    ).not.toBe("stop");
  });
  test("asking again lifts an `other`, never an under-16 or a past reaction", () => {
    const again = fact("screened", "12-10 13:00", { outcome: "pass" });
    const forbidden = (reason: string): Fact => fact("screened", "12-10 12:00", { outcome: "do-not-colour", reason });
    expect(planAt(now, [...whole, forbidden("other"), again]).standing).not.toBe("stop");
    expect(planAt(now, [...whole, forbidden("under-16"), again]).standing).toBe("stop");
    expect(planAt(now, [...whole, forbidden("past-reaction"), again]).standing).toBe("stop");
  });
  test("a past reaction is set aside only by a correction with a reason", () => {
    const told = fact("screened", "12-07 09:00", { id: "told", outcome: "do-not-colour", reason: "past-reaction" });
    const correction = fact("correction", "12-07 10:00", { corrects: "told" });
    expect(planAt(now, [...whole, told, correction]).standing).toBe("stop");
    expect(planAt(now, [...whole, told, { ...correction, reason: "another client's answer" }]).standing).toBe("ready");
  });
  test("after a corrected reaction the look is not read until a later look", () => {
    const reaction = fact("read", "12-10 10:08", { id: "wrong", outcome: "reaction" });
    const correction = fact("correction", "12-10 11:00", { corrects: "wrong", reason: "a mark of the pen" });
    expect(planAt(now, [...whole, reaction, correction]).standing).not.toBe("ready");
    const anew = [fact("read", "12-10 11:05", { outcome: "clear" }), fact("confirmed", "12-10 11:06")];
    expect(planAt(now, [...whole, reaction, correction, ...anew]).standing).toBe("ready");
  });
  test("a correction that names nothing takes the newest earlier record of its booking", () => {
    const wrong = fact("read", "12-10 10:12", { outcome: "not-sure" });
    const correction = fact("correction", "12-10 10:13");
    expect(planAt(now, [...whole, wrong, correction]).standing).toBe("ready");
  });
});

describe("routes and standing without records (rules 20 to 23)", () => {
  test("goes from the kit to the walk-in, through silence, to no time", () => {
    const before = planAt("11-20 10:00", []);
    expect([before.route, before.standing]).toEqual(["home-kit", "due"]);
    const kit = before.routes[0]?.until as Instant;
    expect(planAt("11-01 10:00", []).standing).toBe("on-track");
    const after = countBack({ booking: bookingAt(COLOUR), facts: [], samePerson: true, now: kit + 1 }, rules);
    expect([after.route, after.routes[0]?.fits]).toEqual(["in-salon", false]);
    expect(after.routes[0]?.earliest).toBeGreaterThan(COLOUR);
    const silent = planAt("12-09 10:31", []);
    expect([silent.route, silent.standing, silent.routes.some((each) => each.fits)]).toEqual([
      "in-salon",
      "late",
      false,
    ]);
    expect(silent.earliest?.start).toBe(at("12-11 10:31"));
    expect(planAt("12-10 17:30", []).standing).toBe("late");
    const lost = countBack(
      { booking: bookingAt(COLOUR), facts: [], samePerson: true, now: at("12-10 17:30") + 1 },
      rules,
    );
    expect([lost.route, lost.standing, lost.steps]).toEqual([null, "no-time", []]);
  });
  test("a record told later, with an earlier time, restores the route", () => {
    const told = fact("applied", "12-09 10:30", { route: "in-salon", recorded: at("12-11 09:00") });
    const plan = planAt("12-11 09:00", [told]);
    expect([plan.route, plan.applied, stateOf(plan, "application")]).toEqual(["in-salon", true, "done"]);
  });
  test("an application that does not keep the lead ends the grace, and says from when it would serve", () => {
    const late = fact("applied", "12-09 14:00", { route: "in-salon" });
    const plan = planAt("12-09 14:00", [late]);
    expect([plan.standing, plan.applied, codes(plan).includes("applied-too-late")]).toEqual(["no-time", false, true]);
    expect(plan.earliest).toEqual({ start: at("12-11 14:00"), route: "in-salon" });
  });
  test("after the start keeps route and steps, says what was not recorded, and what was", () => {
    const past = planAt("12-11 10:31", [passed, applied]);
    expect([past.standing, past.why[0]?.code, past.route]).toEqual(["past", "not-ready", "in-salon"]);
    expect([stateOf(past, "application"), stateOf(past, "reading"), past.earliest]).toEqual([
      "done",
      "unrecorded",
      null,
    ]);
    expect(planAt("12-11 10:31", whole).why[0]?.code).toBe("ready");
    expect(planAt("12-20 10:31", [...whole, fact("reacted", "12-13 08:00")]).why[0]?.code).toBe("stop");
  });
  test("a cancelled booking keeps its steps, cancelled", () => {
    const booking = { ...bookingAt(COLOUR), cancelled: true };
    const plan = countBack({ booking, facts: [], samePerson: true, now: at("12-10 10:00") }, rules);
    expect([plan.standing, plan.route, plan.next]).toEqual(["cancelled", "home-kit", null]);
    expect(new Set(plan.steps.map((step) => step.state))).toEqual(new Set(["cancelled"]));
  });
});

describe("kits (rules 11, 20, 21, 28)", () => {
  const posted = fact("posted", "12-01 12:00");
  test("a posted kit fits until its application is due, an arrived one opens it", () => {
    const onItsWay = planAt("12-02 10:00", [posted]);
    expect([onItsWay.route, shown(onItsWay.routes[0]?.until)]).toEqual(["home-kit", "12-06T10:30"]);
    const there = planAt("12-04 19:00", [posted, fact("arrived", "12-04 18:00")]);
    const application = there.steps.find((step) => step.kind === "application");
    expect([shown(application?.opens), shown(application?.due)]).toEqual(["12-04T18:00", "12-06T10:30"]);
    expect(stateOf(there, "arrival")).toBe("done");
  });
  test("a kit expected after its application is due does not fit, until it has arrived", () => {
    // Thursday's collection and three delivery days, Monday to Saturday, make Monday 7 December.
    const late = fact("posted", "12-03 12:00");
    const plan = planAt("12-03 13:00", [late]);
    expect([plan.route, plan.routes[0]?.until, plan.routes[0]?.why.code]).toEqual([
      "in-salon",
      null,
      "kit-expected-late",
    ]);
    expect(plan.leftBehind.map((step) => step.kind)).toEqual(["removal", "reading", "reading"]);
    expect(new Set([...plan.steps, ...plan.leftBehind].map((step) => step.uid)).size).toBe(plan.steps.length + 3);
    expect(planAt("12-05 19:00", [late, fact("arrived", "12-05 18:00")]).route).toBe("home-kit");
  });
  test("a second posted replaces what arrived before it", () => {
    const plan = planAt("12-02 16:30", [posted, fact("arrived", "12-02 15:00"), fact("posted", "12-02 16:00")]);
    expect(stateOf(plan, "arrival")).toBe("planned");
  });
  test("an applied without a route belongs to the kit that was posted", () => {
    const plan = planAt("12-05 10:00", [posted, fact("applied", "12-05 09:00")]);
    expect([plan.route, plan.applied]).toEqual(["home-kit", true]);
    expect(shown(plan.steps.find((step) => step.kind === "removal")?.opens)).toBe("12-07T09:00");
  });
});

describe("a stretch through midnight (rules 4, 9, 19)", () => {
  const nights = { tue: ["20:00-24:00"], wed: ["00:00-02:00"], thu: ["20:00-24:00"], fri: ["00:00-02:00"] };
  const night = (start: string, given: Record<string, unknown> = {}): Plan => {
    const salon = rulesOf({ tests: [{ route: "in-salon", protocol: "salon-48h" }], opening: nights, ...given });
    return countBack({ booking: bookingAt(at(start)), facts: [], samePerson: true, now: at("12-01 10:00") }, salon);
  };
  const dueOf = (plan: Plan, kind: StepKind): string | null =>
    shown(plan.steps.find((step) => step.kind === kind)?.due);
  test("has no last walk-in before midnight and no first quarter of an hour after it", () => {
    expect(dueOf(night("12-10 23:50"), "application")).toBe("12-08T23:50");
    expect(dueOf(night("12-11 00:10"), "application")).toBe("12-09T00:10");
    expect(dueOf(night("12-11 10:00"), "application")).toBe("12-09T01:30");
  });
  test("does not close at midnight", () => {
    const plan = night("12-11 01:00", { closed: ["2026-12-09"] });
    expect([dueOf(plan, "application"), dueOf(plan, "result")]).toEqual(["12-08T23:30", "12-11T01:00"]);
    expect(dueOf(night("12-11 02:30", { closed: ["2026-12-09"] }), "result")).toBe("12-11T02:00");
  });
});

test("of two records of one second the one told later is the newer, in whichever order they come", () => {
  const second = fact("screened", "12-08 10:00", {
    id: "a",
    recorded: passed.recorded + 60,
    outcome: "do-not-colour",
    reason: "other",
  });
  expect(planAt("12-08 12:00", [passed, second]).standing).toBe("stop");
  expect(planAt("12-08 12:00", [second, passed]).standing).toBe("stop");
});

test("a test that does not count has spent the kits up to it (rule 27)", () => {
  const wornShort = [fact("applied", "12-04 10:00", { route: "home-kit" }), fact("removed", "12-04 12:00")];
  const kit = [fact("posted", "11-30 12:00"), fact("arrived", "12-03 18:00")];
  expect(planAt("12-05 09:00", kit).route).toBe("home-kit");
  expect(planAt("12-05 09:00", [...kit, ...wornShort]).route).toBe("in-salon");
  expect(planAt("12-05 09:00", [...kit, ...wornShort, fact("arrived", "12-04 18:00")]).route).toBe("home-kit");
});

test("records after the start change neither route nor steps (rule 23)", () => {
  const earlier = [
    fact("applied", "10-05 10:00", { booking: "booking-0", route: "home-kit" }),
    fact("read", "10-07 10:30", { booking: "booking-0", outcome: "clear" }),
    fact("read", "12-11 11:00", { booking: "booking-0", outcome: "clear" }),
  ];
  const plan = planAt("12-11 12:00", [passed, applied, ...earlier]);
  expect([plan.route, plan.steps.length]).toEqual(["in-salon", 4]);
  expect(
    countBack(
      { booking: bookingAt(at("12-18 10:30"), "later"), facts: earlier, samePerson: true, now: at("12-11 12:00") },
      rules,
    ).route,
  ).toBe("on-file");
  const reacted = fact("reacted", "12-11 11:30", { booking: "booking-0" });
  const facts = [...earlier, reacted];
  const asked = countBack(
    { booking: bookingAt(at("12-18 10:30"), "later"), facts, samePerson: true, now: at("12-11 12:00") },
    rules,
  );
  expect([asked.standing, asked.route]).toEqual(["stop", "in-salon"]);
});

describe("removals (rules 17, 18)", () => {
  const on = fact("applied", "12-06 10:00", { route: "home-kit" });
  test("one recorded late moves the looks after it", () => {
    const plan = planAt("12-08 14:00", [on, fact("removed", "12-08 12:00")]);
    const looks = plan.steps.filter((step) => step.kind === "reading").map((step) => shown(step.opens));
    expect(looks).toEqual(["12-08T12:30", "12-10T10:00"]);
  });
  test("more than fifteen minutes early: kept and said, the test does not count", () => {
    expect(planAt("12-08 11:00", [on, fact("removed", "12-08 09:45")]).applied).toBe(true);
    const early = planAt("12-08 11:00", [on, fact("removed", "12-08 09:44")]);
    expect([early.applied, codes(early).includes("removed-early")]).toEqual([false, true]);
  });
  test("so late that a look falls after the start: the test serves only from that look on", () => {
    const plan = planAt("12-11 10:20", [on, fact("removed", "12-11 10:15")]);
    expect([plan.applied, codes(plan).includes("look-too-late"), plan.earliest?.start]).toEqual([
      false,
      true,
      at("12-11 10:45"),
    ]);
  });
});

describe("keeping the next route, and the result (rules 13 and 19)", () => {
  test("a kit is due early enough for the walk-in to catch its loss, and fits, late, until the last post", () => {
    const salon = rulesOf({ closed: ["2026-12-01/2026-12-10"] });
    const plan = planAt("11-20 10:00", [], salon);
    // The last walk-in opens Monday 30 November, 09:00: in hand by Saturday 28, three delivery days after Wednesday 25.
    const due = (kind: StepKind): string | null => shown(plan.steps.find((step) => step.kind === kind)?.due);
    expect([due("arrival"), due("shipping"), due("application")]).toEqual([
      "11-28T18:00",
      "11-25T16:30",
      "12-06T10:30",
    ]);
    expect(shown(plan.routes[0]?.until)).toBe("11-30T17:30");
    const late = planAt("11-26 10:00", [fact("screened", "11-20 09:00", { outcome: "pass" })], salon);
    expect([late.route, late.standing, late.routes[0]?.fits]).toEqual(["home-kit", "late", true]);
    expect(late.why.find((each) => each.code === "other-route-closes")?.text).toContain("Mon 30 Nov, 17:00");
  });
  test("the result is due at the last closing after the last look opens; a lunch break is no closing", () => {
    const salon = rulesOf({
      tests: [{ route: "in-salon", protocol: "salon-48h" }],
      opening: { tue: ["09:00-17:30"], thu: ["09:00-17:10", "17:20-19:00"], fri: ["09:00-10:00", "10:15-18:00"] },
    });
    const plan = planAt("12-01 10:00", [], salon);
    const term = (kind: StepKind): readonly (string | null)[] => {
      const step = plan.steps.find((each) => each.kind === kind);
      return [shown(step?.opens), shown(step?.due)];
    };
    expect(term("application")).toEqual(["12-08T09:00", "12-08T17:00"]);
    expect(term("result")).toEqual(["12-10T17:00", "12-10T19:00"]);
    // Three hours from 17:00 would be 20:00, after the result.
    expect(term("reading")).toEqual(["12-10T17:00", "12-10T19:00"]);
  });
});

test("a test still ahead covers the client's next booking for the time being (rule 25)", () => {
  const later = bookingAt(at("12-30 10:00"), "booking-2");
  const early = countBack({ booking: bookingAt(COLOUR), facts: [], samePerson: true, now: at("11-20 10:00") }, rules);
  const kitAhead = [testAhead(early, rules)].filter((each) => each !== undefined);
  const by = (samePerson: boolean): Plan =>
    countBack({ booking: later, facts: [], samePerson, ahead: kitAhead, now: at("11-20 10:00") }, rules);
  expect([by(true).route, by(true).routes[0]?.why.code, by(true).standing]).toEqual([
    "on-file",
    "on-file-ahead",
    "on-track",
  ]);
  expect(by(false).route).toBe("home-kit");
});

describe("answers that left the decision to a person", () => {
  const planWith = (undecidedAt: Instant | null): Plan =>
    countBack(
      { booking: bookingAt(COLOUR), facts: whole, samePerson: true, undecidedAt, now: at("12-10 12:00") },
      rules,
    );
  test("are never ready, whatever was confirmed before them, and leave the questions open", () => {
    expect(planWith(null)).toMatchObject({ standing: "ready" });
    const asked = planWith(at("12-10 11:00"));
    expect([asked.standing === "ready", codes(asked).includes("person-decides")]).toEqual([false, true]);
    expect(stateOf(asked, "screening")).toBe("planned");
  });
});

describe("an earlier result counts, and a test of this booking's own went on all the same (rules 23, 24)", () => {
  const earlier = [
    fact("applied", "10-05 10:00", { booking: "booking-0", route: "home-kit" }),
    fact("read", "10-07 10:30", { booking: "booking-0", outcome: "clear" }),
    fact("read", "10-09 10:00", { booking: "booking-0", outcome: "clear" }),
  ];
  const on = [...earlier, passed, applied];
  const late = fact("confirmed", "12-10 12:00");

  test("without one it is ready by the earlier result", () => {
    expect(planAt("12-10 12:00", [...earlier, passed, late])).toMatchObject({ route: "on-file", standing: "ready" });
  });
  test("an unread test is never ready: not read is not clear", () => {
    const plan = planAt("12-10 12:00", [...on, late]);
    expect([plan.route, plan.standing === "ready"]).toEqual(["on-file", false]);
  });
  test("and a confirmation from before its look is none", () => {
    expect(planAt("12-10 12:00", [...on, fact("confirmed", "12-10 10:05"), clear]).standing).not.toBe("ready");
    expect(planAt("12-10 12:00", [...on, clear, late]).standing).toBe("ready");
  });
  test("of a kind that the salon does not offer any more, it must be read all the same", () => {
    const postOnly = rulesOf({ tests: [{ route: "home-kit", protocol: "home-kit-120h" }] });
    const planned = (facts: readonly Fact[]) => planAt("12-10 13:00", facts, postOnly);
    expect(planned([...on, late])).toMatchObject({ route: "on-file" });
    expect(planned([...on, late]).standing).not.toBe("ready");
    expect(planned([...on, clear, late]).standing).toBe("ready");
  });
  test("its look stays in sight until it is read", () => {
    const looks = (facts: readonly Fact[]): readonly unknown[] =>
      planAt("12-10 12:00", facts).leftBehind.map(({ kind, state, opens }) => [kind, state, shown(opens)]);
    expect(looks(on)).toEqual([["reading", "planned", "12-10T10:05"]]);
    expect(looks([...on, clear])).toEqual([["reading", "done", "12-10T10:05"]]);
    expect(looks([...earlier, passed])).toEqual([]);
  });
});
