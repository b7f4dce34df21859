/**
 * Everything that is on file about one appointment, as an insurer asks for it: what was asked, tested, seen and decided, by whom
 * and when. Reads only; adds no judgement but the plan's own, and says nothing of anybody else.
 */
import { routeOfApplied } from "../plan/applications.ts";
import { readLedger } from "../plan/ledger.ts";
import type { Rules } from "../plan/rules.ts";
import type { Fact, Plan, TestRoute } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { byStart } from "./byStart.ts";
import type { Case } from "./cases.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { ofHerAlone } from "./herAlone.ts";
import type { Keeper } from "./keeper.ts";
import { mattersByClient } from "./matters.ts";
import { ownersOf } from "./owners.ts";
import { planClient } from "./planClient.ts";
import { endsOf, keptOf } from "./retention.ts";
import type { RulesHeld } from "./rulesHeld.ts";
import type { ScreeningShown } from "./screenings.ts";
import type { Booking, ClientDeed, Consent, Recorded } from "./types.ts";

/** A record beside what became of it. */
export interface EvidenceRecord {
  readonly record: Recorded;
  /** The correction that set it aside; null: it stands. */
  readonly correctedBy: string | null;
  /** When its appointment was to begin, as it was told; null: as it is to begin now, or not known. */
  readonly toldFor: Instant | null;
}

/** The earlier test that an appointment rests on, and the term by which it counts. */
export interface RestsOn {
  readonly record: Recorded;
  readonly route: TestRoute;
  /** Of the settings that it is judged by. Months null: without an end. */
  readonly terms: {
    readonly months: number | null;
    readonly product: "any" | "same";
    readonly shade: "any" | "not-darker";
  };
}

export interface Evidence {
  readonly at: Instant;
  readonly settings: Settings;
  /** Of the settings that it is judged by. */
  readonly version: number;
  /** Whether these are those that held when the appointment began. */
  readonly isFixed: boolean;
  readonly client: { readonly id: string; readonly name: string };
  /** Null where the diary no longer gives it to this client. */
  readonly appointment: Booking | null;
  readonly booking: string;
  /** As it stands by those settings, in words for paper; null where it is not planned any more. */
  readonly plan: Plan | null;
  /** In the order they happened. */
  readonly records: readonly EvidenceRecord[];
  /** Ids of what was told of this appointment while it stood under another client's name, with when: what it says is hers. */
  readonly foreign: readonly Pick<Recorded, "id" | "recorded">[];
  /** The earlier test that the appointment rests on; null: none. */
  readonly restsOn: RestsOn | null;
  /** All that was told of that test's appointment. */
  readonly earlier: readonly EvidenceRecord[];
  /** Stops of the client that were told under other appointments. */
  readonly stops: readonly EvidenceRecord[];
  readonly screenings: readonly ScreeningShown[];
  readonly consents: readonly Consent[];
  /** What was decided about who the client is; of the bookings of a split those that are hers, by their starts. */
  readonly decisions: readonly ClientDeed[];
  /** When these records go; null: there are none. */
  readonly until: Instant | null;
}

