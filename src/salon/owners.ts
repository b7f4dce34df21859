/**
 * Whose a record or a set of answers is now. Each keeps the client it was told of for ever; who that client turned out to be,
 * and what turned out to be another's, is said by the clients themselves. Pure.
 */
import type { Fact } from "../plan/types.ts";
import type { Client, Screening, State } from "./types.ts";

/** The person that a client turned out to be: her own id where she is one. An id that is unknown stands for itself. */
export const personOf = (clients: ReadonlyMap<string, Client>, id: string): string => clients.get(id)?.joined ?? id;

export interface Owners {
  readonly ofRecord: (fact: Pick<Fact, "id" | "client">) => string | null;
  readonly ofScreening: (screening: Pick<Screening, "id" | "client">) => string;
}

export const ownersOf = ({ clients }: Pick<State, "clients">): Owners => {
  const takings = [...clients.values()]
    .flatMap(({ id, took }) => took.map((each) => ({ ...each, id })))
    .toSorted((one, other) => one.at - other.at);
  const taker = new Map<string, string>();
  for (const { id, records, screenings } of takings) {
    for (const each of [...records, ...screenings]) taker.set(each, id);
  }
  const ownerOf = (id: string, client: string): string => personOf(clients, taker.get(id) ?? client);
  return {
    ofRecord: ({ id, client }) => (client === null ? null : ownerOf(id, client)),
    ofScreening: ({ id, client }) => ownerOf(id, client),
  };
};
