/**
 * Who a booking is: matches what one reading of one diary found with the bookings known so far. Pure; decides only,
 * changes nothing. Never cancels what has begun or lies outside the horizon, and never makes two clients' bookings one by
 * what they look like: only an entry's own key carries a booking to another client.
 */
import { MOVE_MAX_DAYS, SAME_VISIT_HOURS } from "../bounds.ts";
import { DAY_SECONDS, HOUR, type Instant } from "../time/instant.ts";
import { Chairs, isElder } from "./Chairs.ts";
import { entryName, isNumbered, seriesOf } from "./entryName.ts";
import { neighbours } from "./neighbours.ts";
import { pairMovedSeries } from "./pairMovedSeries.ts";
import type { FoundBooking, Horizon } from "./types.ts";
import { type Pair, Unmatched } from "./Unmatched.ts";

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
  readonly firstSeen: Instant;
  readonly cancelledAt: Instant | null;
}

/** A found booking with the client it belongs to. */
export interface OwnedBooking {
  readonly found: FoundBooking;
  readonly client: string;
}

/** What else is known of one reading and of the salon. */
export interface MatchHints {
  /** Whether the entry of this key still stands in the diary and could not be understood. */
  readonly stillStands: (key: string) => boolean;
  /** Whether something was told of a booking of this identity. */
  readonly isRecorded: (uid: string) => boolean;
}

/** A vanished booking with several possible successors: a question for the desk. */
export interface Unclear {
  readonly uid: string;
  readonly candidates: readonly OwnedBooking[];
}

export interface Matches {
  /** Known bookings and what they are now: unchanged, moved, in another chair, or back after having vanished. */
  readonly kept: readonly Pair[];
  readonly added: readonly Pair[];
  /** Identities of bookings that are gone. */
  readonly vanished: readonly string[];
  /** Bookings that are gone from here and go on under their own identity as what another diary has a copy of. */
  readonly elsewhere: readonly { readonly uid: string; readonly copy: string }[];
  readonly unclear: readonly Unclear[];
}

export const NO_HINTS: MatchHints = { stillStands: () => false, isRecorded: () => false };

/**
 * Matches one reading of `diary` with every booking known of the salon.
 * @param known every booking of the salon, cancelled and past ones included
 * @param read what this reading found inside the horizon
 */
export const matchBookings = (
  diary: string,
  known: readonly KnownBooking[],
  read: readonly OwnedBooking[],
  now: Instant,
  horizon: Horizon,
  hints: MatchHints = NO_HINTS,
): Matches => {
  const local = known.filter((each) => each.diary === diary);
  const here = byKey(local);
  const numbered = numberedNames(local, read);
  const found = asKnownParts(read, known, here, numbered, hints);
  const open = new Unmatched();
  const carried = new Set<KnownBooking>();
  for (const owned of found) {
    const same = here.get(owned.found.key);
    const isCertain =
      same !== undefined &&
      isLive(same) &&
      same.client === owned.client &&
      (numbered.size === 0 || !numbered.has(entryName(same.key)) || contentOf(same) === foundContent(owned));
    if (isCertain && !carried.has(same)) {
      open.pair(same, owned);
      carried.add(same);
    } else open.found.add(owned);
  }
  for (const each of local) if (!carried.has(each) && !hints.stillStands(each.key)) open.known.add(each);

  const isMissing = (each: KnownBooking): boolean =>
    each.cancelledAt === null && each.start > now && each.start < horizon.to;
  const chairs = new Chairs(diary, known, hints.isRecorded);
  const elsewhere: { uid: string; copy: string }[] = [];
  if (open.found.size > 0) {
    pairByEntry(open, here, numbered);
    chairs.takeOver(open, (key) => (numbered.has(entryName(key)) ? undefined : here.get(key)));
    pairByKey(open, here, numbered, () => true);
  }
  for (const each of open.known) {
    const copy = isMissing(each) ? chairs.copyOf(each) : undefined;
    if (!copy) continue;
    open.known.delete(each);
    elsewhere.push({ uid: each.uid, copy: copy.uid });
  }
  const unclear = open.found.size > 0 && open.known.size > 0 ? pairByContent(open, isMissing, now, horizon) : [];
  return {
    kept: open.pairs,
    added: nameNewcomers(known, open.found),
    vanished: [...open.known].filter(isMissing).map(({ uid }) => uid),
    elsewhere,
    unclear,
  };
};

const isLive = ({ cancelledAt }: KnownBooking): boolean => cancelledAt === null;

/** By key; of several, one that is not cancelled, and then the elder. */
const byKey = (local: readonly KnownBooking[]): ReadonlyMap<string, KnownBooking> => {
  const here = new Map<string, KnownBooking>();
  for (const each of local) {
    const other = here.get(each.key);
    const isBetter = !other || (isLive(each) === isLive(other) ? isElder(each, other) : isLive(each));
    if (isBetter) here.set(each.key, each);
  }
  return here;
};

/** Names under which one file has, or had, several entries: there the number follows the file's order, not the booking. */
const numberedNames = (local: readonly KnownBooking[], found: readonly OwnedBooking[]): ReadonlySet<string> => {
  const names = new Set<string>();
  for (const { key } of local) if (isNumbered(key)) names.add(entryName(key));
  for (const { found: entry } of found) if (isNumbered(entry.key)) names.add(entryName(entry.key));
  return names;
};

