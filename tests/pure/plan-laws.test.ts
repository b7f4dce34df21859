/**
 * Laws a and b of counting.md over random salons, bookings and moments around changes of the clocks, against a reckoning
 * on TC39 Temporal; and how many cases an ordinary run tries. The other laws stand beside: c in plan-laws-post.test.ts,
 * d in plan-laws-earliest.test.ts, e and h in plan-laws-now.test.ts, f and g in plan-laws-moved.test.ts, i in
 * plan-laws-host.test.ts.
 */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Step } from "../../src/plan/types.ts";
import { windowOf } from "../reckoner/protocol.ts";
import { applicationOf, lastMomentOf, testsOf } from "./law-calendar.ts";
import { nowOf, planAt, planBy, plansOf, routeOf, stepOf, toldBy } from "./law-plans.ts";
import { CASES, CASES_AT_LEAST, checkLaw, lawTitle, OWN_RUNS, seedOf } from "./law-runs.ts";
import { scenes, toldScenes } from "./plan-arbitraries.ts";

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

const HERE = import.meta.dirname;

test.skipIf(OWN_RUNS !== null)(
  "an ordinary run tries the laws on at least 100,000 cases, no two host zones alike",
  () => {
    const files = readdirSync(HERE).filter((name) => /^plan-laws.*\.test\.ts$/.test(name));
    const tried = files.flatMap((name) => [
      ...readFileSync(`${HERE}/${name}`, "utf8").matchAll(/^\s*checkLaw\(\s*"([^"]+)"/gm),
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
