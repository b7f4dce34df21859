/** Laws e and h of counting.md: what the passing of time may change, and what follows what. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import type { Plan } from "../../src/plan/types.ts";
import { DAY_SECONDS, HOUR } from "../../src/time/instant.ts";
import { BEFORE_THE_LOOKS, fitsAt, nowOf, planAt, planBy, plansOf, routeOf, stepOf, toldBy } from "./law-plans.ts";
import { checkLaw, lawTitle } from "./law-runs.ts";
import { toldScenes } from "./plan-arbitraries.ts";

const termsOf = (plan: Plan) => plan.steps.map(({ kind, n, opens, due }) => [kind, n, opens, due]);

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
