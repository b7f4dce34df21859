/**
 * When a step's event stands in the calendar. A step done by a time ends at its due; one done from a time starts there; one that has its own time in the diary stands there.
 * Never moves a deadline: the event only shows it.
 */
import type { BookingFacts, Step } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import { HOUR, type Instant, MINUTE, midnight, type Seconds } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

interface Times {
  readonly from: Instant;
  readonly to: Instant;
}

const SHORTEST: Seconds = 15 * MINUTE;
const BEFORE_DUE: Seconds = HOUR;
/** Shown for a colour whose diary gives no end. */
const COLOUR_LENGTH: Seconds = HOUR;

/** Removal and readings are done from a time on, every other step by one. */
export const isDoneFrom = (step: Step): boolean => step.kind === "removal" || step.kind === "reading";

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
  const hours = /^(\d{2}):(\d{2})-(\d{2}):(\d{2})$/.exec(clientHours);
  if (!hours) return step.opens;
  const [begin, end] = [secondsOf(hours[1], hours[2]), secondsOf(hours[3], hours[4])];
  for (let day = zone.dayAt(step.opens); zone.startOfDay(day) <= step.due; day++) {
    const last = zone.firstReading(midnight(day) + end) - SHORTEST;
    const moment = Math.max(step.opens, zone.firstReading(midnight(day) + begin));
    if (moment <= last) return moment <= step.due ? moment : step.opens;
  }
  return step.opens;
};

const secondsOf = (hour: string | undefined, minute: string | undefined): Seconds =>
  Number(hour) * HOUR + Number(minute) * MINUTE;
