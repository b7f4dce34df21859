/** Which route a plan takes at a moment (counting.md 21 and 22). The only place where now meets a route's last instant. */
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import { LOOKING } from "./fresh.ts";
import type { Rules } from "./rules.ts";
import { type Survey, untilFor } from "./survey.ts";
import type { RouteName } from "./types.ts";

export interface Choice {
  readonly route: RouteName | null;
  /** The last instant at which a lapsed route is kept because nothing was recorded; null where the route fits. */
  readonly grace: Instant | null;
}

/** The first route that fits; with none and no application told of, the one that lapsed last, while its grace runs. */
export const chooseRoute = (found: Survey, now: Instant, rules: Rules): Choice => {
  const untils = found.order.map((route) => ({ route, until: untilFor(found, route) }));
  const fitting = untils.find(({ until }) => until !== null && now <= until);
  if (fitting) return { route: fitting.route, grace: null };
  if (found.own.some((fact) => fact.kind === "applied")) return { route: null, grace: null };
  let last: { route: RouteName; until: Instant } | undefined;
  for (const { route, until } of untils) {
    if (until !== null && (!last || until > last.until)) last = { route, until };
  }
  if (!last) return { route: null, grace: null };
  const grace = graceEnd(last.until, found.booking.start, rules);
  return now <= grace ? { route: last.route, grace } : { route: null, grace: null };
};

const graceEnd = (until: Instant, start: Instant, rules: Rules): Instant => {
  if (!rules.hasOpening) return Math.min(until + DAY_SECONDS, start);
  const { zone, onDay } = rules.handOver.hours;
  for (let day = zone.dayAt(until) + 1; day <= zone.dayAt(until + LOOKING); day++) {
    const last = onDay(day).at(-1);
    if (last) return Math.min(last.to, start);
  }
  return start;
};
