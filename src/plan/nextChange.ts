/** When a plan may next differ from what it is (its `earliest` apart): every boundary there is, the nearest after now. */
import { LATE_REACTION_DAYS } from "../bounds.ts";
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import type { Rules } from "./rules.ts";
import type { BookingFacts, Fact, RoutePlan, Step, TestAhead } from "./types.ts";

/**
 * The earliest boundary after `now`; null where none is left. A due or last instant is met by its own second, so what
 * follows it changes one second later (counting.md 3). The end of the start's local day and of the time in which a
 * reaction is asked for change no plan but what pages show of it.
 */
export const findNextChange = (
  parts: {
    readonly booking: BookingFacts;
    readonly facts: readonly Fact[];
    /** The plan's own and those of a kit left behind: whether one is late hangs on its due. */
    readonly steps: readonly Step[];
    readonly routes: readonly RoutePlan[];
    readonly grace: Instant | null;
    readonly ahead: readonly TestAhead[];
  },
  now: Instant,
  rules: Rules,
): Instant | null => {
  const { start } = parts.booking;
  const boundaries: readonly (Instant | null)[] = [
    ...parts.facts.map((fact) => fact.at),
    ...(parts.booking.cancelled
      ? []
      : [
          ...parts.steps.flatMap(({ opens, due, booked }) => [opens, due + 1, booked ? booked.until + 1 : null]),
          ...parts.routes.map(({ until }) => (until === null ? null : until + 1)),
          ...parts.ahead.map((test) => test.start + 1),
          parts.grace === null ? null : parts.grace + 1,
          start + 1,
          rules.zone.startOfDay(rules.zone.dayAt(start) + 1),
          start + LATE_REACTION_DAYS * DAY_SECONDS + 1,
        ]),
  ];
  let next: Instant | null = null;
  for (const boundary of boundaries) {
    if (boundary !== null && boundary > now && (next === null || boundary < next)) next = boundary;
  }
  return next;
};
