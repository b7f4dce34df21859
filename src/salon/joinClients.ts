/** A person decides that two clients are one. */
import type { Instant } from "../time/instant.ts";
import { type Decider, addDeed, twoNamed } from "./clientDecisions.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { personOf } from "./owners.ts";
import { touch, type Work } from "./settle.ts";
import { eventKey } from "./types.ts";

/** Two clients are one, who goes on under `id`. What was told of either counts for her from here on, stops first of all. */
export const joinClients = (
  keeper: Keeper,
  id: string,
  withId: string,
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const two = twoNamed(keeper.state, id, withId);
  if (!two.ok) return two;
  const { client: into, other } = two.value;
  if (into.id === other.id) return succeed(into.id);
  if ([into, other].some(({ erasing, erased }) => erasing && erased === null))
    return fail({ code: "client-is-erased" });
  keeper.change(at, (work) => {
    const sideOf = (one: string): string => {
      const person = personOf(keeper.state.clients, one);
      return person === other.id ? into.id : person;
    };
    for (const each of work.clients.values()) {
      const person = personOf(keeper.state.clients, each.id);
      if (person !== other.id && person !== into.id) continue;
      // That they were told apart is taken back; of others it holds for both.
      const apart = each.apart.filter((one) => sideOf(one) !== into.id);
      const turned = { joined: into.id, via: each.via ?? into.id, erased: null, erasing: null, forget: null };
      const told = person === other.id ? turned : each.id === into.id ? { confirmed: true } : {};
      work.clients.set(each.id, { ...each, ...told, apart });
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
      timed: Math.max(there?.timed ?? 0, event.timed),
    });
  }
};
