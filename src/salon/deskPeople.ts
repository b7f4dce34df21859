/** Clients as the desk's lists need them: how to reach one, and what has become of her link. Pure. */
import type { LinkUse } from "./LinkTable.ts";
import { personOf } from "./owners.ts";
import type { Client, State } from "./types.ts";

export interface DeskClient {
  readonly id: string;
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
  /** What her link is made of. */
  readonly number: number;
  readonly generation: number;
  /** Of the link that holds now. */
  readonly given: number | null;
  readonly opened: number | null;
}

/** By person, what became of the links that hold: of one who was joined with another too. */
export const currentLinks = (
  { clients }: Pick<State, "clients">,
  uses: ReadonlyMap<string, LinkUse>,
): ReadonlyMap<string, LinkUse> => {
  const found = new Map<string, LinkUse>();
  for (const [id, use] of uses) {
    if (clients.get(id)?.generation !== use.generation) continue;
    const person = personOf(clients, id);
    const known = found.get(person);
    found.set(person, known ? bothOf(known, use) : use);
  }
  return found;
};

const bothOf = (one: LinkUse, other: LinkUse): LinkUse => ({
  generation: one.generation,
  given: latest(one.given, other.given),
  opened: latest(one.opened, other.opened),
});

const latest = (one: number | null, other: number | null): number | null =>
  one === null || other === null ? (one ?? other) : Math.max(one, other);

export const deskClient = (
  { id, name, email, phone, number, generation }: Client,
  links: ReadonlyMap<string, LinkUse>,
): DeskClient => {
  const use = links.get(id);
  return { id, name, email, phone, number, generation, given: use?.given ?? null, opened: use?.opened ?? null };
};