/**
 * A visit of several entries goes on as the one of them that is known: as the one of which something was told, else as the
 * first. An appointment set before it, or drawn up to it, does not begin it anew.
 */
const asKnownParts = (
  read: readonly OwnedBooking[],
  known: readonly KnownBooking[],
  here: ReadonlyMap<string, KnownBooking>,
  numbered: ReadonlySet<string>,
  { isRecorded }: MatchHints,
): readonly OwnedBooking[] => {
  if (read.every(({ found: { parts } }) => parts === undefined)) return read;
  const everywhere = new Set(known.map(({ client, key }) => `${client}\n${key}`));
  return read.map((owned) => {
    const { client, found } = owned;
    if (found.parts === undefined) return owned;
    const keys = [found.key, ...found.parts].filter((key) => !numbered.has(entryName(key)));
    const live = keys.flatMap((key) => {
      const each = here.get(key);
      return each !== undefined && isLive(each) && each.client === client ? [each] : [];
    });
    const meant = live.find(({ uid }) => isRecorded(uid)) ?? live[0];
    const key = meant?.key ?? keys.find((each) => everywhere.has(`${client}\n${each}`)) ?? found.key;
    return key === found.key ? owned : { ...owned, found: { ...found, key } };
  });
};

const contentOf = ({ client, service, start }: KnownBooking): string => `${client}\n${start}\n${service}`;
const foundContent = ({ client, found: { service, start } }: OwnedBooking): string => `${client}\n${start}\n${service}`;

/** Same client, same service: what a vanished and a new booking must share to be one that moved. */
const kinOf = ({ client, service }: KnownBooking): string => `${client}\n${service}`;
const foundKin = ({ client, found: { service } }: OwnedBooking): string => `${client}\n${service}`;

/** Pairs by what the diary itself calls the entry; where names cannot be trusted, by what stands there first. */
const pairByEntry = (open: Unmatched, here: ReadonlyMap<string, KnownBooking>, numbered: ReadonlySet<string>): void => {
  // Before a key takes a booking to another client: an export may number its entries anew at each reading.
  open.pairAlike((each) => (isLive(each) ? contentOf(each) : null), foundContent);
  pairByKey(open, here, numbered, isLive);
};

const pairByKey = (
  open: Unmatched,
  here: ReadonlyMap<string, KnownBooking>,
  numbered: ReadonlySet<string>,
  isMeant: (each: KnownBooking) => boolean,
): void => {
  for (const owned of open.found) {
    const same = here.get(owned.found.key);
    const isOpen = same !== undefined && open.known.has(same) && isMeant(same);
    if (isOpen && !numbered.has(entryName(same.key))) open.pair(same, owned);
  }
};

/** Pairs by what stands there. Gives the vanished bookings with several possible successors. */
const pairByContent = (
  open: Unmatched,
  isMissing: (each: KnownBooking) => boolean,
  now: Instant,
  horizon: Horizon,
): readonly Unclear[] => {
  open.pairAlike(contentOf, foundContent);
  // A single entry that became a series, or the other way round, has its start and its UID still.
  open.pairSingle(
    (each) => (isLive(each) ? `${seriesOf(each.key)}\n${each.start}` : null),
    ({ found: { key, start } }) => `${seriesOf(key)}\n${start}`,
  );
  pairMovedSeries(open, isMissing, now, horizon);
  const unclear = pairMoved(open, isMissing);
  const isAsked = new Set(unclear.map(({ uid }) => uid));
  pairSameVisit(open, (each) => isMissing(each) && !isAsked.has(each.uid));
  return unclear;
};

/** Deleted and made anew: one candidate each within 60 days is one booking that moved. */
const pairMoved = (open: Unmatched, isMissing: (each: KnownBooking) => boolean): readonly Unclear[] => {
  const unclear: Unclear[] = [];
  const groups = open.groups((each) => (isMissing(each) ? kinOf(each) : null), foundKin);
  for (const group of groups) {
    for (const { known, candidates, isOnly } of neighbours(group, MOVE_MAX_DAYS * DAY_SECONDS)) {
      const [only] = candidates;
      if (only && isOnly) open.pair(known, only);
      else if (only) unclear.push({ uid: known.uid, candidates });
    }
  }
  return unclear;
};

/** Another service of the same client in place of the one that vanished: the same visit, one candidate each. */
const pairSameVisit = (open: Unmatched, isMissing: (each: KnownBooking) => boolean): void => {
  const groups = open.groups(
    (each) => (isMissing(each) ? each.client : null),
    ({ client }) => client,
  );
  for (const group of groups) {
    for (const { known, candidates, isOnly } of neighbours(group, SAME_VISIT_HOURS * HOUR)) {
      const [only] = candidates;
      if (only && isOnly) open.pair(known, only);
    }
  }
};

/** The entry's key; where another diary holds the same at once, the later one is prefixed by its diary's name. */
const nameNewcomers = (known: readonly KnownBooking[], newcomers: ReadonlySet<OwnedBooking>): readonly Pair[] => {
  if (newcomers.size === 0) return [];
  const taken = new Set(known.map(({ uid }) => uid));
  return Array.from(newcomers, (owned) => {
    const { diary, key } = owned.found;
    let uid = key;
    for (let n = 1; taken.has(uid); n++) uid = n === 1 ? `${diary}/${key}` : `${diary}/${n}/${key}`;
    taken.add(uid);
    return { uid, owned };
  });
};
