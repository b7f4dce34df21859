/** Laws f and g of counting.md: the engine against itself, with one more holiday and with a later start. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Rules } from "../../src/plan/rules.ts";
import type { Plan, Step, StepKind } from "../../src/plan/types.ts";
import { DAY_SECONDS, formatDay, type Instant, MINUTE } from "../../src/time/instant.ts";
import { keepingWalkIn, type Place } from "./law-calendar.ts";
import { BEFORE_THE_LOOKS, nowOf, plansOf, stepOf } from "./law-plans.ts";
import { checkLaw, lawTitle } from "./law-runs.ts";
import { compile, type Scene, scenes } from "./plan-arbitraries.ts";

/** The steps of a kit that hang on its post. */
const BY_POST: readonly StepKind[] = ["screening", "shipping", "arrival"];

/**
 * Whether a kit leaves no room for the walk-in because in 400 days no collection would, so that rule 12 alone decides
 * (counting.md 13). Where only one of two plans does, their post cannot be compared: the rule itself puts one before and
 * one behind a closure of more than a year. Everything else is.
 */
const givesWay = (place: Place, start: Instant, plan: Plan): boolean => {
  const [arrival, application] = [stepOf(plan, "arrival"), stepOf(plan, "application")];
  return !!arrival && !!application && arrival.due > keepingWalkIn(place, application.opens, start);
};

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
      const isComparable = moved && givesWay(without, start, old) === givesWay(withIt, start, moved);
      for (const step of moved?.steps ?? []) {
        if (!BEFORE_THE_LOOKS.includes(step.kind) || (!isComparable && BY_POST.includes(step.kind))) continue;
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
    const laterStart = start + later * MINUTE;
    const now = nowOf(scene);
    let seen = 0;
    for (const old of plansOf(scene, start, now)) {
      const moved = plansOf(scene, laterStart, now).find(({ route }) => route === old.route);
      const isComparable = moved && givesWay(scene, start, old) === givesWay(scene, laterStart, moved);
      for (const step of moved?.steps ?? []) {
        if (!isComparable && BY_POST.includes(step.kind)) continue;
        const before = old.steps.find(({ kind, n }) => kind === step.kind && n === step.n) as Step;
        expect(step.due, step.kind).toBeGreaterThanOrEqual(before.due);
        seen++;
      }
    }
    return seen > 0;
  });
});
