/**
 * Law c of counting.md: a parcel handed over when the plan says is followed forwards, day after day, by
 * post-simulator.ts; what it must come in time for is reckoned by law-calendar.ts. Neither asks the engine.
 */
import { expect, test } from "vitest";
import type { Step } from "../../src/plan/types.ts";
import type { Instant } from "../../src/time/instant.ts";
import { LOOKING_S } from "../reckoner/moments.ts";
import {
  applicationOf,
  carrierOf,
  firstMomentOf,
  keepingWalkIn,
  lastMomentOf,
  type Place,
  testsOf,
} from "./law-calendar.ts";
import { nowOf, planAt, planBy, routeOf, stepOf } from "./law-plans.ts";
import { checkLaw, lawTitle } from "./law-runs.ts";
import { scenes } from "./plan-arbitraries.ts";
import { followParcel, nextCollection, nextDelivery } from "./post-simulator.ts";

/** When a kit handed over at an instant is in hand, by the salon's carrier; never, where nobody brings it. */
const inHand = (place: Place, handedOver: Instant | undefined): Instant =>
  (handedOver === undefined ? undefined : followParcel(carrierOf(place), handedOver)?.inHand) ?? Infinity;

/** The hand-over is the last one whose kit is there by `deadline`. */
const expectLastHandOver = (place: Place, handOver: Instant, deadline: Instant): void => {
  expect(lastMomentOf(place, "hand-over", handOver)?.at).toBe(handOver);
  expect(inHand(place, handOver)).toBeLessThanOrEqual(deadline);
  expect(inHand(place, firstMomentOf(place, "hand-over", handOver + 1)?.at)).toBeGreaterThan(deadline);
};

test(lawTitle("c", "a kit handed over at its due is there in time, and one collection later is not"), () => {
  checkLaw("c", scenes({ tests: "with-kit" }), (scene) => {
    const { start } = scene;
    const kit = testsOf(scene).find(({ route }) => route === "home-kit");
    const application = kit && applicationOf(scene, kit, start);
    if (!application) return false;
    const carrier = carrierOf(scene);
    const keeping = keepingWalkIn(scene, application.opens, start);
    const firstOfAll = inHand(scene, firstMomentOf(scene, "hand-over", start - LOOKING_S)?.at);

    const plan = planBy(scene, start, "home-kit");
    const until = routeOf(plan, "home-kit")?.until ?? null;
    if (until === null) {
      // Then not even a kit handed over 400 days before is there in time.
      expect(firstOfAll).toBeGreaterThan(application.opens);
      return true;
    }
    expectLastHandOver(scene, until, application.opens);

    const now = planAt(scene, start, nowOf(scene));
    for (const each of now.route === "home-kit" ? [plan, now] : [plan]) {
      expect(stepOf(each, "application")?.opens).toBe(application.opens);
      const [shipping, arrival] = [stepOf(each, "shipping") as Step, stepOf(each, "arrival") as Step];
      // Counting.md 13: rule 12 alone decides only where no hand-over at all would leave room for the walk-in.
      const deadline = firstOfAll <= keeping ? keeping : application.opens;
      expectLastHandOver(scene, shipping.due, deadline);
      expect(inHand(scene, shipping.due)).toBeLessThanOrEqual(arrival.due);
      // Arrival is due with the last round that is in time.
      expect(arrival.due).toBeLessThanOrEqual(deadline);
      expect(nextDelivery(carrier, arrival.due - 1)).toBe(arrival.due);
      expect(nextDelivery(carrier, arrival.due) ?? Infinity).toBeGreaterThan(deadline);
      // Put straight into any later collection, up to the deadline itself, the kit comes too late.
      const next = firstMomentOf(scene, "hand-over", shipping.due + 1)?.at ?? Infinity;
      for (
        let at = nextCollection(carrier, next - 1);
        at !== undefined && at <= deadline;
        at = nextCollection(carrier, at)
      )
        expect(inHand(scene, at)).toBeGreaterThan(deadline);
    }
    return true;
  });
});
