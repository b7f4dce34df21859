/**
 * When a step's event stands in the calendar. A step done by a time ends at its due; one done from a time starts there; one that has its own time in the diary stands there.
 * Never moves a deadline: the event only shows it.
 */
import type { BookingFacts, Step } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { HOUR, type Instant, MINUTE, type Seconds } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { wakingDay } from "./wakingHours.ts";

export interface Times {
  readonly from: Instant;
  readonly to: Instant;
}

const SHORTEST: Seconds = 15 * MINUTE;
const BEFORE_DUE: Seconds = HOUR;
/** Shown for a colour whose diary gives no end. */
const COLOUR_LENGTH: Seconds = HOUR;

/** Removal and readings are done from a time on, every other step by one. */
export const isDoneFrom = (step: Pick<Step, "kind">): boolean => step.kind === "removal" || step.kind === "reading";

/** The times of a step's event. */
export const stepTime = (step: Step, settings: Settings, zone: Zone): Times => {
  if (isDoneFrom(step)) {
    const from = step.kind === "reading" ? lookFrom(step, settings.clientHours, zone) : step.opens;
    return { from, to: from + SHORTEST };
  }
  if (step.booked) return { from: step.opens, to: Math.max(step.booked.until, step.opens + SHORTEST) };
  return { from: Math.min(Math.max(step.due - BEFORE_DUE, step.opens), step.due - SHORTEST), to: step.due };
};

/** The times of the appointment itself. */
export const colourTime = ({ start, end }: BookingFacts): Times => ({
  from: start,
  to: end !== null && end > start ? end : start + COLOUR_LENGTH,
});

/**
 * The moment from which a look's due is counted (counting.md 18): the first in the client's hours, with at least fifteen
 * minutes of that day left, at or after the look opens; the opening itself where that moment would be past the due.
 */
export const lookFrom = (step: Step, clientHours: string, zone: Zone): Instant => {
  for (let later = 0; ; later++) {
    const { from, to } = wakingDay(clientHours, zone, step.opens, later);
    const moment = Math.max(step.opens, from);
    if (moment > step.due) return step.opens;
    if (moment <= to - SHORTEST) return moment;
  }
};
