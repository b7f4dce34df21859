/**
 * What a new record must be before it is kept (counting.md 23, 24, 30). Shape and spelling are the doors' matter; here
 * stands what only the records already kept, or the kind, can refuse. A `reacted` is refused for its time ahead alone.
 */
import { RECORD_AHEAD_MINUTES } from "../bounds.ts";
import { formatInstant, type Instant, MINUTE } from "../time/instant.ts";
import { needsReasonToCorrect, targetOf, withoutCorrected } from "./ledger.ts";
import { refusal } from "./refusal.ts";
import type { Fact, Refusal } from "./types.ts";

const OUTCOMES: Partial<Record<Fact["kind"], readonly string[]>> = {
  read: ["clear", "reaction", "not-sure"],
  screened: ["pass", "test-needed", "do-not-colour"],
};
const GROUNDS: readonly string[] = ["under-16", "past-reaction", "other"];

/** Everything that refuses a record; empty where it may be kept. `known` are the client's records so far. */
export const checkFact = (fact: Fact, known: readonly Fact[], now: Instant): readonly Refusal[] =>
  fact.kind === "reacted"
    ? checkTime(fact, now)
    : [...checkTime(fact, now), ...checkOutcome(fact), ...checkVia(fact), ...checkCorrection(fact, known)];

const checkTime = (fact: Fact, now: Instant): readonly Refusal[] =>
  fact.at <= now + RECORD_AHEAD_MINUTES * MINUTE
    ? []
    : [
        refusal({
          code: "at-in-the-future",
          at: "at",
          value: formatInstant(fact.at),
          limit: `no later than ${RECORD_AHEAD_MINUTES} minutes after ${formatInstant(now)}`,
          reason: "a record tells of what has happened",
          remedy: "write when it happened, or record it afterwards",
        }),
      ];

/** Whether a record says what its kind needs: an outcome of that kind, a ground, a route. */
export const checkOutcome = (fact: Fact): readonly Refusal[] => {
  const allowed = OUTCOMES[fact.kind];
  const refusals: Refusal[] = [];
  if (allowed && !allowed.includes(fact.outcome ?? "")) {
    refusals.push(
      refusal({
        code: "outcome-missing",
        at: "outcome",
        value: fact.outcome,
        limit: `one of ${allowed.join(", ")} in a ${fact.kind} record`,
        reason: "no answer is not an outcome",
        remedy: "write what was seen or answered",
      }),
    );
  }
  if (fact.kind === "screened" && fact.outcome === "do-not-colour" && !GROUNDS.includes(fact.reason ?? "")) {
    refusals.push(
      refusal({
        code: "ground-missing",
        at: "reason",
        value: null,
        limit: `one of ${GROUNDS.join(", ")} in a do-not-colour`,
        reason: "the ground decides which bookings stop and what lifts it",
        remedy: "write the ground, and anything more as a note",
      }),
    );
  }
  if (fact.kind === "route" && fact.route === null) {
    refusals.push(
      refusal({
        code: "route-missing",
        at: "route",
        value: null,
        limit: "in-salon, home-kit or on-file in a route record",
        reason: "it says which way was chosen",
        remedy: "name the route",
      }),
    );
  }
  return refusals;
};

const checkVia = (fact: Fact): readonly Refusal[] =>
  fact.via === "client-link" && (fact.kind === "confirmed" || fact.kind === "correction")
    ? [
        refusal({
          code: "not-by-client-link",
          at: "kind",
          value: fact.kind,
          limit: "a record that a client can make",
          reason: "confirming and correcting are done by a person at the salon",
          remedy: "telephone the salon",
        }),
      ]
    : [];

const checkCorrection = (fact: Fact, known: readonly Fact[]): readonly Refusal[] => {
  if (fact.kind !== "correction") {
    return fact.corrects === null
      ? []
      : [correctionRefusal("corrects-misplaced", fact, "absent unless kind is correction")];
  }
  const named = fact.corrects === null ? undefined : known.find((each) => each.id === fact.corrects);
  if (fact.corrects !== null && !named) {
    return [correctionRefusal("corrects-unknown", fact, "the id of a record of this client")];
  }
  if (named && (named.kind === "note" || named.kind === "correction")) {
    return [correctionRefusal("corrects-fixed", fact, "the id of a record that is no note and no correction")];
  }
  const target = named ?? targetOf(fact, withoutCorrected(known));
  if (!target)
    return [
      correctionRefusal(
        "corrects-nothing",
        fact,
        "the id of a record, since none of this booking is left to set aside",
      ),
    ];
  if (needsReasonToCorrect(target) && !fact.reason) {
    return [
      refusal({
        code: "reason-missing",
        at: "reason",
        value: null,
        limit: "the reason, from a person who has spoken to the client",
        reason: "an under-16 or a past reaction is not asked away",
        remedy: "write why the record was wrong",
      }),
    ];
  }
  return [];
};

const correctionRefusal = (code: string, fact: Fact, limit: string): Refusal =>
  refusal({
    code,
    at: "corrects",
    // What is no id may be a person's words in the wrong place.
    value: /^r\d{1,12}$/.test(fact.corrects ?? "") ? fact.corrects : null,
    limit,
    reason: "a correction sets one record aside and keeps both",
    remedy: "look the record up and name it",
  });
