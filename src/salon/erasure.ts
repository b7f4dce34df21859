/**
 * Erases a client: at once all that nothing obliges to keep, and what still stands in a diary ahead as soon as it is gone there
 * or over. The records of her cases stay to the end of their time, since a claim may need them (Article 17(3)(e) of the General
 * Data Protection Regulation), unless the salon says that no claim can come.
 */
import type { Instant } from "../time/instant.ts";
import { HORIZON_PAST_DAYS } from "../bounds.ts";
import { isReconcilable, PeopleIndex } from "../diary/clients.ts";
import { ROOM_DAYS } from "../diary/roughSpan.ts";
import type { Person } from "../diary/types.ts";
import { addDeed, type Decider } from "./clientDecisions.ts";
import { erasedKey } from "./erasedBlocks.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { type Mention, mentionsOf, namesAny } from "./mentions.ts";
import { repeatReading } from "./readings.ts";
import { ownersOf } from "./owners.ts";
import {
  doubtNamesakes,
  endsOf,
  forgetCase,
  forgetClient,
  forgetContact,
  forgetReasons,
  keptOf,
  saidOf,
} from "./retention.ts";
import { touch, type Work } from "./settle.ts";
import { strikeNames } from "./strikeNames.ts";
import type { Client, DiaryReport } from "./types.ts";

/** What is kept of one case, and until when. */
export interface KeptCase {
  readonly booking: string | null;
  readonly records: number;
  /** The instant at which it goes. */
  readonly until: Instant;
}

export interface Erasure {
  readonly client: string;
  /** Where her name still stands in a diary ahead: the erasure waits for these. */
  readonly ahead: readonly Mention[];
  readonly kept: readonly KeptCase[];
}

/** All rows of a person: her own and those of clients who turned out to be her. */
export const rowsOf = ({ state }: Keeper, person: string): readonly Client[] =>
  [...state.clients.values()].filter(({ id, joined }) => (joined ?? id) === person);

/** The records that are kept of a person, case by case, each with its end. */
export const keptCases = (keeper: Keeper, person: string): readonly KeptCase[] => {
  const { rules } = keeper.desk;
  const client = keeper.state.clients.get(person);
  if (!client) return [];
  const kept = keptOf(keeper.state, person, rules);
  const ends = endsOf(client, kept, rules);
  return kept.cases
    .filter(({ records }) => records.length > 0)
    .map((each) => ({ booking: each.booking, records: each.records.length, until: ends.get(each) ?? 0 }));
};

/** @param evidence whether the records of her cases go too */
export const eraseClient = (
  keeper: Keeper,
  id: string,
  evidence: boolean,
  decider: Decider,
  at: Instant,
): Outcome<Erasure> => {
  const named = keeper.state.clients.get(id);
  const client = named && keeper.state.clients.get(named.joined ?? named.id);
  // Of one who was erased before only the evidence is left to erase.
  if (!client || (client.erased !== null && !evidence)) return fail({ code: "no-such-client" });
  if (client.erasing === null || (evidence && !client.erasing.evidence)) {
    keeper.change(at, (work) => {
      work.clients.set(client.id, { ...client, erasing: { at, evidence } });
      if (client.erased === null) addDeed(work, { client: client.id, kind: "erasing" }, decider);
    });
  }
  const ahead = finishErasure(keeper, client.id, at);
  return succeed({ client: client.id, ahead, kept: keptCases(keeper, client.id) });
};

/** Whether a name with what stands beside it is hers; where others have that name too, only what proves it does. */
export const whoseName = ({ state }: Keeper, person: string): ((named: Person) => boolean) => {
  const people = new PeopleIndex(state.clients.values());
  const hers = [...state.clients.values()].filter(({ id, joined }) => (joined ?? id) === person);
  const isNamed = namesAny(hers.map(({ name }) => ({ name, email: null, phone: null })));
  const others = [...state.clients.values()].filter(
    (each) => (each.joined ?? each.id) !== person && each.erased === null,
  );
  const isAnothers = others.some(({ name }) => isNamed(name));
  return (named) => {
    const found = people.find(named);
    if (found) return (found.joined ?? found.id) === person;
    return !isAnothers && isNamed(named.name) && hers.some((row) => isReconcilable(row, named));
  };
};

