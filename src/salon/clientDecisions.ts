/**
 * What a person decides about who a client is: that a bare name is one woman, that two clients are one, that some bookings are
 * another's, that two are two. Each is kept with who said it; records keep the client they were told of for ever.
 */
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { addClient } from "./clientFor.ts";
import { newestConsent } from "./consent.ts";
import { Doubts } from "./Doubts.ts";
import { factsByClient } from "./factsByClient.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { takeId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { ownersOf, personOf } from "./owners.ts";
import { touch, type Work } from "./settle.ts";
import { type Booking, type Client, type ClientDeed, eventKey, type State, type Taken } from "./types.ts";

/** Who decides, and why. */
export interface Decider {
  readonly by: string | null;
  readonly via: Fact["via"];
  readonly reason: string | null;
}

/** Writes down what was decided. */
export const addDeed = (
  work: Work,
  deed: Pick<ClientDeed, "client" | "kind"> & Partial<ClientDeed>,
  { by, via, reason }: Decider,
): ClientDeed => {
  const id = takeId("d", work);
  const plain = { other: null, bookings: [], request: null };
  const added: ClientDeed = { ...plain, ...deed, id, at: work.at, by, via, reason };
  work.deeds.set(id, added);
  return added;
};

/** The person behind an id, where she is a client still. */
export const clientNamed = ({ clients }: Pick<State, "clients">, id: string): Client | undefined => {
  const named = clients.get(id);
  const person = named && clients.get(named.joined ?? named.id);
  return person?.erased === null ? person : undefined;
};

/** All bookings under her bare name are hers. Said once; said again it changes nothing. */
export const confirmClient = (keeper: Keeper, id: string, decider: Decider, at: Instant): Outcome<string> => {
  const client = clientNamed(keeper.state, id);
  if (!client) return fail({ code: "no-such-client" });
  if (!client.confirmed) {
    keeper.change(at, (work) => {
      work.clients.set(client.id, { ...client, confirmed: true });
      addDeed(work, { client: client.id, kind: "confirmed" }, decider);
      touch(work, client.id);
    });
  }
  return succeed(client.id);
};

/** Two clients are one, who goes on under `id`. What was told of either counts for her from here on, stops first of all. */
export const joinClients = (
  keeper: Keeper,
  id: string,
  withId: string,
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const into = clientNamed(keeper.state, id);
  const named = keeper.state.clients.get(withId);
  // Also one who was erased and whose records are kept: she has come back.
  const other = named && keeper.state.clients.get(named.joined ?? named.id);
  if (!into) return fail({ code: "no-such-client" });
  if (!other) return fail({ code: "no-such-other-client" });
  if (into.id === other.id) return succeed(into.id);
  if ([into, other].some(({ erasing, erased }) => erasing && erased === null))
    return fail({ code: "client-is-erased" });
  keeper.change(at, (work) => {
    const sideOf = (one: string): string => {
      const person = personOf(keeper.state.clients, one);
      return person === other.id ? into.id : person;
    };
    for (const each of work.clients.values()) {
      const person = personOf(keeper.state.clients, each.id);
      if (person !== other.id && person !== into.id) continue;
      // That they were told apart is taken back; of others it holds for both.
      const apart = each.apart.filter((one) => sideOf(one) !== into.id);
      const turned = { joined: into.id, via: each.via ?? into.id, erased: null, erasing: null, forget: null };
      const told = person === other.id ? turned : each.id === into.id ? { confirmed: true } : {};
      work.clients.set(each.id, { ...each, ...told, apart });
    }
    for (const booking of work.bookings.values()) {
      if (booking.client === other.id) work.bookings.set(booking.uid, { ...booking, client: into.id });
    }
    moveFeed(work, other.id, into.id);
    addDeed(work, { client: into.id, kind: "joined", other: other.id }, decider);
    touch(work, into.id);
    touch(work, other.id);
  });
  return succeed(into.id);
};

/**
 * What one feed said is said by another from here on, in which it goes on with its stamps: whoever follows either sees no
 * sequence fall.
 */
const moveFeed = (work: Work, from: string, to: string): void => {
  for (const [key, event] of work.events) {
    if (event.audience !== from) continue;
    const there = work.events.get(eventKey(to, event.content.uid));
    const stamps = there && {
      created: Math.min(there.stamps.created, event.stamps.created),
      lastModified: Math.max(there.stamps.lastModified, event.stamps.lastModified),
      sequence: Math.max(there.stamps.sequence, event.stamps.sequence),
    };
    work.events.delete(key);
    work.events.set(eventKey(to, event.content.uid), {
      ...(there ?? event),
      audience: to,
      stamps: stamps ?? event.stamps,
    });
  }
};

/**
 * Some bookings are another's, with all that was told of them. Where they are just those that came with somebody who was joined,
 * she is herself again, with whoever had been joined with her; else a new client is made of the same name.
 */
