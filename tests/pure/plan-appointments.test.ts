/**
 * A skin test entered in the diary (counting.md 31). Leads: at least a full 48 hours (NHBF, "Allergy alert testing");
 * 24 to 48 hours (Ohio Administrative Code 4709-9-12). That a test needs its own time in the diary at all is common
 * practice, no source.
 */
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import { countBack } from "../../src/plan/countBack.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan, Step, TestAppointment } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatInstant, HOUR, type Instant, parseInstant } from "../../src/time/instant.ts";
import { contextOf } from "./feed-plans.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const at = (text: string): Instant => parseInstant(`2026-12-${text.replace(" ", "T")}:00Z`) as Instant;
const COLOUR = at("11 10:30");

const rulesOf = (more: Readonly<Record<string, unknown>> = {}): Rules => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: "Europe/London",
    opening: Object.fromEntries(["mon", "tue", "wed", "thu", "fri"].map((day) => [day, ["09:00-17:30"]])),
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    ...more,
  });
  const compiled = compileRules(settings, NO_HOLIDAYS, "salon");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  return compiled.rules;
};
const usual = rulesOf();

const booked = (start: string, end: string | null = null): TestAppointment => ({
  start: at(start),
  end: end === null ? null : at(end),
});
const planAt = (
  now: string,
  appointments: readonly TestAppointment[],
  facts: readonly Fact[] = [],
  rules = usual,
): Plan => countBack({ booking: bookingAt(COLOUR), facts, samePerson: true, appointments, now: at(now) }, rules);
const stepOf = (plan: Plan, kind: Step["kind"]): Step => plan.steps.find((step) => step.kind === kind) as Step;
const shown = (instant: Instant | null | undefined): string | null =>
  instant ? formatInstant(instant).slice(8, 16).replace("T", " ") : null;
const said = (plan: Plan): readonly string[] => plan.why.map(({ code }) => code);

describe("a test in the diary that keeps the lead", () => {
  const plan = planAt("01 10:00", [booked("08 11:00", "08 11:20")]);

  test("makes the walk-in the plan, at the time in the diary", () => {
    expect(plan.route).toBe("in-salon");
    expect(shown(stepOf(plan, "application").opens)).toBe("08 11:00");
    expect(shown(stepOf(plan, "application").due)).toBe("08 11:00");
    expect(plan.routes.find(({ route }) => route === "in-salon")?.why.code).toBe("test-booked");
  });

  test("lets the look count from its start, 48 hours to the minute", () => {
    expect(shown(stepOf(plan, "reading").opens)).toBe("10 11:00");
    expect(stepOf(plan, "reading").counted).toMatchObject({ from: at("08 11:00"), recorded: false });
  });

  test("stays a plan: past it and unrecorded it is late, never done, and a walk-in still fits to its own last moment", () => {
    expect(planAt("08 11:00", [booked("08 11:00", "08 11:20")]).standing).not.toBe("no-time");
    const missed = planAt("08 11:01", [booked("08 11:00", "08 11:20")]);
    expect([missed.standing, stepOf(missed, "application").state]).toEqual(["late", "planned"]);
    expect(shown(missed.routes.find(({ route }) => route === "in-salon")?.until)).toBe("09 10:30");
    expect(planAt("09 10:30", [booked("08 11:00")]).routes[0]).toMatchObject({ route: "in-salon", fits: true });
    expect(planAt("09 10:31", [booked("08 11:00")]).routes.some(({ fits }) => fits)).toBe(false);
  });

  test("becomes a test when someone records it, and everything then counts from the record", () => {
    const applied = makeFact({ kind: "applied", at: at("08 11:07"), route: "in-salon" });
    const after = planAt("08 12:00", [booked("08 11:00", "08 11:20")], [applied]);
    expect(stepOf(after, "application").state).toBe("done");
    expect(shown(stepOf(after, "application").due)).toBe("08 11:00");
    expect(shown(stepOf(after, "reading").opens)).toBe("10 11:07");
  });

  test("stands in both feeds at its own time, and its words say so", () => {
    const context = contextOf();
    const hers = clientEvents(plan, context).find(({ kind }) => kind === "application");
    expect(hers?.summary).toBe("Come to the salon for your skin test, Tue 11:00");
    expect(hers?.time).toEqual({ allDay: false, from: at("08 11:00"), to: at("08 11:20") });
    const ours = salonEvents(plan, context).find(({ kind }) => kind === "application");
    expect(ours?.summary).toMatch(/^Skin test in the diary: .*, Tue 11:00$/);
    expect(ours?.time).toEqual({ allDay: false, from: at("08 11:00"), to: at("08 11:20") });
  });

  test("counts outside the opening hours and where no walk-in has a moment: somebody comes in for it", () => {
    // Shut until the colour's own day: no walk-in has a moment.
    const shut = rulesOf({
      closed: ["2026-11-01/2026-12-10"],
      tests: [{ route: "in-salon", protocol: "window-24-48h" }],
    });
    const plain = planAt("01 10:00", [], [], shut);
    expect(plain.routes[0]).toMatchObject({ fits: false, until: null });
    const inTime = planAt("01 10:00", [booked("09 19:00")], [], shut);
    expect(inTime.routes[0]).toMatchObject({ fits: true, until: at("09 19:00") });
    // Not no-time: the questions are open, fourteen days before.
    expect(inTime.standing).toBe("due");
  });
});

