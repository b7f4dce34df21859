/** Two laws that hold of plans with records beside a to i: what changes between boundaries, and what a stop beats. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import type { Plan } from "../../src/plan/types.ts";
import { DAY_SECONDS, type Instant } from "../../src/time/instant.ts";
import { nowOf, planAt } from "./law-plans.ts";
import { seedOf } from "./law-runs.ts";
import { bookingAt, makeFact, RUNS, toldScenes } from "./plan-arbitraries.ts";

/**
 * A plan without what may change at any moment, and which of its steps have opened and are overdue: the feeds put a step
 * that is overdue as a question, whatever the standing.
 */
const lasting = ({ asOf, earliest: _earliest, routes, ...rest }: Plan) => ({
  ...rest,
  turned: rest.booking.cancelled
    ? []
    : [...rest.steps, ...rest.leftBehind].map(({ opens, due }) => [opens <= asOf, due < asOf]),
  routes: routes.map(({ earliest: _each, ...route }) => route),
});

test("nothing but earliest changes from one boundary of a plan to the next", () => {
  const given = fc.record({ scene: toldScenes(), isCancelled: fc.constantFrom(false, false, false, true) });
  fc.assert(
    fc.property(given, ({ scene, isCancelled }) => {
      const { rules, start, facts, appointments } = scene;
      const booking = { ...bookingAt(start), cancelled: isCancelled };
      const ahead = [
        {
          booking: "booking-0",
          start: start - 5 * DAY_SECONDS,
          route: "home-kit" as const,
          application: start - 12 * DAY_SECONDS,
          product: null,
          shade: null,
        },
      ];
      const at = (moment: Instant): Plan =>
        countBack({ booking, facts, appointments, samePerson: true, ahead, now: moment }, rules);
      let moment: Instant = Math.min(nowOf(scene, scene), start - 20 * DAY_SECONDS);
      for (;;) {
        const plan = at(moment);
        const end = plan.next ?? moment + 60 * DAY_SECONDS;
        expect(end).toBeGreaterThan(moment);
        expect(lasting(at(end - 1))).toEqual(lasting(plan));
        expect(lasting(at(Math.floor((moment + end) / 2)))).toEqual(lasting(plan));
        if (plan.next === null) return;
        moment = plan.next;
      }
    }),
    { numRuns: Math.ceil(RUNS / 3), seed: seedOf("boundaries") },
  );
});

test("a stop beats everything but the past and a cancelled booking", () => {
  fc.assert(
    fc.property(toldScenes(), (scene) => {
      const { start, facts } = scene;
      const now = nowOf(scene, scene);
      const uncorrected = facts.filter((fact) => fact.kind !== "correction");
      const reacted = makeFact({
        kind: "reacted",
        at: Math.min(now, start) - 60,
        id: "reaction",
        booking: "booking-0",
      });
      const plan = planAt(scene, start, now, { facts: [...uncorrected, reacted] });
      expect(plan.standing).toBe(now > start ? "past" : "stop");
      expect(plan.why[0]?.code).toBe("stop");
    }),
    { numRuns: RUNS, seed: seedOf("a stop") },
  );
});
