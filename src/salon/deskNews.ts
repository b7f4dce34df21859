/** What has come about since somebody last looked: what the diaries did, and what was told from outside. Pure. */
import { isReaction } from "../plan/ledger.ts";
import { isOpen } from "../plan/hours.ts";
import type { Rules } from "../plan/rules.ts";
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import { ownersOf } from "./owners.ts";
import type { Booking, Recorded, State } from "./types.ts";

export type News = { readonly at: Instant } & (
  | { readonly kind: "new" | "cancelled" | "returned"; readonly booking: string }
  | { readonly kind: "moved"; readonly booking: string; readonly from: Instant }
  | {
      readonly kind: "reacted" | "told";
      readonly record: Recorded;
      readonly booking: string | null;
      readonly client: string;
    }
  | { readonly kind: "held" | "unreadable"; readonly diary: string }
);

/** The newest first. */
export const newsOf = (state: State, since: Instant, now: Instant): readonly News[] =>
  [
    ...[...state.bookings.values()].flatMap((each) => bookingNews(each, state, since, now)),
    ...toldNews(state, since),
    ...diaryNews(state, since),
  ].sort((one, other) => other.at - one.at);

const bookingNews = (
  { uid, client, start, firstSeen, turned, cancelledAt }: Booking,
  { clients }: State,
  since: Instant,
  now: Instant,
): readonly News[] => {
  if (clients.get(client)?.erased !== null) return [];
  if (cancelledAt !== null) return cancelledAt > since ? [{ kind: "cancelled", at: cancelledAt, booking: uid }] : [];
  if (start <= now) return [];
  // Two looks that are one may have shown it before it moved.
  return [
    ...(firstSeen > since ? [{ kind: "new" as const, at: firstSeen, booking: uid }] : []),
    ...(turned !== null && turned.at > since ? [turnedNews(uid, turned)] : []),
  ];
};

const turnedNews = (booking: string, { at, from }: NonNullable<Booking["turned"]>): News =>
  from === null ? { kind: "returned", at, booking } : { kind: "moved", at, booking, from };

const toldNews = (state: State, since: Instant): readonly News[] => {
  const owners = ownersOf(state);
  return [...state.facts.values()].flatMap((record): News[] => {
    if (record.recorded <= since || record.via === "desk") return [];
    const client = owners.ofRecord(record);
    if (client === null || state.clients.get(client)?.erased !== null) return [];
    const kind = isReaction(record) ? "reacted" : "told";
    return [{ kind, at: record.recorded, record, booking: record.booking, client }];
  });
};

const diaryNews = ({ diaries }: State, since: Instant): readonly News[] =>
  [...diaries.values()].flatMap(({ name, trouble }): News[] =>
    trouble !== null && trouble.since > since
      ? [{ kind: trouble.kind === "held" ? "held" : "unreadable", at: trouble.since, diary: name }]
      : [],
  );

/** A reaction that nobody at the desk has marked as read. */
export interface Unread {
  readonly record: Recorded;
  readonly client: string;
  /** Whether it was told while the salon was shut. */
  readonly isOutOfHours: boolean;
}

/** Told within this long of its happening; what is older and comes from a program is somebody's history, entered later. */
const NEWS_DAYS = 30;

/** Told from outside and not marked as read; those told out of hours first, then the newest. */
export const unreadReactions = (state: State, rules: Rules): readonly Unread[] => {
  const owners = ownersOf(state);
  const read = new Set(
    [...state.deeds.values()].flatMap(({ kind, other }) => (kind === "acknowledged" ? (other ?? []) : [])),
  );
  return [...state.facts.values()]
    .flatMap((record): Unread[] => {
      if (!isReaction(record) || record.via === "desk" || read.has(record.id)) return [];
      // A client tells by her link what nobody has read yet, whatever day she gives: a year is soon mistyped.
      const isHistory = record.via === "api" && record.recorded - record.at > NEWS_DAYS * DAY_SECONDS;
      if (isHistory) return [];
      const client = owners.ofRecord(record);
      if (client === null) return [];
      return [{ record, client, isOutOfHours: !isOpen(rules.walkIn.hours, record.recorded) }];
    })
    .sort(
      (one, other) =>
        Number(other.isOutOfHours) - Number(one.isOutOfHours) || other.record.recorded - one.record.recorded,
    );
};
