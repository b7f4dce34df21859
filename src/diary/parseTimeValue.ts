/**
 * The digits of a DATE or DATE-TIME (RFC 5545 §3.3.4, §3.3.5): basic form, or the extended form of ISO 8601 that some
 * exporters write. Anything else is no time; nothing is guessed from half a value.
 */
import { type Day, dayFrom, HOUR, MINUTE, midnight, type Wall } from "../time/instant.ts";

export type TimeValue =
  | { readonly kind: "date"; readonly day: Day }
  | { readonly kind: "time"; readonly wall: Wall; readonly utc: boolean };

/** Reads `20261211`, `20261211T103000`, `20261211T103000Z`, `2026-12-11T10:30`; undefined for everything else. */
export const parseTimeValue = (text: string): TimeValue | undefined => {
  const parts =
    /^(\d{4})(\d{2})(\d{2})(?:[Tt](\d{2})(\d{2})(\d{2})?([Zz])?)?$/.exec(text.trim()) ??
    /^(\d{4})-(\d{2})-(\d{2})(?:[Tt ](\d{2}):(\d{2})(?::(\d{2})(?:\.0+)?)?([Zz])?)?$/.exec(text.trim());
  if (!parts) return undefined;
  const day = dayFrom(Number(parts[1]), Number(parts[2]), Number(parts[3]));
  if (day === undefined) return undefined;
  if (parts[4] === undefined) return { kind: "date", day };
  const [hours, minutes, seconds] = [Number(parts[4]), Number(parts[5]), Number(parts[6] ?? 0)];
  if (hours > 23 || minutes > 59 || seconds > 60) return undefined;
  // RFC 5545 §3.3.12: a leap second counts as the second before it.
  const wall = midnight(day) + hours * HOUR + minutes * MINUTE + Math.min(seconds, 59);
  return { kind: "time", wall, utc: parts[7] !== undefined };
};
