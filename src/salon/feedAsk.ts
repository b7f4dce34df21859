/**
 * What a reader asks of a feed, read from its request, and the answer's headers (RFC 9110 §8.8, §13). The Worker hands the
 * request on as it came and the salon answers it whole, so that nothing large passes the Worker. Never compresses, sets no
 * cookie.
 */
import { EVENT_KINDS } from "../feed/types.ts";
import type { Instant } from "../time/instant.ts";
import { readCheckedLink } from "./checkedLink.ts";
import { type FeedForm, PLAIN, serviceKey } from "./feedForm.ts";
import type { LinkClaim } from "./link.ts";
import { prefersJcal } from "./prefersJcal.ts";
import type { FeedHeld } from "./FeedTable.ts";
import type { Audience } from "./types.ts";

export interface FeedAsk {
  readonly audience: Audience;
  /** Of the link. */
  readonly generation: number;
  readonly form: FeedForm;
  /** The human name of the file, without its ending. */
  readonly name: string;
  /** Its If-None-Match as it came. */
  readonly noneMatch: string | null;
  /** Its If-Modified-Since; counts only where there is no If-None-Match (RFC 9110 §13.2.2). Milliseconds. */
  readonly since: number | null;
  /** Whether nobody on the way may compress it (`?encoding=identity`). */
  readonly asIs: boolean;
}

/** A client's feed stands under two names: some calendars are called by the file's, and one is for who wants it discreet. */
const FEED_PATH = /^[^:]+:\/\/[^/]+\/(?:c\/([^/?#]+)\/(skin-test|reminders)|s\/([^/?#]+)\/(deadlines))\.ics(?:[?#]|$)/;

export interface FeedAddress {
  readonly claim: LinkClaim;
  readonly name: string;
}

/** The feed an address stands for: undefined where it is no feed's, null where its link was never given out for it. */
export const feedAddress = (url: string, secret: string): FeedAddress | null | undefined => {
  const found = FEED_PATH.exec(url);
  if (!found) return undefined;
  const [, client, clientFile, salon, salonFile] = found;
  const claim = readCheckedLink((client ?? salon) as string, secret);
  if (!claim || (claim.holder === "salon-feed") !== (client === undefined)) return null;
  return { claim, name: (clientFile ?? salonFile) as string };
};

/** What a request for a feed asks; null where its link was never given out. */
export const askOf = ({ url, headers }: Request, secret: string): FeedAsk | null => {
  const address = feedAddress(url, secret);
  if (!address) return null;
  const { holder, generation } = address.claim;
  const isSalon = holder === "salon-feed";
  const asked = url.includes("?") ? new URL(url).searchParams : null;
  const form = asked === null ? PLAIN : isSalon ? salonForm(asked) : clientForm(asked);
  const since = readHttpDate(headers.get("if-modified-since") ?? "");
  return {
    audience: isSalon ? "salon" : `c${holder.client}`,
    generation,
    form: prefersJcal(headers.get("accept")) ? { ...form, jcal: true } : form,
    name: address.name,
    noneMatch: headers.get("if-none-match"),
    since,
    asIs: asked?.get("encoding") === "identity",
  };
};

/** The two forms of a date that a recipient must still read (RFC 9110 §5.6.7). */
const OLD_DATES = [
  /^(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day, \d{2}-[A-Z][a-z]{2}-\d{2} \d{2}:\d{2}:\d{2} GMT$/,
  /^[A-Z][a-z]{2} [A-Z][a-z]{2} [ \d]\d \d{2}:\d{2}:\d{2} \d{4}$/,
];

/** Milliseconds; null of what is no HTTP date, which counts as not said (RFC 9110 §13.1.3). */
const readHttpDate = (text: string): number | null => {
  const isOld = OLD_DATES.some((form) => form.test(text));
  const at = Date.parse(isOld && !text.endsWith("GMT") ? `${text} GMT` : text);
  if (Number.isNaN(at)) return null;
  return isOld || new Date(at).toUTCString() === text ? at : null;
};

/** Comma lists as sorted words, each once; null where nothing is asked for. */
const listOf = (values: readonly string[]): readonly string[] | null => {
  const words = [...new Set(values.map((word) => word.trim()))].filter((word) => word !== "");
  return words.length === 0 ? null : words.sort();
};

const partsOf = (values: readonly string[]): readonly string[] => values.flatMap((value) => value.split(","));

/** Those that are known. Where none is, all is shown: a calendar that a slip of the pen left empty looks like nothing due. */
const among = (words: readonly string[] | null, known: readonly string[]): readonly string[] | null => {
  const found = words?.filter((word) => known.includes(word)) ?? [];
  return found.length === 0 ? null : found;
};

/** A service's name may have commas in it: the whole is meant as well as its parts. */
const servicesOf = (values: readonly string[]): readonly string[] => [...values, ...partsOf(values)].map(serviceKey);

/** The appointment itself stands in the salon's diary already. */
const SALON_KINDS = EVENT_KINDS.filter((kind) => kind !== "colour");

const clientForm = (asked: URLSearchParams): FeedForm => ({
  ...PLAIN,
  once: asked.has("once"),
  utc: asked.get("tz") === "utc",
});

/** What is not known is ignored: clients add parameters of their own. */
const salonForm = (asked: URLSearchParams): FeedForm => ({
  ...PLAIN,
  kinds: among(listOf(partsOf(asked.getAll("kinds"))), SALON_KINDS),
  who: among(listOf(partsOf(asked.getAll("who"))), ["client", "salon"]),
  service: listOf(servicesOf(asked.getAll("service"))),
  utc: asked.get("tz") === "utc",
  tasks: asked.get("as") === "tasks",
});

/** Weak comparison of an If-None-Match list with a strong ETag (RFC 9110 §13.1.2). */
export const matchesNone = (header: string, etag: string): boolean =>
  header === etag ||
  header.trim() === "*" ||
  [...header.matchAll(/(?:W\/)?("[^"]*")/g)].some(([, tag]) => tag === etag);

/** Whether the reader holds these bytes already. */
export const isHeld = ({ noneMatch, since }: FeedAsk, { etag, modified }: FeedHeld): boolean =>
  noneMatch === null ? since !== null && modified * 1000 <= since : matchesNone(noneMatch, etag);

/** The headers of a 200 and of a 304 alike: a 304 without a type is compressed by some servers, though it has no body. */
export const feedHeaders = ({ form, name, asIs }: FeedAsk, { etag, modified }: FeedHeld): Headers => {
  const ending = form.jcal ? "json" : "ics";
  return new Headers({
    "content-type": form.jcal ? "application/calendar+json; charset=utf-8" : "text/calendar; charset=utf-8",
    "content-disposition": `${form.once ? "attachment" : "inline"}; filename="${name}.${ending}"`,
    etag,
    "last-modified": httpDate(modified),
    "cache-control": asIs ? "private, no-cache, no-transform" : "private, no-cache",
    vary: "Accept",
    "referrer-policy": "no-referrer",
    "x-robots-tag": "noindex",
    "x-content-type-options": "nosniff",
  });
};

const httpDate = (at: Instant): string => new Date(at * 1000).toUTCString();
