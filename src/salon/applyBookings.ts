/** Makes a reading's bookings those of the salon: new, moved, gone, and whose they are. Works on one state in change. */
import type { Instant } from "../time/instant.ts";
import { PeopleIndex } from "../diary/clients.ts";
import { seriesOf } from "../diary/entryName.ts";
import type { FoundTest } from "../diary/findBookings.ts";
import { matchBookings, type MatchHints, type Matches, type OwnedBooking } from "../diary/identity.ts";
import type { Block, FoundBooking, Horizon } from "../diary/types.ts";
import { applyTests } from "./applyTests.ts";
import { clientFor } from "./clientFor.ts";
import { erasedKey } from "./erasedBlocks.ts";
import { personOf } from "./owners.ts";
import { touch, type Work } from "./settle.ts";
import type { Booking, UnclearBooking } from "./types.ts";
import { unclearBookings } from "./unclearBookings.ts";

export interface Applied {
  /** Bookings of this diary that lay ahead before the reading. */
  readonly ahead: number;
  readonly added: number;
  /** How many of those ahead it no longer holds; which of those neither it calls cancelled nor another visit has taken up. */
  readonly vanished: number;
  readonly lost: readonly string[];
  /** Those ahead whose entry still stands and can no longer be understood: they keep the time that was read last. */
  readonly unread: readonly string[];
  /** Those of them that are at another time now, with that time. */
  readonly moved: readonly { readonly uid: string; readonly start: number }[];
  /** Entries of those still there, a series being one, and how many of them moved for the most part. */
  readonly entries: number;
  readonly entriesMoved: number;
  /** How many of those ahead came, at the same time, under another UID. */
  readonly renewed: number;
  /** Vanished bookings with several possible successors. */
  readonly unclear: readonly UnclearBooking[];
}

/** Keys of entries that the diary itself calls cancelled, and of those that could not be understood. */
export interface EntriesAside {
  readonly cancelled: ReadonlySet<string>;
  readonly unclear: ReadonlySet<string>;
  /** Blocks for which there was no room: whatever they hold still stands. */
  readonly leftOut?: readonly Pick<Block, "uid">[];
}

export const applyBookings = (
  work: Work,
  diary: string,
  { bookings, tests }: { readonly bookings: readonly FoundBooking[]; readonly tests: readonly FoundTest[] },
  entries: EntriesAside,
  horizon: Horizon,
): Applied => {
  const known = [...work.bookings.values()];
  const ahead = known.filter(
    (each) => each.diary === diary && each.cancelledAt === null && each.start > work.at && each.start < horizon.to,
  );
  const people = new PeopleIndex(work.clients.values());
  const carried = new Map(known.filter((each) => each.diary === diary).map((each) => [each.key, each.under]));
  const named = new Map<FoundBooking, string>();
  const found = bookings.map((booking): OwnedBooking => {
    const before = keysOf(booking).find((key) => carried.has(key)) ?? booking.key;
    const under = clientFor(work, people, booking.client, carried.get(before));
    named.set(booking, under);
    return { found: booking, client: personOf(work.clients, under) };
  });
  const matches = matchBookings(diary, known, found, work.at, horizon, hintsOf(work, entries));
  for (const { uid, owned } of matches.kept) take(work, work.bookings.get(uid) as Booking, owned, named);
  for (const { uid, owned } of matches.added) {
    // One that was erased with its client, and comes again: calendars that had it see nothing fall.
    const said = work.erased.get(erasedKey("", uid))?.said ?? null;
    take(work, { uid, firstSeen: work.at, cancelledAt: null, turned: null, next: null, said }, owned, named);
  }
  for (const { uid, copy } of matches.elsewhere) changeChairs(work, uid, copy);
  const standing = new Set(bookings.flatMap(keysOf));
  const lost: string[] = [];
  for (const uid of matches.vanished) {
    const booking = work.bookings.get(uid) as Booking;
    if (!entries.cancelled.has(booking.key) && !standing.has(booking.key)) lost.push(uid);
    cancel(work, booking);
  }
  applyTests(work, diary, tests, entries.unclear, horizon);
  const kept = new Set(matches.kept.map(({ uid }) => uid));
  const unread = ahead.filter(({ uid, key }) => !kept.has(uid) && entries.unclear.has(key));
  for (const booking of unread) {
    if (booking.unreadSince !== null) continue;
    work.bookings.set(booking.uid, { ...booking, unreadSince: work.at });
    touch(work, booking.client);
  }
  return {
    unread: unread.map(({ uid }) => uid),
    ahead: ahead.length,
    added: matches.added.length,
    vanished: matches.vanished.length,
    lost,
    ...changesOf(ahead, matches),
    unclear: unclearBookings(matches, work),
  };
};

