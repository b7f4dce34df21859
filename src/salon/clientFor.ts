/** Whose an entry is: a client already known, or a new one. Works on one state in change. */
import { agreesWith, canBeOne, type PeopleIndex } from "../diary/clients.ts";
import type { Person } from "../diary/types.ts";
import { personOf } from "./owners.ts";
import { touch, type Work } from "./settle.ts";
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
      // Another way to reach her in the place of the one that proved who she is proves nothing: a person is asked.
      const isProven = (email === null && phone === null) || agreesWith(client, person);
      const confirmed = client.confirmed && isProven;
      const learned = { ...client, email: email ?? person.email, phone: phone ?? person.phone, confirmed };
      work.clients.set(client.id, learned);
      people.learn(learned);
      if (confirmed !== client.confirmed) touch(work, personOf(work.clients, client.id));
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
