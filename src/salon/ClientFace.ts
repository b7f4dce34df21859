/** What may be asked and decided about clients: who is who, what they want to know, what is kept of them. */
import type { Person } from "../diary/types.ts";
import type { Instant } from "../time/instant.ts";
import { addClientByHand } from "./addClientByHand.ts";
import { type ClientAtDesk, clientAtDesk } from "./clientAtDesk.ts";
import { confirmClient, type Decider } from "./clientDecisions.ts";
import { joinClients } from "./joinClients.ts";
import { partClients } from "./partClients.ts";
import { splitClient } from "./splitClient.ts";
import {
  addRequest,
  answerRequest,
  type ClientExport,
  exportClient,
  longestOf,
  type RequestKept,
} from "./clientExport.ts";
import { clientLink } from "./clientLink.ts";
import {
  type ClientBrief,
  type ClientChoice,
  type ClientShown,
  listClients,
  showClient,
  showPerson,
} from "./clientList.ts";
import { eraseClient, type Erasure } from "./erasure.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Page } from "./recordList.ts";
import { doOnce, type Once } from "./once.ts";
import type { RequestKind } from "./types.ts";
import { RecordFace } from "./RecordFace.ts";

export abstract class ClientFace extends RecordFace {
  async clients(choice: ClientChoice): Promise<Page<ClientBrief>> {
    await this.wake();
    return listClients(this.keeper.state, choice);
  }

  async client(id: string): Promise<Outcome<ClientShown>> {
    await this.wake();
    const shown = showClient(this.keeper.state, id);
    return shown ? succeed(shown) : fail({ code: "no-such-client" });
  }

  /** With her plans, her records and her answers; also of one who was erased and of whom something is still kept. */
  async clientAtDesk(id: string): Promise<Outcome<ClientAtDesk>> {
    const now = await this.wake();
    const found = clientAtDesk(this.keeper, id, now);
    return found ? succeed(found) : fail({ code: "no-such-client" });
  }

  /** One who is known by name and address, or by her bare name where nobody of it has one, is no new client. */
  async addClient(
    person: Person,
    once: Once | null,
    decider: Decider = BY_PROGRAM,
  ): Promise<Outcome<{ shown: ClientShown; isNew: boolean }>> {
    const now = await this.wake();
    const added = addClientByHand(this.keeper, person, decider, once, now);
    if (!added.ok) return added;
    const shown = this.#shown(succeed(added.value.id));
    return shown.ok ? succeed({ shown: shown.value, isNew: added.value.isNew }) : shown;
  }

  async confirmClient(id: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => confirmClient(this.keeper, id, decider, now));
  }

  async joinClients(id: string, other: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => joinClients(this.keeper, id, other, decider, now));
  }

  async partClients(id: string, other: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => partClients(this.keeper, id, other, decider, now));
  }

  /** Gives the client whose the bookings are now. */
  async splitClient(
    id: string,
    bookings: readonly string[],
    decider: Decider,
    once: Once | null,
  ): Promise<Outcome<ClientShown>> {
    return this.#decide((now) =>
      doOnce(this.keeper, once, now, {
        run: () => splitClient(this.keeper, id, bookings, decider, now),
        keep: (made) => ({ told: made, client: made }),
        again: (told) => String(told),
      }),
    );
  }

  async addRequest(
    id: string,
    request: { readonly what: RequestKind; readonly received: number | null },
    decider: Decider,
    once: Once | null,
  ): Promise<Outcome<RequestKept>> {
    const now = await this.wake();
    return doOnce(this.keeper, once, now, {
      run: () => addRequest(this.keeper, id, request, decider, now),
      keep: ({ deed }) => ({ told: deed.id, client: deed.client }),
      again: (told) => {
        const deed = this.keeper.state.deeds.get(String(told));
        return deed && { deed, longest: longestOf(this.keeper, deed) };
      },
    });
  }

  async answerRequest(id: string, request: string, decider: Decider): Promise<Outcome<ClientShown>> {
    return this.#decide((now) => answerRequest(this.keeper, id, request, decider, now));
  }

  async exportClient(id: string): Promise<Outcome<ClientExport>> {
    const now = await this.wake();
    return exportClient(this.keeper, id, now);
  }

  async eraseClient(id: string, evidence: boolean, decider: Decider): Promise<Outcome<Erasure>> {
    const now = await this.wake();
    const erased = eraseClient(this.keeper, id, evidence, decider, now);
    await this.setAlarm();
    return erased;
  }

  /** What a client's link is made of; `renew` revokes the one before, `isGiven` says that it is on its way to her. */
  async clientLink(
    id: string,
    renew: boolean,
    isGiven: boolean,
  ): Promise<Outcome<{ number: number; generation: number }>> {
    const now = await this.wake();
    return clientLink(this.keeper, id, { renew, isGiven }, now);
  }

  async #decide(decision: (now: Instant) => Outcome<string>): Promise<Outcome<ClientShown>> {
    const now = await this.wake();
    const decided = decision(now);
    await this.setAlarm();
    return this.#shown(decided);
  }

  #shown(id: Outcome<string>): Outcome<ClientShown> {
    if (!id.ok) return id;
    // One who is erased again by what was decided is shown as she is now.
    const shown = showPerson(this.keeper.state, id.value);
    return shown ? succeed(shown) : fail({ code: "no-such-client" });
  }
}

const BY_PROGRAM: Decider = { by: null, via: "api", reason: null };
