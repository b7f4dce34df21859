/**
 * Turns what feeds should say into events with stamps, by comparing with what they said before: equal content keeps its
 * stamps, changed content gets new ones, and what is no longer said stays as a tombstone. Never reads a clock.
 */
import { HORIZON_PAST_DAYS, TOMBSTONE_DAYS } from "../bounds.ts";
import { cancelContent } from "../feed/cancelContent.ts";
import type { EventContent } from "../feed/types.ts";
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type Audience, type Booking, eventKey, type StoredEvent } from "./types.ts";

/** One event as a feed should say it now. */
export interface Draft {
  readonly audience: Audience;
  readonly who: "salon" | "client";
  readonly service: string | null;
  readonly content: EventContent;
}

const isSame = (left: EventContent, right: EventContent): boolean => JSON.stringify(left) === JSON.stringify(right);

const isSameTime = (left: EventContent, right: EventContent): boolean =>
  JSON.stringify(left.time) === JSON.stringify(right.time);

/** When an event leaves the feed: a tombstone 30 days after it was laid, any other 30 days after its end. */
const expiryOf = (content: EventContent, previous: StoredEvent | undefined, at: Instant, zone: Zone): Instant => {
  if (content.cancelled) return previous?.content.cancelled ? previous.expires : at + TOMBSTONE_DAYS * DAY_SECONDS;
  const end = content.time.allDay ? zone.startOfDay(content.time.to) : content.time.to;
  return end + HORIZON_PAST_DAYS * DAY_SECONDS;
};

/** What was said of the same event elsewhere or long ago: whoever follows it still sees nothing fall. */
type Said = NonNullable<Booking["said"]>;

const restamp = (
  draft: Draft,
  booking: string | null,
  previous: StoredEvent | undefined,
  elsewhere: Said | undefined,
  at: Instant,
  zone: Zone,
) => {
  const { content } = draft;
  if (previous && isSame(previous.content, content)) {
    // What filters go by may change though nothing that is said does.
    const { who, service } = draft;
    return previous.who === who && previous.service === service ? previous : { ...previous, who, service };
  }
  const expires = expiryOf(content, previous, at, zone);
  const moved =
    previous && (!isSameTime(previous.content, content) || previous.content.cancelled !== content.cancelled);
  return {
    ...draft,
    booking,
    expires,
    shown: expires > at,
    timed: previous && !moved ? previous.timed : at,
    stamps: previous
      ? {
          created: previous.stamps.created,
          lastModified: Math.max(at, previous.stamps.lastModified + 1),
          sequence: previous.stamps.sequence + (moved ? 1 : 0),
        }
      : {
          created: at,
          lastModified: elsewhere ? Math.max(at, elsewhere.lastModified + 1) : at,
          sequence: elsewhere ? elsewhere.sequence + 1 : 0,
        },
  };
};

/** The newest that any other client's feed has said of an event, and what is not kept any more of its booking. */
const saidBefore = (draft: Draft, said: Said | null, published: readonly StoredEvent[]): Said | undefined => {
  const isElsewhere = ({ audience, content }: StoredEvent): boolean =>
    draft.audience !== "salon" && audience !== "salon" && content.uid === draft.content.uid;
  const others = [...published.filter(isElsewhere).map(({ stamps }) => stamps), ...(said ? [said] : [])];
  if (others.length === 0) return undefined;
  return {
    sequence: Math.max(...others.map(({ sequence }) => sequence)),
    lastModified: Math.max(...others.map(({ lastModified }) => lastModified)),
  };
};

/**
 * The events that differ after `drafts` are all that is to be said of one booking (or, with null, of the diaries).
 * @param published every event stored of that booking, in whatever feed
 */
export const publish = (
  drafts: readonly Draft[],
  booking: Pick<Booking, "uid" | "said"> | null,
  published: readonly StoredEvent[],
  at: Instant,
  zone: Zone,
): readonly StoredEvent[] => {
  const before = new Map(published.map((event) => [eventKey(event.audience, event.content.uid), event]));
  const wanted = new Map(drafts.map((draft) => [eventKey(draft.audience, draft.content.uid), draft]));
  for (const [key, event] of before) {
    if (!wanted.has(key)) wanted.set(key, { ...event, content: cancelContent(event.content) });
  }
  const changed: StoredEvent[] = [];
  for (const [key, draft] of wanted) {
    const previous = before.get(key);
    if (!previous && draft.content.cancelled) continue;
    const elsewhere = previous ? undefined : saidBefore(draft, booking?.said ?? null, published);
    const event = restamp(draft, booking?.uid ?? null, previous, elsewhere, at, zone);
    // What would have left the feed already is not said for the first time.
    if (!previous && !event.shown) continue;
    if (event !== previous) changed.push(event);
  }
  return changed;
};
