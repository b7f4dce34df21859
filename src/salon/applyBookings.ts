/** Makes a reading's bookings those of the salon: new, moved, gone, and whose they are. Works on one state in change. */
import { PeopleIndex } from "../diary/clients.ts";
import type { FoundTest } from "../diary/findBookings.ts";
import { matchBookings, type OwnedBooking } from "../diary/identity.ts";
import type { FoundBooking, Horizon } from "../diary/types.ts";
import { applyTests } from "./applyTests.ts";
import { clientFor } from "./clientFor.ts";
import { touch, type Work } from "./settle.ts";
import type { Booking } from "./types.ts";

export interface Applied {
  /** Bookings of this diary that lay ahead before the reading. */
  readonly ahead: number;
  /** How many of them it no longer holds, and how many of those it does not call cancelled either. */
  readonly vanished: number;
  readonly lost: number;
  /** Identities left unclear: a vanished booking with several possible successors. */
  readonly unclear: readonly string[];
}

/** @param entries keys of those that the diary itself calls cancelled, and of those that could not be understood */
export const applyBookings = (
  work: Work,
  diary: string,
  { bookings, tests }: { readonly bookings: readonly FoundBooking[]; readonly tests: readonly FoundTest[] },
  entries: { readonly cancelled: ReadonlySet<string>; readonly unclear: ReadonlySet<string> },
  horizon: Horizon,
): Applied => {
  const ahead = countAhead(work, diary);
  const people = new PeopleIndex(work.clients.values());
  const carried = new Map(
    [...work.bookings.values()].filter((each) => each.diary === diary).map((each) => [each.key, each.client]),
  );
  const found = bookings.map((booking): OwnedBooking => {
    return { found: booking, client: clientFor(work, people, booking.client, carried.get(booking.key)) };
  });
  const { kept, added, vanished, unclear } = matchBookings(
    diary,
    [...work.bookings.values()].map(asKnown),
    found,
    work.at,
    horizon,
  );
  for (const { uid, owned } of kept) take(work, work.bookings.get(uid) as Booking, owned);
  for (const { uid, owned } of added) {
    take(work, { uid, firstSeen: work.at, cancelledAt: null, next: null }, owned);
  }
  let lost = 0;
  for (const uid of vanished) {
    const booking = work.bookings.get(uid) as Booking;
    // It still stands in the diary: that it is no longer understood is a question, and cancels nothing.
    if (entries.unclear.has(booking.key)) continue;
    if (!entries.cancelled.has(booking.key)) lost++;
    work.bookings.set(uid, { ...booking, cancelledAt: work.at });
    touch(work, booking.client);
  }
  applyTests(work, diary, tests, entries.unclear, horizon);
  return { ahead, vanished: vanished.length, lost, unclear };
};

const countAhead = (work: Work, diary: string): number =>
  [...work.bookings.values()].filter(
    (booking) => booking.diary === diary && booking.cancelledAt === null && booking.start > work.at,
  ).length;

const asKnown = (booking: Booking) => ({ ...booking, cancelled: booking.cancelledAt !== null });

/** Gives a booking what the diary says of it now; one that differs in nothing is left as it is. */
const take = (
  work: Work,
  before: Booking | Pick<Booking, "uid" | "firstSeen" | "cancelledAt" | "next">,
  { found, client }: OwnedBooking,
): void => {
  const { uid, firstSeen, next } = before;
  const { key, diary, start, end, summary, service } = found;
  const after: Booking = { uid, key, diary, client, start, end, summary, service, firstSeen, cancelledAt: null, next };
  const keys = Object.keys(after) as (keyof Booking)[];
  if ("key" in before && keys.every((name) => before[name] === after[name])) return;
  work.bookings.set(uid, after);
  touch(work, client);
  if ("client" in before) touch(work, before.client);
};
