/** What a client's link is made of, and its renewal. */
import type { Instant } from "../time/instant.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { touch } from "./settle.ts";

/**
 * @param renew revokes every link to that person that was given out before, those of clients joined with her too
 * @param isGiven whether it is on its way to her, and not only looked at
 */
export const clientLink = (
  keeper: Keeper,
  id: string,
  { renew, isGiven }: { readonly renew: boolean; readonly isGiven: boolean },
  at: Instant,
): Outcome<{ number: number; generation: number }> => {
  const named = keeper.state.clients.get(id);
  if (!named || named.erased !== null) return fail({ code: "no-such-client" });
  const person = named.joined ?? named.id;
  if (renew) {
    keeper.change(at, (work) => {
      for (const each of work.clients.values()) {
        if ((each.joined ?? each.id) !== person) continue;
        work.clients.set(each.id, { ...each, generation: each.generation + 1 });
      }
      touch(work, person);
    });
  }
  const client = keeper.state.clients.get(person);
  if (client && isGiven) keeper.store.links.give(client.id, client.generation, at);
  return client ? succeed({ number: client.number, generation: client.generation }) : fail({ code: "no-such-client" });
};
