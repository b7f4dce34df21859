/** Whether a reading looks as if the diary had been emptied by mistake. Decides only. */
import { SUSPICIOUS_LOSS } from "../bounds.ts";

export interface Suspicion {
  /** Nothing is left in the text at all, or more than the tolerated share of what was ahead is gone. */
  readonly code: "diary-emptied" | "diary-shrunk";
  /** Future bookings that the last reading had. */
  readonly before: number;
  /** How many of them are still there. */
  readonly left: number;
}

/**
 * @param previousFuture bookings ahead, as the last reading that was applied had them
 * @param stillThere how many of those this reading has too, moved ones included
 * @param rawNow VEVENTs in the new text
 */
export const suspect = (previousFuture: number, stillThere: number, rawNow: number): Suspicion | null => {
  if (previousFuture <= 0) return null;
  const counts = { before: previousFuture, left: stillThere };
  if (rawNow === 0) return { code: "diary-emptied", ...counts };
  const lost = (previousFuture - stillThere) / previousFuture;
  return lost > SUSPICIOUS_LOSS ? { code: "diary-shrunk", ...counts } : null;
};
