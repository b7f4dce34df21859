/**
 * What an event says: every SUMMARY and DESCRIPTION, put together from a language file. A SUMMARY says what to do and by
 * when, holds no result and nothing of the client's answers. Decides nothing: the plan has decided.
 */
import { LABEL_MAX, SUMMARY_MAX } from "../bounds.ts";
import type { Plan, RouteName, Step } from "../plan/types.ts";
import { type Instant, MINUTE, wholeMinute } from "../time/instant.ts";
import { clientLabel } from "./clientLabel.ts";
import { clip } from "./clip.ts";
import { cleanLine } from "./contentLine.ts";
import { isDoneFrom, stepTime } from "./eventTime.ts";
import { fill } from "./fill.ts";
import type { Catalogue, StepName, SummaryWords } from "./language/catalogue.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import { asksForSteps, isReady, isTestOnBeside, isUndecided, isWithSalon } from "./openSteps.ts";
import { clockTime, dateInWords, lengthInWords, longTime, shortTime, spanInWords } from "./timeInWords.ts";
import type { FeedContext } from "./types.ts";

/** Whom the words speak to. */
export type Reader = "client" | "salon";

/** How a step is spoken of: as a thing to do, as hanging on a test nobody recorded, as a question, or as done. */
export type Mood = "todo" | "hangs" | "late" | "done";

/** Nearer than this a weekday alone names one day only. */
const WEEKDAY_SUFFICES_DAYS = 7;

/** The name a language file knows a step by. */
export const stepNameOf = (step: Step, route: RouteName | null): StepName => {
  const isHome = route === "home-kit";
  switch (step.kind) {
    case "application":
      if (isHome) return "applicationHome";
      return step.booked ? "applicationBooked" : "applicationSalon";
    case "removal":
      return isHome ? "removalHome" : "removalSalon";
    case "reading":
      return isHome ? "readingHome" : "readingSalon";
    case "screening":
    case "rescreening":
    case "shipping":
    case "arrival":
    case "result":
      return step.kind;
  }
};

/**
 * A step past its due is asked about, never called missed (counting.md 22). What hangs on a test that nobody recorded stays
 * conditional even then: the question is asked once, for the test itself.
 */
export const moodOf = (step: Step, plan: Plan): Mood => {
  if (step.state === "done") return "done";
  const mood = plainMoodOf(step);
  return mood === "todo" && (step.booked?.until ?? step.due) < plan.asOf ? "late" : mood;
};

/** How a step is spoken of apart from what has become of it: so a tombstone and a list name it. */
export const plainMoodOf = ({ counted }: Step): Mood => (counted !== null && !counted.recorded ? "hangs" : "todo");

/**
 * A SUMMARY. `route` is the plan's, or the home kit's for a kit left behind. The walk-in that takes over from a kit says
 * here, where it is read first, that two tests must not be worn.
 * @param now when it is read, where that is known: what is farther away has its date. An event has its date beside it.
 */
export const stepSummary = (
  step: Step,
  route: RouteName | null,
  plan: Plan,
  context: FeedContext,
  reader: Reader,
  mood: Mood,
  now: Instant | null = null,
): string => {
  const catalogue = catalogueOf(context.settings.language);
  const names = { ...namesIn(plan, context, catalogue), ...timesOf(step, context, catalogue, now) };
  // Answered with a "not sure": a second time of asking would only tell her that nobody has read it.
  if (isWithSalon(step, plan)) {
    const { looking, toDecide, toDecideLate } = catalogue.questions;
    const hers = context.wording === "discreet" ? catalogue.discreet.looking : looking;
    return clip(fill(reader === "client" ? hers : mood === "late" ? toDecideLate : toDecide, names), SUMMARY_MAX);
  }
  if (reader === "client" && waitsForSalon(step, plan)) {
    const waits = context.wording === "discreet" ? catalogue.discreet.waitTest : catalogue.questions.waitTest;
    return clip(fill(waits, names), SUMMARY_MAX);
  }
  const { words, kitMayBeOn, testIsOn } = wordsFor(reader, stepNameOf(step, route), catalogue, context);
  if (reader === "salon" && mood === "done" && isUnconfirmed(step, plan)) {
    return clip(fill(plan.standing === "past" ? words.late : catalogue.toConfirm, names), SUMMARY_MAX);
  }
  const pattern = mood === "late" ? words.late : mood === "hangs" ? (words.hangs ?? words.todo) : words.todo;
  const said = fill(pattern, names);
  const warns = reader === "client" && mayMeetLeftKit(step, plan);
  const whole = mood === "done" ? fill(catalogue.says.done, { summary: said }) : said;
  return clip(warns ? `${whole}. ${fill(isTestOnBeside(plan) ? testIsOn : kitMayBeOn, names)}` : whole, SUMMARY_MAX);
};

