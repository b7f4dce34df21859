/** When a diary is next pulled or read again. Pure; the jitter is derived from the salon's name, not random. */
import { POLL_BACKOFF_MAX_MINUTES, POLL_MINUTES_MAX } from "../bounds.ts";
import type { DiarySettings } from "../settings.ts";
import { type Instant, MINUTE } from "../time/instant.ts";

/** Share of an interval over which what would fall together is spread. */
const SPREAD = 0.1;

/** A share in [0, 1) that is always the same for one name, so that a thousand salons do not ask in one second. */
export const jitterOf = (name: string): number => {
  let hash = 2_166_136_261;
  for (let index = 0; index < name.length; index++) hash = Math.imul(hash ^ name.charCodeAt(index), 16_777_619) >>> 0;
  return mixed(hash) / 4_294_967_296;
};

/** Names that differ in their last letters alone must lie far apart: every bit of the hash is carried to every other. */
const mixed = (hash: number): number => {
  const once = Math.imul(hash ^ (hash >>> 16), 0x85eb_ca6b);
  const twice = Math.imul(once ^ (once >>> 13), 0xc2b2_ae35);
  return (twice ^ (twice >>> 16)) >>> 0;
};

/**
 * The next pull. A diary that answers is asked at its own slot of each interval, so that those that were asked together, at
 * first or after an outage, lie all over the interval from the next time on; that next time may come early, and is never
 * more than a tenth late. One that fails is asked after its interval, doubled for each failure in a row up to an hour, but
 * never sooner than its interval; spread over the tenth before. Never before Retry-After asks, a day at most.
 * @param jitter a diary's own share in [0, 1)
 */
export const nextPollAt = (
  settings: DiarySettings,
  failures: number,
  retryAfterSeconds: number | null,
  now: Instant,
  jitter: number,
): Instant => {
  const interval = settings.pollMinutes * MINUTE;
  const longest = Math.max(POLL_BACKOFF_MAX_MINUTES * MINUTE, interval);
  const backedOff = Math.min(interval * 2 ** Math.min(failures, 10), longest);
  const usual =
    backedOff === interval
      ? slotBefore(now + Math.floor(interval * (1 + SPREAD)), interval, jitter)
      : now + Math.max(interval, Math.ceil(backedOff * (1 - SPREAD * jitter)));
  if (retryAfterSeconds === null) return usual;
  const asked = Math.min(Math.max(0, retryAfterSeconds), POLL_MINUTES_MAX * MINUTE);
  return Math.max(usual, now + asked + Math.floor(interval * SPREAD * jitter));
};

/** The last instant up to `latest` that is a diary's own in its interval. */
const slotBefore = (latest: Instant, interval: number, jitter: number): Instant => {
  const phase = Math.floor(interval * jitter);
  return Math.floor((latest - phase) / interval) * interval + phase;
};
