/**
 * Everything that is on file about one appointment, as an insurer asks for it: what was asked, tested, seen and decided, by whom
 * and when. Reads only; adds no judgement but the plan's own.
 */
import { readLedger } from "../plan/ledger.ts";
import type { Fact, Plan } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import type { Case } from "./cases.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { mattersByClient } from "./matters.ts";
import { ownersOf } from "./owners.ts";
import { planClient } from "./planClient.ts";
import { endsOf, keptOf } from "./retention.ts";
import type { ScreeningShown } from "./screenings.ts";
import type { Booking, ClientDeed, Consent, Recorded } from "./types.ts";

/** A record beside what became of it. */
export interface EvidenceRecord {
  readonly record: Recorded;
  /** The correction that set it aside; null: it stands. */
  readonly correctedBy: string | null;
}

export interface Evidence {
  readonly at: Instant;
  readonly settings: Settings;
  readonly client: { readonly id: string; readonly name: string };
  /** Null where the diary no longer gives it to this client. */
  readonly appointment: Booking | null;
  readonly booking: string;
  /** Null where it is not planned any more. */
  readonly plan: Plan | null;
  /** In the order they happened. */
  readonly records: readonly EvidenceRecord[];
  /** Told of this appointment when it stood under another client's name: they do not count for this one. */
  readonly foreign: readonly EvidenceRecord[];
  /** Of the earlier test that the appointment rests on, where it has none of its own. */
  readonly earlier: readonly EvidenceRecord[];
  /** Stops of the client that were told under other appointments. */
  readonly stops: readonly EvidenceRecord[];
  readonly screenings: readonly ScreeningShown[];
  readonly consents: readonly Consent[];
  /** What was decided about who the client is. */
  readonly decisions: readonly ClientDeed[];
  /** When these records go; null: there are none. */
  readonly until: Instant | null;
}

/** Errors: an appointment that is not known, or of which nothing is kept any more. */
export const evidenceOf = (keeper: Keeper, booking: string, at: Instant): Outcome<Evidence> => {
  const { state, settings, desk } = keeper;
  const known = state.bookings.get(booking);
  const told = [...state.facts.values()].find((fact) => fact.booking === booking);
  const owner = known?.client ?? (told && ownersOf(state).ofRecord(told));
  const client = owner === undefined || owner === null ? undefined : state.clients.get(owner);
  if (!client) return fail({ code: "no-such-appointment" });
  const kept = keptOf(state, client.id, desk.rules);
  const own = kept.cases.find((each) => each.booking === booking);
  const records = kept.cases.flatMap((each) => each.records);
  const hers = new Set(records.map(({ id }) => id));
  const corrections = correctionsOf(records);
  const shown = (facts: readonly Recorded[]): readonly EvidenceRecord[] =>
    facts
      .toSorted((one, other) => one.at - other.at || one.recorded - other.recorded || numberOf(one) - numberOf(other))
      .map((record) => ({ record, correctedBy: corrections.get(record.id) ?? null }));
  const matters = mattersByClient(state, new Set([client.id])).get(client.id);
  const plans = matters ? planClient(client, matters, at, desk.rules) : [];
  const plan = plans.find((each) => each.booking.uid === booking) ?? null;
  return succeed({
    at,
    settings,
    client: { id: client.id, name: client.name },
    appointment: known ?? null,
    booking,
    plan,
    records: shown(own?.records ?? []),
    foreign: shown([...state.facts.values()].filter((fact) => fact.booking === booking && !hers.has(fact.id))),
    earlier: shown(restsOn(kept.cases, plan)?.records ?? []),
    stops: shown(records.filter((fact) => fact.booking !== booking && isStop(fact))),
    screenings: (own?.screenings ?? []).map((row) => ({
      ...row,
      questions: state.questions.get(String(row.version))?.questions ?? [],
    })),
    consents: kept.consents,
    decisions: [...state.deeds.values()].filter(
      (deed) => deed.kind !== "request" && (deed.client === client.id || deed.other === client.id),
    ),
    until: own && own.records.length > 0 ? (endsOf(client, kept, desk.rules).get(own) ?? null) : null,
  });
};

const numberOf = ({ id }: Fact): number => Number(id.slice(1));

/** By the id of what was corrected. */
const correctionsOf = (records: readonly Recorded[]): ReadonlyMap<string, string> => {
  const { corrected } = readLedger(records, Number.POSITIVE_INFINITY);
  return new Map(corrected.map(({ fact, correction }) => [fact.id, correction.id]));
};

const isStop = ({ kind, outcome }: Fact): boolean =>
  kind === "reacted" || outcome === "reaction" || outcome === "not-sure" || outcome === "do-not-colour";

/** The case of the earlier test that the plan rests on: what only stands before it is no evidence of anything here. */
const restsOn = (cases: readonly Case[], plan: Plan | null): Case | undefined =>
  plan?.restsOn ? cases.find(({ records }) => records.some(({ id }) => id === plan.restsOn)) : undefined;
