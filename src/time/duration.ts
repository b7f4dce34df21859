/** Exact durations, `PT48H`: the only kind a rule may be written in (counting.md 1). */
import { HOUR, MINUTE, type Seconds } from "./instant.ts";

/** Why a text is no exact duration. */
export type DurationFault = "not-a-duration" | "not-exact-hours";

/**
 * Reads an ISO 8601 duration in hours, minutes and seconds.
 * `P2D`, `P1W`, `P1M`, `P1Y` are `not-exact-hours`: two days are 47 or 49 hours when the clocks change (RFC 5545 §3.3.6).
 */
export const parseDuration = (text: string): Seconds | DurationFault => {
  const exact = /^PT(?=\d)(?:(\d{1,5})H)?(?:(\d{1,6})M)?(?:(\d{1,7})S)?$/.exec(text);
  if (exact) return Number(exact[1] ?? 0) * HOUR + Number(exact[2] ?? 0) * MINUTE + Number(exact[3] ?? 0);
  return /^[+-]?P(?=[\dT])[\dYMWD]*(?:T[\dHMS.,]*)?$/.test(text) ? "not-exact-hours" : "not-a-duration";
};

/** `PT48H`, `PT48H30M`, `PT15M`, `PT0H`. */
export const formatDuration = (seconds: Seconds): string => {
  const [h, m, s] = [Math.floor(seconds / HOUR), Math.floor((seconds % HOUR) / MINUTE), seconds % MINUTE];
  const text = `${h ? `${h}H` : ""}${m ? `${m}M` : ""}${s ? `${s}S` : ""}`;
  return `PT${text || "0H"}`;
};
