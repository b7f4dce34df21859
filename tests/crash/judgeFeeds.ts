/**
 * The feeds after a restart, nothing else being asked meanwhile: each whole, the same when it is asked for again, and every
 * form of it telling of the same events with the same stamps, whether it was kept from before the kill or made anew.
 */
import type { Answer, Answered, Caller } from "./Caller.ts";
import { type Form, OF_CLIENT, OF_SALON, PLAIN } from "./FeedLog.ts";
import type { FeedSeen } from "./readFeed.ts";
import type { Tally } from "./Tally.ts";
import { type LinkedClient, sure, type WatchedSalon } from "./WatchedSalon.ts";

export interface FeedAnswer {
  readonly answer: Answer;
  readonly feed: FeedSeen | undefined;
}

/** Asks for one feed, and judges it where it comes whole. @param client undefined: the salon's */
export const askFeed = async (
  salon: WatchedSalon,
  caller: Caller,
  client: LinkedClient | undefined,
  form: Form,
  headers: Readonly<Record<string, string>> = {},
): Promise<FeedAnswer> => {
  const began = salon.feeds.begin();
  const path = client ? `${client.page}/skin-test.ics` : salon.feedPath;
  const accept = form.isJcal ? "application/calendar+json" : "text/calendar";
  const answer = await caller.ask("GET", `${path}${form.query}`, { headers: { accept, ...headers } });
  const isFeed = answer.kind === "answered" && answer.status === 200;
  return { answer, feed: isFeed ? salon.feeds.take(feedName(client), form, began, answer) : undefined };
};

/** A client is named by her number: never by her link. */
const feedName = (client: LinkedClient | undefined): string => (client ? `feed of ${client.id}` : "salon feed");

/** Time alone may change a feed between two questions; twice in a row it does not. */
const TRIES = 3;

export const judgeFeeds = async (salon: WatchedSalon, caller: Caller, tally: Tally, name: string): Promise<void> => {
  for (const client of [undefined, ...salon.linked]) {
    const what = feedName(client);
    let words: string | null = "it is another every time";
    for (let tried = 0; tried < TRIES && words !== null; tried++) {
      words = await compareForms(salon, caller, tally, client, client ? null : name);
    }
    if (words !== null) tally.fault(`${what}: ${words}`);
  }
};

/** What is wrong, null for nothing. A fault of what is said once is told at once; what time may explain comes back. */
const compareForms = async (
  salon: WatchedSalon,
  caller: Caller,
  tally: Tally,
  client: LinkedClient | undefined,
  name: string | null,
): Promise<string | null> => {
  const ask = async (form: Form, headers: Readonly<Record<string, string>> = {}): Promise<[Answered, FeedSeen?]> => {
    const { answer, feed } = await askFeed(salon, caller, client, form, headers);
    if (answer.kind === "answered" && answer.status === 304) return [answer];
    return feed ? [sure(answer, 200), feed] : [sure(answer, 200)];
  };
  const [first, feed] = await ask(PLAIN);
  if (name !== null && feed && !feed.name.endsWith(name)) return "its name is not that of the settings";
  for (const form of client ? OF_CLIENT : OF_SALON) {
    const [answer, other] = await ask(form);
    if (feed && other && !isSameStamps(feed, other, form)) return `${form.name} has other events or stamps than plain`;
    const [again] = await ask(form, { "if-none-match": answer.headers.etag ?? "" });
    if (again.status !== 304) return `its own ETag was answered ${again.status}, ${form.name}`;
    tally.add("unchanged");
  }
  const [last] = await ask(PLAIN);
  if (last.headers.etag !== first.headers.etag) return "another ETag a moment later";
  return last.body.equals(first.body) ? null : "another body a moment later";
};

const isSameStamps = ({ events, isCut }: FeedSeen, other: FeedSeen, { isWhole }: Form): boolean => {
  const isAny = isCut || other.isCut;
  const stamps = new Map(events.map(({ uid, sequence, modified }) => [uid, `${sequence} ${modified}`]));
  const agree = other.events.every(({ uid, sequence, modified }) => {
    const known = stamps.get(uid);
    return known === `${sequence} ${modified}` || (isAny && known === undefined);
  });
  return agree && (!isWhole || isAny || other.events.length === events.length);
};
