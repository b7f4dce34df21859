/** All that the desk's first page shows, gathered from the state at one instant. Pure; makes no words. */
import { NEWS_MAX } from "../bounds.ts";
import type { Rules } from "../plan/rules.ts";
import type { Plan } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { listClients } from "./clientList.ts";
import { type Call, callsOf } from "./deskCalls.ts";
import { type Due, dueOf } from "./deskDue.ts";
import { deskHours, type DeskHours } from "./deskHours.ts";
import { type News, newsOf, type Unread, unreadReactions } from "./deskNews.ts";
import { currentLinks, type DeskClient, deskClient } from "./deskPeople.ts";
import type { LinkUse } from "./LinkTable.ts";
import type { MakePlans } from "./PlanMemo.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import type { State } from "./types.ts";

/** An appointment as a list names it. */
export interface DeskBooking {
  readonly uid: string;
  readonly client: string;
  readonly start: Instant;
  readonly service: string;
  readonly diary: string;
}

export interface DeskToday extends DeskHours {
  readonly now: Instant;
  readonly unread: readonly Unread[];
  readonly due: readonly Due[];
  /** Appointments that begin before the salon next opens, by `booking.uid`. */
  readonly chairs: readonly string[];
  readonly calls: readonly Call[];
  readonly news: readonly News[];
  /** All of them, where the list was cut. */
  readonly newsCount: number;
  /** Entries of the diaries that wait for an answer, and those whose time is not certain. */
  readonly unsorted: number;
  readonly notCertain: number;
  /** Diaries with which something is wrong. */
  readonly troubled: readonly { readonly name: string; readonly kind: "held" | "unreadable" | "never-read" }[];
  /** Clients about whom something is to be decided. */
  readonly clientsOpen: number;
  /** Of the appointments above. */
  readonly plans: readonly Plan[];
  readonly bookings: readonly DeskBooking[];
  readonly clients: readonly DeskClient[];
}

/** Clients that are counted as open; more are said as "or more". */
const OPEN_MAX = 100;

/**
 * @param since from when on there is news
 * @param make as in `plansOf`
 */
export const deskToday = (
  state: State,
  rules: Rules,
  uses: ReadonlyMap<string, LinkUse>,
  since: Instant,
  now: Instant,
  make?: MakePlans,
): DeskToday => {
  const hours = deskHours(rules, now);
  const today = { at: rules.zone.startOfDay(rules.zone.dayAt(now)) };
  const choice = { ...EVERY_PLAN, from: today, limit: Number.MAX_SAFE_INTEGER };
  const plans = plansOf(state, rules, choice, now, make).plans.filter(({ standing }) => standing !== "cancelled");
  const links = currentLinks(state, uses);
  const unread = unreadReactions(state, rules);
  const due = dueOf(plans, now, hours.until);
  const chairs = plans.filter(({ booking }) => booking.start < hours.until).map(({ booking }) => booking.uid);
  const calls = callsOf({ state, plans, links, now });
  const all = newsOf(state, since, now);
  const news = all.slice(0, NEWS_MAX);
  const named = new Set([
    ...chairs,
    ...[...due, ...calls].map(({ booking }) => booking),
    ...news.flatMap((each) => ("booking" in each ? (each.booking ?? []) : [])),
    ...unread.flatMap(({ record }) => record.booking ?? []),
  ]);
  const bookings = [...named].flatMap((uid) => state.bookings.get(uid) ?? []);
  const people = new Set([
    ...bookings.map(({ client }) => client),
    ...unread.map(({ client }) => client),
    ...news.flatMap((each) => ("client" in each ? each.client : [])),
  ]);
  const reports = [...state.diaries.values()].map(({ report }) => report);
  return {
    ...hours,
    now,
    unread,
    due,
    chairs,
    calls,
    news,
    newsCount: all.length,
    unsorted: sumOf(reports.map((report) => report?.counts["unsorted"])),
    notCertain: sumOf(reports.map((report) => report?.skipped.filter(({ reason }) => reason !== "called-off").length)),
    troubled: [...state.diaries.values()].flatMap(({ name, trouble, lastGood }): DeskToday["troubled"] => {
      if (trouble !== null) return [{ name, kind: trouble.kind }];
      return lastGood === null ? [{ name, kind: "never-read" }] : [];
    }),
    clientsOpen: listClients(state, { q: null, state: "open", after: null, limit: OPEN_MAX }).rows.length,
    plans: plans.filter(({ booking }) => named.has(booking.uid)),
    bookings: bookings.map(({ uid, client, start, service, diary }) => ({ uid, client, start, service, diary })),
    clients: [...people].flatMap((id) => {
      const client = state.clients.get(id);
      return client ? [deskClient(client, links)] : [];
    }),
  };
};

const sumOf = (counts: readonly (number | undefined)[]): number =>
  counts.reduce<number>((sum, count) => sum + (count ?? 0), 0);
