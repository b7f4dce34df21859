/**
 * A DURATION value of iCalendar (RFC 5545 §3.3.6): days and weeks are nominal and follow the clock, hours and less are
 * exact. For ends of entries only; rules of a test are exact hours (time/duration.ts).
 */
import { HOUR, MINUTE, type Seconds } from "../time/instant.ts";

export interface NominalDuration {
  readonly days: number;
  readonly seconds: Seconds;
}

/** Reads `P15DT5H0M20S`, `P7W`, `PT90M`; undefined for a negative or another text. */
export const parseNominal = (text: string): NominalDuration | undefined => {
  const parts =
    /^\+?P(?=[\dT])(?:(\d{1,5})W)?(?:(\d{1,5})D)?(?:T(?=\d)(?:(\d{1,6})H)?(?:(\d{1,7})M)?(?:(\d{1,9})S)?)?$/.exec(
      text.trim().toUpperCase(),
    );
  if (!parts) return undefined;
  const [weeks, days, hours, minutes, seconds] = parts.slice(1).map((part) => Number(part ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
  ];
  return { days: weeks * 7 + days, seconds: hours * HOUR + minutes * MINUTE + seconds };
};
