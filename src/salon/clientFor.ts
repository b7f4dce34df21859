/** Whose an entry is: a client already known, or a new one. Works on one state in change. */
import { canBeOne, type PeopleIndex } from "../diary/clients.ts";
import type { Person } from "../diary/types.ts";
import type { Work } from "./settle.ts";
import type { Client } from "./types.ts";

/**
 * The client's id; adds her where nobody known is she. `before` is whose the entry was at the last reading: an entry that
 * gains an address is still the same woman's, with her records and her stop.
 */
export const clientFor = (work: Work, people: PeopleIndex, person: Person, before: string | undefined): string => {
  const carried = work.clients.get(before ?? "");
  const same = carried && carried.erased === null && canBeOne(carried, person) ? carried : undefined;
  const known = same ?? people.find(person);
  const client = known && work.clients.get(known.id);
  if (client) {
    const { email, phone } = client;
    if ((email === null && person.email !== null) || (phone === null && person.phone !== null)) {
      const learned = { ...client, email: email ?? person.email, phone: phone ?? person.phone };
      work.clients.set(client.id, learned);
      people.learn(learned);
    }
    return client.id;
  }
  const isOneOfSeveral = people.isAnyOfSeveral(person);
  const added = addClient(work, person, !isOneOfSeveral && (person.email !== null || person.phone !== null));
  people.add(added);
  return added.id;
};

/** A client who was not known. @param confirmed whether a result of one booking of hers may count for another */
export const addClient = (work: Work, { name, email, phone }: Person, confirmed: boolean): Client => {
  const added: Client = {
    id: `c${work.nextClient}`,
    number: work.nextClient,
    name,
    email,
    phone,
    generation: 1,
    confirmed,
    joined: null,
    via: null,
    took: [],
    apart: [],
    parted: [],
    erasing: null,
    erased: null,
    since: work.at,
    forget: null,
  };
  work.nextClient++;
  work.clients.set(added.id, added);
  return added;
};
