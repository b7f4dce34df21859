/** Records and a booking written in short, for tests of records. Nothing here expects a result. */
import type { BookingFacts, Fact } from "../../src/plan/types.ts";

export const BOOKING = "booking-1";

/** A record with nothing said but what is given. */
export const makeFact = (given: Partial<Fact> & Pick<Fact, "kind" | "at">): Fact => ({
  id: `${given.kind}-${given.at}`,
  client: null,
  booking: BOOKING,
  recorded: given.at,
  via: "desk",
  outcome: null,
  route: null,
  by: null,
  product: null,
  shade: null,
  batch: null,
  site: null,
  photo: null,
  reason: null,
  note: null,
  corrects: null,
  ...given,
});

export const bookingAt = (start: number): BookingFacts => ({
  uid: BOOKING,
  start,
  end: start + 7_200,
  summary: "Tint",
  service: "Colour",
  diary: "main",
  client: null,
  cancelled: false,
});

/** A record before it has an id; `toldAfter` seconds after it happened. */
export type Bare = Partial<Fact> & Pick<Fact, "kind" | "at"> & { readonly toldAfter?: number };
