/** A client whom a person enters, before any diary names her. */
import { PeopleIndex } from "../diary/clients.ts";
import type { Person } from "../diary/types.ts";
import type { Instant } from "../time/instant.ts";
import { addDeed, type Decider } from "./clientDecisions.ts";
import { addClient } from "./clientFor.ts";
import type { Outcome } from "./fault.ts";
import { succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { doOnce, type Once } from "./once.ts";
import { personOf } from "./owners.ts";
import { touch } from "./settle.ts";

interface Added {
  readonly id: string;
  readonly isNew: boolean;
}

/** One who is known by name and address, or by her bare name where nobody of it has an address, is no new client. */
export const addClientByHand = (
  keeper: Keeper,
  person: Person,
  decider: Decider,
  once: Once | null,
  at: Instant,
): Outcome<Added> =>
  doOnce<Added>(keeper, once, at, {
    run: () => {
      const { clients } = keeper.state;
      const people = new PeopleIndex(clients.values());
      const known = people.find(person);
      if (known) return succeed({ id: personOf(clients, known.id), isNew: false });
      const isProven = person.email !== null || person.phone !== null;
      let id = "";
      keeper.change(at, (work) => {
        id = addClient(work, person, isProven && !people.isAnyOfSeveral(person)).id;
        addDeed(work, { client: id, kind: "added" }, decider);
        touch(work, id);
      });
      return succeed({ id, isNew: true });
    },
    keep: ({ id, isNew }) => ({ told: { id, isNew }, client: id }),
    again: (told) => told as Added,
  });
