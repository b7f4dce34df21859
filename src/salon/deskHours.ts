/** Until when the desk's first page looks ahead: to the moment the salon next opens after the working day that it is in. Pure. */
import { type Hours, isOpen } from "../plan/hours.ts";
import type { Rules } from "../plan/rules.ts";
import type { Instant } from "../time/instant.ts";

export interface DeskHours {
  readonly isOpen: boolean;
  /** When the salon next opens, once the present or coming working day of today is over; without set hours, tomorrow's first hour for clients. */
  readonly until: Instant;
}

/** When a day begins for the salon: not within a stretch that began before, and on no day that is closed. */
const firstOpening = (
  { walkIn, zone, hasOpening }: Pick<Rules, "walkIn" | "zone" | "hasOpening">,
  hours: Hours,
  from: Instant,
): Instant | undefined => {
  const first = zone.dayAt(from);
  for (let day = first; day <= first + SEARCH_DAYS; day++) {
    if (!hasOpening && walkIn.hours.onDay(day).length === 0) continue;
    const piece = hours.onDay(day).find((each) => each.from >= from && (!hasOpening || each.stretchFrom === each.from));
    if (piece) return piece.from;
  }
  return undefined;
};

/** Days in which a salon that opens at all opens again; a year's closing is the longest there is. */
const SEARCH_DAYS = 366;

export const deskHours = ({ walkIn, client, zone, hasOpening }: Rules, now: Instant): DeskHours => {
  const today = zone.dayAt(now);
  const { hours } = hasOpening ? walkIn : client;
  const isDayAhead = hours.onDay(today).some(({ to }) => to > now);
  // A working day that is not over is worked through first; after its end only the night is left.
  const from = isDayAhead ? zone.startOfDay(today + 1) : now;
  const until = firstOpening({ walkIn, zone, hasOpening }, hours, from) ?? zone.startOfDay(today + 1);
  return { isOpen: !hasOpening || isOpen(hours, now), until: until > now ? until : zone.startOfDay(today + 1) };
};
