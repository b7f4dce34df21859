/** The salon's and the client's hours and the post, read from settings (counting.md 4 to 6, 9, 10, 14). */
import { AFTER_OPENING_MINUTES } from "../bounds.ts";
import { type Settings, WEEKDAYS } from "../settings.ts";
import { type Day, DAY_SECONDS, MINUTE, weekdayOf } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
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
}

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
  const spansOn = readOpening(settings, holidayTest(holidays.salon, added), shut, refusals);
  const written = readDuration(settings.lastWalkIn, "lastWalkIn", refusals);
  // Without set hours there is no closing time to come before (counting.md 5).
  const lastWalkIn = settings.opening === null ? 0 : written;
  const client = readClientHours(settings.clientHours, refusals);
  const salonHours = makeHours(zone, spansOn, lastWalkIn);
  return {
    hasOpening: settings.opening !== null,
    walkIn: { hours: salonHours, after: AFTER_OPENING, before: lastWalkIn },
    handOver: { hours: salonHours, after: AFTER_OPENING, before: 0 },
    client: { hours: makeHours(zone, () => client, 0), after: AFTER_OPENING, before: 0 },
    post: readPost(settings, zone, holidayTest(holidays.post, added), refusals),
  };
};

const inAny = (ranges: readonly Dates[], day: Day): boolean => ranges.some(({ from, to }) => from <= day && day <= to);

const holidayTest = (days: HolidayTable["salon"], added: readonly Dates[]): ((day: Day) => boolean) => {
  const known = new Set(days.map(({ day }) => day));
  return (day) => known.has(day) || inAny(added, day);
};

const readDateList = (texts: readonly string[], at: string, refusals: Refusals): readonly Dates[] =>
  texts.flatMap((text, index) => readDates(text, `${at}[${index}]`, refusals) ?? []);

const readOpening = (
  settings: Settings,
  isHoliday: (day: Day) => boolean,
  shut: readonly Dates[],
  refusals: Refusals,
): ((day: Day) => readonly Span[]) => {
  const { opening } = settings;
  if (opening === null) return (day) => (inAny(shut, day) || isHoliday(day) ? [] : WHOLE_DAY);
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
  return (day) => {
    if (inAny(shut, day)) return [];
    return isHoliday(day) ? holiday : (weekdays[weekdayOf(day) - 1] as readonly Span[]);
  };
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

const readPost = (settings: Settings, zone: Zone, isHoliday: (day: Day) => boolean, refusals: Refusals): Post => {
  const { post } = settings;
  const closed = readDateList(post.closed, "post.closed", refusals);
  return makePost(
    zone,
    {
      collection: weekdays(post.collection),
      delivery: weekdays(post.delivery),
      lastCollection: readTime(post.lastCollection, "post.lastCollection", refusals),
      deliveredBy: readTime(post.deliveredBy, "post.deliveredBy", refusals),
      transit: post.transit,
      count: post.count,
    },
    (day) => inAny(closed, day) || (post.holidays && isHoliday(day)),
  );
};
