/** The order in which bookings are looked at everywhere, whatever order they came or were loaded in. Pure. */
import type { Booking } from "./types.ts";

type Placed = Pick<Booking, "start" | "uid">;

export const byStart = (one: Placed, other: Placed): number =>
  one.start - other.start || (one.uid < other.uid ? -1 : 1);
