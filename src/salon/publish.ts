/**
 * Turns what feeds should say into events with stamps, by comparing with what they said before: equal content keeps its
 * stamps, changed content gets new ones, and what is no longer said stays as a tombstone. Never reads a clock.
 */
import { HORIZON_PAST_DAYS, TOMBSTONE_DAYS } from "../bounds.ts";
import { cancelContent } from "../feed/cancelContent.ts";
import type { EventContent } from "../feed/types.ts";
import { DAY_SECONDS, type Instant } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";
import { type Audience, eventKey, type StoredEvent } from "./types.ts";

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

const restamp = (draft: Draft, booking: string | null, previous: StoredEvent | undefined, at: Instant, zone: Zone) => {
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
    stamps: previous
      ? {
          created: previous.stamps.created,
          lastModified: Math.max(at, previous.stamps.lastModified + 1),
          sequence: previous.stamps.sequence + (moved ? 1 : 0),
        }
      : { created: at, lastModified: at, sequence: 0 },
  };
};

/**
 * The events that differ after `drafts` are all that is to be said of one booking (or, with null, of the diaries).
 * @param published every event stored of that booking, in whatever feed
 */
export const publish = (
  drafts: readonly Draft[],
  booking: string | null,
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
    const event = restamp(draft, booking, previous, at, zone);
    if (event !== previous) changed.push(event);
  }
  return changed;
};
