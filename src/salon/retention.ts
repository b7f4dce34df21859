/**
 * How long each kind of what a salon keeps is kept (settings `retention`), and its end. Evidence is the records of a case, kept
 * to a date counted from the case's last event; everything else, the answers to the health questions first, is the rest. Works
 * on one state in change; the instants at which something goes are the salon's midnights.
 */
import { HORIZON_PAST_DAYS } from "../bounds.ts";
import type { Rules } from "../plan/rules.ts";
import { addPeriod } from "../time/calendar.ts";
import type { Day, Instant } from "../time/instant.ts";
import { type Case, type Kept, keptByPerson } from "./cases.ts";
import type { Work } from "./settle.ts";
import type { Client, DiaryTest, State } from "./types.ts";

/** Days after an appointment for which it is known whatever the settings: until the diary that is read no longer reaches it. */
const IN_SIGHT: Day = HORIZON_PAST_DAYS + 2;

/** When what happened last on that day has been kept through its period. */
const endOf = (last: Instant, period: string, { zone }: Rules): Instant =>
  zone.startOfDay(addPeriod(zone.dayAt(last), period) + 1);

const inSight = (at: Instant, { zone }: Rules): Instant => zone.startOfDay(zone.dayAt(at) + IN_SIGHT);

/** When a case goes. */
export const endOfCase = ({ isEvidence, appointment, last }: Case, rules: Rules): Instant => {
  const { evidence, rest } = rules.settings.retention;
  const end = endOf(last, isEvidence ? evidence : rest, rules);
  return appointment ? Math.max(end, inSight(appointment.cancelledAt ?? appointment.start, rules)) : end;
};

/** When the answers of a case go. */
const endOfAnswers = ({ last }: Case, rules: Rules): Instant => endOf(last, rules.settings.retention.rest, rules);

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
    ...kept.cases.map((each) => endOfCase(each, rules)),
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
  for (const { id, forget } of work.clients.values()) if (forget !== null && forget <= work.at) due.add(id);
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
  let left = 0;
  for (const each of kept.cases) {
    if (endOfAnswers(each, rules) <= at) for (const { id } of each.screenings) work.screenings.delete(id);
    if (endOfCase(each, rules) <= at) forgetCase(work, each);
    else left++;
  }
  for (const { id, at: said } of kept.consents) {
    if (endOfConsent(said, rules) <= at) work.consents.delete(id);
    else left++;
  }
  const client = work.clients.get(person);
  if (!client) return;
  const isOver = endOfContact(client, kept, rules) <= at;
  if (left === 0 && (isOver || client.erased !== null)) forgetClient(work, person, rows);
  else if (isOver && isLeft(client, rows)) forgetContact(work, rows);
};

/** A case with all that was told of it, and what feeds said of it. */
export const forgetCase = (work: Work, { appointment, records, screenings }: Case): void => {
  for (const { id } of records) work.facts.delete(id);
  for (const { id } of screenings) work.screenings.delete(id);
  if (!appointment) return;
  work.bookings.delete(appointment.uid);
  for (const [key, event] of work.events) if (event.booking === appointment.uid) work.events.delete(key);
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
  for (const id of ids) work.clients.delete(id);
  for (const [id, deed] of work.deeds) if (ids.has(deed.client)) work.deeds.delete(id);
  for (const [key, event] of work.events) if (ids.has(event.audience)) work.events.delete(key);
  for (const client of work.clients.values()) {
    const apart = client.apart.filter((id) => !ids.has(id));
    const took = client.took.filter(({ records, screenings }) =>
      [...records, ...screenings].some((id) => work.facts.has(id) || work.screenings.has(id)),
    );
    if (apart.length < client.apart.length || took.length < client.took.length) {
      work.clients.set(client.id, { ...client, apart, took });
    }
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
