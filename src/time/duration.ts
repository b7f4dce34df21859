/** Exact durations, `PT48H`: the only kind a rule may be written in (counting.md 1). */
import { HOUR, MINUTE, type Seconds } from "./instant.ts";

/** Why a text is no exact duration. */
export type DurationFault = "not-a-duration" | "not-exact-hours" | "negative-duration" | "fractional-duration";

const EXACT = /^PT(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$/;
const FRACTIONAL = /^PT(?=\d)(?:\d+(?:[.,]\d+)?H)?(?:\d+(?:[.,]\d+)?M)?(?:\d+(?:[.,]\d+)?S)?$/;
/** At least one part in years, months, weeks or days. */
const NOMINAL = /^[+-]?P(?:\d+(?:[.,]\d+)?[YMWD])+(?:T[\dHMS.,]*)?$/;

/**
 * Reads an ISO 8601 duration in hours, minutes and seconds. How long it may be, the caller says.
 * `P2D`, `P1W`, `P1M`, `P1Y` are `not-exact-hours`: two days are 47 or 49 hours when the clocks change (RFC 5545 §3.3.6).
 */
export const parseDuration = (text: string): Seconds | DurationFault => {
  const exact = EXACT.exec(text);
  if (exact) return Number(exact[1] ?? 0) * HOUR + Number(exact[2] ?? 0) * MINUTE + Number(exact[3] ?? 0);
  if (NOMINAL.test(text)) return "not-exact-hours";
  if (FRACTIONAL.test(text)) return "fractional-duration";
  return text.startsWith("-") && FRACTIONAL.test(text.slice(1)) ? "negative-duration" : "not-a-duration";
};

/** `PT48H`, `PT48H30M`, `PT15M`, `PT0H`. */
export const formatDuration = (seconds: Seconds): string => {
  const [h, m, s] = [Math.floor(seconds / HOUR), Math.floor((seconds % HOUR) / MINUTE), seconds % MINUTE];
  const text = `${h ? `${h}H` : ""}${m ? `${m}M` : ""}${s ? `${s}S` : ""}`;
  return `PT${text || "0H"}`;
};
