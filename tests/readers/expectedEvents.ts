/** What every reader should tell of a feed, from what the salon holds and not from the feed's bytes. */
import type { FeedHead } from "../../src/feed/types.ts";
import type { StoredEvent } from "../../src/salon/types.ts";
import { DAY_SECONDS } from "../../src/time/instant.ts";
import type { Zone } from "../../src/time/zone.ts";
import { cleanWords } from "./cleanWords.ts";
import { inOrder, type ReadAlarm, type ReadEvent, type ReadHead, type When } from "./types.ts";

/** Reminders of an event's content; a content without the field has none. */
interface WithAlarms {
  readonly alarms?: readonly {
    readonly uid: string;
    /** Seconds before the event starts; below nought where it comes after. */
    readonly before: number;
    /** Absent: the event's summary. */
    readonly words?: string;
  }[];
}

const day = (number: number): string => new Date(number * DAY_SECONDS * 1000).toISOString().slice(0, 10);

/** The start that a relative trigger counts from; an all-day event's is the midnight of its reader's own zone. */
const alarmsOf = ({ content }: StoredEvent): readonly ReadAlarm[] => {
  const { alarms = [] } = content as WithAlarms;
  const { time } = content;
  if (alarms.length > 0 && time.allDay) throw new Error("where an all-day event's reminder falls is not said here");
  return inOrder(
    alarms.map(({ uid, before, words }) => ({
      uid,
      at: time.from - before,
      words: words === undefined ? cleanWords(content.summary, " ") : cleanWords(words, "\n"),
    })),
  );
};

export const expectedEvent = (event: StoredEvent): ReadEvent => {
  const { content, stamps } = event;
  const { time } = content;
  const when = (at: number): When => (time.allDay ? day(at) : at);
  return {
    uid: content.uid,
    start: when(time.from),
    end: when(time.to),
    summary: cleanWords(content.summary, " "),
    description: cleanWords(content.description, "\n"),
    status: content.cancelled ? "CANCELLED" : "CONFIRMED",
    sequence: stamps.sequence,
    stamp: stamps.lastModified,
    alarms: alarmsOf(event),
  };
};

/** The same in a list of to-dos: due when the step is, and on the last day of a notice (RFC 5545 §3.6.2). */
export const expectedTask = (event: StoredEvent): ReadEvent => {
  const { time, task, cancelled } = event.content;
  const whole = expectedEvent(event);
  const due = task.due ?? time.to;
  return {
    ...whole,
    // §3.8.2.3: a DUE is later than the DTSTART, so that one that is not stands alone.
    start: time.allDay || due <= time.from ? null : whole.start,
    end: time.allDay ? day(time.to - 1) : due,
    status: cancelled ? "CANCELLED" : task.done ? "COMPLETED" : "NEEDS-ACTION",
  };
};

/** A calendar's name is one line and what it is about may be several; both are short here, so that neither is cut. */
export const expectedHead = ({ name, description }: FeedHead): ReadHead => ({
  name: cleanWords(name, " "),
  about: cleanWords(description, "\n"),
});

/** Whether an event that is not all-day starts or ends within so many seconds of a change of the clocks. */
export const isNearChange = ({ start, end }: ReadEvent, zone: Zone, within: number): boolean =>
  [start, end].some((at) => typeof at === "number" && zone.changes(at - within, at + within).length > 0);
