/** The salon's and the client's hours and the post, read from settings (counting.md 4 to 6, 9, 10, 14). */
import { AFTER_OPENING_MINUTES } from "../bounds.ts";
import { type Settings, WEEKDAYS } from "../settings.ts";
import { type Day, DAY_SECONDS, MINUTE, weekdayOf } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type Closings, makeClosings } from "./closings.ts";
import type { HolidayTable } from "./holidays.ts";
import { makeHours } from "./hours.ts";
import type { Moments } from "./moments.ts";
import { makePost, type Post } from "./post.ts";
import { refusal } from "./refusal.ts";
import {
  type Dates,
  type Refusals,
  readDates,
  readDuration,
  readSpan,
  readTime,
  type Span,
  uniteSpans,
} from "./spans.ts";

/** What can be done when. */
export interface SalonHours {
  /** Whether the salon has set hours; without them there is no closing time (counting.md 5). */
  readonly hasOpening: boolean;
  /** The salon is there to put a test on. */
  readonly walkIn: Moments;
  /** The salon is there to hand a kit to the post. */
  readonly handOver: Moments;
  /** The client can be asked to do something. */
  readonly client: Moments;
  readonly post: Post;
  readonly closings: Closings;
  /** Whether a day is a public holiday to the salon, those that its settings add among them. */
  readonly isPublicHoliday: (day: Day) => boolean;
  /** The same as if no day were shut: what closings moved is told by it, and nothing is planned by it. */
  readonly unclosed: OpenHours;
  /** The same as if some days were not shut, for salon and post alike. For words too. */
  readonly reopened: (days: readonly Dates[]) => OpenHours;
}

/** What shut days move: the client's hours keep none. */
export type OpenHours = Pick<SalonHours, "walkIn" | "handOver" | "post">;

/** Calendars with days re-opened that a salon keeps: one for each holiday of a year, and sets of them. */
const REOPENED_MAX = 64;

const AFTER_OPENING = AFTER_OPENING_MINUTES * MINUTE;
const WHOLE_DAY: readonly Span[] = [{ from: 0, to: DAY_SECONDS }];

/** Reads the hours; every fault is added to `refusals`, and what is returned then is not to be used. */
export const readSalonHours = (
  settings: Settings,
  zone: Zone,
  holidays: HolidayTable,
  refusals: Refusals,
): SalonHours => {
  const added = readDateList(settings.holidays?.add ?? [], "holidays.add", refusals);
  const shut = readDateList(settings.closed, "closed", refusals);
  const { weekdayOn, holiday } = readOpening(settings, refusals);
  const salonHoliday = holidayNames(holidays.salon, added);
  const spansOn = (day: Day): readonly Span[] => {
    if (inAny(shut, day)) return [];
    return salonHoliday(day) === null ? weekdayOn(day) : holiday;
  };
  const written = readDuration(settings.lastWalkIn, "lastWalkIn", refusals);
  // Without set hours there is no closing time to come before (counting.md 5).
  const lastWalkIn = settings.opening === null ? 0 : written;
  const client = readClientHours(settings.clientHours, refusals);
  const noPost = readDateList(settings.post.closed, "post.closed", refusals);
  const named = holidayNames(holidays.post, added);
  const postHoliday = (day: Day): string | null => (settings.post.holidays ? named(day) : null);
  const isPostClosed = (day: Day): boolean => inAny(noPost, day);
  const post = readPost(settings, zone, refusals);
  const momentsOf = (spans: (day: Day) => readonly Span[]) => {
    const hours = makeHours(zone, spans, lastWalkIn);
    return {
      walkIn: { hours, after: AFTER_OPENING, before: lastWalkIn },
      handOver: { hours, after: AFTER_OPENING, before: 0 },
    };
  };
  const open = (isReopened: (day: Day) => boolean): OpenHours => ({
    ...momentsOf((day) => (isReopened(day) ? weekdayOn(day) : spansOn(day))),
    post: post.make((day) => !isReopened(day) && (isPostClosed(day) || postHoliday(day) !== null)),
  });
  const planned = open(() => false);
  return {
    hasOpening: settings.opening !== null,
    ...planned,
    client: { hours: makeHours(zone, () => client, 0), after: AFTER_OPENING, before: 0 },
    closings: makeClosings({
      usual: weekdayOn,
      kept: spansOn,
      isClosed: (day) => inAny(shut, day),
      salonHoliday,
      isPostDay: post.isPostDay,
      isPostClosed,
      postHoliday,
    }),
    isPublicHoliday: (day) => salonHoliday(day) !== null,
    unclosed: open(() => true),
    reopened: keepReopened(planned, open),
  };
};