export const splitClient = (
  keeper: Keeper,
  id: string,
  uids: readonly string[],
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const { state } = keeper;
  const client = clientNamed(state, id);
  if (!client) return fail({ code: "no-such-client" });
  const hers = [...state.bookings.values()].filter((booking) => booking.client === client.id);
  const chosen = hers.filter(({ uid }) => uids.includes(uid));
  if (chosen.length < new Set(uids).size) return fail({ code: "no-such-booking" });
  let made = "";
  keeper.change(at, (work) => {
    const again = joinedWith(work, client, hers, new Set(uids));
    for (const each of again?.rows ?? []) {
      const isRoot = each.id === again?.root;
      work.clients.set(each.id, {
        ...each,
        joined: isRoot ? null : (again?.root ?? null),
        via: isRoot ? null : each.via,
      });
    }
    const under = state.clients.get(chosen[0]?.under ?? "") ?? client;
    const other = (again && work.clients.get(again.root)) ?? addClient(work, under, true);
    made = other.id;
    const taken = takenBy(state, client.id, chosen, at);
    work.clients.set(other.id, { ...other, took: [...other.took, taken], parted: withOne(other.parted, client.id) });
    work.clients.set(client.id, { ...client, parted: withOne(client.parted, other.id) });
    for (const booking of chosen) {
      work.bookings.set(booking.uid, { ...booking, client: other.id, under: again ? booking.under : other.id });
    }
    keepConsent(work, client.id, other.id);
    // Where one of them has a stop, what was told while they were taken for one may be of either: that is asked.
    const doubts = new Doubts(work.clients, factsByClient(work));
    if (doubts.stopOf(client.id) === null && doubts.stopOf(other.id) === null) setApart(work, client.id, other.id);
    addDeed(work, { client: client.id, kind: "split", other: other.id, bookings: taken.bookings }, decider);
    touch(work, client.id);
    touch(work, other.id);
  });
  return succeed(made);
};

/** Who came by a join with just these bookings: she, and whoever had been joined with her before. The farthest reaching one. */
const joinedWith = (
  work: Work,
  client: Client,
  hers: readonly Booking[],
  uids: ReadonlySet<string>,
): { readonly root: string; readonly rows: readonly Client[] } | undefined => {
  const joined = [...work.clients.values()].filter((each) => each.joined === client.id);
  const groups = joined.map((root) => {
    const rows = joined.filter((each) => isJoinedBy(work, each, root.id));
    const ids = new Set(rows.map(({ id }) => id));
    return { root: root.id, rows, bookings: hers.filter(({ under }) => ids.has(under)) };
  });
  return groups
    .filter(({ bookings }) => bookings.length === uids.size && bookings.every(({ uid }) => uids.has(uid)))
    .toSorted((one, other) => other.rows.length - one.rows.length)[0];
};

/** Whether a client came by way of another, or is that one. */
const isJoinedBy = ({ clients }: Pick<Work, "clients">, client: Client, root: string): boolean => {
  for (let each: Client | undefined = client; each; each = clients.get(each.via ?? ""))
    if (each.id === root) return true;
  return false;
};

/** All that was told of some bookings, and what was answered for them. */
const takenBy = (state: State, from: string, bookings: readonly Booking[], at: Instant): Taken => {
  const owners = ownersOf(state);
  const uids = new Set<string | null>(bookings.map(({ uid }) => uid));
  const records = [...state.facts.values()].filter((fact) => uids.has(fact.booking) && owners.ofRecord(fact) === from);
  const screenings = [...state.screenings.values()].filter(
    (row) => uids.has(row.booking) && owners.ofScreening(row) === from,
  );
  return {
    at,
    from,
    bookings: bookings.map(({ uid }) => uid),
    records: records.map(({ id }) => id),
    screenings: screenings.map(({ id }) => id),
  };
};

/** Answers that go to another go with the agreement that they are kept, so that she can take it back. */
const keepConsent = (work: Work, from: string, to: string): void => {
  const [newest, own] = [newestConsent(work, from), newestConsent(work, to)];
  if (!newest || own) return;
  const id = takeId("k", work);
  work.consents.set(id, { ...newest, id, client: to });
};

const setApart = (work: Work, one: string, other: string): void => {
  for (const [id, from] of [
    [one, other],
    [other, one],
  ] as const) {
    const client = work.clients.get(id);
    if (client) work.clients.set(id, { ...client, apart: withOne(client.apart, from) });
  }
};

/** Two clients are two, whatever they have in common. */
export const partClients = (
  keeper: Keeper,
  id: string,
  withId: string,
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const client = clientNamed(keeper.state, id);
  const named = keeper.state.clients.get(withId);
  const other = named && keeper.state.clients.get(named.joined ?? named.id);
  if (!client) return fail({ code: "no-such-client" });
  if (!other) return fail({ code: "no-such-other-client" });
  if (other.id === client.id) return fail({ code: "clients-are-one" });
  if (!client.apart.includes(other.id) || !other.apart.includes(client.id)) {
    keeper.change(at, (work) => {
      setApart(work, client.id, other.id);
      addDeed(work, { client: client.id, kind: "apart", other: other.id }, decider);
      touch(work, client.id);
      touch(work, other.id);
    });
  }
  return succeed(client.id);
};

const withOne = (ids: readonly string[], id: string): readonly string[] => (ids.includes(id) ? ids : [...ids, id]);
