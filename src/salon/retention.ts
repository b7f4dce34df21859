/**
 * How long each kind of what a salon keeps is kept (settings `retention`), and its end. Evidence is the records of a case, kept
 * to a date counted from the case's last event; everything else, the answers to the health questions first, is the rest. Works
 * on one state in change; the instants at which something goes are the salon's midnights.
 */
import { HORIZON_PAST_DAYS } from "../bounds.ts";
import { foldName } from "../diary/foldName.ts";
import { readLedger } from "../plan/ledger.ts";
import type { Rules } from "../plan/rules.ts";
import type { Fact } from "../plan/types.ts";
import { addPeriod } from "../time/calendar.ts";
import type { Day, Instant } from "../time/instant.ts";
import { type Case, type Kept, keptByPerson } from "./cases.ts";
import { erasedKey } from "./erasedBlocks.ts";
import { isStop } from "./factsByClient.ts";
import { ownersOf, personOf } from "./owners.ts";
import type { Work } from "./settle.ts";
import type { Booking, Client, DiaryTest, Recorded, State } from "./types.ts";

/** Days after an appointment for which it is known whatever the settings: until the diary that is read no longer reaches it. */
const IN_SIGHT: Day = HORIZON_PAST_DAYS + 2;

/** When what happened last on that day has been kept through its period. */
const endOf = (last: Instant, period: string, { zone }: Rules): Instant =>
  zone.startOfDay(addPeriod(zone.dayAt(last), period) + 1);

const inSight = (at: Instant, { zone }: Rules): Instant => zone.startOfDay(zone.dayAt(at) + IN_SIGHT);

/** When a case goes by itself. */
const ownEnd = ({ isEvidence, appointment, last }: Case, rules: Rules): Instant => {
  const { evidence, rest } = rules.settings.retention;
  const end = endOf(last, isEvidence ? evidence : rest, rules);
  return appointment ? Math.max(end, inSight(appointment.cancelledAt ?? appointment.start, rules)) : end;
};

/** When each case of a person goes: one with a stop as late as anything of hers. */
export const endsOf = (client: Client, kept: Kept, rules: Rules): ReadonlyMap<Case, Instant> => {
  const own = new Map(kept.cases.map((each) => [each, ownEnd(each, rules)]));
  const contact = client.erased === null ? endOfContact(client, kept, rules) : Number.NEGATIVE_INFINITY;
  const latest = Math.max(contact, ...own.values());
  return new Map([...own].map(([each, end]) => [each, each.isStop ? latest : end]));
};

/** When the answers of a case go: nothing that rests on its test rests on them. */
const endOfAnswers = ({ over }: Case, rules: Rules): Instant => endOf(over, rules.settings.retention.rest, rules);

/** When an agreement to keep answers, or its withdrawal, goes: it is what the keeping of answers rested on. */
const endOfConsent = (at: Instant, rules: Rules): Instant => endOf(at, rules.settings.retention.evidence, rules);

/** When her address and telephone go, and the client herself where nothing else is left. */
const endOfContact = ({ since }: Client, { cases }: Kept, rules: Rules): Instant =>
  endOf(Math.max(since, ...cases.map(({ last }) => last)), rules.settings.retention.rest, rules);

/** When a skin test that stands in a diary goes. */
const endOfTest = ({ start }: DiaryTest, rules: Rules): Instant =>
  Math.max(endOf(start, rules.settings.retention.rest, rules), inSight(start, rules));

const isLeft = (client: Client, rows: readonly Client[]): boolean =>
  client.erased === null && rows.some(({ email, phone }) => email !== null || phone !== null);

/** The earliest instant at which something of a person goes; null: nothing is left that has an end. */
const nextEnd = (client: Client, rows: readonly Client[], kept: Kept, rules: Rules): Instant | null => {
  const ends = [
    ...endsOf(client, kept, rules).values(),
    ...kept.cases.filter(({ screenings }) => screenings.length > 0).map((each) => endOfAnswers(each, rules)),
    ...kept.consents.map(({ at }) => endOfConsent(at, rules)),
  ];
  const isEmpty = ends.length === 0;
  if (isLeft(client, rows) || isEmpty) ends.push(endOfContact(client, kept, rules));
  return Math.min(...ends);
};

const rowsOf = (work: Pick<State, "clients">): ReadonlyMap<string, readonly Client[]> =>
  Map.groupBy(work.clients.values(), ({ id, joined }) => joined ?? id);

/** Whether an earlier result may count at all in this salon. */
const countsEarlier = ({ tests }: Rules): boolean => tests.some(({ onFile }) => onFile !== null);

