/**
 * Laws a, b, e, f, g and h of counting.md over random salons, bookings and moments around changes of the clocks, each
 * against a reckoning on TC39 Temporal or against the engine itself under a change that must not matter. Law c stands in
 * plan-laws-post.test.ts, d in plan-laws-earliest.test.ts, i in plan-laws-host.test.ts.
 */
import { readdirSync, readFileSync } from "node:fs";
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Rules } from "../../src/plan/rules.ts";
import type { Plan, Step, StepKind } from "../../src/plan/types.ts";
import { DAY_SECONDS, formatDay, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { windowOf } from "../reckoner/protocol.ts";
import { applicationOf, lastMomentOf, type Place, testsOf } from "./law-calendar.ts";
import { fitsAt, nowOf, planAt, planBy, routeOf, stepOf, toldBy } from "./law-plans.ts";
import { CASES, CASES_AT_LEAST, checkLaw, lawTitle, OWN_RUNS, seedOf } from "./law-runs.ts";
import { compile, type Scene, scenes, toldScenes } from "./plan-arbitraries.ts";

/** The plan of each of a salon's tests, where it has one, and the plan at `now`. */
const plansOf = (scene: Scene, start: Instant, now: Instant): readonly Plan[] => [
  ...scene.rules.tests.map(({ route }) => planBy(scene, start, route)).filter(({ route }) => route !== null),
  planAt(scene, start, now),
];

const termsOf = (plan: Plan) => plan.steps.map(({ kind, n, opens, due }) => [kind, n, opens, due]);

test(lawTitle("a", "no application is due outside its window"), () => {
  checkLaw("a", toldScenes(), (scene) => {
    const { start } = scene;
    const now = nowOf(scene, scene);
    const known = toldBy(scene, now);
    const tests = testsOf(scene);
    let seen = 0;
    for (const plan of [...plansOf(scene, start, now), planAt(scene, start, now, known)]) {
      const application = stepOf(plan, "application");
      const own = tests.find(({ route }) => route === plan.route);
      if (!application || !own) continue;
      const { from, to } = windowOf(own, start);
      expect(application.due).toBeLessThanOrEqual(to);
      expect(application.due).toBeGreaterThanOrEqual(from);
      seen++;
    }
    return seen > 0;
  });
});

test(
  lawTitle("b", "walk-ins, kit applications, hand-overs and screenings lie at moments of resolved stretches"),
  () => {
    checkLaw("b", scenes(), (scene) => {
      const { start } = scene;
      let seen = 0;
      for (const own of testsOf(scene)) {
        const expected = applicationOf(scene, own, start);
        if (own.route === "in-salon")
          expect(routeOf(planBy(scene, start, own.route), own.route)?.until).toBe(expected?.due ?? null);
        for (const plan of plansOf(scene, start, nowOf(scene))) {
          if (plan.route !== own.route) continue;
          const application = stepOf(plan, "application") as Step;
          expect({ opens: application.opens, due: application.due }).toEqual(expected);
          const shipping = stepOf(plan, "shipping");
          if (shipping) expect(lastMomentOf(scene, "hand-over", shipping.due)?.at).toBe(shipping.due);
          const latest = (shipping ?? application).due - own.screeningMargin;
          const screening = own.screeningMargin > 0 ? lastMomentOf(scene, "client", latest)?.at : latest;
          expect(stepOf(plan, "screening")?.due).toBe(screening);
          seen++;
        }
      }
      return seen > 0;
    });
  },
);

test(lawTitle("e", "a later now never brings a route back"), () => {
  const given = fc.record({
    scene: toldScenes(),
    later: fc.oneof(fc.constant(1), fc.integer({ min: 1, max: 20 * DAY_SECONDS })),
  });
  checkLaw("e", given, ({ scene, later }) => {
    const { start } = scene;
    const now = nowOf(scene, scene);
    const known = toldBy(scene, now);
    const [first, second] = [planAt(scene, start, now, known), planAt(scene, start, now + later, known)];
    for (const { route, fits } of second.routes) {
      if (fits) expect(routeOf(first, route)?.fits).toBe(true);
    }
    // Nor does one that has closed by its last instant.
    for (const { route, until } of first.routes) {
      if (until !== null) expect(fitsAt(scene, start, Math.max(now, until + 1), route, known)).toBe(false);
    }
    return first.routes.length > 0;
  });
});

const BEFORE_THE_LOOKS: readonly StepKind[] = ["screening", "shipping", "arrival", "application", "removal"];

test(lawTitle("f", "one more holiday makes no step up to the removal later, where holidays have no hours"), () => {
  const given = fc.record({ scene: scenes(), daysBefore: fc.integer({ min: -1, max: 25 }) });
  checkLaw("f", given, ({ scene, daysBefore }) => {
    const { input, daysOff, start } = scene;
    const opening = input.opening && { ...input.opening, holiday: [] };
    const add = [...input.holidays.add, formatDay(Math.floor(start / DAY_SECONDS) - daysBefore)];
    const salonOf = (place: Place): Scene => ({ ...scene, ...place, rules: compile(place) as Rules });
    const without = salonOf({ input: { ...input, opening }, daysOff });
    const withIt = salonOf({ input: { ...input, opening, holidays: { add } }, daysOff });
    const now = nowOf(without);
    let seen = 0;
    for (const old of plansOf(without, start, now)) {
      const moved = plansOf(withIt, start, now).find(({ route }) => route === old.route);
      for (const step of moved?.steps ?? []) {
        if (!BEFORE_THE_LOOKS.includes(step.kind)) continue;
        expect(step.due, step.kind).toBeLessThanOrEqual((stepOf(old, step.kind) as Step).due);
        seen++;
      }
    }
    return seen > 0;
  });
});

test(lawTitle("g", "a later start makes no due of the same route earlier, where no lead is greatest"), () => {
  const given = fc.record({
    scene: scenes({ isLimited: false }),
    later: fc.oneof(fc.integer({ min: 1, max: 90 }), fc.integer({ min: 1, max: 20 * 1_440 })),
  });
  checkLaw("g", given, ({ scene, later }) => {
    const { start } = scene;
    const now = nowOf(scene);
    let seen = 0;
    for (const old of plansOf(scene, start, now)) {
      const moved = plansOf(scene, start + later * MINUTE, now).find(({ route }) => route === old.route);
      for (const step of moved?.steps ?? []) {
        const before = old.steps.find(({ kind, n }) => kind === step.kind && n === step.n) as Step;
        expect(step.due, step.kind).toBeGreaterThanOrEqual(before.due);
        seen++;
      }
    }
    return seen > 0;
  });
});

test(lawTitle("h", "steps follow one another, open before they are due, and know no now"), () => {
  checkLaw("h", toldScenes(), (scene) => {
    const { start } = scene;
    const now = nowOf(scene, scene);
    let seen = 0;
    for (const plan of plansOf(scene, start, now)) {
      const dues = BEFORE_THE_LOOKS.flatMap((kind) => stepOf(plan, kind)?.due ?? []);
      expect(dues).toEqual(dues.toSorted((one, other) => one - other));
      if (plan.route !== null) expect(termsOf(plan)).toEqual(termsOf(planBy(scene, start, plan.route)));
      seen += dues.length;
    }
    const known = toldBy(scene, now);
    const told = planAt(scene, start, now, known);
    for (const step of told.steps) {
      expect(step.opens).toBeLessThanOrEqual(step.due);
      // Only a look that holds nothing, and what opens past the start itself, may be due after it.
      if (step.kind !== "reading") expect(step.due).toBeLessThanOrEqual(Math.max(start, step.opens));
      seen++;
    }
    for (const later of [1, HOUR, 3 * DAY_SECONDS]) {
      const afterwards = planAt(scene, start, now + later, known);
      if (afterwards.route === told.route) expect(termsOf(afterwards)).toEqual(termsOf(told));
    }
    return seen > 0;
  });
});

const HERE = import.meta.dirname;

test.skipIf(OWN_RUNS !== null)(
  "an ordinary run tries the laws on at least 100,000 cases, no two host zones alike",
  () => {
    const files = readdirSync(HERE).filter((name) => /^plan-laws.*\.test\.ts$/.test(name));
    const tried = files.flatMap((name) => [
      ...readFileSync(`${HERE}/${name}`, "utf8").matchAll(/^\s*checkLaw\("([^"]+)"/gm),
    ]);
    const laws = tried.map(([, law]) => law as keyof typeof CASES);
    // Every size of the table is one that a law is tried with, once.
    expect(laws.toSorted()).toEqual(Object.keys(CASES).toSorted());
    const config = readFileSync(`${HERE}/../vitest.config.ts`, "utf8");
    const hostZones = [...config.matchAll(/pureUnder\("[^"]+", "([^"]+)"\)/g)].map(([, zone]) => zone as string);
    expect(hostZones).toContain(process.env["TZ"]);
    const inOne = laws.reduce((sum, law) => sum + CASES[law], 0);
    expect(inOne * hostZones.length).toBeGreaterThanOrEqual(CASES_AT_LEAST);
    const seeds = hostZones.flatMap((zone) => laws.map((law) => seedOf(law, zone)));
    expect(new Set(seeds).size).toBe(seeds.length);
  },
);
