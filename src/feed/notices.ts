/**
 * All-day events of the salon's feed that are no step: a booking that no test fits any more, a diary that could not be
 * read. A feed that fell silent would look like a day without deadlines. Pure.
 */
import { LABEL_MAX, NOTICE_DAYS, SUMMARY_MAX } from "../bounds.ts";
import type { Plan } from "../plan/types.ts";
import { type Day, type Instant, wholeMinute } from "../time/instant.ts";
import { clip } from "./clip.ts";
import { cleanLine } from "./contentLine.ts";
import { faultOf } from "./descriptions.ts";
import { fill } from "./fill.ts";
import { catalogueOf } from "./language/catalogueOf.ts";
import { longTime } from "./timeInWords.ts";
import type { EventContent, FeedContext } from "./types.ts";
import { moodOf, namesIn, stepSummary } from "./words.ts";

/** What is wrong with a diary, and since when. */
export interface DiaryTrouble {
  readonly diary: string;
  readonly kind: "unreadable" | "held" | "never-read" | "unread";
  readonly since: Instant;
}

/** The number that keeps a diary's notice apart from a booking's of the same name, which has none. */
const OF_DIARY = 0;

/** A notice from the day the trouble began to the day of `at`, both included; one notice a diary, whatever is wrong. */
export const diaryNotice = (trouble: DiaryTrouble, at: Instant, context: FeedContext): EventContent => {
  const { settings, zone } = context;
  const { notices, time } = catalogueOf(settings.language);
  const [summary, how] = {
    unreadable: [notices.unreadable, notices.unreadableHow],
    held: [notices.held, notices.heldHow],
    "never-read": [notices.neverRead, notices.neverReadHow],
    unread: [notices.unread, notices.unreadHow],
  }[trouble.kind] as [string, string];
  const names = {
    diary: clip(cleanLine(trouble.diary), LABEL_MAX),
    since: longTime(wholeMinute(trouble.since), zone, time),
  };
  const uid = context.uidOf(trouble.diary, "notice", OF_DIARY);
  return noticeOf(uid, zone.dayAt(trouble.since), zone.dayAt(at), fill(summary, names), how, context);
};

/**
 * The notice of a booking whose standing is `no-time`: from the day on which the last route closed to the day of the
 * colour. Depends on the plan's routes, not on the day it is asked for.
 */
export const noTimeNotice = (plan: Plan, context: FeedContext): EventContent => {
  const { settings, zone } = context;
  const catalogue = catalogueOf(settings.language);
  const colourDay = zone.dayAt(plan.booking.start);
  const closed = plan.routes.flatMap(({ until }) => (until === null ? [] : [zone.dayAt(until)]));
  const from = closed.length === 0 ? colourDay : Math.min(colourDay, Math.max(...closed));
  const { noTime, noTimeHow, noTimeOnHow } = catalogue.notices;
  const fault = faultOf(plan);
  return bookingNotice(plan, from, noTime, fault === null ? noTimeHow : `${fault} ${noTimeOnHow}`, context);
};

/**
 * The notice of a booking whose standing is `late`: from the day its first open step was due to the day of the colour. Whether
 * the test is on comes first, since everything hangs on that. Null while all that is late is a test in the diary that is
 * being put on.
 */
export const lateNotice = (plan: Plan, context: FeedContext): EventContent | null => {
  const { late, lateOf, lateOpen, lateHow } = catalogueOf(context.settings.language).notices;
  const { zone } = context;
  const overdue = plan.steps.filter(({ state, due }) => state === "planned" && due < plan.asOf);
  const open = overdue.filter((step) => moodOf(step, plan) !== "todo").toSorted((left, right) => left.due - right.due);
  if (overdue.length > 0 && open.length === 0) return null;
  const how = `${plan.why.find(({ code }) => code === "not-recorded")?.text ?? lateOpen} ${lateHow}`;
  const first = open.find(({ kind }) => kind === "application") ?? open[0];
  if (!first) return bookingNotice(plan, zone.dayAt(plan.booking.start), late, how, context);
  const summary = stepSummary(first, plan.route, plan, context, "salon", moodOf(first, plan));
  return bookingNotice(plan, zone.dayAt(open[0]?.due ?? first.due), lateOf, how, context, { summary });
};

/**
 * The notice of a plan's alarm, from the day it was told (or four weeks before) to the day of the colour; of what is told
 * after that day, for a week. Not why.
 */
export const alarmNotice = (plan: Plan, alarm: NonNullable<Plan["alarm"]>, context: FeedContext): EventContent => {
  const { notices } = catalogueOf(context.settings.language);
  const told = context.zone.dayAt(alarm.since);
  if (told > context.zone.dayAt(plan.booking.start)) {
    return bookingNotice(plan, told, notices.stopAfter, notices.stopAfterHow, context, {}, told + AFTERWARDS_DAYS - 1);
  }
  const [words, how] = {
    stop: [notices.stop, notices.stopHow],
    "new-test": [notices.newTest, notices.newTestHow],
    who: [notices.who, notices.whoHow],
  }[alarm.kind] as [string, string];
  return bookingNotice(plan, told, words, how, context);
};

/** How long a reaction that is told after the day of the colour stands in the salon's calendar. */
const AFTERWARDS_DAYS = 7;

/** A booking has one notice at most, whatever it says. */
const bookingNotice = (
  plan: Plan,
  from: Day,
  words: string,
  how: string,
  context: FeedContext,
  more: Readonly<Record<string, string>> = {},
  last: Day = context.zone.dayAt(plan.booking.start),
): EventContent => {
  const catalogue = catalogueOf(context.settings.language);
  const uid = context.uidOf(plan.booking.uid, "notice", null);
  const summary = fill(words, { ...namesIn(plan, context, catalogue), ...more });
  const first = Math.min(Math.max(from, last - NOTICE_DAYS), last);
  return noticeOf(uid, first, last, summary, how, context);
};

const noticeOf = (
  uid: string,
  first: Day,
  last: Day,
  summary: string,
  description: string,
  context: FeedContext,
): EventContent => ({
  uid,
  kind: "notice",
  time: { allDay: true, from: first, to: Math.max(first, last) + 1 },
  summary: clip(summary, SUMMARY_MAX),
  description,
  url: context.pageUrl,
  before: null,
  alarms: [],
  task: { due: null, done: false },
  cancelled: false,
});
