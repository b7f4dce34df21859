/** What a reader tells of a feed, and what it should tell, in one shape for all readers. */

/** A moment in seconds since 1970 in UTC, or a day as `2026-10-25` where an event is all-day. */
export type When = number | string;

export interface ReadAlarm {
  /** Null where the reader keeps none. */
  readonly uid: string | null;
  readonly at: number;
  readonly words: string;
}

export interface ReadEvent {
  readonly uid: string;
  /** Null where there is none: a task need not begin. */
  readonly start: When | null;
  /** Of a task its due. */
  readonly end: When | null;
  readonly summary: string;
  readonly description: string;
  readonly status: string;
  readonly sequence: number;
  readonly stamp: number;
  /** In order of their moments. */
  readonly alarms: readonly ReadAlarm[];
}

/** What a calendar says of itself: NAME or X-WR-CALNAME, DESCRIPTION or X-WR-CALDESC (RFC 7986 §5.1, §5.2). */
export interface ReadHead {
  readonly name: string | null;
  readonly about: string | null;
}

/** A line of a reader's answer. A reader that does not tell something leaves it out. */
export interface ReadFeed {
  readonly feed: string;
  readonly head: Partial<ReadHead>;
  /** Whatever the reader complains of, in its own words. */
  readonly problems: readonly string[];
  readonly events: readonly (Partial<ReadEvent> & Pick<ReadEvent, "uid">)[];
}

export const inOrder = (alarms: readonly ReadAlarm[]): readonly ReadAlarm[] =>
  alarms.toSorted((left, right) => left.at - right.at || (left.words < right.words ? -1 : 1));