/** The words of a SUMMARY: a client's are discreet where her salon chose that; the salon's own never are. */
const wordsFor = (
  reader: Reader,
  name: StepName,
  { client, salon, discreet, says }: Catalogue,
  { wording }: FeedContext,
): { readonly words: SummaryWords; readonly kitMayBeOn: string; readonly testIsOn: string } => {
  const isDiscreet = reader === "client" && wording === "discreet";
  if (isDiscreet) return { ...discreet, words: discreet.steps[name] };
  return { ...says, words: reader === "client" ? client[name] : salon[name] };
};

/** Told is not confirmed: a result is done for the desk only when the booking is ready, or was when it passed. */
export const isUnconfirmed = (step: Step, plan: Plan): boolean => step.kind === "result" && !isReady(plan);

/** Whether this is a test still to be put on while another, of a kit left behind or one that does not count, may be on. */
export const mayMeetLeftKit = (step: Step, plan: Plan): boolean =>
  step.kind === "application" &&
  step.state !== "done" &&
  asksForSteps(plan) &&
  (isTestOnBeside(plan) || plan.leftBehind.some(({ counted }) => counted?.recorded === false));

/** Whether this is a test to be put on while a person at the salon still decides by her answers whether one may. */
export const waitsForSalon = (step: Step, plan: Plan): boolean =>
  step.kind === "application" && isUndecided(plan) && moodOf(step, plan) === "todo";

/** When a step is to be done, with dates; null while that hangs on a test nobody recorded. */
export const stepWhen = (step: Step, plan: Plan, context: FeedContext): string | null =>
  moodOf(step, plan) === "hangs" ? null : stepSpan(step, context);

/** When a step is to be done, or would be if the test it hangs on went on as planned. */
export const stepSpan = (step: Step, { settings, zone }: FeedContext): string => {
  const from = isDoneFrom(step) ? stepTime(step, settings, zone).from : step.opens;
  const { time } = catalogueOf(settings.language);
  return spanInWords(wholeMinuteAfter(from), wholeMinute(step.booked?.until ?? step.due), zone, time);
};

/** Names that any text may ask for: the salon, the client as her salon shows her, the appointment's time. */
export const namesIn = (plan: Plan, context: FeedContext, catalogue: Catalogue): Readonly<Record<string, string>> => {
  const { settings, zone, pageUrl } = context;
  return {
    salon: clip(cleanLine(settings.name), LABEL_MAX),
    client: clientLabel(plan.booking.client?.name ?? null, settings.show.clients) ?? catalogue.missing.client,
    phone: settings.contact.phone ?? catalogue.missing.phone,
    here: pageUrl === null ? catalogue.here.none : catalogue.here.page,
    at: shortTime(plan.booking.start, zone, catalogue.time),
    longAt: longTime(plan.booking.start, zone, catalogue.time),
  };
};

/**
 * Nobody reads the second at which she pressed: what is done from a time on is said a little later, what is done by one a
 * little sooner. The event itself keeps the second.
 */
const wholeMinuteAfter = (at: Instant): Instant => Math.ceil(at / MINUTE) * MINUTE;

const timesOf = (
  step: Step,
  context: FeedContext,
  { time }: Catalogue,
  now: Instant | null,
): Readonly<Record<string, string>> => {
  const { settings, zone } = context;
  const short = (at: number): string =>
    now === null || Math.abs(zone.dayAt(at) - zone.dayAt(now)) < WEEKDAY_SUFFICES_DAYS
      ? shortTime(at, zone, time)
      : `${dateInWords(zone.dayAt(at), time)}, ${clockTime(at, zone, time)}`;
  const counted = step.counted ?? { from: step.opens, after: 0 };
  return {
    by: short(wholeMinute(step.due)),
    from: short(wholeMinuteAfter(isDoneFrom(step) ? stepTime(step, settings, zone).from : step.opens)),
    after: lengthInWords(counted.after, time),
    moment: shortTime(wholeMinuteAfter(counted.from + counted.after), zone, time),
    start: shortTime(wholeMinute(counted.from), zone, time),
  };
};