describe("which test anchors", () => {
  test("the last that keeps the lead, to the very second of it", () => {
    const anchored = (...starts: readonly string[]): string | null =>
      shown(
        stepOf(
          planAt(
            "01 10:00",
            starts.map((start) => booked(start)),
          ),
          "application",
        ).opens,
      );
    expect(anchored("07 10:00", "08 10:00")).toBe("08 10:00");
    expect(anchored("08 10:00", "10 10:00")).toBe("08 10:00");
    expect(anchored("09 10:30")).toBe("09 10:30");
  });

  test("one that is too near anchors nothing and is said", () => {
    const plan = planAt("01 10:00", [booked("09 10:31")]);
    expect(plan.route).toBe("home-kit");
    expect(said(plan)).toContain("appointment-too-late");
  });

  test("nor one before a greatest lead's window, nor one of a kind the salon does not offer", () => {
    const ohio = rulesOf({ tests: [{ route: "in-salon", protocol: "window-24-48h" }] });
    expect(said(planAt("01 10:00", [booked("09 10:29")], [], ohio))).toContain("appointment-too-early");
    expect(said(planAt("01 10:00", [booked("09 10:30")], [], ohio))).not.toContain("appointment-too-early");
    const byPost = rulesOf({ tests: [{ route: "home-kit", protocol: "home-kit-120h" }] });
    expect(said(planAt("01 10:00", [booked("08 10:00")], [], byPost))).toContain("appointment-not-offered");
  });

  test("comes after a choice that was recorded and before the order of the settings", () => {
    const asked = makeFact({ kind: "route", at: at("01 09:00"), route: "home-kit" });
    expect(planAt("01 10:00", [booked("08 10:00")], [asked]).route).toBe("home-kit");
    expect(planAt("01 10:00", [booked("08 10:00")]).route).toBe("in-salon");
  });

  test("is shown as long as it is entered for, an hour at most, and a quarter where no end is entered", () => {
    const shownUntil = (end: string | null): string | null =>
      shown(stepOf(planAt("01 10:00", [booked("08 09:00", end)]), "application").booked?.until);
    expect([shownUntil("08 09:40"), shownUntil("08 12:00"), shownUntil(null), shownUntil("08 08:00")]).toEqual([
      "08 09:40",
      "08 10:00",
      "08 09:15",
      "08 09:15",
    ]);
  });
});

test("whatever stands in the diary, no planned application lies outside its window, and nothing is ready by it", () => {
  const starts = fc.array(fc.integer({ min: -200 * HOUR, max: 4 * HOUR }), { maxLength: 4 });
  const salons = ["salon-48h", "salon-45min-48h", "window-24-48h"].map((protocol) =>
    rulesOf({ tests: [{ route: "in-salon", protocol }] }),
  );
  fc.assert(
    fc.property(
      starts,
      fc.constantFrom(...salons),
      fc.integer({ min: -220 * HOUR, max: 2 * HOUR }),
      (away, rules, now) => {
        const appointments = away.map((seconds) => ({ start: COLOUR + seconds, end: null }));
        const plan = countBack(
          { booking: bookingAt(COLOUR), facts: [], samePerson: true, appointments, now: COLOUR + now },
          rules,
        );
        const [rule] = rules.tests;
        const application = plan.steps.find(({ kind }) => kind === "application");
        expect(plan.standing).not.toBe("ready");
        if (!application || !rule) return;
        expect(application.state).not.toBe("done");
        expect(application.due).toBeLessThanOrEqual(COLOUR - rule.reach);
        expect(application.opens).toBeLessThanOrEqual(application.due);
        if (rule.farthest !== null) expect(application.opens).toBeGreaterThanOrEqual(COLOUR - rule.farthest);
        const anchors = away.filter(
          (seconds) => -seconds >= rule.reach && (rule.farthest === null || -seconds <= rule.farthest),
        );
        expect(application.booked !== null).toBe(anchors.length > 0);
        if (anchors.length > 0) expect(application.opens).toBe(COLOUR + Math.max(...anchors));
      },
    ),
    { numRuns: 500 },
  );
});
