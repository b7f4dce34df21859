/** Law d of counting.md: the earliest start against trying starts, one by one, by the engine's own fits. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { earliestStarts } from "../../src/plan/earliest.ts";
import { DAY_SECONDS, type Instant, MINUTE } from "../../src/time/instant.ts";
import { isOpenAt, openMinuteBefore, openMinuteFrom } from "./law-calendar.ts";
import { fitsAt, nowOf, planAt, routeOf } from "./law-plans.ts";
import { checkLaw, lawTitle, seedOf } from "./law-runs.ts";
import { openScenes, RUNS, scenes, toldScenes } from "./plan-arbitraries.ts";

const LOOKING = 400 * DAY_SECONDS;

test(lawTitle("d", "a route fits exactly from its earliest start on, where no lead is greatest"), () => {
  checkLaw("d", openScenes({ isLimited: false }), (scene) => {
    const { rules, start } = scene;
    const now = nowOf(scene);
    // Beyond 400 days there is no earliest start, whatever fits.
    if (now > start || start > now + LOOKING) return false;
    const plan = planAt(scene, start, now);
    for (const { route, start: earliest } of earliestStarts(rules, now)) {
      expect(routeOf(plan, route)?.fits).toBe(earliest !== null && earliest <= start);
      const last = earliest === null ? now + LOOKING : earliest - 1;
      if (earliest !== null) {
        expect([earliest % MINUTE, earliest >= now, isOpenAt(scene, earliest)]).toEqual([0, true, true]);
        expect(fitsAt(scene, earliest, now, route)).toBe(true);
        const later = openMinuteFrom(scene, earliest + MINUTE);
        if (later !== undefined) expect(fitsAt(scene, later, now, route)).toBe(true);
      }
      const before = openMinuteBefore(scene, last + 1, now);
      if (before !== undefined) expect(fitsAt(scene, before, now, route)).toBe(false);
    }
    return true;
  });
});

/** Minutes of the time before a start that are tried, besides those right before it. */
const TRIED = 60;

test(lawTitle("d-limited", "with a greatest lead the earliest start is the first that fits"), () => {
  checkLaw(
    "d-limited",
    fc.record({ scene: scenes({ tests: "limited-only" }), salt: fc.nat({ max: 10_000 }) }),
    ({ scene, salt }) => {
      const now = nowOf(scene);
      let seen = 0;
      scene.rules.tests.forEach((own, index) => {
        if (own.most === null) return;
        const { route, start: earliest } = earliestStarts(scene.rules, now)[index] as {
          route: "in-salon";
          start: Instant | null;
        };
        if (earliest !== null) {
          expect([earliest % MINUTE, earliest >= now, isOpenAt(scene, earliest)]).toEqual([0, true, true]);
          expect(fitsAt(scene, earliest, now, route)).toBe(true);
        }
        const from = Math.ceil(now / MINUTE) * MINUTE;
        const end = earliest ?? now + LOOKING;
        const tried = Array.from({ length: TRIED }, (_, each) => {
          const share = (each + ((salt * (each + 1) * 0.618) % 1)) / TRIED;
          return from + Math.floor(((end - from) * share) / MINUTE) * MINUTE;
        });
        let before: Instant | undefined = end;
        for (let minutes = 0; minutes < 5 && before !== undefined; minutes++) {
          before = openMinuteBefore(scene, before, now);
          if (before !== undefined) tried.push(before);
        }
        for (const at of tried) {
          const start = openMinuteFrom(scene, at);
          if (start !== undefined && start < end) expect(fitsAt(scene, start, now, route)).toBe(false);
        }
        seen++;
      });
      return seen > 0;
    },
  );
});

test("with records, the earliest start of a route is the first at which it would fit", () => {
  fc.assert(
    fc.property(toldScenes(), (scene) => {
      const { start, facts } = scene;
      const now = nowOf(scene, { facts });
      const known = { facts: facts.filter((fact) => fact.at <= now) };
      for (const { route, earliest } of planAt(scene, start, now, known).routes) {
        if (earliest === null) continue;
        expect([earliest % MINUTE, earliest >= now, isOpenAt(scene, earliest)]).toEqual([0, true, true]);
        expect(fitsAt(scene, earliest, now, route, known)).toBe(true);
        const step = Math.max(15, Math.floor((earliest - now) / MINUTE / 60)) * MINUTE;
        for (let at = earliest - MINUTE; at >= now; at -= step) {
          if (isOpenAt(scene, at)) expect(fitsAt(scene, at, now, route, known)).toBe(false);
        }
      }
    }),
    { numRuns: RUNS, seed: seedOf("earliest with records") },
  );
});
