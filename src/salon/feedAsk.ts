/**
 * A reader's question for a feed on its way from the Worker to the salon, and the answer's headers (RFC 9110 §8.8, §13). The
 * salon answers it whole, so that a large feed passes the Worker untouched. Never compresses, sets no cookie.
 */
import type { Instant } from "../time/instant.ts";
import type { FeedForm } from "./feedForm.ts";
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

const HEADER = "x-feed";

/** As one header, in ASCII. */
export const askRequest = (ask: FeedAsk): Request => {
  const text = JSON.stringify(ask).replace(
    /[\u007f-\uffff]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
  return new Request("https://salon/feed", { headers: { [HEADER]: text } });
};

/** The question inside a request that `askRequest` has made; nobody but the Worker reaches a salon. */
export const askOf = (request: Request): FeedAsk => JSON.parse(request.headers.get(HEADER) ?? "null") as FeedAsk;

/** Weak comparison of an If-None-Match list with a strong ETag (RFC 9110 §13.1.2). */
export const matchesNone = (header: string, etag: string): boolean =>
  header === etag ||
  header.trim() === "*" ||
  [...header.matchAll(/(?:W\/)?("[^"]*")/g)].some(([, tag]) => tag === etag);

/** Whether the reader holds these bytes already. */
export const isHeld = ({ noneMatch, since }: FeedAsk, { etag, modified }: FeedHeld): boolean =>
  noneMatch === null ? since !== null && modified * 1000 <= since : matchesNone(noneMatch, etag);

/** The headers of a 200 and of a 304 alike: a 304 without a type is compressed by some servers, though it has no body. */
export const feedHeaders = ({ form, name, asIs }: FeedAsk, { etag, modified }: FeedHeld): Record<string, string> => {
  const ending = form.jcal ? "json" : "ics";
  return {
    "content-type": form.jcal ? "application/calendar+json; charset=utf-8" : "text/calendar; charset=utf-8",
    "content-disposition": `${form.once ? "attachment" : "inline"}; filename="${name}.${ending}"`,
    etag,
    "last-modified": httpDate(modified),
    "cache-control": asIs ? "private, no-cache, no-transform" : "private, no-cache",
    vary: "Accept",
    "referrer-policy": "no-referrer",
    "x-robots-tag": "noindex",
    "x-content-type-options": "nosniff",
  };
};

const httpDate = (at: Instant): string => new Date(at * 1000).toUTCString();
