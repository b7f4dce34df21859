/**
 * What a salon's feeds have said since it was made, and what they may therefore say next: no SEQUENCE falls, no stamp goes
 * back, no stamp stands for two contents, no ETag for two bodies, and no event goes without its tombstone.
 */
import { createHash } from "node:crypto";
import type { Answered } from "./Caller.ts";
import type { Order } from "./Held.ts";
import { type EventSeen, type FeedSeen, readFeed } from "./readFeed.ts";
import type { Tally } from "./Tally.ts";

/** One feed in one form. */
export interface Form {
  readonly name: string;
  readonly query: string;
  readonly isJcal: boolean;
  /** Whether it shows every event of its feed. */
  readonly isWhole: boolean;
}

export const PLAIN: Form = { name: "plain", query: "", isJcal: false, isWhole: true };
export const JCAL: Form = { name: "jCal", query: "", isJcal: true, isWhole: true };
export const UTC: Form = { name: "in UTC", query: "?tz=utc", isJcal: false, isWhole: true };
export const OF_SALON: readonly Form[] = [
  PLAIN,
  JCAL,
  UTC,
  { name: "as tasks", query: "?as=tasks", isJcal: false, isWhole: true },
  { name: "applications", query: "?kinds=application", isJcal: false, isWhole: false },
];
export const OF_CLIENT: readonly Form[] = [PLAIN, JCAL, UTC];

/** The highest that was seen of one event up to a moment. */
interface Mark {
  readonly order: number;
  readonly sequence: number;
  readonly modified: string;
  readonly stamp: string;
}

const digest = (text: string | Buffer): string => createHash("sha1").update(text).digest("base64");
const later = (one: string, other: string): string => (one > other ? one : other);

export class FeedLog {
  readonly #order: Order;
  readonly #tally: Tally;
  readonly #bodies = new Map<string, string>();
  readonly #contents = new Map<string, string>();
  readonly #marks = new Map<string, Map<string, Mark[]>>();

  constructor(order: Order, tally: Tally) {
    this.#order = order;
    this.#tally = tally;
  }

  begin(): number {
    return this.#order.next();
  }

  /**
   * Judges a feed that was served with 200. Answers that crossed say nothing of each other's order: only what had been
   * answered before this one was asked for counts.
   * @param began the order at which it was asked for
   */
  take(feed: string, form: Form, began: number, answer: Answered): FeedSeen | undefined {
    const what = `${feed}, ${form.name}`;
    this.#tally.add("feeds");
    const read = readFeed(answer, form.isJcal);
    const etag = answer.headers.etag;
    if ("half" in read) this.#tally.fault(`half a feed: ${what}: ${read.half}`);
    if (etag === undefined) this.#tally.fault(`no ETag: ${what}`);
    if ("half" in read || etag === undefined) return undefined;
    if (!this.#isFirst(this.#bodies, `${what} ${etag}`, digest(answer.body))) {
      this.#tally.fault(`one ETag for two bodies: ${what}: ${etag}`);
    }
    const marks = this.#marks.get(feed) ?? new Map<string, Mark[]>();
    this.#marks.set(feed, marks);
    this.#tellMissing(what, form, began, marks, read.feed);
    for (const event of read.feed.events) this.#takeEvent(what, marks, began, event);
    return read.feed;
  }

  #takeEvent(what: string, marks: Map<string, Mark[]>, began: number, event: EventSeen): void {
    this.#tally.add("events");
    const { uid, sequence, modified, stamp } = event;
    const known = marks.get(uid) ?? [];
    const before = known.findLast(({ order }) => order < began);
    const fault = (words: string): void => this.#tally.fault(`${words}: ${what}: UID ${uid}`);
    if (modified !== stamp) fault(`LAST-MODIFIED ${modified} is not DTSTAMP ${stamp}`);
    if (!(sequence >= (before?.sequence ?? 0))) fault(`SEQUENCE fell from ${before?.sequence} to ${sequence}`);
    if (before && modified < before.modified) fault(`LAST-MODIFIED fell from ${before.modified} to ${modified}`);
    if (before && stamp < before.stamp) fault(`DTSTAMP fell from ${before.stamp} to ${stamp}`);
    if (!this.#isFirst(this.#contents, `${what} ${uid} ${modified}`, digest(event.content))) {
      fault(`two contents with LAST-MODIFIED ${modified}`);
    }
    const last = known.at(-1);
    if (last && last.sequence >= sequence && last.modified >= modified && last.stamp >= stamp) return;
    known.push({
      order: this.#order.next(),
      sequence: Math.max(last?.sequence ?? 0, sequence),
      modified: later(last?.modified ?? "", modified),
      stamp: later(last?.stamp ?? "", stamp),
    });
    marks.set(uid, known);
  }

  #tellMissing(what: string, form: Form, began: number, marks: Map<string, Mark[]>, { events, isCut }: FeedSeen): void {
    const uids = new Set(events.map(({ uid }) => uid));
    if (uids.size !== events.length) this.#tally.fault(`one UID twice: ${what}`);
    if (!form.isWhole || isCut) return;
    this.#tally.add("wholeFeeds");
    for (const [uid, [first]] of marks) {
      if (first && first.order < began && !uids.has(uid)) this.#tally.fault(`an event is lost: ${what}: UID ${uid}`);
    }
  }

  /** Whether nothing else was known under this key. */
  #isFirst(known: Map<string, string>, key: string, value: string): boolean {
    const before = known.get(key) ?? value;
    known.set(key, value);
    return before === value;
  }
}
