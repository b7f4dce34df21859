/** Whom the salon should telephone or write to, and why: read off the plans and off what feeds and links have come to. Pure. */
import { LINK_UNOPENED_HOURS, SHORT_NOTICE_HOURS } from "../bounds.ts";
import { asksForSteps, isStopped, needsNewTest } from "../feed/openSteps.ts";
import { moodOf } from "../feed/words.ts";
import type { Plan, Step } from "../plan/types.ts";
import { HOUR, type Instant } from "../time/instant.ts";
import type { LinkUse } from "./LinkTable.ts";
import type { Booking, State, StoredEvent } from "./types.ts";

/**
 * `stop`, `new-test`, `no-time`: she cannot be coloured as it stands; `fell-over`: the way that was planned is closed, another is
 * open; `overdue`: a step of hers has passed unrecorded; `short-notice`: a step of hers falls due within a day of being first
 * said, or moved, which calendars may learn of too late; `no-link`, `unopened`: she cannot know, or may not.
 */
export const CALL_REASONS = [
  "stop",
  "new-test",
  "no-time",
  "fell-over",
  "overdue",
  "short-notice",
  "no-link",
  "unopened",
] as const;
export type CallReason = (typeof CALL_REASONS)[number];

export interface Call {
  /** By `booking.uid`. */
  readonly booking: string;
  readonly reasons: readonly { readonly reason: CallReason; readonly since: Instant; readonly step: Step | null }[];
  /** When she was last told, where that was after all of the reasons; null: she is still to be told. */
  readonly told: { readonly at: Instant; readonly by: string | null } | null;
}

export interface CallInput {
  readonly state: State;
  /** Of bookings ahead. */
  readonly plans: readonly Plan[];
  /** By person. */
  readonly links: ReadonlyMap<string, LinkUse>;
  readonly now: Instant;
}

/** The gravest first, then those whose colour comes first. */
export const callsOf = ({ state, plans, links, now }: CallInput): readonly Call[] => {
  const events = Map.groupBy(state.events.values(), ({ booking }) => booking);
  const told = lastTold(state);
  const calls = plans.flatMap((plan): Call[] => {
    const booking = state.bookings.get(plan.booking.uid);
    if (!booking || plan.standing === "past" || plan.standing === "cancelled") return [];
    const link = links.get(booking.client) ?? null;
    const reasons = reasonsFor(plan, booking, events.get(booking.uid) ?? [], link, now);
    if (reasons.length === 0) return [];
    const last = told.get(booking.uid) ?? null;
    // Whom one has spoken to has not got her link by it.
    const left = reasons.filter(({ reason, since }) => last === null || reason === "no-link" || since > last.at);
    return [
      left.length > 0
        ? { booking: booking.uid, reasons: left, told: null }
        : { booking: booking.uid, reasons, told: last },
    ];
  });
  const graveness = ({ reasons }: Call): number =>
    Math.min(...reasons.map(({ reason }) => Math.min(CALL_REASONS.indexOf(reason), CALL_REASONS.indexOf("fell-over"))));
  const start = new Map(plans.map(({ booking }) => [booking.uid, booking.start]));
  return calls.sort(
    (one, other) =>
      graveness(one) - graveness(other) || (start.get(one.booking) ?? 0) - (start.get(other.booking) ?? 0),
  );
};

/**
 * When a client was last told something about an appointment: a note that the desk made with the words she was sent.
 */
const lastTold = ({ facts }: State): ReadonlyMap<string | null, NonNullable<Call["told"]>> => {
  const found = new Map<string | null, NonNullable<Call["told"]>>();
  for (const { kind, via, booking, recorded, by, circumstances } of facts.values()) {
    if (kind === "note" && via === "desk" && circumstances.words !== null) found.set(booking, { at: recorded, by });
  }
  return found;
};

const reasonsFor = (
  plan: Plan,
  booking: Booking,
  events: readonly StoredEvent[],
  link: LinkUse | null,
  now: Instant,
): Call["reasons"] => {
  const since = Math.max(booking.firstSeen, booking.turned?.at ?? 0);
  const known = plan.alarm?.since ?? since;
  if (isStopped(plan)) return [{ reason: "stop", since: known, step: null }];
  if (needsNewTest(plan)) return [{ reason: "new-test", since: known, step: null }];
  if (plan.standing === "no-time") return [{ reason: "no-time", since, step: null }];
  const fell = plan.why.some(({ code }) => code === "fell-over") ? fellSince(plan, since) : null;
  return [
    ...(fell === null ? [] : [{ reason: "fell-over" as const, since: fell, step: null }]),
    ...hers(plan).flatMap((step): Call["reasons"] => {
      if (moodOf(step, plan) === "late") return [{ reason: "overdue", since: step.due, step }];
      const event = events.find(({ audience, content }) => audience !== "salon" && content.uid === step.uid);
      const isShort = event !== undefined && step.due >= now && step.due - event.timed <= SHORT_NOTICE_HOURS * HOUR;
      return isShort ? [{ reason: "short-notice", since: event.timed, step }] : [];
    }),
    ...linkReasons(plan, booking, link, now),
  ];
};

/** Steps of hers that are open and hang on nothing that is not recorded. */
const hers = (plan: Plan): readonly Step[] =>
  asksForSteps(plan)
    ? plan.steps.filter(
        ({ who, state, counted }) => who === "client" && state === "planned" && counted?.recorded !== false,
      )
    : [];

/** When the way that was planned closed: the latest that did, and never before the booking was as it is. */
const fellSince = ({ routes, route, asOf }: Plan, since: Instant): Instant => {
  const closed = routes.flatMap((each) =>
    each.route !== route && each.until !== null && each.until < asOf ? [each.until] : [],
  );
  return Math.max(since, ...closed);
};

const linkReasons = (plan: Plan, booking: Booking, link: LinkUse | null, now: Instant): Call["reasons"] => {
  if (hers(plan).length === 0 || (link !== null && link.opened !== null)) return [];
  if (link === null || link.given === null) return [{ reason: "no-link", since: booking.firstSeen, step: null }];
  const isLong = now - link.given >= LINK_UNOPENED_HOURS * HOUR;
  return isLong ? [{ reason: "unopened", since: link.given + LINK_UNOPENED_HOURS * HOUR, step: null }] : [];
};
