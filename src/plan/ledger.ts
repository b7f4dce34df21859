/**
 * The records of a client as they stand: in order, corrections applied, what lies ahead of `now` left out.
 * Never drops a record for good: a corrected one is set aside and its correction kept (counting.md 24).
 */
import type { Instant } from "../time/instant.ts";
import type { Fact } from "./types.ts";

export interface Ledger {
  /** Records that stand, oldest first; corrections, notes and what was corrected are not among them. */
  readonly live: readonly Fact[];
  /** Corrected records with the correction that set each aside. */
  readonly corrected: readonly { readonly fact: Fact; readonly correction: Fact }[];
}

/** Oldest first: by when it happened, then by when it was told, then by id (a shorter id is an earlier number). */
export const inOrder = (one: Fact, other: Fact): number =>
  one.at - other.at ||
  one.recorded - other.recorded ||
  one.id.length - other.id.length ||
  (one.id < other.id ? -1 : one.id > other.id ? 1 : 0);

/** Whether one record was told before another: nobody can have meant what was told later. */
const isToldBefore = (one: Fact, other: Fact): boolean =>
  (one.recorded - other.recorded || one.id.length - other.id.length || (one.id < other.id ? -1 : 1)) < 0;

/** The record a correction names, or for none named the newest earlier one of its booking; undefined where none fits. */
export const targetOf = (correction: Fact, facts: readonly Fact[]): Fact | undefined => {
  const candidates = facts.filter((fact) => fact.kind !== "note" && fact.kind !== "correction");
  if (correction.corrects !== null) return candidates.find((fact) => fact.id === correction.corrects);
  return candidates
    .filter(
      (fact) => fact.booking === correction.booking && inOrder(fact, correction) < 0 && isToldBefore(fact, correction),
    )
    .toSorted(inOrder)
    .at(-1);
};

/** Records that no correction names yet: what a correction that names nothing can mean. */
export const withoutCorrected = (facts: readonly Fact[]): readonly Fact[] => {
  const named = new Set(facts.filter(({ kind }) => kind === "correction").map(({ corrects }) => corrects));
  return facts.filter(({ id }) => !named.has(id));
};

/** Whether lifting this record takes a reason: an under-16 and a past reaction are not asked away (counting.md 24). */
export const needsReasonToCorrect = (fact: Fact): boolean =>
  fact.kind === "screened" &&
  fact.outcome === "do-not-colour" &&
  (fact.reason === "under-16" || fact.reason === "past-reaction");

/** The records of a client up to and including `now`. */
export const readLedger = (facts: readonly Fact[], now: Instant): Ledger => {
  const known = facts.filter((fact) => fact.at <= now).toSorted(inOrder);
  const corrected: { fact: Fact; correction: Fact }[] = [];
  for (const correction of known) {
    if (correction.kind !== "correction" || correction.via === "client-link") continue;
    const fact = targetOf(correction, known);
    if (fact && !(needsReasonToCorrect(fact) && !correction.reason)) corrected.push({ fact, correction });
  }
  const setAside = new Set(corrected.map(({ fact }) => fact));
  const live = known.filter((fact) => fact.kind !== "note" && fact.kind !== "correction" && !setAside.has(fact));
  return { live, corrected };
};

/** The newest of some records, which are in order. */
export const newest = (facts: readonly Fact[], kind: Fact["kind"]): Fact | undefined =>
  facts.findLast((fact) => fact.kind === kind);

/** Whether a record tells of a reaction. */
export const isReaction = (fact: Fact): boolean =>
  fact.kind === "reacted" || (fact.kind === "read" && fact.outcome === "reaction");
