/** The clients of a salon as the desk sees them, with what a person has to decide about who they are. Pure. */
import { foldPhone } from "../diary/clients.ts";
import { foldName } from "../diary/foldName.ts";
import type { Fact, Why } from "../plan/types.ts";
import { formatDay } from "../time/instant.ts";
import { byStart } from "./byStart.ts";
import { Doubts, type Likeness } from "./Doubts.ts";
import { factsByClient, stopsCarried } from "./factsByClient.ts";
import { personOf } from "./owners.ts";
import type { Page } from "./recordList.ts";
import type { Booking, Client, ClientDeed, RequestKind, State } from "./types.ts";

export const CLIENT_STATES = ["open", "erased"] as const;

/** Which clients are listed. */
export interface ClientChoice {
  /** Part of a name or an address, or a telephone number; null: all. */
  readonly q: string | null;
  /** `open`: something about who she is has to be decided; `erased`: only what must be kept is left of her. */
  readonly state: (typeof CLIENT_STATES)[number] | null;
  /** The client the page before ended with. */
  readonly after: string | null;
  readonly limit: number;
}

/** A client in a list. */
export interface ClientBrief {
  readonly client: Client;
  /** Of those who turned out to be her. */
  readonly joined: readonly Client[];
  readonly questions: readonly Why[];
}

/** Somebody who may be the same person. */
export interface LikenessShown extends Likeness {
  readonly name: string;
  /** Whether a stop of that client's stands. */
  readonly stop: boolean;
}

/** A client with all that hangs on her. */
export interface ClientShown extends ClientBrief {
  readonly possible: readonly LikenessShown[];
  /** In order of their starts; cancelled ones too. */
  readonly bookings: readonly Booking[];
  readonly records: number;
  readonly deeds: readonly ClientDeed[];
}

type Known = Pick<State, "clients" | "facts" | "bookings" | "deeds">;

/** What is asked about several clients, gathered once. */
class Roster {
  readonly #state: Known;
  readonly #factsOf: ReturnType<typeof factsByClient>;
  readonly #doubts: Doubts;
  readonly #joined: ReadonlyMap<string | null, readonly Client[]>;
  readonly #bookings: ReadonlyMap<string, readonly Booking[]>;
  readonly #requests: ReadonlyMap<string, readonly string[]>;

  constructor(state: Known) {
    this.#state = state;
    this.#factsOf = factsByClient(state);
    this.#doubts = new Doubts(state.clients, this.#factsOf, stopsCarried(state));
    this.#joined = Map.groupBy(state.clients.values(), ({ joined }) => joined);
    this.#requests = openRequests(state);
    this.#bookings = Map.groupBy(state.bookings.values(), ({ client }) => client);
  }