/** Reckons anew when the next thing of each of these persons goes. */
export const dateForgetting = (work: Work, rules: Rules, only: ReadonlySet<string> | undefined): void => {
  const rows = rowsOf(work);
  for (const [id, kept] of keptByPerson(work, countsEarlier(rules), only)) {
    const client = work.clients.get(id);
    if (!client) continue;
    const forget = nextEnd(client, rows.get(id) ?? [], kept, rules);
    if (forget !== client.forget) work.clients.set(id, { ...client, forget });
  }
};

/** What is kept of one person, with the end of each case. */
export const keptOf = (state: State, person: string, rules: Rules): Kept =>
  keptByPerson(state, countsEarlier(rules), new Set([person])).get(person) ?? { cases: [], consents: [] };

/** Lets go what has been kept as long as it may be by now, of everybody. Says whose plans that may change. */
export const forgetDue = (work: Work, rules: Rules): ReadonlySet<string> => {
  const due = new Set<string>();
  for (const { id, forget, joined } of work.clients.values()) {
    if (joined === null && forget !== null && forget <= work.at) due.add(id);
  }
  if (due.size > 0) {
    const rows = rowsOf(work);
    for (const [id, kept] of keptByPerson(work, countsEarlier(rules), due)) {
      forgetOf(work, id, rows.get(id) ?? [], kept, rules);
    }
  }
  for (const [id, { until }] of work.erased) if (until <= work.at) work.erased.delete(id);
  for (const [id, test] of work.tests) if (endOfTest(test, rules) <= work.at) work.tests.delete(id);
  forgetAnswers(work, rules);
  return due;
};

const forgetOf = (work: Work, person: string, rows: readonly Client[], kept: Kept, rules: Rules): void => {
  const { at } = work;
  const client = work.clients.get(person);
  if (!client) return;
  const isOver = endOfContact(client, kept, rules) <= at;
  let { since } = client;
  let left = 0;
  for (const [each, end] of endsOf(client, kept, rules)) {
    if (endOfAnswers(each, rules) <= at) for (const { id } of each.screenings) work.screenings.delete(id);
    if (end > at) left++;
    else {
      forgetCase(work, person, each, rules);
      // What is left of her is still counted from what happened last.
      since = Math.max(since, each.last);
    }
  }
  const remaining = work.clients.get(person);
  if (remaining && since !== remaining.since) work.clients.set(person, { ...remaining, since });
  for (const { id, at: said } of kept.consents) {
    if (endOfConsent(said, rules) <= at) work.consents.delete(id);
    else left++;
  }
  if (left === 0 && (isOver || client.erased !== null)) forgetClient(work, person, rows);
  else if (isOver && isLeft(client, rows)) forgetContact(work, rows);
};

/** A case with all that was told of it, and what feeds said of it. A stop of an appointment that is another's now stays there. */
export const forgetCase = (
  work: Work,
  person: string,
  { appointment, records, screenings }: Case,
  rules: Rules,
): void => {
  const standing = new Set<Fact>(readLedger(records, Number.POSITIVE_INFINITY).live.filter(isStop));
  for (const fact of records) {
    const present = work.bookings.get(fact.booking ?? "");
    if (present && present.client !== person && standing.has(fact)) leaveStop(work, fact, present);
    else work.facts.delete(fact.id);
  }
  for (const { id } of screenings) work.screenings.delete(id);
  if (!appointment) return;
  keepQuestion(work, person, appointment);
  const { uid, start, cancelledAt } = appointment;
  const until = inSight(cancelledAt ?? start, rules);
  const said = saidOf(work, appointment);
  if (said && until > work.at) work.erased.set(erasedKey("", uid), { until, said });
  work.bookings.delete(uid);
  for (const [key, event] of work.events) if (event.booking === uid) work.events.delete(key);
};

/** Whose stop stood under an appointment that is forgotten may still be she: as long as it stands, that is asked. */
const keepQuestion = (work: Work, person: string, { uid }: Booking): void => {
  const owners = ownersOf(work);
  for (const fact of work.facts.values()) {
    const owner = fact.booking === uid && isStop(fact) && !fact.isLeft ? owners.ofRecord(fact) : person;
    const client = work.clients.get(person);
    if (owner === null || owner === person || !client || client.parted.includes(owner)) continue;
    work.clients.set(person, { ...client, parted: [...client.parted, owner] });
  }
};

