/** One feed's bytes, from what is published to its audience. Pure: the same state on the same day gives the same bytes. */
import { createHash } from "node:crypto";
import { FEED_MAX_BYTES } from "../bounds.ts";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { onceContent } from "../feed/onceContent.ts";
import { longTime } from "../feed/timeInWords.ts";
import type { FeedHead, FeedZone } from "../feed/types.ts";
import { writeEvent, writeTask } from "../feed/writeEvent.ts";
import { writeFeed } from "../feed/writeFeed.ts";
import { writeJcal } from "../feed/writeJcal.ts";
import type { Instant } from "../time/instant.ts";
import type { SalonDesk } from "./desk.ts";
import { type FeedForm, PLAIN, serviceKey } from "./feedForm.ts";
import { fitWindow } from "./feedWindow.ts";
import type { RenderedFeed } from "./FeedTable.ts";
import type { Audience, State, StoredEvent } from "./types.ts";

const isAmong = (wanted: readonly string[] | null, value: string): boolean => !wanted || wanted.includes(value);

/** That a diary is not read concerns whoever does a step: only who names kinds can leave it out. */
const isOfDiary = ({ booking, content }: StoredEvent): boolean => booking === null && !content.cancelled;

const isWanted = (event: StoredEvent, { kinds, who, service }: FeedForm): boolean =>
  isAmong(kinds, event.content.kind) &&
  (isAmong(who, event.who) || isOfDiary(event)) &&
  (event.service === null || isAmong(service, serviceKey(event.service)));

const startOf = ({ content: { time } }: StoredEvent, desk: SalonDesk): Instant =>
  time.allDay ? desk.rules.zone.startOfDay(time.from) : time.from;

/**
 * Texts of events as they were last written: an event never changes, another takes its place. They go with their events,
 * and those of a feed that nobody asks for are never made.
 */
const written = new WeakMap<StoredEvent, WrittenEvent>();

interface WrittenEvent {
  readonly zone: FeedZone | null;
  readonly text: string;
  readonly octets: number;
  /** Of the text: an ETag is made of these, so that a feed of which one event changed is not hashed whole. */
  readonly digest: string;
}

const digestOf = (text: string): string => createHash("sha256").update(text).digest("base64url");

const writtenAs = (text: string, zone: FeedZone | null): WrittenEvent => ({
  zone,
  text,
  octets: Buffer.byteLength(text),
  digest: digestOf(text),
});

/** Only what most readers ask for is kept: the other forms are served as stored. */
const write = (event: StoredEvent, zone: FeedZone | null, form: FeedForm, desk: SalonDesk): WrittenEvent => {
  const { content, stamps } = event;
  if (form.tasks) return writtenAs(writeTask(content, stamps, zone), zone);
  if (form.once) {
    return writtenAs(writeEvent(onceContent(content, desk.rules.settings.language), stamps, zone), zone);
  }
  const known = written.get(event);
  if (known && known.zone === zone) return known;
  const made = writtenAs(writeEvent(content, stamps, zone), zone);
  if (!form.utc || desk.feedZone === null) written.set(event, made);
  return made;
};

/** By start, then UID. In numbers, since a feed may have tens of thousands: each is a start and the place it came from. */
const inOrder = (events: readonly StoredEvent[], desk: SalonDesk): readonly StoredEvent[] => {
  const count = events.length;
  const keys = Float64Array.from(events, (event, place) => startOf(event, desk) * count + place).sort();
  const ordered = Array.from(keys, (key) => events[key - Math.floor(key / count) * count] as StoredEvent);
  for (let from = 0, to = 1; from < count; from = to++) {
    const start = Math.floor((keys[from] as number) / count);
    while (to < count && Math.floor((keys[to] as number) / count) === start) to++;
    if (to - from > 1) {
      const same = ordered.slice(from, to).sort((a, b) => (a.content.uid < b.content.uid ? -1 : 1));
      for (const [index, event] of same.entries()) ordered[from + index] = event;
    }
  }
  return ordered;
};

/** The events that a feed has room for, and what its head says where others are left out. */
interface Fitted {
  readonly texts: readonly WrittenEvent[];
  readonly head: FeedHead;
  readonly isCut: boolean;
}

/** What a property of jCal takes beside its value, measured: brackets, quotes, its type and the dashes of dates. */
const JCAL_PROPERTY = 20;

/** An event's share of the body; as jCal at most. */
const octetsOf = ({ text, octets }: WrittenEvent, { jcal }: FeedForm): number =>
  jcal ? octets + JCAL_PROPERTY * (text.split(/\r\n(?! )/).length - 1) + (text.split('"').length - 1) : octets;

const fit = (
  events: readonly StoredEvent[],
  head: FeedHead,
  form: FeedForm,
  today: Instant,
  desk: SalonDesk,
): Fitted => {
  const zone = form.utc ? null : desk.feedZone;
  const texts = events.map((event) => write(event, zone, form, desk));
  const sized = events.map((event, place) => ({
    start: startOf(event, desk),
    octets: octetsOf(texts[place] as WrittenEvent, form),
    isNotice: event.content.kind === "notice",
  }));
  const places = fitWindow(sized, today, FEED_MAX_BYTES);
  if (places.length === events.length) return { texts, head, isCut: false };
  const { leftOut } = catalogueOf(desk.rules.settings.language).feed;
  const { time } = catalogueOf(desk.rules.settings.language);
  const timed = places.filter((place) => !sized[place]?.isNotice).map((place) => sized[place]?.start ?? today);
  const said = (at: Instant | undefined): string => longTime(at ?? today, desk.rules.zone, time);
  const words = fill(leftOut, {
    from: said(timed[0]),
    to: said(timed.at(-1)),
    count: String(events.length - places.length),
  });
  return {
    texts: places.map((place) => texts[place] as WrittenEvent),
    head: { ...head, description: `${head.description} ${words}` },
    isCut: true,
  };
};

/**
 * @param saidAt when the feed's own name, words or zone last changed
 * @param form how it was asked for
 */
export const renderFeed = (
  audience: Audience,
  state: State,
  desk: SalonDesk,
  saidAt: Instant,
  form: FeedForm = PLAIN,
): RenderedFeed => {
  let modified = saidAt;
  const shown: StoredEvent[] = [];
  for (const event of state.events.values()) {
    if (event.audience !== audience) continue;
    modified = Math.max(modified, event.stamps.lastModified, event.shown ? 0 : event.expires);
    if (event.shown && isWanted(event, form)) shown.push(event);
  }
  const { zone: clock } = desk.rules;
  const today = clock.startOfDay(clock.dayAt(state.settledTo));
  const whole = desk.headOf(state.clients.get(audience));
  const asked = form.once ? { ...whole, refreshMinutes: null } : whole;
  const { texts, head, isCut } = fit(inOrder(shown, desk), asked, form, today, desk);
  const zone = form.utc ? null : desk.feedZone;
  const text = writeFeed(
    head,
    zone,
    texts.map((event) => event.text),
  );
  // The bytes follow from the empty feed and its events' texts in this order, and from nothing else.
  const print = digestOf([writeFeed(head, zone, []), ...texts.map(({ digest }) => digest)].join("\n"));
  return {
    body: form.jcal ? writeJcal(text) : text,
    // Which events a full feed shows moves with the days.
    modified: isCut ? Math.max(modified, today) : modified,
    etag: `"${print.slice(0, 27)}${form.jcal ? ".json" : ""}"`,
    until: isCut ? clock.startOfDay(clock.dayAt(state.settledTo) + 1) : null,
  };
};
