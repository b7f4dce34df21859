/**
 * The reminders of an event, at hours in which a client is awake. A calendar that shows none loses nothing: the event says
 * it all. Never reads a clock: a reminder whose time has passed stays, and no client shows it.
 */
import type { Plan, Step } from "../plan/types.ts";
import { uuid5 } from "../plan/uid.ts";
import { DAY_SECONDS, HOUR, type Instant } from "../time/instant.ts";
import { isDoneFrom, type Times } from "./eventTime.ts";
import { asksToTelephone, asksWhetherOn, isWithSalon } from "./openSteps.ts";
import type { AlarmContent, FeedContext } from "./types.ts";
import { awakeBy, awakeFrom } from "./wakingHours.ts";
import { isUnconfirmed, moodOf, type Reader } from "./words.ts";

/** Which of an event's reminders one is: its UID hangs on that, so that it stays the same reminder when its time moves. */
type Role = "early" | "last";

type Moments = readonly (readonly [Role, Instant])[];

/**
 * The reminders of a step, in the feed of whoever does it: a salon is not reminded of every client's looks, and nobody of
 * what is done, or is only asked about.
 * @param time of the step's event
 */
export const stepAlarms = (
  step: Step,
  time: Times,
  plan: Plan,
  reader: Reader,
  context: FeedContext,
): readonly AlarmContent[] => {
  const isAsked = step.state !== "done" || (isUnconfirmed(step, plan) && plan.standing !== "past");
  // Answers that wait for a person are the salon's to look at.
  const who = isWithSalon(step, plan) ? "salon" : step.who;
  if (who !== reader || !isAsked || moodOf(step, plan) === "late") return [];
  const awake = awakeIn(context);
  return alarmsAt(
    step.uid,
    time.from,
    isDoneFrom(step) ? momentsFrom(step, time, awake) : momentsBy(step, time, reader, awake),
  );
};

/**
 * Of the appointment, only where she is to telephone or to answer before it: the day before, and two hours before, since that
 * comes up on the eve as a rule. Nothing of an appointment that has passed.
 */
export const colourAlarms = (uid: string, plan: Plan, from: Instant, context: FeedContext): readonly AlarmContent[] => {
  if (plan.standing === "past" || !(asksToTelephone(plan) || asksWhetherOn(plan))) return [];
  const { by } = awakeIn(context);
  return alarmsAt(uid, from, [
    ["early", by(from - DAY_SECONDS)],
    ["last", by(from - 2 * HOUR)],
  ]);
};

interface Awake {
  readonly by: (at: Instant) => Instant;
  readonly from: (at: Instant) => Instant;
}

const awakeIn = ({ settings: { clientHours }, zone }: FeedContext): Awake => ({
  by: (at) => awakeBy(at, clientHours, zone),
  from: (at) => awakeFrom(at, clientHours, zone),
});

/**
 * The day before and the hour before, not in the night: the day before also of what opens on its last day only (counting.md
 * 11), since she has to plan for it. What comes by post is asked about once, and the salon is at its desk.
 */
const momentsBy = (step: Step, time: Times, reader: Reader, awake: Awake): Moments => {
  const deadline = step.booked ? time.from : step.due;
  const hourBefore = step.booked ? time.from - HOUR : time.from;
  const last: Moments[number] = ["last", awake.by(hourBefore)];
  return step.kind === "arrival" || reader === "salon" ? [last] : [["early", awake.by(deadline - DAY_SECONDS)], last];
};

/** When it may be done, and an hour before it is due if that is an hour later. */
const momentsFrom = (step: Step, time: Times, awake: Awake): Moments => {
  const waking = awake.from(time.from);
  const first = waking < step.due ? waking : awake.by(time.from);
  const last = awake.by(step.due - HOUR);
  return last >= first + HOUR
    ? [
        ["early", first],
        ["last", last],
      ]
    : [["early", first]];
};

/** Two at one moment are one. */
const alarmsAt = (eventUid: string, from: Instant, moments: Moments): readonly AlarmContent[] =>
  moments
    .filter(([, at], place) => !moments.slice(0, place).some(([, other]) => other === at))
    .map(([role, at]) => ({ uid: uuid5(eventUid, `alarm ${role}`), before: from - at }));
