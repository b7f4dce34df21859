/**
 * The records put in order, corrections carried out (rule 24), and what each application and read belongs to.
 * Never judges a standing.
 */
import type { TestRoute } from "../../src/plan/types.ts";
import { type OpenLook, openLooks, type Worn } from "./looks.ts";
import { type Moment, momentOf } from "./moments.ts";
import type { Test } from "./protocol.ts";
import type { ReckonRecord } from "./types.ts";

/** A record with its moment and its booking filled in; lists of them are in order of time, then of telling. */
export interface Told extends Omit<ReckonRecord, "at" | "booking"> {
  readonly at: Moment;
  readonly booking: string;
}

export interface Evidence {
  /** In force, corrections and what they set aside left out. */
  readonly told: readonly Told[];
  /** What was set aside, and when. */
  readonly corrected: readonly { readonly record: Told; readonly at: Moment }[];
}

/** Under-16 and a past reaction are lifted only with a reason, by a person who has spoken to the client (rule 24). */
const takesEffect = (correction: Told, target: Told): boolean => {
  const grave = target.kind === "screened" && (target.reason === "under-16" || target.reason === "past-reaction");
  return !grave || (correction.reason !== undefined && correction.via !== "client-link");
};

/** The records of a client, `uid` standing for a booking that is not named. */
export const evidenceOf = (
  records: readonly ReckonRecord[],
  uid: string,
  upTo = Number.POSITIVE_INFINITY,
): Evidence => {
  const ordered: Told[] = records
    .map((record) => ({ ...record, at: momentOf(record.at), booking: record.booking ?? uid }))
    .filter((record) => record.at <= upTo)
    .toSorted((left, right) => left.at - right.at);
  const setAside = new Map<Told, Moment>();
  for (const [index, correction] of ordered.entries()) {
    if (correction.kind !== "correction") continue;
    const earlier = ordered.slice(0, index);
    const target = correction.corrects
      ? ordered.find((record) => record.id === correction.corrects)
      : earlier.findLast(
          (record) => record.booking === correction.booking && record.kind !== "note" && record.kind !== "correction",
        );
    if (target && takesEffect(correction, target)) setAside.set(target, correction.at);
  }
  return {
    told: ordered.filter((record) => record.kind !== "correction" && !setAside.has(record)),
    corrected: [...setAside].map(([record, at]) => ({ record, at })),
  };
};

export const isReaction = (record: Told): boolean =>
  record.kind === "reacted" || (record.kind === "read" && record.outcome === "reaction");

export interface Applied extends Worn {
  readonly record: Told;
  readonly route: TestRoute;
}

/** Rule 21: the route an application belongs to. */
const routeOfApplied = (record: Told, told: readonly Told[], tests: readonly Test[]): TestRoute => {
  if (record.route && record.route !== "on-file") return record.route;
  const kit = told.some(
    (other) =>
      other.booking === record.booking &&
      (other.kind === "posted" || other.kind === "arrived") &&
      other.at <= record.at,
  );
  return kit && tests.some((test) => test.route === "home-kit") ? "home-kit" : (tests[0] as Test).route;
};

/** Every application, each with the newest removal told between it and the next application of its booking. */
export const applicationsOf = (told: readonly Told[], tests: readonly Test[], booking: string): Applied[] => {
  const ofBooking = told.filter((record) => record.booking === booking);
  const applied = ofBooking.filter((record) => record.kind === "applied");
  return applied.map((record, index) => {
    const next = applied[index + 1]?.at ?? Number.POSITIVE_INFINITY;
    const removals = ofBooking.filter((other) => other.kind === "removed" && other.at >= record.at && other.at < next);
    const [removed, firstRemoved] = [removals.at(-1)?.at, removals[0]?.at];
    return { record, at: record.at, removed, firstRemoved, route: routeOfApplied(record, told, tests) };
  });
};

/** Rule 18: the looks last opened at a moment; before the first, none. */
const lastOpened = (looks: readonly OpenLook[], at: Moment): readonly OpenLook[] => {
  const newest = Math.max(...looks.filter((each) => each.opens <= at).map((each) => each.opens));
  return looks.filter((each) => each.opens === newest);
};

export interface LookRead {
  readonly open: OpenLook;
  /** The read that decides, undefined where the look is not read. */
  readonly read: Told | undefined;
}

/**
 * Rules 18 and 24: for each look of an application the newest read that belongs to it. A reaction is of the client,
 * whichever booking it was told under (rule 23), and so is its correction: the look then open is asked for again.
 */
export const readLooks = (evidence: Evidence, test: Test, worn: Worn, reads: readonly Told[]): LookRead[] => {
  const looks = openLooks(test, worn);
  const lifted = evidence.corrected.filter(({ record }) => isReaction(record));
  return looks.map((open) => {
    const asksAgain = lifted.filter(({ record }) => lastOpened(looks, record.at).includes(open)).map(({ at }) => at);
    const read = reads.findLast(
      (each) => lastOpened(looks, each.at).includes(open) && asksAgain.every((at) => each.at > at),
    );
    return { open, read };
  });
};

/** Every holding look of these is recorded clear (rule 23). */
export const holdClear = (looks: readonly LookRead[]): boolean =>
  looks.every(({ open, read }) => !open.look.holding || read?.outcome === "clear");
