/**
 * What a reader asks of a feed, read from its request, and the answer's headers (RFC 9110 §8.8, §13). The Worker hands the
 * request on as it came and the salon answers it whole, so that nothing large passes the Worker. Never compresses, sets no
 * cookie.
 */
import { EVENT_KINDS } from "../feed/types.ts";
import type { Instant } from "../time/instant.ts";
import { readCheckedLink } from "./checkedLink.ts";
import { type FeedForm, PLAIN } from "./feedForm.ts";
import type { LinkClaim } from "./link.ts";
import { prefersJcal } from "./prefersJcal.ts";
import type { FeedHeld } from "./store.ts";
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
  const since = Date.parse(headers.get("if-modified-since") ?? "");
  return {
    audience: isSalon ? "salon" : `c${holder.client}`,
    generation,
    form: prefersJcal(headers.get("accept")) ? { ...form, jcal: true } : form,
    name: address.name,
    noneMatch: headers.get("if-none-match"),
    since: Number.isNaN(since) ? null : since,
    asIs: asked?.get("encoding") === "identity",
  };
};

/** A comma list as sorted words, each once; null where nothing is asked for. */
const listOf = (value: string | null): readonly string[] | null => {
  const words = [...new Set((value ?? "").split(",").map((word) => word.trim()))].filter((word) => word !== "");
  return words.length === 0 ? null : words.sort();
};

/** Those that are known. Where none is, all is shown: a calendar that a slip of the pen left empty looks like nothing due. */
const among = (words: readonly string[] | null, known: readonly string[]): readonly string[] | null => {
  const found = words?.filter((word) => known.includes(word)) ?? [];
  return found.length === 0 ? null : found;
};

const clientForm = (asked: URLSearchParams): FeedForm => ({
  ...PLAIN,
  once: asked.has("once"),
  utc: asked.get("tz") === "utc",
});

/** What is not known is ignored: clients add parameters of their own. */
const salonForm = (asked: URLSearchParams): FeedForm => ({
  ...PLAIN,
  kinds: among(listOf(asked.get("kinds")), EVENT_KINDS),
  who: among(listOf(asked.get("who")), ["client", "salon"]),
  service: listOf(asked.get("service")),
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
