/** When a diary is next pulled or read again. Pure; the jitter is derived from the salon's name, not random. */
import { POLL_BACKOFF_MAX_MINUTES, POLL_MINUTES_MAX } from "../bounds.ts";
import type { DiarySettings } from "../settings.ts";
import { type Instant, MINUTE } from "../time/instant.ts";

/** A share in [0, 1) that is always the same for one name, so that a thousand salons do not ask in one second. */
export const jitterOf = (name: string): number => {
  let hash = 2_166_136_261;
  for (let index = 0; index < name.length; index++) hash = Math.imul(hash ^ name.charCodeAt(index), 16_777_619) >>> 0;
  return hash / 4_294_967_296;
};

/**
 * The next pull: after the diary's interval, doubled for each failure in a row, not before Retry-After asks (a day at most), and spread
 * over a tenth of the interval.
 */
export const nextPollAt = (
  settings: DiarySettings,
  failures: number,
  retryAfterSeconds: number | null,
  now: Instant,
  jitter: number,
): Instant => {
  const minutes = Math.min(
    settings.pollMinutes * 2 ** Math.min(failures, 10),
    Math.max(POLL_BACKOFF_MAX_MINUTES, settings.pollMinutes),
  );
  const asked = Math.min(retryAfterSeconds ?? 0, POLL_MINUTES_MAX * MINUTE);
  const interval = Math.max(minutes * MINUTE, asked);
  return now + interval + Math.floor(interval * 0.1 * jitter);
};
