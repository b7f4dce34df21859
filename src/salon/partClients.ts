/** A person decides that two clients are two. */
import type { Instant } from "../time/instant.ts";
import { type Decider, addDeed, twoNamed } from "./clientDecisions.ts";
import { Doubts } from "./Doubts.ts";
import { factsByClient, stopsCarried } from "./factsByClient.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { touch, type Work } from "./settle.ts";
import type { Client } from "./types.ts";
import { joinsOf, undoJoin } from "./undoJoin.ts";

/** Two clients are two, whatever they have in common; one who was joined and came with no appointment is herself again. */
export const partClients = (
  keeper: Keeper,
  id: string,
  withId: string,
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const two = twoNamed(keeper.state, id, withId);
  if (!two.ok) return two;
  const { client, other } = two.value;
  if (other.id === client.id) return partJoined(keeper, client, id === client.id ? withId : id, decider, at);
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

/** Appointments that came with her would have to go with her: those are split. */
const partJoined = (keeper: Keeper, client: Client, row: string, decider: Decider, at: Instant): Outcome<string> => {
  const { state } = keeper;
  const hers = [...state.bookings.values()].filter((booking) => booking.client === client.id);
  const joined = joinsOf(state, client, hers).find(({ root }) => root === row);
  if (!joined || joined.bookings.length > 0) return fail({ code: "clients-are-one" });
  keeper.change(at, (work) => {
    undoJoin(work, client.id, joined);
    setParted(work, client.id, row);
    addDeed(work, { client: client.id, kind: "apart", other: row }, decider);
    touch(work, client.id);
    touch(work, row);
  });
  return succeed(client.id);
};

/**
 * They are two from here on. Where one of them has a stop, what was told while they were taken for one may be of either: that is
 * asked, and only a person's word tells them apart.
 */
export const setParted = (work: Work, one: string, other: string): void => {
  for (const [id, from] of [
    [one, other],
    [other, one],
  ] as const) {
    const client = work.clients.get(id);
    if (client) work.clients.set(id, { ...client, parted: withOne(client.parted, from) });
  }
  const doubts = new Doubts(work.clients, factsByClient(work), stopsCarried(work));
  if (doubts.stopOf(one) === null && doubts.stopOf(other) === null) setApart(work, one, other);
};

export const setApart = (work: Work, one: string, other: string): void => {
  for (const [id, from] of [
    [one, other],
    [other, one],
  ] as const) {
    const client = work.clients.get(id);
    if (client) work.clients.set(id, { ...client, apart: withOne(client.apart, from) });
  }
};

const withOne = (ids: readonly string[], id: string): readonly string[] => (ids.includes(id) ? ids : [...ids, id]);
