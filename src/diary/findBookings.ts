/**
 * The sorted entries of one diary → its bookings, tests and questions. Back-to-back colour services of one client are one
 * booking. Never decides what an entry is (sortEntry.ts), nor who among known clients its client is (clients.ts).
 */
import { BACK_TO_BACK_MINUTES } from "../bounds.ts";
import type { Why } from "../plan/types.ts";
import { type Instant, MINUTE } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { PeopleIndex } from "./clients.ts";
import type { Entry, FoundBooking, Person, Sorted } from "./types.ts";

export interface SortedEntry {
  readonly entry: Entry;
  readonly sorted: Sorted;
}

/** A skin test that stands in the diary. */
export interface FoundTest {
  readonly key: string;
  readonly uid: string;
  readonly recurrenceId: string | null;
  readonly diary: string;
  readonly start: Instant;
  readonly end: Instant | null;
  readonly summary: string;
  readonly client: Person;
}

export interface UnsortedFound {
  readonly entry: Entry;
  readonly why: Why;
  readonly nearest: string | null;
}

export interface FoundInDiary {
  readonly bookings: readonly FoundBooking[];
  readonly tests: readonly FoundTest[];
  readonly unsorted: readonly UnsortedFound[];
  readonly notColour: number;
  /** Something here should carry a client's name, and nothing does. */
  readonly hidesNames: boolean;
}

const NAMELESS: ReadonlySet<string> = new Set(["no-name", "test-no-name", "no-words"]);

/**
 * @param entries of one reading of one diary; cancelled ones count for nothing
 * @param zone the salon's, for what one local day is
 */
export const findBookings = (entries: readonly SortedEntry[], diary: string, zone: Zone): FoundInDiary => {
  const single: FoundBooking[] = [];
  const tests: FoundTest[] = [];
  const unsorted: UnsortedFound[] = [];
  let notColour = 0;
  let nameless = 0;
  let named = 0;
  for (const { entry, sorted } of entries) {
    if (entry.cancelled) continue;
    const { key, uid, recurrenceId, start, end, summary } = entry;
    if (sorted.kind === "not-colour") notColour++;
    else if (sorted.kind === "unsorted") {
      const { why, nearest } = sorted;
      unsorted.push({ entry, why, nearest });
      if (NAMELESS.has(why.code)) nameless++;
      else named++;
    } else if (start === null) throw new Error("an entry without a time was sorted as a booking or a test");
    else if (sorted.kind === "test") {
      tests.push({ key, uid, recurrenceId, diary, start, end, summary, client: sorted.client });
      if (namesItself(sorted)) named++;
    } else {
      const { service, client } = sorted;
      single.push({ key, uid, recurrenceId, diary, start, end, summary, service, client });
      if (namesItself(sorted)) named++;
    }
  }
  return {
    bookings: joinBackToBack(single, zone),
    tests,
    unsorted,
    notColour,
    hidesNames: nameless > 0 && named === 0,
  };
};

/** A name that a person has given is none of the diary's: the export may hide names all the same. */
const namesItself = ({ answered }: Pick<Sorted & { kind: "booking" | "test" }, "answered">): boolean =>
  answered === undefined || answered.isLike;

/** One booking from the first start, where the next begins within an hour of the last end on the same local day. */
const joinBackToBack = (bookings: readonly FoundBooking[], zone: Zone): readonly FoundBooking[] => {
  const joined: FoundBooking[] = [];
  const ordered = bookings.toSorted((first, second) => first.start - second.start || (first.key < second.key ? -1 : 1));
  const people = new PeopleIndex([]);
  const latestOf = new Map<string, number>();
  for (const booking of ordered) {
    const person = people.find(booking.client);
    const at = person === undefined ? undefined : latestOf.get(person.id);
    const before = at === undefined ? undefined : joined[at];
    if (before && at !== undefined && isBackToBack(before, booking, zone)) {
      const parts = [...(before.parts ?? []), booking.key];
      joined[at] = { ...before, end: laterEnd(before, booking), parts };
      continue;
    }
    const id = person?.id ?? `person ${joined.length}`;
    if (!person) people.add({ ...booking.client, id });
    latestOf.set(id, joined.length);
    joined.push(booking);
  }
  return joined;
};

const isBackToBack = (before: FoundBooking, next: FoundBooking, zone: Zone): boolean =>
  next.start - (before.end ?? before.start) <= BACK_TO_BACK_MINUTES * MINUTE &&
  zone.dayAt(before.start) === zone.dayAt(next.start);

const laterEnd = (before: FoundBooking, next: FoundBooking): Instant | null => {
  const ends = [before.end, next.end].filter((end) => end !== null);
  return ends.length === 0 ? null : Math.max(...ends);
};
