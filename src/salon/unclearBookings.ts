/** Bookings whose successor a person has to find, as the report lists them. Pure. */
import { REPORT_LIST_MAX, REPORT_TEXT_MAX } from "../bounds.ts";
import type { Matches } from "../diary/identity.ts";
import { clip } from "../feed/clip.ts";
import { formatInstant } from "../time/instant.ts";
import type { Work } from "./settle.ts";
import type { UnclearBooking } from "./types.ts";

const TEXT =
  "It is gone, and which new booking of the same client and service is this one cannot be told: the new ones begin anew. Record what was done already for the one that it is.";

/** Of one reading, after its bookings have been taken into the state. */
export const unclearBookings = (
  { kept, added, unclear }: Matches,
  { bookings }: Pick<Work, "bookings">,
): readonly UnclearBooking[] => {
  if (unclear.length === 0) return [];
  const uidOf = new Map([...kept, ...added].map(({ uid, owned }) => [owned, uid]));
  return unclear.slice(0, REPORT_LIST_MAX).flatMap(({ uid, candidates }) => {
    const booking = bookings.get(uid);
    if (!booking) return [];
    return {
      booking: clip(uid, REPORT_TEXT_MAX),
      start: formatInstant(booking.start),
      text: TEXT,
      candidates: candidates.map((owned) => ({
        uid: clip(uidOf.get(owned) ?? owned.found.key, REPORT_TEXT_MAX),
        start: formatInstant(owned.found.start),
      })),
    };
  });
};

/** Those of earlier reports that still ask: not back in the diary, and not past. */
export const stillUnclear = (
  earlier: readonly UnclearBooking[],
  { bookings, at }: Pick<Work, "bookings" | "at">,
): readonly UnclearBooking[] =>
  earlier.filter(({ booking }) => {
    const known = bookings.get(booking);
    return known !== undefined && known.cancelledAt !== null && known.start > at;
  });
