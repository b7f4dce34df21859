/** What an answer's Retry-After asks for (RFC 9110 §10.2.3), in seconds, at most a day. Pure. */
import { POLL_MINUTES_MAX } from "../bounds.ts";
import { type Instant, MINUTE, yearOf } from "../time/instant.ts";
import { parseHttpDate } from "./httpDate.ts";

/** Seconds from `now` on, from 0 to a day; null where the header says nothing that can be read. */
export const retryAfterSeconds = (header: string | null, now: Instant): number | null => {
  const text = header?.trim() ?? "";
  const asked = /^\d+$/.test(text) ? Number(text) : (parseHttpDate(text, yearOf(now)) ?? Number.NaN) - now;
  return Number.isNaN(asked) ? null : Math.min(Math.max(0, asked), POLL_MINUTES_MAX * MINUTE);
};
