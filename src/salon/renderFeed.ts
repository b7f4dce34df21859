/** One feed's bytes, from what is published to its audience. Pure: the same state gives the same bytes. */
import { createHash } from "node:crypto";
import { writeEvent } from "../feed/writeEvent.ts";
import { writeFeed } from "../feed/writeFeed.ts";
import type { FeedZone } from "../feed/types.ts";
import type { Instant } from "../time/instant.ts";
import type { SalonDesk } from "./desk.ts";
import type { RenderedFeed } from "./store.ts";
import type { Audience, State, StoredEvent } from "./types.ts";

/** Which of the salon feed's events are wanted, and in which zone they are written. */
export interface FeedChoice {
  readonly kinds: ReadonlySet<string> | null;
  readonly who: ReadonlySet<string> | null;
  readonly service: ReadonlySet<string> | null;
  readonly utc: boolean;
}

const EVERYTHING: FeedChoice = { kinds: null, who: null, service: null, utc: false };

const isWanted = (event: StoredEvent, { kinds, who, service }: FeedChoice): boolean =>
  (!kinds || kinds.has(event.content.kind)) &&
  (!who || who.has(event.who)) &&
  (!service || event.service === null || service.has(event.service));

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
  /** Of the text: an ETag is made of these, so that a feed of which one event changed is not hashed whole. */
  readonly digest: string;
}

const digestOf = (text: string): string => createHash("sha256").update(text).digest("base64url");

const write = (event: StoredEvent, zone: FeedZone | null): WrittenEvent => {
  const known = written.get(event);
  if (known && known.zone === zone) return known;
  const text = writeEvent(event.content, event.stamps, zone);
  const made = { zone, text, digest: digestOf(text) };
  written.set(event, made);
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

/** @param saidAt when the feed's own name, words or zone last changed */
export const renderFeed = (
  audience: Audience,
  state: State,
  desk: SalonDesk,
  saidAt: Instant,
  choice: FeedChoice = EVERYTHING,
): RenderedFeed => {
  let modified = saidAt;
  const shown: StoredEvent[] = [];
  for (const event of state.events.values()) {
    if (event.audience !== audience) continue;
    modified = Math.max(modified, event.stamps.lastModified, event.shown ? 0 : event.expires);
    if (event.shown && isWanted(event, choice)) shown.push(event);
  }
  const zone = choice.utc ? null : desk.feedZone;
  const head = desk.headOf(state.clients.get(audience));
  const events = inOrder(shown, desk).map((event) => write(event, zone));
  const body = writeFeed(
    head,
    zone,
    events.map(({ text }) => text),
  );
  // The bytes follow from the empty feed and its events' texts in this order, and from nothing else.
  const print = digestOf([writeFeed(head, zone, []), ...events.map(({ digest }) => digest)].join("\n"));
  return { body, modified, etag: `"${print.slice(0, 27)}"` };
};
