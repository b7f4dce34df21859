/** The differences between what a feed should say and what a reader understood, in short lines for a failure's message. */
import type { ReadEvent, ReadFeed, ReadHead } from "./types.ts";

export interface WantedFeed {
  readonly head: ReadHead;
  readonly events: readonly ReadEvent[];
}

export type Field = Exclude<keyof ReadEvent, "uid">;

/** Long words differ somewhere: the message shows where, with a little around it. */
const AROUND = 30;

const shown = (value: unknown, from: number): string =>
  typeof value === "string"
    ? JSON.stringify(value.slice(Math.max(0, from - AROUND), from + AROUND))
    : JSON.stringify(value);

const differAt = (wanted: unknown, got: unknown): number => {
  if (typeof wanted !== "string" || typeof got !== "string") return 0;
  let at = 0;
  while (at < wanted.length && wanted[at] === got[at]) at++;
  return at;
};

/**
 * node-ical 0.27.2 and python-icalendar 4.0.3 take the escapes of a TEXT off in several passes: a backslash and an n become
 * a line's end, two backslashes one. Of words that hold a backslash, and of no others, this is what must still agree.
 */
export const besideEscapes = (words: string): string => words.replaceAll(/(?:\\[nN]|[\\\n,;])+/g, " ");

/** As JSON, where the value is of words or of alarms with their words. */
const blurred = (value: unknown): string =>
  JSON.stringify(value, (_, part: unknown) => (typeof part === "string" ? besideEscapes(part) : part));

/** A backslash of words, which JSON writes as two. */
const holdsBackslash = (value: unknown): boolean => JSON.stringify(value)?.includes("\\\\") ?? false;

const isSame = (wanted: unknown, got: unknown, blurs: boolean): boolean =>
  blurs && holdsBackslash(wanted) ? blurred(wanted) === blurred(got) : JSON.stringify(wanted) === JSON.stringify(got);

/**
 * @param fieldsOf what the reader tells of an event
 * @param blurs whether the reader is one of those that take escapes off in several passes
 */
export const compareFeed = (
  { head: wantedHead, events: wanted }: WantedFeed,
  { feed, problems, head, events }: ReadFeed,
  fieldsOf: (event: ReadEvent) => readonly Field[],
  blurs: boolean,
): readonly string[] => {
  const found = problems.map((problem) => `${feed}: ${problem}`);
  for (const field of Object.keys(head) as (keyof ReadHead)[]) {
    if (isSame(wantedHead[field], head[field], blurs)) continue;
    const at = differAt(wantedHead[field], head[field]);
    found.push(`${feed} ${field}: wanted ${shown(wantedHead[field], at)}, read ${shown(head[field], at)}`);
  }
  const read = new Map(events.map((event) => [event.uid, event]));
  if (read.size !== events.length || events.length !== wanted.length) {
    found.push(`${feed}: ${events.length} events of ${read.size} UIDs, wanted ${wanted.length}`);
  }
  for (const event of wanted) {
    const got = read.get(event.uid);
    if (!got) {
      found.push(`${feed} ${event.uid}: not there`);
      continue;
    }
    for (const field of fieldsOf(event)) {
      if (isSame(event[field], got[field], blurs)) continue;
      const at = differAt(event[field], got[field]);
      found.push(`${feed} ${event.uid} ${field}: wanted ${shown(event[field], at)}, read ${shown(got[field], at)}`);
    }
  }
  return found;
};

/**
 * The same where a reader gives no UIDs back: events are then told apart by all that they say. The reader is khal, which
 * reads by python-icalendar; in a feed with a backslash in it all events are compared beside their escapes.
 */
export const compareUnnamed = (
  feed: string,
  wanted: readonly ReadEvent[],
  events: ReadFeed["events"],
): readonly string[] => {
  const write = wanted.some(holdsBackslash) ? blurred : (row: unknown): string => JSON.stringify(row);
  const said = (all: ReadFeed["events"]): readonly string[] =>
    all
      .map(({ start, end, status, summary, description, alarms = [] }) =>
        // khal takes the spaces off a description's ends, and of alarms tells only that there are some.
        write([start, end, status, summary, description?.trim(), alarms.length > 0]),
      )
      .sort();
  const [should, does] = [said(wanted), said(events)];
  if (JSON.stringify(should) === JSON.stringify(does)) return [];
  const shorter = (rows: readonly string[], others: readonly string[]): readonly string[] =>
    rows.filter((row) => !others.includes(row)).map((row) => row.slice(0, 300));
  return [
    `${feed}: ${does.length} events, wanted ${should.length}`,
    ...shorter(should, does).map((row) => `${feed}: wanted ${row}`),
    ...shorter(does, should).map((row) => `${feed}: listed ${row}`),
  ];
};