/** Errors: an appointment that is not known, or of which nothing is kept any more. */
export const evidenceOf = (
  keeper: Keeper,
  booking: string,
  { rules, version, isFixed }: RulesHeld,
  at: Instant,
): Outcome<Evidence> => {
  const { state, settings, desk } = keeper;
  const known = state.bookings.get(booking);
  const told = [...state.facts.values()].find((fact) => fact.booking === booking);
  const owner = known?.client ?? (told && ownersOf(state).ofRecord(told));
  const client = owner === undefined || owner === null ? undefined : state.clients.get(owner);
  if (!client) return fail({ code: "no-such-appointment" });
  const kept = keptOf(state, client.id, desk.rules);
  const own = kept.cases.find((each) => each.booking === booking);
  const records = kept.cases.flatMap((each) => each.records);
  const hers = new Set(records.filter(({ isLeft }) => !isLeft).map(({ id }) => id));
  const corrections = correctionsOf(records);
  const shown = (facts: readonly Recorded[]): readonly EvidenceRecord[] =>
    facts.toSorted(inOrder).map((record) => ({
      record,
      correctedBy: corrections.get(record.id) ?? null,
      toldFor: otherStart(record, state.bookings.get(record.booking ?? "")),
    }));
  const matters = mattersByClient(state, new Set([client.id])).get(client.id);
  const plans = matters ? planClient(client, matters, at, { ...rules, dates: "full" }) : [];
  const plan = plans.find((each) => each.booking.uid === booking) ?? null;
  const rested = caseOf(kept.cases, plan);
  return succeed({
    at,
    settings,
    version,
    isFixed,
    client: { id: client.id, name: client.name },
    appointment: known ?? null,
    booking,
    plan: plan && { ...plan, why: ofHerAlone(plan.why) },
    records: shown((own?.records ?? []).filter(({ isLeft }) => !isLeft)),
    foreign: [...state.facts.values()]
      .filter((fact) => fact.booking === booking && !hers.has(fact.id))
      .toSorted(inOrder),
    restsOn: rested && plan ? restsOn(rested, plan, corrections, rules) : null,
    earlier: shown(rested?.records ?? []),
    stops: shown(records.filter((fact) => fact.booking !== booking && !fact.isLeft && isStop(fact))),
    screenings: (own?.screenings ?? []).map((row) => ({
      ...row,
      questions: state.questions.get(String(row.version))?.questions ?? [],
    })),
    consents: kept.consents,
    decisions: [...state.deeds.values()]
      .filter((deed) => deed.kind !== "request" && (deed.client === client.id || deed.other === client.id))
      .map((deed) => ({
        ...deed,
        bookings: deed.bookings
          .flatMap((uid) => state.bookings.get(uid) ?? [])
          .filter((each) => each.client === client.id)
          .toSorted(byStart)
          .map(({ uid }) => uid),
      })),
    until: own && own.records.length > 0 ? (endsOf(client, kept, desk.rules).get(own) ?? null) : null,
  });
};

const numberOf = ({ id }: Fact): number => Number(id.slice(1));

/** By when they happened. */
const inOrder = (one: Fact, other: Fact): number =>
  one.at - other.at || one.recorded - other.recorded || numberOf(one) - numberOf(other);

/** The start a record was told for, where the appointment has another now, or is not known any more. */
const otherStart = ({ circumstances: { start } }: Recorded, booking: Booking | undefined): Instant | null =>
  start === null || start === booking?.start ? null : start;

/** By the id of what was corrected. */
const correctionsOf = (records: readonly Recorded[]): ReadonlyMap<string, string> => {
  const { corrected } = readLedger(records, Number.POSITIVE_INFINITY);
  return new Map(corrected.map(({ fact, correction }) => [fact.id, correction.id]));
};

const isStop = ({ kind, outcome }: Fact): boolean =>
  kind === "reacted" || outcome === "reaction" || outcome === "not-sure" || outcome === "do-not-colour";

/** The case of the earlier test that the plan rests on: what only stands before it is no evidence of anything here. */
const caseOf = (cases: readonly Case[], plan: Plan | null): Case | undefined =>
  plan?.restsOn ? cases.find(({ records }) => records.some(({ id }) => id === plan.restsOn)) : undefined;

const restsOn = (
  { records }: Case,
  plan: Plan,
  corrections: ReadonlyMap<string, string>,
  rules: Rules,
): RestsOn | null => {
  const record = records.find(({ id }) => id === plan.restsOn);
  if (!record) return null;
  const standing = records.filter(({ id }) => !corrections.has(id));
  const route = record.kind === "applied" ? routeOfApplied(record, standing, rules) : record.route;
  const test = rules.tests.find((each) => each.route === route);
  return test?.onFile ? { record, route: test.route, terms: test.onFile } : null;
};