/** Erases all of a person that nothing ahead needs. Gives what it waits for. */
export const finishErasure = (keeper: Keeper, person: string, at: Instant): readonly Mention[] => {
  const rows = rowsOf(keeper, person);
  if (rows.length === 0) throw new Error("the erasure of somebody who is nobody");
  // Of one who was erased before only records are left, and a diary names others.
  const isGone = keeper.state.clients.get(person)?.erased !== null;
  const mentions = isGone ? [] : mentionsOf(keeper, rows, at);
  const ahead = mentions.filter((each) => each.ahead !== null);
  const past = mentions.filter((each) => each.ahead === null);
  const isWhole = ahead.length === 0;
  const kept = keptOf(keeper.state, person, keeper.desk.rules);
  const isNamed = namesAny(rows);
  const isHers = whoseName(keeper, person);
  const { rules } = keeper.desk;
  const { zone } = rules;
  // As long as a block of today, whatever its zone, could be read and stored again.
  const until = zone.startOfDay(zone.dayAt(at) + HORIZON_PAST_DAYS + 2 * ROOM_DAYS + 1);
  keeper.change(
    at,
    (work) => {
      const client = work.clients.get(person);
      if (!client) return;
      const evidence = client.erasing?.evidence ?? false;
      for (const each of kept.cases) {
        const isAhead =
          each.appointment !== null && each.appointment.cancelledAt === null && each.appointment.start > at;
        for (const { id } of each.screenings) if (!isAhead || isWhole) work.screenings.delete(id);
        // As long as she has an appointment ahead, what stops it stays, whatever else goes.
        const isKept = (each.isEvidence && !evidence) || (each.isStop && !isWhole);
        if (!isKept && (!isAhead || isWhole)) forgetCase(work, person, each, rules);
      }
      for (const [id, test] of work.tests) if (test.start < at && isHers(test)) work.tests.delete(id);
      for (const { diary, uid } of past) work.erased.set(erasedKey(diary, uid), { until, said: null });
      touch(work, person);
      if (isWhole) finishWhole(work, client, rows, kept.consents, { isHers, evidence, until });
    },
    () => {
      for (const { diary, uid } of past) keeper.store.blocks.dropUids(diary, [uid]);
      for (const { id } of rows) keeper.store.answered.forget(id);
      if (!isWhole) return;
      for (const { id } of rows) {
        keeper.store.feeds.remove(id);
        keeper.store.links.forget(id);
      }
    },
  );
  // What was sorted by an answer that named her is sorted anew.
  const sorted = isWhole ? [...keeper.state.diaries.keys()] : past.map(({ diary }) => diary);
  for (const name of new Set(sorted)) repeatReading(keeper, name, at);
  scrubReports(keeper, isNamed, isWhole, at);
  return ahead;
};

/** How an erasure ends. */
interface Ending {
  readonly isHers: (named: Person) => boolean;
  /** Whether the records go too. */
  readonly evidence: boolean;
  /** How long marks of what is not read again are kept. */
  readonly until: Instant;
}

/** Nothing ahead names her any more: she is no client. What is kept is kept under her name alone. */
const finishWhole = (
  work: Work,
  client: Client,
  rows: readonly Client[],
  consents: readonly { readonly id: string }[],
  { isHers, evidence, until }: Ending,
): void => {
  for (const [id, answer] of work.answers) {
    const named = answer.client ?? { name: answer.title, email: null, phone: null };
    if (isHers(named) || isHers({ ...named, name: answer.title })) work.answers.delete(id);
  }
  strikeNames(work, rows);
  forgetContact(work, rows);
  for (const { id } of rows) {
    const row = work.clients.get(id);
    if (row) work.clients.set(id, { ...row, erased: row.erased ?? work.at, generation: row.generation + 1 });
  }
  const ids = new Set(rows.map(({ id }) => id));
  // Some exports make a UID of a person's address.
  const namesHer = namesAny(rows);
  const hers = new Set([...work.bookings.values()].filter((each) => each.client === client.id).map(({ uid }) => uid));
  for (const uid of hers) {
    const booking = work.bookings.get(uid);
    // A title holds her name once more; the evidence names her once.
    if (!booking) continue;
    const said = saidOf(work, booking);
    if (said) work.erased.set(erasedKey("", uid), { until, said });
    work.bookings.set(uid, { ...booking, summary: booking.service, next: null, said });
  }
  for (const [key, event] of work.events) {
    if (ids.has(event.audience) || (event.booking !== null && hers.has(event.booking))) work.events.delete(key);
  }
  for (const uid of hers) if (namesHer(uid)) renameBooking(work, uid);
  forgetReasons(work, ids);
  doubtNamesakes(work, rows);
  const owners = ownersOf(work);
  const isEvidenceLeft = hers.size > 0 || [...work.facts.values()].some((fact) => owners.ofRecord(fact) === client.id);
  if (evidence || !isEvidenceLeft) {
    for (const { id } of consents) work.consents.delete(id);
    forgetClient(work, client.id, rows);
  }
};

/** A UID that says who she is gives way to one that does not, wherever the evidence is under it. */
const renameBooking = (work: Work, uid: string): void => {
  const booking = work.bookings.get(uid);
  if (!booking) return;
  const plain = `erased-${erasedKey("", uid).slice(0, 24)}`;
  work.bookings.delete(uid);
  work.bookings.set(plain, { ...booking, uid: plain, key: plain });
  for (const [id, fact] of work.facts) if (fact.booking === uid) work.facts.set(id, { ...fact, booking: plain });
  for (const deed of work.deeds.values()) {
    if (!deed.bookings.includes(uid)) continue;
    work.deeds.set(deed.id, { ...deed, bookings: deed.bookings.map((each) => (each === uid ? plain : each)) });
  }
  for (const client of work.clients.values()) {
    if (!client.took.some(({ bookings }) => bookings.includes(uid))) continue;
    const took = client.took.map((each) => ({
      ...each,
      bookings: each.bookings.map((one) => (one === uid ? plain : one)),
    }));
    work.clients.set(client.id, { ...client, took });
  }
};

/** The last reports of the diaries, where they quote an entry that names her. */
const scrubReports = (keeper: Keeper, isNamed: (text: string) => boolean, isWhole: boolean, at: Instant): void => {
  if (!isWhole) return;
  const isClean = (...texts: readonly string[]): boolean => !texts.some(isNamed);
  const clean = (report: DiaryReport): DiaryReport => ({
    ...report,
    skipped: report.skipped.filter(({ entry, uid, text }) => isClean(entry, uid, text)),
    unsorted: report.unsorted.filter(({ entry, uid, summary }) => isClean(entry, uid, summary)),
  });
  keeper.change(at, (work) => {
    for (const [name, diary] of work.diaries) {
      if (diary.report) work.diaries.set(name, { ...diary, report: clean(diary.report) });
    }
  });
};
