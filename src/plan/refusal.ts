/** How a refusal is written. It never decides whether something is refused. */
import type { Refusal } from "./types.ts";

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
  const not = value === null ? "" : `, not ${value === "" ? "empty" : value}`;
  return { code, at, value, limit, remedy, text: `${at} must be ${limit}${not}: ${reason}; ${remedy}.` };
};