/** Keeps what was re-opened: bookings near one holiday ask for the same days. */
const keepReopened = (
  planned: OpenHours,
  open: (isReopened: (day: Day) => boolean) => OpenHours,
): SalonHours["reopened"] => {
  const known = new Map<string, OpenHours>();
  return (days) => {
    if (days.length === 0) return planned;
    const key = days.map(({ from, to }) => `${from}/${to}`).join();
    const found = known.get(key);
    if (found) return found;
    if (known.size >= REOPENED_MAX) known.clear();
    const hours = open((day) => inAny(days, day));
    known.set(key, hours);
    return hours;
  };
};

const inAny = (ranges: readonly Dates[], day: Day): boolean => ranges.some(({ from, to }) => from <= day && day <= to);

/** A public holiday's name, by day; null on every other day. */
const holidayNames = (days: HolidayTable["salon"], added: readonly Dates[]): ((day: Day) => string | null) => {
  const names = new Map(days.map(({ day, name }) => [day, name]));
  return (day) => names.get(day) ?? (inAny(added, day) ? "added holiday" : null);
};

const readDateList = (texts: readonly string[], at: string, refusals: Refusals): readonly Dates[] =>
  texts.flatMap((text, index) => readDates(text, `${at}[${index}]`, refusals) ?? []);

/** Hours by weekday, and those of public holidays. */
const readOpening = (
  { opening }: Settings,
  refusals: Refusals,
): { readonly weekdayOn: (day: Day) => readonly Span[]; readonly holiday: readonly Span[] } => {
  if (opening === null) return { weekdayOn: () => WHOLE_DAY, holiday: [] };
  const read = (name: (typeof WEEKDAYS)[number] | "holiday"): readonly Span[] =>
    uniteSpans(
      (opening[name] ?? []).flatMap((text, index) => readSpan(text, `opening.${name}[${index}]`, refusals) ?? []),
    );
  const weekdays = WEEKDAYS.map(read);
  const holiday = read("holiday");
  if (WEEKDAYS.every((name) => (opening[name] ?? []).length === 0)) {
    refusals.push(
      refusal({
        code: "opening-empty",
        at: "opening",
        value: null,
        limit: "hours on at least one weekday",
        reason: "a salon that never opens can neither test nor colour",
        remedy: "write hours, or leave opening out where the salon keeps none",
      }),
    );
  }
  return { weekdayOn: (day) => weekdays[weekdayOf(day) - 1] as readonly Span[], holiday };
};

const readClientHours = (text: string, refusals: Refusals): readonly Span[] => {
  const span = readSpan(text, "clientHours", refusals);
  if (span && span.to - span.from < AFTER_OPENING) {
    refusals.push(
      refusal({
        code: "client-hours-too-short",
        at: "clientHours",
        value: text,
        limit: `at least ${AFTER_OPENING_MINUTES} minutes long`,
        reason: "a step is due no sooner than that after they begin",
        remedy: "write longer hours, such as 08:00-21:00",
      }),
    );
  }
  return span ? [span] : [];
};

const weekdays = (names: readonly string[]): ReadonlySet<number> =>
  new Set(WEEKDAYS.flatMap((name, index) => (names.includes(name) ? [index + 1] : [])));

/** The post by its weekdays and times; which days it is shut comes later. */
const readPost = (
  { post }: Settings,
  zone: Zone,
  refusals: Refusals,
): { readonly isPostDay: (day: Day) => boolean; readonly make: (isShut: (day: Day) => boolean) => Post } => {
  const [collection, delivery] = [weekdays(post.collection), weekdays(post.delivery)];
  const times = {
    lastCollection: readTime(post.lastCollection, "post.lastCollection", refusals),
    deliveredBy: readTime(post.deliveredBy, "post.deliveredBy", refusals),
  };
  const { transit, count } = post;
  return {
    isPostDay: (day) => collection.has(weekdayOf(day)) || delivery.has(weekdayOf(day)),
    make: (isShut) => makePost(zone, { collection, delivery, ...times, transit, count }, isShut),
  };
};
