/**
 * Time moves the state, reading never does. `settle` applies every boundary (a standing, a grace, a window's edge, a
 * tombstone's end, a midnight that a notice lives through) in time order, each at its own instant, so that one leap and
 * many small ones end in the same state. Pure: no clock, no storage, no network.
 */
import type { EntryAnswer } from "../diary/answers.ts";
import { isReady } from "../feed/openSteps.ts";
import type { EventStamps } from "../feed/types.ts";
import type { Rules } from "../plan/rules.ts";
import type { Plan } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { appointmentsByBooking } from "./appointments.ts";
import { Doubts } from "./Doubts.ts";
import { stopsCarried } from "./factsByClient.ts";
import type { NextNumbers } from "./inTurn.ts";
import { mattersByClient } from "./matters.ts";
import { planClient } from "./planClient.ts";
import { type Draft, publish } from "./publish.ts";
import { dateForgetting, forgetDue, nextLooseEnd } from "./retention.ts";
import {
  type Booking,
  type Client,
  type ClientDeed,
  type Consent,
  type Diary,
  type DiaryTest,
  type ErasedBlock,
  eventKey,
  type QuestionsShown,
  type Recorded,
  type Screening,
  type State,
  type StoredEvent,
} from "./types.ts";

/** What the arithmetic and the words of one salon are, apart from what has happened there. */
export interface Desk {
  readonly rules: Rules;
  /** What all feeds should say of a plan. */
  readonly draftsOf: (plan: Plan, client: Client) => readonly Draft[];
  /** What the salon feed should say of its diaries on a local day. */
  readonly noticesOf: (diaries: Iterable<Diary>, at: Instant) => readonly Draft[];
}

/** A state being changed at one instant. */
export interface Work {
  readonly at: Instant;
  readonly clients: Map<string, Client>;
  readonly bookings: Map<string, Booking>;
  readonly facts: Map<string, Recorded>;
  readonly deeds: Map<string, ClientDeed>;
  readonly tests: Map<string, DiaryTest>;
  readonly questions: Map<string, QuestionsShown>;
  readonly screenings: Map<string, Screening>;
  readonly consents: Map<string, Consent>;
  readonly erased: Map<string, ErasedBlock>;
  readonly answers: Map<string, EntryAnswer>;
  readonly events: Map<string, StoredEvent>;
  readonly diaries: Map<string, Diary>;
  nextClient: number;
  nextFact: number;
  next: NextNumbers;
  /** Clients whose plans must be made anew; "all" after a change of the rules. */
  touched: Set<string> | "all";
  diariesTouched: boolean;
}

const open = (state: State, at: Instant): Work => ({
  at,
  clients: new Map(state.clients),
  bookings: new Map(state.bookings),
  facts: new Map(state.facts),
  deeds: new Map(state.deeds),
  tests: new Map(state.tests),
  questions: new Map(state.questions),
  screenings: new Map(state.screenings),
  consents: new Map(state.consents),
  erased: new Map(state.erased),
  answers: new Map(state.answers),
  events: new Map(state.events),
  diaries: new Map(state.diaries),
  nextClient: state.nextClient,
  nextFact: state.nextFact,
  next: state.next,
  touched: new Set(),
  diariesTouched: false,
});

const close = ({ at, touched: _touched, diariesTouched: _diariesTouched, ...rest }: Work): State => ({
  ...rest,
  settledTo: at,
});

const isLiveNotice = (event: StoredEvent): boolean => event.booking === null && event.shown && !event.content.cancelled;

/** The earliest instant after `settledTo` at which the state changes by time alone; null where none will. */
export const nextBoundary = (state: State, desk: Desk): Instant | null => {
  let earliest = Number.POSITIVE_INFINITY;
  for (const booking of state.bookings.values()) {
    if (booking.next !== null && booking.next < earliest) earliest = booking.next;
  }
  for (const { forget, joined } of state.clients.values()) {
    if (joined === null && forget !== null && forget < earliest) earliest = forget;
  }
  earliest = Math.min(earliest, nextLooseEnd(state, desk.rules));
  let noticesLive = false;
  for (const event of state.events.values()) {
    if (event.shown && event.expires < earliest) earliest = event.expires;
    if (isLiveNotice(event)) noticesLive = true;
  }
  if (noticesLive) {
    const { zone } = desk.rules;
    earliest = Math.min(earliest, zone.startOfDay(zone.dayAt(state.settledTo) + 1));
  }
  return Number.isFinite(earliest) ? earliest : null;
};

/** Applies every boundary in (settledTo, upTo]. */
export const settle = (state: State, upTo: Instant, desk: Desk): State => settleInWork(state, upTo, desk).settled;

/** The same, with the copies it was done in, if any boundary was met: nobody sees the states between two of them. */
const settleInWork = (state: State, upTo: Instant, desk: Desk): { readonly settled: State; readonly work?: Work } => {
  let work: Work | undefined;
  let settled = state;
  for (let at = nextBoundary(settled, desk); at !== null && at <= upTo; at = nextBoundary(settled, desk)) {
    const due = Math.max(at, settled.settledTo);
    work = work ? { ...work, at: due, touched: new Set() } : open(settled, due);
    for (const booking of work.bookings.values()) {
      if (booking.next !== null && booking.next <= work.at) touch(work, booking.client);
    }
    work.diariesTouched = true;
    for (const id of forgetDue(work, desk.rules)) touch(work, id);
    finish(work, desk);
    settled = close(work);
    const next = nextBoundary(settled, desk);
    if (next !== null && next <= work.at) throw new Error("a boundary was applied and still stands");
  }
  if (upTo > settled.settledTo) settled = { ...settled, settledTo: upTo };
  return work ? { settled, work } : { settled };
};

