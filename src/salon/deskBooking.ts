/** One appointment as the desk sees it: its plan, all that was told of it, and what it would be at another time. Pure. */
import type { Rules } from "../plan/rules.ts";
import { type Shade, shadesBetween } from "../plan/shades.ts";
import type { Plan } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { type DeskClient, deskClient, currentLinks } from "./deskPeople.ts";
import type { LinkUse } from "./LinkTable.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { listLog, type LogEntry } from "./recordList.ts";
import { listScreenings, type ScreeningShown } from "./screenings.ts";
import type { Booking, State } from "./types.ts";

export interface DeskBookingShown {
  readonly booking: Booking;
  readonly plan: Plan;
  readonly client: DeskClient;
  /** Oldest first. */
  readonly records: readonly LogEntry[];
  readonly screenings: readonly ScreeningShown[];
  /** Her other appointments, in order of their starts. */
  readonly others: readonly Plan[];
  readonly shades: readonly Shade[];
  /** What her plan would be if it began at another time; null: it was not asked. */
  readonly whatIf: Plan | null;
}

/** What one page lists of what was told; the log has the rest. */
const RECORDS_SHOWN = 200;

/**
 * Undefined where the appointment is not there any more, or nobody's.
 * @param start another start to try, instead of the diary's
 */
export const deskBooking = (
  state: State,
  rules: Rules,
  uses: ReadonlyMap<string, LinkUse>,
  uid: string,
  start: Instant | null,
  now: Instant,
): DeskBookingShown | undefined => {
  const booking = state.bookings.get(uid);
  const client = booking && state.clients.get(booking.client);
  if (!booking || client?.erased !== null) return undefined;
  const choice = { ...EVERY_PLAN, client: client.id, limit: Number.MAX_SAFE_INTEGER };
  const { plans } = plansOf(state, rules, choice, now);
  const plan = plans.find((each) => each.booking.uid === uid);
  if (!plan) return undefined;
  const whatIf = start === null ? null : (planAt(state, rules, booking, start, now) ?? null);
  const times = [plan, ...(whatIf ? [whatIf] : [])].flatMap((each) => [
    each.booking.start,
    ...each.steps.flatMap(({ opens, due }) => [opens, due]),
  ]);
  const about = { client: null, booking: uid, after: null, limit: RECORDS_SHOWN };
  return {
    booking,
    plan,
    client: deskClient(client, currentLinks(state, uses)),
    records: listLog(state, about).rows,
    screenings: listScreenings(state, about).screenings,
    others: plans.filter((each) => each !== plan),
    shades: shadesBetween(rules, Math.min(now, ...times), Math.max(...times)),
    whatIf,
  };
};

/** Her plan if the appointment began then: everything else as it is. */
const planAt = (state: State, rules: Rules, booking: Booking, start: Instant, now: Instant): Plan | undefined => {
  const end = booking.end === null ? null : start + (booking.end - booking.start);
  const moved: Booking = { ...booking, start, end, cancelledAt: null, unreadSince: null };
  const bookings = new Map(state.bookings).set(booking.uid, moved);
  const choice = { ...EVERY_PLAN, client: booking.client, limit: Number.MAX_SAFE_INTEGER };
  const { plans } = plansOf({ ...state, bookings }, rules, choice, now);
  return plans.find((each) => each.booking.uid === booking.uid);
};
