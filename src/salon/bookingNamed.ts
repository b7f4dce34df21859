/** Finds an appointment by the name that addresses of the desk give it, which says nothing of anybody. */
import { eventUid } from "../plan/uid.ts";
import type { State } from "./types.ts";

/** The UID of the appointment whose colour event has this UID; null where none is known and nothing was told of one. */
export const bookingNamed = (
  { bookings, facts }: Pick<State, "bookings" | "facts">,
  salon: string,
  ref: string,
): string | null => {
  const isNamed = (uid: string): boolean => eventUid(salon, uid, "colour", null) === ref;
  for (const uid of bookings.keys()) if (isNamed(uid)) return uid;
  for (const { booking } of facts.values()) if (booking !== null && isNamed(booking)) return booking;
  return null;
};
