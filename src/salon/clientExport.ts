/** Everything that a salon keeps of one client, for her: what an access request asks for. Reads only. */
import { REQUEST_YEARS_MAX } from "../bounds.ts";
import { addMonths } from "../time/calendar.ts";
import type { Instant } from "../time/instant.ts";
import { answerBy } from "./answerBy.ts";
import { addDeed, clientNamed, type Decider } from "./clientDecisions.ts";
import { type ClientShown, showPerson } from "./clientList.ts";
import { type KeptCase, keptCases, rowsOf, whoseName } from "./erasure.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { type Mention, mentionsOf } from "./mentions.ts";
import { personOf } from "./owners.ts";
import { listLog, type LogEntry } from "./recordList.ts";
import { keptOf } from "./retention.ts";
import { listScreenings, type ScreeningShown } from "./screenings.ts";
import type { ClientDeed, Consent, DiaryTest, RequestKind } from "./types.ts";

export interface ClientExport {
  readonly at: Instant;
  readonly client: ClientShown;
  readonly records: readonly LogEntry[];
  readonly screenings: readonly ScreeningShown[];
  readonly consents: readonly Consent[];
  readonly tests: readonly DiaryTest[];
  /** What the diaries say of her. */
  readonly mentions: readonly Mention[];
  readonly kept: readonly KeptCase[];
}

const ALL = { booking: null, after: null, limit: Number.MAX_SAFE_INTEGER };

/** Also of one who was erased: of her it is what is kept for legal claims. What a diary says is then somebody else's. */
export const exportClient = (keeper: Keeper, id: string, at: Instant): Outcome<ClientExport> => {
  const { state } = keeper;
  const client = showPerson(state, id);
  if (!client) return fail({ code: "no-such-client" });
  const person = client.client.id;
  const isClient = client.client.erased === null;
  const rows = rowsOf(keeper, person);
  const isHers = whoseName(keeper, person);
  return succeed({
    at,
    client,
    // What only stops an appointment that came to her is no record of hers.
    records: listLog(state, { ...ALL, client: person }).rows.filter(({ record }) => !record.isLeft),
    screenings: listScreenings(state, { ...ALL, client: person }).screenings,
    consents: keptOf(state, person, keeper.desk.rules).consents,
    tests: isClient ? [...state.tests.values()].filter(isHers) : [],
    mentions: isClient ? mentionsOf(keeper, rows, at) : [],
    kept: keptCases(keeper, person),
  });
};

/** A request as it is kept, and the last day for it where it may take longer. */
export interface RequestKept {
  readonly deed: ClientDeed;
  readonly longest: number;
}

/** Keeps what a client has asked about her data, with the last day for an answer. `received` null: today, by the salon's clock. */
export const addRequest = (
  keeper: Keeper,
  id: string,
  { what, received }: { readonly what: RequestKind; readonly received: number | null },
  decider: Decider,
  at: Instant,
): Outcome<RequestKept> => {
  const client = clientNamed(keeper.state, id);
  if (!client) return fail({ code: "no-such-client" });
  const { rules } = keeper.desk;
  const today = rules.zone.dayAt(at);
  const day = received ?? today;
  if (day > today || day < addMonths(today, -12 * REQUEST_YEARS_MAX)) return fail({ code: "received-out-of-range" });
  const request = { what, received: day, due: answerBy(day, rules.isPublicHoliday) };
  let deed: ClientDeed | undefined;
  keeper.change(at, (work) => {
    deed = addDeed(work, { client: client.id, kind: "request", request }, decider);
  });
  if (!deed) throw new Error("a request was kept and is not there");
  return succeed({ deed, longest: longestOf(keeper, deed) });
};

/** A request has been answered: it is asked about no longer. Said again it changes nothing. */
export const answerRequest = (
  keeper: Keeper,
  id: string,
  request: string,
  decider: Decider,
  at: Instant,
): Outcome<string> => {
  const { state } = keeper;
  const client = clientNamed(state, id);
  if (!client) return fail({ code: "no-such-client" });
  const asked = state.deeds.get(request);
  const isHers = asked?.kind === "request" && personOf(state.clients, asked.client) === client.id;
  if (!isHers) return fail({ code: "no-such-request" });
  if (![...state.deeds.values()].some(({ kind, other }) => kind === "answered" && other === request)) {
    keeper.change(at, (work) => void addDeed(work, { client: client.id, kind: "answered", other: request }, decider));
  }
  return succeed(client.id);
};

/** The last day where an answer may take two months more. */
export const longestOf = ({ desk }: Keeper, { request, at }: ClientDeed): number =>
  answerBy(request?.received ?? desk.rules.zone.dayAt(at), desk.rules.isPublicHoliday, 3);
