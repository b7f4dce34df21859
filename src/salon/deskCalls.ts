/** Whom the salon should telephone or write to, and why: read off the plans and off what feeds and links have come to. Pure. */
import { LINK_UNOPENED_HOURS, SHORT_NOTICE_HOURS } from "../bounds.ts";
import { asksForSteps, asksWhetherOn, isStopped, needsNewTest } from "../feed/openSteps.ts";
import { moodOf } from "../feed/words.ts";
import type { Fact, Plan, Step } from "../plan/types.ts";
import { HOUR, type Instant } from "../time/instant.ts";
import type { LinkUse } from "./LinkTable.ts";
import type { Booking, State, StoredEvent } from "./types.ts";

/**
 * `stop`, `new-test`, `no-time`: she cannot be coloured as it stands; `too-late`: no test fits any more, and only one that is on
 * already can help; `fell-over`: the way that was planned is closed, another is
 * open; `overdue`: a step of hers has passed unrecorded; `short-notice`: a step of hers falls due within a day of being first
 * said, or moved, which calendars may learn of too late; `no-link`, `unopened`: she cannot know, or may not.
 */
export const CALL_REASONS = [
  "stop",
  "new-test",
  "no-time",
  "too-late",
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
  /** When she was last told of any of them, where nothing is left to tell; null: she is still to be told. */
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
  const ways = lastOfWays(state);
  const here = putOnHere(state);
  const calls = plans.flatMap((plan): Call[] => {
    const booking = state.bookings.get(plan.booking.uid);
    if (!booking || plan.standing === "past" || plan.standing === "cancelled") return [];
    const link = links.get(booking.client) ?? null;
    const known = {
      events: events.get(booking.uid) ?? [],
      link,
      changed: ways.get(booking.uid) ?? null,
      isPutOnHere: here.has(booking.uid),
    };
    const reasons = reasonsFor(plan, booking, known, now);
    if (reasons.length === 0) return [];
    const lastOf = ({ reason }: Reason): Told | undefined => told.get(`${booking.uid}\n${reason}`);
    // Whom one has spoken to has not got her link by it.
    const left = reasons.filter((each) => each.reason === "no-link" || each.since > (lastOf(each)?.at ?? -Infinity));
    const last = reasons.flatMap((each) => lastOf(each) ?? []).toSorted((one, other) => other.at - one.at)[0] ?? null;
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

type Reason = Call["reasons"][number];
type Told = NonNullable<Call["told"]>;

/** When a client was last told of a reason, by appointment and reason: a note of the desk's names those that stood then. */
const lastTold = ({ facts }: State): ReadonlyMap<string, Told> => {
  const found = new Map<string, Told>();
  for (const { kind, via, booking, recorded, by, reason, circumstances } of facts.values()) {
    if (kind !== "note" || via !== "desk" || circumstances.words === null) continue;
    for (const code of (reason ?? "").split(" ")) found.set(`${booking}\n${code}`, { at: recorded, by });
  }
  return found;
};

/** Records by which a way to a test opens or closes. */
const OF_WAYS: ReadonlySet<Fact["kind"]> = new Set(["posted", "arrived", "applied", "route", "correction"]);

/** When what is recorded of an appointment last changed its ways. */
const lastOfWays = ({ facts }: State): ReadonlyMap<string | null, Instant> => {
  const found = new Map<string | null, Instant>();
  for (const { kind, booking, recorded } of facts.values()) if (OF_WAYS.has(kind)) found.set(booking, recorded);
  return found;
};

/** Appointments whose newest application the desk itself recorded: she was there, and was told. */
const putOnHere = ({ facts }: State): ReadonlySet<string | null> => {
  const found = new Map<string | null, boolean>();
  for (const { kind, via, booking } of facts.values()) if (kind === "applied") found.set(booking, via === "desk");
  return new Set([...found].flatMap(([booking, isHere]) => (isHere ? booking : [])));
};

/** What is known of an appointment besides its plan. */
interface Known {
  readonly events: readonly StoredEvent[];
  readonly link: LinkUse | null;
  /** When a record last opened or closed a way; null: none has. */
  readonly changed: Instant | null;
  readonly isPutOnHere: boolean;
}

const reasonsFor = (
  plan: Plan,
  booking: Booking,
  { events, link, changed, isPutOnHere }: Known,
  now: Instant,
): Call["reasons"] => {
  const since = Math.max(booking.firstSeen, booking.turned?.at ?? 0);
  const known = plan.alarm?.since ?? since;
  if (isStopped(plan)) return [{ reason: "stop", since: known, step: null }];
  if (needsNewTest(plan)) return [{ reason: "new-test", since: known, step: null }];
  if (plan.standing === "no-time") return [{ reason: "no-time", since: closedSince(plan, since, changed), step: null }];
  const isTooLate = asksWhetherOn(plan);
  const fell = plan.why.some(({ code }) => code === "fell-over") ? fellSince(plan, since, changed) : null;
  return [
    ...(isTooLate ? [{ reason: "too-late" as const, since: closedSince(plan, since, changed), step: null }] : []),
    ...(fell === null ? [] : [{ reason: "fell-over" as const, since: fell, step: null }]),
    ...hers(plan).flatMap((step): Call["reasons"] => {
      if (moodOf(step, plan) === "late") return [{ reason: "overdue", since: step.due, step }];
      if (step.counted !== null && isPutOnHere) return [];
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

/** When the last way that has closed did, and never before the booking was as it is and its records said so. */
const closedSince = ({ routes, asOf }: Plan, since: Instant, changed: Instant | null): Instant =>
  Math.max(since, changed ?? since, ...routes.flatMap(({ until }) => (until !== null && until < asOf ? [until] : [])));

/** When a way before the plan's own closed; null: before the booking was as it is, so that it never was hers. */
const fellSince = ({ routes, route, asOf }: Plan, since: Instant, changed: Instant | null): Instant | null => {
  const closed = routes.flatMap((each) =>
    each.route !== route && each.until !== null && each.until < asOf && each.until >= since ? [each.until] : [],
  );
  const all = [...closed, ...(changed === null ? [] : [changed])];
  return all.length === 0 ? null : Math.max(...all);
};

const linkReasons = (plan: Plan, booking: Booking, link: LinkUse | null, now: Instant): Call["reasons"] => {
  if (hers(plan).length === 0 || (link !== null && link.opened !== null)) return [];
  if (link === null || link.given === null) return [{ reason: "no-link", since: booking.firstSeen, step: null }];
  const isLong = now - link.given >= LINK_UNOPENED_HOURS * HOUR;
  return isLong ? [{ reason: "unopened", since: link.given + LINK_UNOPENED_HOURS * HOUR, step: null }] : [];
};
