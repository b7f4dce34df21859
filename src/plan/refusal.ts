/** How a refusal is written. It never decides whether something is refused. */
import type { Refusal } from "./types.ts";

/** Blanks at an end or in a row, and whatever moves the writing on or is not seen. */
const LOST_IN_A_SENTENCE = /^\s|\s$|\s\s|[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

/** A value inside a sentence: as it is, or in quotation marks where it would be lost in it. */
export const inSentence = (value: string): string =>
  value.trim() === "" ? "empty" : LOST_IN_A_SENTENCE.test(value) ? JSON.stringify(value) : value;

/**
 * A refusal whose sentence names the thing, the value, the limit, the reason and the remedy.
 * `limit` completes "… must be", `reason` explains it, `remedy` is an order to the reader.
 */
export const refusal = (facts: {
  code: string;
  at: string;
  value: string | null;
  limit: string;
  reason: string;
  remedy: string;
}): Refusal => {
  const { code, at, value, limit, reason, remedy } = facts;
  const not = value === null ? "" : `, not ${inSentence(value)}`;
  return { code, at, value, limit, remedy, text: `${at} must be ${limit}${not}: ${reason}; ${remedy}.` };
};