/** Keys of all entries of a booking. */
const keysOf = ({ key, parts = [] }: FoundBooking): readonly string[] => [key, ...parts];

/** Takes a diary's bookings ahead away, as a reading without any would; one that another diary has too goes on there. */
export const withdrawBookings = (work: Work, diary: string): void => {
  const everything = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
  const hints = hintsOf(work, { cancelled: new Set(), unclear: new Set() });
  const matches = matchBookings(diary, [...work.bookings.values()], [], work.at, everything, hints);
  for (const { uid, copy } of matches.elsewhere) changeChairs(work, uid, copy);
  for (const uid of matches.vanished) cancel(work, work.bookings.get(uid) as Booking);
};

const hintsOf = (work: Work, { unclear, leftOut = [] }: EntriesAside): MatchHints => {
  const unread = new Set(leftOut.map(({ uid }) => uid));
  let recorded: Set<string | null> | undefined;
  return {
    // It still stands in the diary: that it is no longer understood is a question, and cancels nothing.
    stillStands: (key) => unclear.has(key) || (unread.size > 0 && unread.has(seriesOf(key))),
    isRecorded: (uid) => {
      recorded ??= new Set([...work.facts.values(), ...work.screenings.values()].map(({ booking }) => booking));
      return recorded.has(uid);
    },
  };
};

/** How the bookings ahead fared that are still there. */
const changesOf = (
  ahead: readonly Booking[],
  { kept }: Matches,
): Pick<Applied, "moved" | "entries" | "entriesMoved" | "renewed"> => {
  const before = new Map(ahead.map((booking) => [booking.uid, booking]));
  const moved: { uid: string; start: number }[] = [];
  const perSeries = new Map<string, { all: number; moved: number }>();
  let renewed = 0;
  for (const { uid, owned } of kept) {
    const known = before.get(uid);
    if (!known) continue;
    const { key, start } = owned.found;
    const series = seriesOf(key);
    const counts = perSeries.get(series) ?? { all: 0, moved: 0 };
    perSeries.set(series, counts);
    counts.all++;
    if (start !== known.start) {
      counts.moved++;
      moved.push({ uid, start });
    } else if (key !== known.key && seriesOf(known.key) !== series) renewed++;
  }
  const entriesMoved = [...perSeries.values()].filter((counts) => counts.moved * 2 > counts.all).length;
  return { moved, entries: perSeries.size, entriesMoved, renewed };
};

const cancel = (work: Work, booking: Booking): void => {
  work.bookings.set(booking.uid, { ...booking, cancelledAt: work.at });
  touch(work, booking.client);
};

/** A booking goes on, under its first identity, as what another diary has of it; the copy there is withdrawn. */
const changeChairs = (work: Work, uid: string, copyUid: string): void => {
  const [booking, copy] = [work.bookings.get(uid), work.bookings.get(copyUid)];
  if (!booking || !copy) throw new Error("a booking that is not kept changed chairs");
  const { firstSeen, next, said } = booking;
  const turned = turnedBy(work.at, booking, copy.start);
  work.bookings.set(uid, { ...copy, uid, firstSeen, turned, next, said, cancelledAt: null });
  cancel(work, copy);
};

/** How a booking has turned that now begins at `start`. */
const turnedBy = (
  at: Instant,
  { start: from, cancelledAt, turned }: Pick<Booking, "start" | "cancelledAt" | "turned">,
  start: Instant,
): Booking["turned"] => {
  if (start !== from) return { at, from };
  return cancelledAt === null ? turned : { at, from: null };
};

/** Gives a booking what the diary says of it now; one that differs in nothing is left as it is. */
const take = (
  work: Work,
  before: Booking | Pick<Booking, "uid" | "firstSeen" | "cancelledAt" | "turned" | "next" | "said">,
  { found, client }: OwnedBooking,
  named: ReadonlyMap<FoundBooking, string>,
): void => {
  const { uid, firstSeen, next, said } = before;
  const { key, diary, start, end, summary, service } = found;
  const under = named.get(found) ?? client;
  const told = { uid, key, diary, client, under, start, end, summary, service, firstSeen };
  const turned = "start" in before ? turnedBy(work.at, before, start) : before.turned;
  const after: Booking = { ...told, cancelledAt: null, turned, unreadSince: null, next, said };
  const keys = Object.keys(after) as (keyof Booking)[];
  if ("key" in before && keys.every((name) => before[name] === after[name])) return;
  work.bookings.set(uid, after);
  touch(work, client);
  if ("client" in before) touch(work, before.client);
};
