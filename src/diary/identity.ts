/**
 * Who a booking is: matches what one reading of one diary found with the bookings known so far. Pure; decides only,
 * changes nothing. Never cancels what has begun or lies outside the horizon.
 */
import { MOVE_MAX_DAYS } from "../bounds.ts";
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import type { FoundBooking, Horizon } from "./types.ts";

/** A booking known from earlier readings. */
export interface KnownBooking {
  /** Its identity, given when it was first seen. */
  readonly uid: string;
  /** The key of the entry that carried it last. */
  readonly key: string;
  readonly diary: string;
  readonly client: string;
  readonly service: string;
  readonly start: Instant;
  readonly cancelled: boolean;
}

/** A found booking with the client it belongs to. */
export interface OwnedBooking {
  readonly found: FoundBooking;
  readonly client: string;
}

export interface Matches {
  /** Known bookings and what they are now: unchanged, moved, in another chair, or back after having vanished. */
  readonly kept: readonly { readonly uid: string; readonly owned: OwnedBooking }[];
  readonly added: readonly { readonly uid: string; readonly owned: OwnedBooking }[];
  /** Identities of bookings that are gone. */
  readonly vanished: readonly string[];
  /** Identities of vanished bookings with several possible successors: a question for the desk. */
  readonly unclear: readonly string[];
}

/** Same client, same service: what a vanished and a new booking must share to be one that moved. */
const kinship = (client: string, service: string): string => `${client}\n${service}`;

const groupBy = <Item>(items: readonly Item[], nameOf: (item: Item) => string): Map<string, Item[]> => {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const name = nameOf(item);
    const group = groups.get(name);
    if (group) group.push(item);
    else groups.set(name, [item]);
  }
  return groups;
};

/**
 * Matches one reading of `diary` with every booking known of the salon.
 * @param known every booking of the salon, cancelled and past ones included
 * @param found what this reading found inside the horizon
 */
export const matchBookings = (
  diary: string,
  known: readonly KnownBooking[],
  found: readonly OwnedBooking[],
  now: Instant,
  horizon: Horizon,
): Matches => {
  const here = new Map(known.filter((each) => each.diary === diary).map((each) => [each.key, each]));
  const elsewhere = groupBy(
    known.filter((each) => each.diary !== diary),
    (each) => each.key,
  );
  const taken = new Set(known.map((each) => each.uid));
  const kept: { uid: string; owned: OwnedBooking }[] = [];
  const strangers: OwnedBooking[] = [];
  for (const owned of found) {
    const same = here.get(owned.found.key);
    const gone = (elsewhere.get(owned.found.key) ?? []).find((each) => each.cancelled);
    if (same) kept.push({ uid: same.uid, owned });
    else if (gone) {
      kept.push({ uid: gone.uid, owned });
      elsewhere.delete(owned.found.key);
    } else strangers.push(owned);
  }

  const matched = new Set(kept.map((each) => each.uid));
  const missing = known.filter(
    (each) =>
      each.diary === diary && !each.cancelled && !matched.has(each.uid) && each.start > now && each.start < horizon.to,
  );
  const missingOfKin = groupBy(missing, (each) => kinship(each.client, each.service));
  const strangersOfKin = groupBy(strangers, (each) => kinship(each.client, each.found.service));
  const added: { uid: string; owned: OwnedBooking }[] = [];
  const unclear = new Set<string>();
  for (const [kin, newcomers] of strangersOfKin) {
    const gone = missingOfKin.get(kin) ?? [];
    for (const newcomer of newcomers) {
      const origins = gone.filter((each) => isNear(each, newcomer));
      const [origin] = origins;
      const isMove =
        origin !== undefined && origins.length === 1 && newcomers.filter((each) => isNear(origin, each)).length === 1;
      if (isMove) {
        kept.push({ uid: origin.uid, owned: newcomer });
        matched.add(origin.uid);
        continue;
      }
      for (const each of origins) unclear.add(each.uid);
      const uid = newUid(newcomer.found, taken);
      taken.add(uid);
      added.push({ uid, owned: newcomer });
    }
  }
  const vanished = missing.filter((each) => !matched.has(each.uid)).map((each) => each.uid);
  return { kept, added, vanished, unclear: [...unclear] };
};

const isNear = (known: KnownBooking, newcomer: OwnedBooking): boolean =>
  Math.abs(known.start - newcomer.found.start) <= MOVE_MAX_DAYS * DAY_SECONDS;

/** The entry's key; where another diary holds the same at once, the later one is prefixed by its diary's name. */
const newUid = (found: FoundBooking, taken: ReadonlySet<string>): string => {
  if (!taken.has(found.key)) return found.key;
  let uid = `${found.diary}/${found.key}`;
  for (let n = 2; taken.has(uid); n++) uid = `${found.diary}/${n}/${found.key}`;
  return uid;
};
