/** The test that a plan still has ahead, as cover for the client's later bookings (counting.md 25). */
import type { Rules } from "./rules.ts";
import type { Plan, TestAhead } from "./types.ts";

/** Undefined where the plan has no test of its own, none that still fits, or is stopped, past or cancelled. */
export const testAhead = (plan: Plan, rules: Rules): TestAhead | undefined => {
  const { booking, route, standing } = plan;
  if (route === null || route === "on-file") return undefined;
  if (standing === "stop" || standing === "past" || standing === "cancelled") return undefined;
  if (!plan.routes.some((each) => each.route === route && each.fits)) return undefined;
  const application = plan.steps.find((step) => step.kind === "application");
  const counted = plan.steps.find((step) => step.counted !== null)?.counted;
  if (!application) return undefined;
  const service = rules.settings.services.find((each) => each.name === booking.service);
  return {
    booking: booking.uid,
    start: booking.start,
    route,
    application: counted?.from ?? application.due,
    product: service?.product ?? null,
    shade: service?.shade ?? null,
  };
};
