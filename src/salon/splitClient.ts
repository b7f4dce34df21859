/** A person decides that some bookings are another's. */
import type { Instant } from "../time/instant.ts";
import { type Decider, addDeed, clientNamed } from "./clientDecisions.ts";
import { addClient } from "./clientFor.ts";
import { newestConsent } from "./consent.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { takeId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { ownersOf } from "./owners.ts";
import { setParted } from "./partClients.ts";
import { touch, type Work } from "./settle.ts";
import type { Booking, State, Taken } from "./types.ts";
import { joinedWith, undoJoin } from "./undoJoin.ts";

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
    if (again) undoJoin(work, client.id, again);
    const under = state.clients.get(chosen[0]?.under ?? "") ?? client;
    const other = (again && work.clients.get(again.root)) ?? addClient(work, under, true);
    made = other.id;
    const taken = takenBy(state, client.id, chosen, at);
    work.clients.set(other.id, { ...other, took: [...other.took, taken] });
    for (const booking of chosen) {
      work.bookings.set(booking.uid, { ...booking, client: other.id, under: again ? booking.under : other.id });
    }
    keepConsent(work, client.id, other.id);
    setParted(work, client.id, other.id);
    addDeed(work, { client: client.id, kind: "split", other: other.id, bookings: taken.bookings }, decider);
    touch(work, client.id);
    touch(work, other.id);
  });
  return succeed(made);
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