/** Settles up to `at`, then makes a change there and all that follows from it. */
export const change = (state: State, at: Instant, desk: Desk, edit: (work: Work) => void): State => {
  const { settled, work: copies } = settleInWork(state, at, desk);
  const before = appointmentsByBooking(settled);
  const fresh = { at: settled.settledTo, touched: new Set<string>(), diariesTouched: false };
  const work = copies ? { ...copies, ...fresh } : open(settled, settled.settledTo);
  edit(work);
  touchAnchored(work, before);
  touchAlike(work);
  finish(work, desk);
  return close(work);
};

/** Those for whose bookings another test stands in the diary than before, whatever changed: a test, a booking or a name. */
const touchAnchored = (work: Work, then: ReturnType<typeof appointmentsByBooking>): void => {
  if (work.touched === "all") return;
  const now = appointmentsByBooking(work);
  for (const uid of new Set([...then.keys(), ...now.keys()])) {
    if (JSON.stringify(then.get(uid)) === JSON.stringify(now.get(uid))) continue;
    const booking = work.bookings.get(uid);
    if (booking) touch(work, booking.client);
  }
};

/** Those who may be one of the touched: a stop that comes or goes is a question about them. */
const touchAlike = (work: Work): void => {
  if (work.touched === "all" || work.touched.size === 0) return;
  const doubts = new Doubts(work.clients, new Map(), stopsCarried(work));
  const told = new Set(work.touched);
  for (const client of told) for (const { id } of doubts.likenesses(client)) touch(work, id);
};

export const touch = (work: Work, client: string): void => {
  if (work.touched !== "all") work.touched.add(client);
};

/** Makes the touched plans anew, publishes what they say, and drops what has expired. */
const finish = (work: Work, desk: Desk): void => {
  if (work.touched === "all" || work.touched.size > 0) replan(work, desk);
  if (work.diariesTouched || work.touched === "all") {
    const published = [...work.events.values()].filter((event) => event.booking === null);
    write(work, publish(desk.noticesOf(work.diaries.values(), work.at), null, published, work.at, desk.rules.zone));
  }
  const expired = new Set<string>();
  for (const [key, event] of work.events) {
    if (!event.shown || event.expires > work.at) continue;
    work.events.set(key, { ...event, shown: false });
    if (event.booking !== null) expired.add(event.booking);
  }
  closeBookings(work, expired);
  if (work.touched === "all" || work.touched.size > 0) {
    dateForgetting(work, desk.rules, work.touched === "all" ? undefined : work.touched);
  }
};

/** A booking of which nothing is shown any more needs its events no longer; only their stamps go on, should it come again. */
const closeBookings = (work: Work, expired: ReadonlySet<string>): void => {
  if (expired.size === 0) return;
  const events = Map.groupBy(
    [...work.events].filter(([, event]) => expired.has(event.booking ?? "")),
    ([, event]) => event.booking as string,
  );
  for (const [uid, all] of events) {
    const booking = work.bookings.get(uid);
    if (!booking || booking.next !== null || all.some(([, event]) => event.shown)) continue;
    const stamps = all.map(([, event]) => event.stamps);
    work.bookings.set(uid, { ...booking, said: newestOf(booking.said, stamps) });
    for (const [key] of all) work.events.delete(key);
  }
};

const newestOf = (said: Booking["said"], stamps: readonly EventStamps[]): NonNullable<Booking["said"]> => ({
  sequence: Math.max(said?.sequence ?? 0, ...stamps.map(({ sequence }) => sequence)),
  lastModified: Math.max(said?.lastModified ?? 0, ...stamps.map(({ lastModified }) => lastModified)),
});

const replan = (work: Work, desk: Desk): void => {
  const published = new Map<string, StoredEvent[]>();
  const matters = mattersByClient(work, work.touched === "all" ? undefined : work.touched);
  const isAll = work.touched === "all";
  for (const { bookings } of matters.values()) for (const { uid } of bookings) published.set(uid, []);
  for (const event of work.events.values()) if (event.booking !== null) published.get(event.booking)?.push(event);
  for (const [id, known] of matters) {
    const client = work.clients.get(id);
    if (!client) throw new Error("a booking without its client is stored");
    if (client.erased !== null) continue;
    for (const plan of planClient(client, known, work.at, desk.rules)) {
      const { uid } = plan.booking;
      // What is over and no longer shown says nothing new by itself.
      if (isAll && work.bookings.get(uid)?.said && (published.get(uid)?.length ?? 0) === 0) continue;
      if (plan.next !== null && plan.next <= work.at) throw new Error("a plan's next change lies behind it");
      const booking = work.bookings.get(uid) as Booking;
      if (plan.next !== booking.next) work.bookings.set(uid, { ...booking, next: plan.next });
      // A cancelled booking says nothing new: what was published of it becomes tombstones as it stood.
      const before = published.get(uid) ?? [];
      const drafts = booking.cancelledAt === null ? desk.draftsOf(plan, client) : [];
      write(
        work,
        publish([...drafts, ...lastNotices(plan, drafts, before)], booking, before, work.at, desk.rules.zone),
      );
    }
  }
};

/**
 * A warning of a booking that was not ready stays as it stood when the appointment passed: a salon that runs a minute late
 * must not find it struck out.
 */
const lastNotices = (plan: Plan, drafts: readonly Draft[], published: readonly StoredEvent[]): readonly Draft[] => {
  if (plan.standing !== "past" || isReady(plan)) return [];
  const said = new Set(drafts.map(({ content }) => content.uid));
  return published.filter(({ content }) => content.kind === "notice" && !content.cancelled && !said.has(content.uid));
};

const write = (work: Work, events: readonly StoredEvent[]): void => {
  for (const event of events) work.events.set(eventKey(event.audience, event.content.uid), event);
};
