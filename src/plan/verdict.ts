/**
 * What records alone say about a booking: stopped, ready, or what is missing (counting.md 23 to 25).
 * Never says that a colour will do no harm; a person decides.
 */
import type { Instant } from "../time/instant.ts";
import { isReaction, type Ledger, newest } from "./ledger.ts";
import type { Fact } from "./types.ts";

export type StopGround = "reaction" | "past-reaction" | "under-16" | "do-not-colour" | "not-sure";

export interface Stop {
  readonly ground: StopGround;
  readonly fact: Fact;
}

const forbids = (fact: Fact): boolean => fact.kind === "screened" && fact.outcome === "do-not-colour";

/** What stops a booking, the gravest ground first; undefined where nothing does. */
export const findStop = (bookingUid: string, ledger: Ledger): Stop | undefined => {
  const { live } = ledger;
  const own = live.filter((fact) => fact.booking === bookingUid);
  const reaction = live.findLast(isReaction);
  if (reaction) return { ground: "reaction", fact: reaction };
  const past = live.findLast((fact) => forbids(fact) && fact.reason === "past-reaction");
  if (past) return { ground: "past-reaction", fact: past };
  const young = own.findLast((fact) => forbids(fact) && fact.reason === "under-16");
  if (young) return { ground: "under-16", fact: young };
  const screened = newest(own, "screened");
  if (screened && forbids(screened)) return { ground: "do-not-colour", fact: screened };
  const applied = newest(live, "applied");
  const unsure = live.findLast((fact) => fact.kind === "read" && fact.outcome === "not-sure");
  if (unsure && !(applied && applied.at > unsure.at)) return { ground: "not-sure", fact: unsure };
  return undefined;
};

/** The test that a booking rests on, as far as it is recorded. */
export interface Covering {
  readonly application: Instant;
  /** Whether every look that holds the colour is recorded clear. */
  readonly isClear: boolean;
  /** The newest of those looks' records; null where none is. */
  readonly lastRead: Instant | null;
}

/** What keeps a booking from being ready. */
export type Missing = "not-told-apart" | "not-screened" | "not-tested" | "not-read" | "not-confirmed";

/**
 * Everything that is missing, in the order it is to be done; empty where the booking is ready.
 * @param isUndecided whether answers to the health questions wait for a person
 * @param mayBeStopped whether she may be somebody who must not be coloured
 */
export const findMissing = (
  own: readonly Fact[],
  covering: Covering | null,
  isUndecided: boolean,
  mayBeStopped: boolean,
): readonly Missing[] => {
  const missing: Missing[] = mayBeStopped ? ["not-told-apart"] : [];
  const screened = newest(own, "screened");
  const isPassed = screened?.outcome === "pass" || screened?.outcome === "test-needed";
  if (!isPassed || isUndecided) missing.push("not-screened");
  const isTestOld = screened?.outcome === "test-needed" && !!covering && covering.application <= screened.at;
  if (!covering || isTestOld) missing.push("not-tested");
  else if (!covering.isClear) missing.push("not-read");
  const since = Math.max(screened?.at ?? -Infinity, covering?.lastRead ?? -Infinity);
  const isConfirmed = own.some((fact) => fact.kind === "confirmed" && fact.via !== "client-link" && fact.at >= since);
  if (!isConfirmed) missing.push("not-confirmed");
  return missing;
};
