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

/**
 * Answers that wait for a person: nobody at the salon has recorded a screening of that booking since. What one client
 * answered is nothing of another's, though the entry should come to her.
 */
const undecidedByBooking = (state: Pick<State, "bookings" | "facts" | "screenings">): ReadonlyMap<string, Instant> => {
  const found = new Map<string, Instant>();
  const open = [...state.screenings.values()].filter(({ outcome }) => outcome === null);
  if (open.length === 0) return found;
  const corrected = new Set([...state.facts.values()].map(({ corrects }) => corrects));
  const decided = new Map<string | null, number>();
  for (const { id, kind, via, booking } of state.facts.values()) {
    if (kind !== "screened" || via === "client-link" || corrected.has(id)) continue;
    decided.set(booking, Math.max(decided.get(booking) ?? 0, Number(id.slice(1))));
  }
  for (const { client, booking, at, before } of open) {
    const isHers = state.bookings.get(booking)?.client === client;
    if (isHers && (decided.get(booking) ?? 0) < before) found.set(booking, at);
  }
  return found;
};

/** What is known of each client who has a booking. */
export const mattersByClient = (
  state: Pick<State, "clients" | "bookings" | "facts" | "tests" | "screenings">,
): ReadonlyMap<string, Matters> => {
  const factsOf = factsByClient(state.facts, state.bookings);
  const appointments = appointmentsByBooking(state);
  const undecided = undecidedByBooking(state);
  const matters = new Map<string, Matters>();
  for (const [client, group] of Map.groupBy(state.bookings.values(), (booking) => booking.client)) {
    const bookings = group.toSorted(byStart);
    matters.set(client, { bookings, facts: factsOf.get(client) ?? [], appointments, undecided });
  }
  return matters;
};
