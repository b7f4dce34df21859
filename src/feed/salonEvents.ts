/**
 * The salon's feed for one plan: every step, for the front desk, and a notice where something is late or no test fits any more. The appointment
 * itself is in the salon's diary already. Never shows more of a client than the salon chose to.
 */
import type { Plan } from "../plan/types.ts";
import { alarmNotice, lateNotice, noTimeNotice } from "./notices.ts";
import { stepEvents } from "./stepEvent.ts";
import type { EventContent, FeedContext } from "./types.ts";

/** The salon's events, in the plan's order. What is not asked for any more is `cancelled`; what has been done stays. */
export const salonEvents = (plan: Plan, context: FeedContext): readonly EventContent[] => [
  ...stepEvents(plan, context, "salon"),
  ...noticesOf(plan, context),
];

const noticesOf = (plan: Plan, context: FeedContext): readonly EventContent[] => {
  if (plan.alarm) return [alarmNotice(plan, plan.alarm, context)];
  if (plan.standing === "no-time") return [noTimeNotice(plan, context)];
  const late = plan.standing === "late" ? lateNotice(plan, context) : null;
  return late ? [late] : [];
};
