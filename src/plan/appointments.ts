/**
 * A skin test entered in the diary: it anchors the application of the client's next booking (counting.md 31). It is a
 * plan and never a record: nothing here makes a test count that nobody has reported.
 */
import { APPOINTMENT_MINUTES } from "../bounds.ts";
import { HOUR, type Instant, MINUTE } from "../time/instant.ts";
import type { Term } from "./fresh.ts";
import type { TestRule } from "./testRule.ts";
import type { TestAppointment } from "./types.ts";

/** Why a test in the diary anchors nothing. */
export type AppointmentFault = "appointment-too-late" | "appointment-too-early" | "appointment-not-offered";

/** An application that has its time in the diary: it opens and is due as the appointment begins. */
export interface BookedTest extends Term {
  /** How long the appointment stands there; for its event alone. */
  readonly until: Instant;
}

export interface JudgedAppointments {
  /** The last test in the diary that keeps the lead; null where none does. */
  readonly booked: BookedTest | null;
  /** Without one: the last that does not, and why. */
  readonly refused: { readonly at: Instant; readonly fault: AppointmentFault } | null;
}

/** What is entered with a cut or a talk is shown as an hour. */
const LONGEST = HOUR;

/**
 * Judges the tests that stand in the diary for a booking.
 * @param walkIn the salon's own in-salon test; undefined where it offers none
 * @param start of the booking
 */
export const judgeAppointments = (
  appointments: readonly TestAppointment[],
  walkIn: TestRule | undefined,
  start: Instant,
): JudgedAppointments => {
  const inOrder = appointments.toSorted(
    (one, other) => one.start - other.start || (one.end ?? one.start) - (other.end ?? other.start),
  );
  const faultOf = (at: Instant): AppointmentFault | null => {
    if (!walkIn) return "appointment-not-offered";
    if (at > start - walkIn.reach) return "appointment-too-late";
    return walkIn.farthest !== null && at < start - walkIn.farthest ? "appointment-too-early" : null;
  };
  const kept = inOrder.findLast((each) => faultOf(each.start) === null);
  if (kept && walkIn) {
    const end = kept.end !== null && kept.end > kept.start ? kept.end : kept.start + APPOINTMENT_MINUTES * MINUTE;
    const until = Math.min(end, kept.start + LONGEST);
    return { booked: { opens: kept.start, due: kept.start, until }, refused: null };
  }
  const last = inOrder.at(-1);
  const fault = last && faultOf(last.start);
  return { booked: null, refused: last && fault ? { at: last.start, fault } : null };
};
