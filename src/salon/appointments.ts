/** Which booking each skin test in the diary is for (counting.md 31). Pure; one answer for plans and for what must be told anew. */
import { PeopleIndex } from "../diary/clients.ts";
import type { TestAppointment } from "../plan/types.ts";
import { byStart } from "./byStart.ts";
import type { DiaryTest, State } from "./types.ts";

/**
 * Tests in the diary by booking: of the client's next one after the test. A bare name is enough where only one client has
 * it, since a deadline is no result; with several it stays nobody's.
 */
export const appointmentsByBooking = (
  state: Pick<State, "clients" | "bookings" | "tests">,
): ReadonlyMap<string, readonly TestAppointment[]> => {
  const found = new Map<string, TestAppointment[]>();
  if (state.tests.size === 0) return found;
  const bookingsOf = Map.groupBy(
    [...state.bookings.values()].filter(({ cancelledAt }) => cancelledAt === null).toSorted(byStart),
    ({ client }) => client,
  );
  const people = new PeopleIndex(state.clients.values());
  for (const test of state.tests.values()) {
    const client = clientOf(test, people);
    const next = client && bookingsOf.get(client)?.find(({ start }) => start > test.start);
    if (!next) continue;
    found.set(next.uid, [...(found.get(next.uid) ?? []), { start: test.start, end: test.end }]);
  }
  return found;
};

/** The person whose test it is. */
const clientOf = (test: DiaryTest, people: PeopleIndex): string | undefined => {
  const found = test.email === null && test.phone === null ? people.onlyNamesake(test) : people.find(test);
  return found && (found.joined ?? found.id);
};
