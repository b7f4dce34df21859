/**
 * What is said of a client without what is said of somebody else: for whatever she signs, an insurer reads or she is handed. Pure.
 */
import type { Why } from "../plan/types.ts";

/** Reasons that speak of somebody who may be she: of another's stop, or of another's bookings under her name. */
const OF_SOMEBODY_ELSE: ReadonlySet<string> = new Set([
  "possible-stop",
  "not-told-apart",
  "same-person",
  "result-of-namesake",
]);

const WHO_SHE_IS: Why = {
  code: "who-is-open",
  text: "A question about who this client is waits for a person at the salon.",
};

/** The reasons, in their order; those of somebody else give way to one that says no more than that a question is open. */
export const ofHerAlone = (reasons: readonly Why[]): readonly Why[] => {
  const first = reasons.findIndex(({ code }) => OF_SOMEBODY_ELSE.has(code));
  return reasons.flatMap((why, place) =>
    !OF_SOMEBODY_ELSE.has(why.code) ? [why] : place === first ? [WHO_SHE_IS] : [],
  );
};
