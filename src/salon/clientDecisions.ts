/**
 * What a person decides about who a client is: that a bare name is one woman, that two clients are one, that some bookings are
 * another's, that two are two. Each is kept with who said it; records keep the client they were told of for ever.
 */
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { addClient } from "./clientFor.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { nextId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { ownersOf } from "./owners.ts";
import { touch, type Work } from "./settle.ts";
import { type Client, type ClientDeed, eventKey, type State } from "./types.ts";

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
  const id = nextId("d", work.deeds);
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
  keeper.change(at, (work) => {
    for (const each of work.clients.values()) {
      const isOther = each.id === other.id || each.joined === other.id;
      const apart = each.apart.filter((one) => !(isOther ? one === into.id : one === other.id));
      const joined = isOther ? into.id : each.joined;
      const confirmed = each.confirmed || each.id === into.id;
      if (isOther || confirmed !== each.confirmed || apart.length < each.apart.length) {
        const ended = isOther ? { erased: null, erasing: null } : {};
        work.clients.set(each.id, { ...each, ...ended, joined, confirmed, apart });
      }
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
 * Some bookings are another's, with all that was told of them. Whom the diary names in all of them alone, before she was
 * joined, is that other again; else a new client is made of the same name.
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
    const unders = new Set(chosen.map(({ under }) => under));
    const [under = client.id] = unders;
    const isWhole = unders.size === 1 && hers.every((each) => each.under !== under || chosen.includes(each));
    const before = work.clients.get(under) ?? client;
    const again = isWhole && before.joined === client.id ? { ...before, joined: null } : undefined;
    const other = again ?? addClient(work, before, true);
    made = other.id;
    const owners = ownersOf(state);
    const these = new Set<string | null>(uids);
    const records = [...state.facts.values()].filter(
      (fact) => these.has(fact.booking) && owners.ofRecord(fact) === client.id,
    );
    const screenings = [...state.screenings.values()].filter(
      (row) => these.has(row.booking) && owners.ofScreening(row) === client.id,
    );
    const taken = {
      at,
      from: client.id,
      bookings: chosen.map(({ uid }) => uid),
      records: records.map((fact) => fact.id),
      screenings: screenings.map((row) => row.id),
    };
    work.clients.set(other.id, { ...other, took: [...other.took, taken], apart: withOne(other.apart, client.id) });
    work.clients.set(client.id, { ...client, apart: withOne(client.apart, other.id) });
    for (const booking of chosen) {
      work.bookings.set(booking.uid, { ...booking, client: other.id, under: again ? booking.under : other.id });
    }
    addDeed(work, { client: client.id, kind: "split", other: other.id, bookings: taken.bookings }, decider);
    touch(work, client.id);
    touch(work, other.id);
  });
  return succeed(made);
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
  if (!client.apart.includes(other.id)) {
    keeper.change(at, (work) => {
      work.clients.set(client.id, { ...client, apart: withOne(client.apart, other.id) });
      work.clients.set(other.id, { ...other, apart: withOne(other.apart, client.id) });
      addDeed(work, { client: client.id, kind: "apart", other: other.id }, decider);
      touch(work, client.id);
      touch(work, other.id);
    });
  }
  return succeed(client.id);
};

const withOne = (ids: readonly string[], id: string): readonly string[] => (ids.includes(id) ? ids : [...ids, id]);
