/** Plans of a salon's bookings as they stand at an instant. Reads the state, changes nothing. */
import type { Plan } from "../plan/types.ts";
import type { Rules } from "../plan/rules.ts";
import { PAGE_MAX } from "../bounds.ts";
import type { Day, Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { byStart } from "./byStart.ts";
import { mattersByClient } from "./matters.ts";
import { personOf } from "./owners.ts";
import { planClient } from "./planClient.ts";
import type { MakePlans } from "./PlanMemo.ts";
import type { Booking, State } from "./types.ts";

/** A bound of a list: a date in the salon's zone, or an instant. */
export type PlanBound = { readonly day: Day } | { readonly at: Instant };

export interface PlanChoice {
  /** Half-open, by the booking's start; null: no end. */
  readonly from: PlanBound | null;
  readonly to: PlanBound | null;
  readonly client: string | null;
  /** Where the page before ended. */
  readonly after: PlanCursor | null;
  readonly limit: number;
}

/** A place in the list that stays one though its booking is gone. */
export type PlanCursor = Pick<Booking, "start" | "uid">;

export const EVERY_PLAN: PlanChoice = { from: null, to: null, client: null, after: null, limit: PAGE_MAX };

/** The instant of a bound, by the salon's clock. */
export const instantOf = (bound: PlanBound | null, zone: Zone): Instant | null => {
  if (bound === null) return null;
  return "at" in bound ? bound.at : zone.startOfDay(bound.day);
};

/**
 * Plans in the order of their bookings' starts; `next` is the cursor of the page that follows, if any.
 * @param make how one client's are made: anew, or from what is kept of them
 */
export const plansOf = (
  state: State,
  rules: Rules,
  choice: PlanChoice,
  now: Instant,
  make: MakePlans = planClient,
): { readonly plans: readonly Plan[]; readonly next: PlanCursor | null } => {
  const [from, to] = [instantOf(choice.from, rules.zone), instantOf(choice.to, rules.zone)];
  const matters = mattersByClient(state);
  const chosen = [...state.bookings.values()]
    .filter(
      ({ start, client }) =>
        (from === null || start >= from) &&
        (to === null || start < to) &&
        (choice.client === null || client === personOf(state.clients, choice.client)) &&
        state.clients.get(client)?.erased === null,
    )
    .sort(byStart);
  const { after } = choice;
  const follow = after === null ? chosen : chosen.filter((booking) => byStart(after, booking) < 0);
  const page = follow.slice(0, choice.limit);
  const wanted = new Set(page.map(({ uid }) => uid));
  const plans = [...new Set(page.map(({ client }) => client))].flatMap((id) => {
    const client = state.clients.get(id);
    const known = matters.get(id);
    if (!client || !known) throw new Error("a booking without its client is stored");
    const made = make(client, known, now, rules);
    return made.filter(({ booking }) => wanted.has(booking.uid));
  });
  plans.sort((one, other) => byStart(one.booking, other.booking));
  const last = page.at(-1);
  return { plans, next: last && page.length < follow.length ? { start: last.start, uid: last.uid } : null };
};
