/** All that a client's plans are made from, gathered by client. Pure. */
import type { Fact, TestAppointment } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { appointmentsByBooking } from "./appointments.ts";
import { factsByClient } from "./factsByClient.ts";
import type { Booking, State } from "./types.ts";

export interface Matters {
  /** In order of their starts. */
  readonly bookings: readonly Booking[];
  readonly facts: readonly Fact[];
  /** Tests in the diary by the booking each is for. */
  readonly appointments: ReadonlyMap<string, readonly TestAppointment[]>;
  /** When answers for a booking last left the decision to a person, by booking. */
  readonly undecided: ReadonlyMap<string, Instant>;
}

const byStart = (one: Booking, other: Booking): number => one.start - other.start || (one.uid < other.uid ? -1 : 1);

/** What is known of each client who has a booking. */
export const mattersByClient = (
  state: Pick<State, "clients" | "bookings" | "facts" | "tests" | "screenings">,
): ReadonlyMap<string, Matters> => {
  const factsOf = factsByClient(state.facts, state.bookings);
  const appointments = appointmentsByBooking(state);
  const undecided = new Map<string, Instant>();
  for (const { client, booking, outcome, at } of state.screenings.values()) {
    // What one client answered is nothing of another's, though the entry should come to her.
    if (outcome === null && state.bookings.get(booking)?.client === client) undecided.set(booking, at);
  }
  const matters = new Map<string, Matters>();
  for (const [client, group] of Map.groupBy(state.bookings.values(), (booking) => booking.client)) {
    const bookings = group.toSorted(byStart);
    matters.set(client, { bookings, facts: factsOf.get(client) ?? [], appointments, undecided });
  }
  return matters;
};
