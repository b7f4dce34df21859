/**
 * When each case of the log may go, by the salon's retention. A case is one booking with all that was told of it, or an earlier
 * result of none. Reckoned at each local midnight, in which everything ends.
 */
import type { Seconds } from "./calendar.ts";
import type { LogBooking, LogRecord, LogScreening, SalonLog } from "./log.ts";

export interface LogCase {
  readonly name: string;
  readonly booking: LogBooking | null;
  readonly records: readonly LogRecord[];
  readonly screenings: readonly LogScreening[];
  readonly first: Seconds;
  readonly over: Seconds;
  last: Seconds;
  isEvidence: boolean;
  isStop: boolean;
  /** When it goes. */
  end: Seconds;
}

/** Days for which an appointment is known whatever the settings. */
const IN_SIGHT_DAYS = 32;

export const casesOf = (log: SalonLog, person: string): readonly LogCase[] => {
  const records = log.recordsOf(person);
  const standing = new Set(log.standing(person));
  const nameOf = (record: LogRecord): string => {
    const target = record.corrects === null ? undefined : log.records.get(record.corrects);
    return target && !target.gone ? nameOf(target) : (record.booking ?? `alone ${record.id}`);
  };
  const bookings = new Map(log.bookingsOf(person).map((each) => [each.uid, each]));
  const told = Map.groupBy(records, nameOf);
  const answered = Map.groupBy(log.screeningsOf(person), ({ booking }) => booking);
  const cases = [...new Set([...bookings.keys(), ...told.keys(), ...answered.keys()])].map((name): LogCase => {
    const booking = bookings.get(name) ?? null;
    const [own, screenings] = [told.get(name) ?? [], answered.get(name) ?? []];
    const moments = [...own.flatMap(({ at, recorded }) => [at, recorded]), ...screenings.map(({ at }) => at)];
    if (booking) moments.push(booking.cancelled ?? booking.start);
    const first = booking?.start ?? Math.min(...moments);
    return {
      name,
      booking,
      records: own,
      screenings,
      first,
      over: Math.max(...moments),
      last: Math.max(...moments),
      isEvidence: own.length > 0,
      isStop: false,
      end: 0,
    };
  });
  cases.sort((one, other) => one.first - other.first || one.last - other.last);
  restOnTests(cases, standing);
  markStops(cases, standing);
  dateEnds(log, person, cases);
  return cases;
};

/** An appointment that has no clear look of its own rests on the newest test before it, and on the newest that was clear. */
const restOnTests = (cases: readonly LogCase[], standing: ReadonlySet<LogRecord>): void => {
  const has = ({ records }: LogCase, is: (record: LogRecord) => boolean): boolean =>
    records.some((record) => standing.has(record) && is(record));
  const isTest = (each: LogCase): boolean => has(each, ({ kind }) => kind === "applied" || kind === "read");
  const isClear = (each: LogCase): boolean => has(each, ({ kind, outcome }) => kind === "read" && outcome === "clear");
  for (const [place, each] of cases.entries()) {
    if (!each.booking || each.booking.cancelled !== null || isClear(each)) continue;
    const before = cases.slice(0, place);
    const clear = before.findLast(isClear);
    const test = isTest(each) ? clear : before.findLast(isTest);
    for (const rested of new Set([clear, test])) {
      if (!rested) continue;
      rested.last = Math.max(rested.last, each.last);
      each.isEvidence = true;
    }
  }
};

const markStops = (cases: readonly LogCase[], standing: ReadonlySet<LogRecord>): void => {
  const lastTest = Math.max(...[...standing].filter(({ kind }) => kind === "applied").map(({ at }) => at));
  for (const each of cases)
    each.isStop = each.records.some((record) => standing.has(record) && isStop(record, lastTest));
};

