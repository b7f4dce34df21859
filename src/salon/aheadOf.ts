/** A client's appointments that are still to come, the next one first. Pure. */
import type { Instant } from "../time/instant.ts";
import { byStart } from "./byStart.ts";
import type { Booking, State } from "./types.ts";

export const aheadOf = (state: Pick<State, "bookings">, client: string, at: Instant): readonly Booking[] =>
  [...state.bookings.values()]
    .filter((booking) => booking.client === client && booking.cancelledAt === null && booking.start >= at)
    .toSorted(byStart);
