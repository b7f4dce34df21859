/**
 * What a person decides about who a client is: here that a bare name is one woman. Each decision is kept with who said it; records
 * keep the client they were told of for ever.
 */
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { takeId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { touch, type Work } from "./settle.ts";
import type { Client, ClientDeed, State } from "./types.ts";

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

/** The two that are spoken of: the first a client still, the second perhaps one who was erased and of whom records are kept. */
export const twoNamed = (
  { clients }: Pick<State, "clients">,
  id: string,
  withId: string,
): Outcome<{ readonly client: Client; readonly other: Client }> => {
  const client = clientNamed({ clients }, id);
  const named = clients.get(withId);
  const other = named && clients.get(named.joined ?? named.id);
  if (!client) return fail({ code: "no-such-client" });
  return other ? succeed({ client, other }) : fail({ code: "no-such-other-client" });
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