/** What stops her stays as long as anything of hers. */
const dateEnds = (log: SalonLog, person: string, cases: readonly LogCase[]): void => {
  const { evidence, rest } = log.retention;
  for (const each of cases) {
    const end = log.calendar.endOf(each.last, each.isEvidence ? evidence : rest);
    const { booking } = each;
    each.end = booking ? Math.max(end, log.calendar.midnight(booking.cancelled ?? booking.start, IN_SIGHT_DAYS)) : end;
  }
  const contact = log.holder(person).erased === null ? endOfContact(log, person, cases) : 0;
  const latest = Math.max(contact, ...cases.map(({ end }) => end));
  for (const each of cases) if (each.isStop) each.end = latest;
};

const isStop = ({ kind, outcome, reason, at }: LogRecord, lastTest: Seconds): boolean =>
  kind === "reacted" ||
  (kind === "read" && (outcome === "reaction" || (outcome === "not-sure" && lastTest <= at))) ||
  (kind === "screened" && outcome === "do-not-colour" && reason === "past-reaction");

export const endOfCase = (_log: SalonLog, { end }: LogCase): Seconds => end;

const endOfContact = (log: SalonLog, person: string, cases: readonly LogCase[]): Seconds =>
  log.calendar.endOf(Math.max(log.holder(person).since, ...cases.map(({ last }) => last)), log.retention.rest);

const isReached = (log: SalonLog, person: string): boolean =>
  log.holder(person).erased === null && log.rowsOf(person).some(({ email, phone }) => email !== null || phone !== null);

/** The earliest instant at which something of a person goes. */
export const nextEnd = (log: SalonLog, person: string): Seconds => {
  const { evidence, rest } = log.retention;
  const cases = casesOf(log, person);
  const ends = cases.flatMap((each) => [
    endOfCase(log, each),
    ...(each.screenings.length > 0 ? [log.calendar.endOf(each.over, rest)] : []),
  ]);
  ends.push(...log.consentsOf(person).map(({ at }) => log.calendar.endOf(at, evidence)));
  if (isReached(log, person) || ends.length === 0) ends.push(endOfContact(log, person, cases));
  return Math.min(...ends);
};

/** Strikes out what goes by now. Repeats until nothing more goes: an end may hang on what has just gone. */
export const strikeOut = (log: SalonLog, person: string, now: Seconds): void => {
  for (let isMore = true; isMore; ) {
    isMore = false;
    const { evidence, rest } = log.retention;
    const cases = casesOf(log, person);
    const consents = log.consentsOf(person);
    let left = 0;
    for (const each of cases) {
      if (log.calendar.endOf(each.over, rest) <= now) {
        for (const row of each.screenings) isMore = row.gone = true;
      }
      if (endOfCase(log, each) <= now) {
        strikeCase(each);
        isMore = true;
        // What is left of her is still counted from what happened last.
        log.holder(person).since = Math.max(log.holder(person).since, each.last);
      } else left++;
    }
    for (const consent of consents) {
      if (log.calendar.endOf(consent.at, evidence) <= now) isMore = consent.gone = true;
      else left++;
    }
    const isOver = endOfContact(log, person, cases) <= now;
    const { erased } = log.holder(person);
    if (left === 0 && (isOver || erased !== null)) log.forgetPerson(person);
    else if (isOver && isReached(log, person)) forgetContact(log, person);
    if (log.holder(person).gone) return;
  }
};

export const strikeCase = ({ booking, records, screenings }: LogCase): void => {
  for (const each of [...records, ...screenings]) each.gone = true;
  if (booking) booking.gone = true;
};

export const forgetContact = (log: SalonLog, person: string): void => {
  for (const row of log.rowsOf(person)) [row.email, row.phone, row.confirmed] = [null, null, false];
};

/** Strikes out what has had its time already: what is told today may take away what an earlier case was kept for. */
export const catchUp = (log: SalonLog, now: Seconds): void => {
  for (const { id } of log.persons()) if (nextEnd(log, id) <= now) strikeOut(log, id, now);
};
