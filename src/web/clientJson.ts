/** Clients as the outward contract writes them. */
import type { ClientBrief, ClientShown } from "../salon/clientList.ts";
import type { Booking, ClientDeed } from "../salon/types.ts";
import { formatDay, formatInstant, type Instant } from "../time/instant.ts";

const instant = (value: Instant | null): string | null => (value === null ? null : formatInstant(value));

export const clientJson = ({ client, joined, questions }: ClientBrief) => ({
  id: client.id,
  name: client.name,
  email: client.email,
  phone: client.phone,
  confirmed: client.confirmed,
  joined: joined.map(({ id, name, email, phone }) => ({ id, name, email, phone })),
  questions,
  erasing: client.erasing && formatInstant(client.erasing.at),
  erased: instant(client.erased),
});

export const deedJson = ({ at, request, ...deed }: ClientDeed) => ({
  ...deed,
  at: formatInstant(at),
  request: request && { what: request.what, received: formatDay(request.received), due: formatDay(request.due) },
});

/** What was decided, for the eyes of the client herself or of who stands in for her: of bookings only those that are hers. */
export const deedsFor = (deeds: readonly ClientDeed[], hers: readonly Pick<Booking, "uid">[]) => {
  const uids = new Set(hers.map(({ uid }) => uid));
  return deeds.map((deed) => deedJson({ ...deed, bookings: deed.bookings.filter((uid) => uids.has(uid)) }));
};

export const clientShownJson = ({ possible, bookings, records, deeds, ...brief }: ClientShown) => ({
  ...clientJson(brief),
  possible,
  bookings: bookings.map(({ uid, start, end, summary, service, diary, cancelledAt }) => ({
    uid,
    start: formatInstant(start),
    end: instant(end),
    summary,
    service,
    diary,
    cancelled: instant(cancelledAt),
  })),
  records,
  decisions: deeds.map(deedJson),
});
