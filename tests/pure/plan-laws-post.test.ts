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
import { type Carrier, followParcel, nextCollection, nextDelivery } from "./post-simulator.ts";

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

const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri"];
/** The default post of settings. */
const office: Carrier = {
  zone: "Europe/London",
  collection: WEEKDAYS,
  lastCollection: "16:30",
  delivery: [...WEEKDAYS, "sat"],
  deliveredBy: "18:00",
  transit: 3,
  count: "delivery",
  closed: [],
  daysOff: [],
};
const seconds = (text: string): number => Date.parse(text) / 1_000;

/** D+3 and the last collection: Directive 97/67/EC, Annex II. Counted on the calendar of October and December 2026. */
test.each([
  ["in the second of Tuesday's last collection", office, "2026-10-20T15:30:00Z", "2026-10-20", "2026-10-23T17:00:00Z"],
  ["a second after it", office, "2026-10-20T15:30:01Z", "2026-10-21", "2026-10-24T17:00:00Z"],
  [
    "on Friday, over Sunday and the autumn change",
    office,
    "2026-10-23T12:00:00Z",
    "2026-10-23",
    "2026-10-27T18:00:00Z",
  ],
  [
    "before Christmas, with its three days off",
    { ...office, daysOff: ["2026-12-25", "2026-12-26", "2026-12-28"] },
    "2026-12-24T12:00:00Z",
    "2026-12-24",
    "2026-12-31T18:00:00Z",
  ],
  [
    "by days of the calendar, the third of them a Sunday",
    { ...office, count: "calendar" as const },
    "2026-10-22T12:00:00Z",
    "2026-10-22",
    "2026-10-26T18:00:00Z",
  ],
  [
    "to a round at a midnight that Santiago's clocks leave out",
    { ...office, zone: "America/Santiago", transit: 1, delivery: ["sun"], deliveredBy: "00:00" },
    "2026-09-04T12:00:00Z",
    "2026-09-04",
    "2026-09-06T04:00:00Z",
  ],
])("a parcel handed over %s", (_when, carrier, handedOver, collected, inHands) => {
  expect(followParcel(carrier, seconds(handedOver))).toEqual({ collected, inHand: seconds(inHands) });
});
