/**
 * Whose records are whose. A booking that has come to another client keeps what stops it: nobody's correction of a name
 * may lift a stop. A result never moves with it. Pure.
 */
import { targetOf } from "../plan/ledger.ts";
import type { Fact } from "../plan/types.ts";
import { ownersOf } from "./owners.ts";
import type { State } from "./types.ts";

/** Whether a record stops a booking as long as it stands. */
export const isStop = ({ kind, outcome }: Pick<Fact, "kind" | "outcome">): boolean =>
  kind === "reacted" ||
  (kind === "read" && (outcome === "reaction" || outcome === "not-sure")) ||
  (kind === "screened" && outcome === "do-not-colour");

/** Records by client, in the order they were told; stops of a booking go to its present client too. */
export const factsByClient = (
  state: Pick<State, "facts" | "bookings" | "clients">,
): ReadonlyMap<string, readonly Fact[]> => {
  const { facts, bookings } = state;
  const owners = ownersOf(state);
  const byClient = new Map<string, Fact[]>();
  const give = (client: string, fact: Fact): void => {
    const list = byClient.get(client);
    if (list) list.push(fact);
    else byClient.set(client, [fact]);
  };
  for (const fact of facts.values()) {
    const owner = owners.ofRecord(fact);
    if (owner !== null) give(owner, fact);
    const present = fact.booking === null ? undefined : bookings.get(fact.booking)?.client;
    if (present === undefined || present === owner) continue;
    if (isStop(fact)) give(present, fact);
    if (fact.kind !== "correction") continue;
    const former = [...facts.values()].filter((each) => owners.ofRecord(each) === owner);
    const target = targetOf(fact, former);
    if (target && isStop(target)) give(present, { ...fact, corrects: target.id });
  }
  return byClient;
};

/** Whose stops stand under appointments that are another's by now: their owners, by whose the appointment is. */
export const stopsCarried = (
  state: Pick<State, "facts" | "bookings" | "clients">,
): ReadonlyMap<string, ReadonlySet<string>> => {
  const { ofRecord } = ownersOf(state);
  const carried = new Map<string, Set<string>>();
  for (const fact of state.facts.values()) {
    if (fact.booking === null || !isStop(fact)) continue;
    const present = state.bookings.get(fact.booking)?.client;
    const owner = ofRecord(fact);
    if (present === undefined || owner === null || owner === present) continue;
    carried.set(present, (carried.get(present) ?? new Set()).add(owner));
  }
  return carried;
};
