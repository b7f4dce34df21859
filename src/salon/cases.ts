/**
 * A client's cases: each appointment with all that was told of it, and each earlier result that belongs to none. How long
 * something is kept counts from the last event of its case (Limitation Act 1980, sections 2 and 5, behind the six years that
 * the trade asks for). Pure.
 */
import { isReaction, newest, readLedger } from "../plan/ledger.ts";
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { ownersOf } from "./owners.ts";
import type { Booking, Consent, Recorded, Screening, State } from "./types.ts";

export interface Case {
  /** Null: of no appointment. */
  readonly booking: string | null;
  /** The appointment, where it is hers and still known. */
  readonly appointment: Booking | null;
  readonly records: readonly Recorded[];
  readonly screenings: readonly Screening[];
  /** Whether something is recorded of it, or it rests on a test that is: then it is evidence. */
  readonly isEvidence: boolean;
  /** Whether a stop in it goes beyond its appointment: then it is kept as long as anything of hers. */
  readonly isStop: boolean;
  /** Its own last event. */
  readonly over: Instant;
  /** The same, or that of the last case which rests on it. */
  readonly last: Instant;
}

/** All that a salon keeps of one person. */
export interface Kept {
  /** In the order of their first events. */
  readonly cases: readonly Case[];
  readonly consents: readonly Consent[];
}

export type Keeping = Pick<State, "clients" | "bookings" | "facts" | "screenings" | "consents">;

/** @param only persons to look at; undefined: all */
export const keptByPerson = (
  state: Keeping,
  countsEarlier: boolean,
  only?: ReadonlySet<string>,
): ReadonlyMap<string, Kept> => {
  const owners = ownersOf(state);
  const gathered = new Map<string, Gathered>();
  const of = (person: string): Gathered | undefined => {
    if (only && !only.has(person)) return undefined;
    const known = gathered.get(person);
    if (known) return known;
    const fresh = { bookings: [], records: [], screenings: [], consents: [] };
    gathered.set(person, fresh);
    return fresh;
  };
  for (const client of state.clients.values()) if (client.joined === null) of(client.id);
  for (const booking of state.bookings.values()) of(booking.client)?.bookings.push(booking);
  for (const fact of state.facts.values()) of(owners.ofRecord(fact) ?? "")?.records.push(fact);
  for (const row of state.screenings.values()) of(owners.ofScreening(row))?.screenings.push(row);
  for (const row of state.consents.values()) of(owners.ofScreening(row))?.consents.push(row);
  return new Map(
    [...gathered].map(([person, all]) => [person, { cases: casesOf(all, countsEarlier), consents: all.consents }]),
  );
};

interface Gathered {
  readonly bookings: Booking[];
  readonly records: Recorded[];
  readonly screenings: Screening[];
  readonly consents: Consent[];
}

interface Draft extends Case {
  readonly first: Instant;
  last: Instant;
  isEvidence: boolean;
  isStop: boolean;
  readonly hasTest: boolean;
  readonly hasClear: boolean;
}

const casesOf = ({ bookings, records, screenings }: Gathered, countsEarlier: boolean): readonly Case[] => {
  const groupOf = groupsOf(records);
  const told = Map.groupBy(records, groupOf);
  const answered = Map.groupBy(screenings, ({ booking }) => booking);
  const hers = new Map(bookings.map((booking) => [booking.uid, booking]));
  const names = new Set([...hers.keys(), ...told.keys(), ...answered.keys()]);
  const cases = [...names].map((name) => draftOf(hers.get(name), told.get(name) ?? [], answered.get(name) ?? []));
  cases.sort((one, other) => one.first - other.first || one.last - other.last);
  if (countsEarlier) restOnTests(cases);
  keepStops(cases, records);
  return cases;
};

/** A record belongs to its appointment, else it is a case of its own; a correction belongs to what it corrects. */
const groupsOf = (records: readonly Recorded[]): ((fact: Recorded) => string) => {
  const byId = new Map(records.map((fact) => [fact.id, fact]));
  const groupOf = (fact: Recorded): string => {
    const target = fact.kind === "correction" ? byId.get(fact.corrects ?? "") : undefined;
    return target ? groupOf(target) : (fact.booking ?? `\n${fact.id}`);
  };
  return groupOf;
};

const draftOf = (
  appointment: Booking | undefined,
  records: readonly Recorded[],
  screenings: readonly Screening[],
): Draft => {
  const moments = [
    ...records.flatMap(({ at, recorded }) => [at, recorded]),
    ...screenings.map(({ at }) => at),
    ...(appointment ? [appointment.cancelledAt ?? appointment.start] : []),
  ];
  const { live } = readLedger(records, Number.POSITIVE_INFINITY);
  const booking = appointment?.uid ?? records[0]?.booking ?? screenings[0]?.booking ?? null;
  return {
    booking,
    appointment: appointment ?? null,
    records,
    screenings,
    first: appointment?.start ?? Math.min(...moments),
    over: Math.max(...moments),
    last: Math.max(...moments),
    isEvidence: records.length > 0,
    isStop: false,
    hasTest: live.some(({ kind }) => kind === "applied" || kind === "read"),
    hasClear: live.some(({ kind, outcome }) => kind === "read" && outcome === "clear"),
  };
};

/**
 * An appointment without a test of its own rests on the test before it, which is kept as long as its own records are; so is the
 * newest that was looked at and clear, where the one after it came to nothing.
 */
const restOnTests = (cases: readonly Draft[]): void => {
  let test: Draft | undefined;
  let clear: Draft | undefined;
  for (const each of cases) {
    if (each.booking !== null && each.appointment?.cancelledAt === null && !each.hasClear) {
      const rested = (each.hasTest ? [clear] : [test, clear]).filter((one) => one !== undefined);
      for (const one of rested) one.last = Math.max(one.last, each.last);
      if (rested.length > 0) each.isEvidence = true;
    }
    if (each.hasTest) test = each;
    if (each.hasClear) clear = each;
  }
};

const keepStops = (cases: readonly Draft[], records: readonly Recorded[]): void => {
  const { live } = readLedger(records, Number.POSITIVE_INFINITY);
  const lastTest = newest(live, "applied")?.at ?? Number.NEGATIVE_INFINITY;
  const stops = new Set<Fact>(live.filter((fact) => isLasting(fact, lastTest)));
  for (const each of cases) each.isStop = each.records.some((fact) => stops.has(fact));
};

/** A stop that goes beyond the appointment it was told under (counting.md 23). */
const isLasting = (fact: Fact, lastTest: Instant): boolean =>
  isReaction(fact) ||
  (fact.kind === "read" && fact.outcome === "not-sure" && lastTest <= fact.at) ||
  (fact.kind === "screened" && fact.outcome === "do-not-colour" && fact.reason === "past-reaction");
