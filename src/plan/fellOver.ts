/** Why a plan's route is not the first wish: which routes before it have closed, and until when it is open itself. */
import type { Instant } from "../time/instant.ts";
import type { Rules } from "./rules.ts";
import type { Survey, TestState } from "./survey.ts";
import type { RouteName, Why } from "./types.ts";
import { inWords } from "./words.ts";

type When = (at: Instant) => string;

const closed = ({ route, fresh, kit, until }: TestState, when: When): string => {
  if (route === "in-salon") {
    return until === null ? "No walk-in test keeps the lead" : `The last walk-in for the skin test was ${when(until)}`;
  }
  if (kit?.last) {
    return until === null
      ? "The posted kit comes too late to go on"
      : `The last moment for the kit to go on was ${when(until)}`;
  }
  if (!fresh) return "No time at home keeps the lead";
  return until === null ? "No post brings a kit in time" : `The last post for the kit was ${when(until)}`;
};

const open = ({ route, kit, appointment, until }: TestState, when: When): string => {
  const last = until === null ? "" : when(until);
  if (appointment)
    return `a test at the salon still fits, in the diary for ${when(appointment.due)}, at the latest by ${last}`;
  if (route === "in-salon") return `a walk-in test by ${last} still fits`;
  return kit?.last ? `the kit still fits, on by ${last}` : `a kit handed to the post by ${last} still fits`;
};

/** Undefined where the plan's route is the first there was. */
export const fellOverWhy = (found: Survey, route: RouteName | null, now: Instant, rules: Rules): Why | undefined => {
  const when: When = (at) => inWords(at, found.booking.start, rules);
  const chosen = found.tests.find((state) => state.route === route);
  if (!chosen || chosen.application) return undefined;
  const before = found.order
    .slice(0, found.order.indexOf(chosen.route))
    .flatMap((name) => found.tests.find((state) => state.route === name) ?? [])
    .filter(({ until }) => until === null || until < now);
  if (before.length === 0) return undefined;
  return {
    code: "fell-over",
    text: `${before.map((state) => closed(state, when)).join("; ")}; ${open(chosen, when)}.`,
  };
};
