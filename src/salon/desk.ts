/**
 * What the arithmetic and the words of one salon are in one year, made once from its settings: rules, sorting, feed
 * zone, and what each feed says. Asks no clock; the year is an argument.
 */
import { createHash } from "node:crypto";
import { hashText } from "../diary/hashText.ts";
import { compileSorting, type Sorting } from "../diary/sortEntry.ts";
import { clientEvents } from "../feed/clientEvents.ts";
import { feedHead } from "../feed/feedHead.ts";
import { feedZone } from "../feed/feedZone.ts";
import { diaryNotice } from "../feed/notices.ts";
import { salonEvents } from "../feed/salonEvents.ts";
import type { FeedContext, FeedHead, FeedZone } from "../feed/types.ts";
import { holidayPlace, loadHolidays } from "../plan/holidays.ts";
import { compileRules } from "../plan/rules.ts";
import type { Refusal } from "../plan/types.ts";
import { eventUid } from "../plan/uid.ts";
import type { Settings } from "../settings.ts";
import { dayFrom, type Instant, midnight } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { makeLink } from "./link.ts";
import type { Draft } from "./publish.ts";
import type { Desk } from "./settle.ts";
import type { Client, Diary } from "./types.ts";

/** Raise it when the words, the rendering or the rules of a feed change: every salon then says its plans anew. */
export const RENDERING = 12;
/** The data behind plan/holidays.ts; a test holds it to package.json. */
export const HOLIDAY_DATA = "date-holidays 3.37.0";

export interface SalonDesk extends Desk {
  readonly year: number;
  readonly sorting: Sorting;
  /** Changes when the same entry might be sorted otherwise. */
  readonly sortingPrint: string;
  /** Null where the feed is written in UTC. */
  readonly feedZone: FeedZone | null;
  /** @param client whose feed it is; undefined for the salon's */
  readonly headOf: (client: Client | undefined) => FeedHead;
  /** Changes when the same facts might be said differently: code, holiday data, the zone's changes, the year. */
  readonly print: string;
}

export interface SalonPlace {
  readonly id: string;
  /** Of the pages that events point to. */
  readonly origin: string;
  readonly linkSecret: string;
}

export type MadeDesk =
  | { readonly ok: true; readonly desk: SalonDesk }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

const startOfYear = (year: number): Instant => midnight(dayFrom(year, 1, 1) as number);

/** The zone's changes that a desk of this year may meet, in one short word. */
const printOfZone = (zone: Zone, year: number): string => {
  const changes = zone.changes(startOfYear(year - 2), startOfYear(year + 3));
  return createHash("sha256")
    .update(JSON.stringify([zone.name, changes]))
    .digest("base64url")
    .slice(0, 12);
};

export const printOf = (zone: Zone, year: number, origin: string): string =>
  `${RENDERING} ${HOLIDAY_DATA} ${printOfZone(zone, year)} ${year} ${origin}`;

const sortingPrintOf = ({ services, notColour, testWords, clientFrom, staff, contact }: Settings): string =>
  hashText(JSON.stringify([services, notColour, testWords, clientFrom, staff, contact]));

/** @param year the present one in UTC: holidays and the feed's zone are looked up around it */
export const compileDesk = async (settings: Settings, place: SalonPlace, year: number): Promise<MadeDesk> => {
  const { country, region } = holidayPlace(settings);
  const compiled = compileRules(settings, await loadHolidays(country, region, year - 2, year + 3), place.id);
  if (!compiled.ok) return compiled;
  const { rules } = compiled;
  const { zone } = rules;
  const pageOf = ({ number, generation }: Client): string =>
    `${place.origin}/c/${makeLink({ salon: place.id, holder: { client: number }, generation }, place.linkSecret)}`;
  const contextFor = (pageUrl: string | null): FeedContext => ({
    settings,
    zone,
    pageUrl,
    wording: settings.show.words,
    uidOf: (bookingUid, kind, n) => eventUid(place.id, bookingUid, kind, n),
  });
  const ofSalon = contextFor(null);
  return {
    ok: true,
    desk: {
      rules,
      year,
      sorting: compileSorting(settings),
      sortingPrint: sortingPrintOf(settings),
      feedZone: feedZone(zone, startOfYear(year - 1), startOfYear(year + 2)),
      print: printOf(zone, year, place.origin),
      draftsOf: (plan, client) => {
        const whoOf = new Map(plan.steps.concat(plan.leftBehind).map((step) => [step.uid, step.who]));
        const { service } = plan.booking;
        return [
          ...salonEvents(plan, ofSalon).map(
            (content): Draft => ({ audience: "salon", who: whoOf.get(content.uid) ?? "salon", service, content }),
          ),
          ...clientEvents(plan, contextFor(pageOf(client))).map(
            (content): Draft => ({ audience: client.id, who: "client", service, content }),
          ),
        ];
      },
      noticesOf: (diaries, at) =>
        [...diaries].flatMap((diary): Draft[] => {
          const trouble = troubleOf(diary);
          if (!trouble) return [];
          const content = diaryNotice({ diary: diary.name, ...trouble }, at, ofSalon);
          return [{ audience: "salon", who: "salon", service: null, content }];
        }),
      headOf: (client) => (client ? feedHead("client", contextFor(pageOf(client))) : feedHead("salon", ofSalon)),
    },
  };
};

const troubleOf = (diary: Diary) => {
  if (diary.trouble) return { kind: diary.trouble.kind, since: diary.trouble.since };
  if (diary.lastGood === null) return { kind: "never-read", since: diary.added } as const;
  return diary.unreadSince === null ? undefined : ({ kind: "unread", since: diary.unreadSince } as const);
};
