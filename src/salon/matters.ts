/** All that a client's plans are made from, gathered by client. Pure. */
import { PeopleIndex } from "../diary/clients.ts";
import type { Fact, TestAppointment } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { factsByClient } from "./factsByClient.ts";
import type { Booking, Client, DiaryTest, State } from "./types.ts";

export interface Matters {
  /** In order of their starts. */
  readonly bookings: readonly Booking[];
  readonly facts: readonly Fact[];
  /** Tests in the diary by the booking each is for. */
  readonly appointments: ReadonlyMap<string, readonly TestAppointment[]>;
  /** When a booking's newest answers left the decision to a person, by booking. */
  readonly undecided: ReadonlyMap<string, Instant>;
}

const byStart = (one: Booking, other: Booking): number => one.start - other.start || (one.uid < other.uid ? -1 : 1);

/** A test in the diary is for the client's next booking after it (counting.md 31). */
const appointmentsOf = (
  tests: readonly DiaryTest[],
  bookings: readonly Booking[],
): ReadonlyMap<string, readonly TestAppointment[]> => {
  const found = new Map<string, TestAppointment[]>();
  for (const { start, end } of tests) {
    const next = bookings.find((booking) => booking.cancelledAt === null && booking.start > start);
    if (next) found.set(next.uid, [...(found.get(next.uid) ?? []), { start, end }]);
  }
  return found;
};

/**
 * Tests in the diary by client. A bare name is enough where only one client has it, since a deadline is no result; with
 * several it stays nobody's.
 */
const testsByClient = (
  tests: ReadonlyMap<string, DiaryTest>,
  clients: readonly Client[],
): ReadonlyMap<string, readonly DiaryTest[]> => {
  const found = new Map<string, DiaryTest[]>();
  if (tests.size === 0) return found;
  const people = new PeopleIndex(clients);
  for (const test of tests.values()) {
    const client = people.find(test) ?? people.onlyPossible(test);
    if (client) found.set(client.id, [...(found.get(client.id) ?? []), test]);
  }
  return found;
};

/** What is known of each client who has a booking. */
export const mattersByClient = (
  state: Pick<State, "clients" | "bookings" | "facts" | "tests" | "screenings">,
): ReadonlyMap<string, Matters> => {
  const factsOf = factsByClient(state.facts, state.bookings);
  const groups = Map.groupBy(state.bookings.values(), (booking) => booking.client);
  const testsOf = testsByClient(
    state.tests,
    [...state.clients.values()].filter(({ id }) => groups.has(id)),
  );
  const undecided = new Map<string, Instant>();
  for (const { booking, outcome, at } of state.screenings.values()) {
    if (outcome === null) undecided.set(booking, at);
    else undecided.delete(booking);
  }
  const matters = new Map<string, Matters>();
  for (const [client, group] of groups) {
    const bookings = group.toSorted(byStart);
    const appointments = appointmentsOf(testsOf.get(client) ?? [], bookings);
    matters.set(client, { bookings, facts: factsOf.get(client) ?? [], appointments, undecided });
  }
  return matters;
};