/** The highest stamps of all that was ever said of a booking. */
export const saidOf = (work: Pick<State, "events">, { uid, said }: Booking): Booking["said"] => {
  const stamps = [...work.events.values()].filter(({ booking }) => booking === uid).map((event) => event.stamps);
  const all = said ? [said, ...stamps] : stamps;
  if (all.length === 0) return null;
  return {
    sequence: Math.max(...all.map(({ sequence }) => sequence)),
    lastModified: Math.max(...all.map(({ lastModified }) => lastModified)),
  };
};

/** That an appointment must not go ahead, and since when: nothing of who it was told of, and nothing that anybody wrote. */
const leaveStop = (work: Work, fact: Recorded, { under }: Booking): void => {
  const nobody = { by: null, product: null, shade: null, batch: null, site: null, photo: null, note: null };
  const reason = fact.kind === "screened" ? fact.reason : null;
  const circumstances = { ...fact.circumstances, words: null };
  work.facts.set(fact.id, {
    ...fact,
    ...nobody,
    client: under,
    reason,
    circumstances,
    reaction: null,
    isLeft: true,
  });
  for (const client of work.clients.values()) {
    if (!client.took.some(({ records }) => records.includes(fact.id))) continue;
    const took = client.took.map((each) => ({ ...each, records: each.records.filter((id) => id !== fact.id) }));
    work.clients.set(client.id, { ...client, took });
  }
};

/** Her address and telephone; without them nothing proves that another of her name is she. */
export const forgetContact = (work: Work, rows: readonly Client[]): void => {
  for (const { id } of rows) {
    const row = work.clients.get(id);
    if (row) work.clients.set(id, { ...row, email: null, phone: null, confirmed: false });
  }
};

/** A client of whom nothing is left: her name, her links and what was decided about her. */
export const forgetClient = (work: Work, person: string, rows: readonly Client[]): void => {
  const ids = new Set([person, ...rows.map(({ id }) => id)]);
  doubtNamesakes(work, rows);
  for (const id of ids) work.clients.delete(id);
  for (const [id, deed] of work.deeds) if (ids.has(deed.client)) work.deeds.delete(id);
  forgetReasons(work, ids);
  for (const [key, event] of work.events) if (ids.has(event.audience)) work.events.delete(key);
  for (const client of work.clients.values()) {
    const [apart, parted] = [client.apart, client.parted].map((list) => list.filter((id) => !ids.has(id))) as [
      string[],
      string[],
    ];
    if (apart.length + parted.length === client.apart.length + client.parted.length) continue;
    work.clients.set(client.id, { ...client, apart, parted });
  }
};

/** Why others were decided about may name her. */
export const forgetReasons = (work: Work, ids: ReadonlySet<string>): void => {
  for (const deed of work.deeds.values()) {
    if (ids.has(deed.other ?? "") && deed.reason !== null) work.deeds.set(deed.id, { ...deed, reason: null });
  }
};

/** Where one of two of a name is no more, the name alone no longer tells that a new appointment is the other's. */
export const doubtNamesakes = (work: Work, rows: readonly Client[]): void => {
  const ids = new Set(rows.map(({ id }) => id));
  const names = new Set(rows.map(({ name }) => foldName(name)));
  for (const { apart, parted, name, id } of work.clients.values()) {
    if (ids.has(id) || !names.has(foldName(name)) || ![...apart, ...parted].some((each) => ids.has(each))) continue;
    const person = work.clients.get(personOf(work.clients, id));
    if (person) work.clients.set(person.id, { ...person, confirmed: false });
  }
};

/** Answers to entries: those that name a client, or help no other entry, go; of others only what makes others like them stays. */
const forgetAnswers = (work: Work, rules: Rules): void => {
  for (const [id, answer] of work.answers) {
    if (answer.title === "" || endOf(answer.at, rules.settings.retention.rest, rules) > work.at) continue;
    if (answer.phrase === "") work.answers.delete(id);
    else work.answers.set(id, { ...answer, title: "", carried: null, client: null });
  }
};

/** The earliest instant at which something goes that is no client's own; infinite where nothing will. */
export const nextLooseEnd = (state: Pick<State, "tests" | "answers" | "erased">, rules: Rules): Instant => {
  const { rest } = rules.settings.retention;
  let earliest = Number.POSITIVE_INFINITY;
  for (const { until } of state.erased.values()) earliest = Math.min(earliest, until);
  for (const test of state.tests.values()) earliest = Math.min(earliest, endOfTest(test, rules));
  for (const { title, at } of state.answers.values()) {
    if (title !== "") earliest = Math.min(earliest, endOf(at, rest, rules));
  }
  return earliest;
};