  brief(client: Client): ClientBrief {
    return { client, joined: this.#joined.get(client.id) ?? [], questions: this.#questions(client) };
  }

  shown(client: Client): ClientShown {
    const bookings = this.#bookings.get(client.id) ?? [];
    const ids = new Set([client.id, ...(this.#joined.get(client.id) ?? []).map(({ id }) => id)]);
    return {
      ...this.brief(client),
      possible: this.#doubts.likenesses(client.id).map((each) => ({
        ...each,
        name: this.#state.clients.get(each.id)?.name ?? "",
        stop: this.#doubts.stopOf(each.id) !== null,
      })),
      bookings: bookings.toSorted(byStart),
      records: this.#factsOf.get(client.id)?.length ?? 0,
      deeds: [...this.#state.deeds.values()].filter((deed) => ids.has(deed.client) || ids.has(deed.other ?? "")),
    };
  }

  #questions(client: Client): readonly Why[] {
    const questions: Why[] = [];
    const bookings = (this.#bookings.get(client.id) ?? []).filter(({ cancelledAt }) => cancelledAt === null);
    const facts = this.#factsOf.get(client.id) ?? [];
    const told = new Set(facts.map(({ booking }) => booking));
    if (
      !client.confirmed &&
      client.erased === null &&
      bookings.some(({ uid }) => [...told].some((each) => each !== uid))
    ) {
      questions.push(SAME_PERSON);
    }
    for (const text of this.#requests.get(client.id) ?? []) questions.push({ code: "request-open", text });
    if (this.#doubts.possibleStop(client.id) !== null && client.erased === null) questions.push(POSSIBLE_STOP);
    if (bookings.length > 0 && this.#hasNamesakesResult(client.id)) questions.push(RESULT_OF_NAMESAKE);
    return questions;
  }

  /** Whether a clear result waits under another client of her name, who may be she. */
  #hasNamesakesResult(person: string): boolean {
    return this.#doubts
      .likenesses(person)
      .some(({ id, agrees }) => agrees.includes("name") && (this.#factsOf.get(id) ?? []).some(isClear));
  }
}

const isClear = ({ kind, outcome }: Fact): boolean => kind === "read" && outcome === "clear";

/** What clients have asked about their data and nobody has answered yet, in words, by client. */
const openRequests = ({ deeds, clients }: Known): ReadonlyMap<string, readonly string[]> => {
  const all = [...deeds.values()];
  const answered = new Set(all.filter(({ kind }) => kind === "answered").map(({ other }) => other));
  const open = all.flatMap(({ id, client, kind, request }) =>
    kind === "request" && request !== null && !answered.has(id) ? [{ client, request }] : [],
  );
  const words = new Map<string, string[]>();
  for (const { client, request } of open) {
    const person = personOf(clients, client);
    const text = `${REQUEST_WORDS[request.what]} ${formatDay(request.received)}: answer by ${formatDay(request.due)}, and record that it is answered.`;
    words.set(person, [...(words.get(person) ?? []), text]);
  }
  return words;
};

const REQUEST_WORDS: Readonly<Record<RequestKind, string>> = {
  access: "Asked for a copy of all that is kept of her on",
  erasure: "Asked to be erased on",
  correction: "Asked for something to be put right on",
};

const RESULT_OF_NAMESAKE: Why = {
  code: "result-of-namesake",
  text: "Somebody of this name has a clear result on file. Join the two if they are one person, or say that they are two.",
};
const SAME_PERSON: Why = {
  code: "same-person",
  text: "Several appointments, or an earlier result, stand under this name without anything that proves that they belong to one person. Say so once (confirm), or split off those that are another's; until then no result of one counts for another.",
};
const POSSIBLE_STOP: Why = {
  code: "possible-stop",
  text: "Somebody of the same name, address, telephone or appointment has a stop. Find out whether it is this client, and say so once: one person (join), or two (apart).",
};

const isAlike = (client: Client, asked: { readonly words: string; readonly digits: string | null }): boolean =>
  asked.words.split(" ").every((word) => foldName(client.name).includes(word)) ||
  (client.email?.toLowerCase().includes(asked.words) ?? false) ||
  (asked.digits !== null && foldPhone(client.phone) === asked.digits);

/** In the order they were first known; `next` is the cursor of the page that follows, if any. */
export const listClients = (state: Known, { q, state: wanted, after, limit }: ClientChoice): Page<ClientBrief> => {
  const roster = new Roster(state);
  const asked = q === null ? null : { words: foldName(q), digits: foldPhone(q) };
  const from = after === null ? 0 : Number(after.slice(1));
  const rows: ClientBrief[] = [];
  for (const client of [...state.clients.values()].toSorted((one, other) => one.number - other.number)) {
    if (client.joined !== null || client.number <= from) continue;
    if ((wanted === "erased") !== (client.erased !== null)) continue;
    const brief = roster.brief(client);
    if (asked && ![client, ...brief.joined].some((each) => isAlike(each, asked))) continue;
    if (wanted === "open" && brief.questions.length === 0) continue;
    if (rows.length === limit) return { rows, next: rows.at(-1)?.client.id ?? null };
    rows.push(brief);
  }
  return { rows, next: null };
};

/** One client; undefined where there is none of that id, or no more. */
export const showClient = (state: Known, id: string): ClientShown | undefined => {
  const shown = showPerson(state, id);
  return shown?.client.erased === null ? shown : undefined;
};

/** The same, also of one who was erased and of whom something is still kept. */
export const showPerson = (state: Known, id: string): ClientShown | undefined => {
  const named = state.clients.get(id);
  const client = named && state.clients.get(named.joined ?? named.id);
  return client && new Roster(state).shown(client);
};
