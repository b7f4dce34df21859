/** A stored feed as an HTTP answer: validators, 304 and headers (RFC 9110 §8.8, §13). Never compresses, sets no cookie. */
import type { RenderedFeed } from "../salon/store.ts";

/** Weak comparison of an If-None-Match list with a strong ETag (RFC 9110 §13.1.2). */
export const matchesNone = (header: string, etag: string): boolean =>
  header.trim() === "*" || [...header.matchAll(/(?:W\/)?("[^"]*")/g)].some(([, tag]) => tag === etag);

const isUnchanged = (request: Request, feed: RenderedFeed): boolean => {
  const noneMatch = request.headers.get("if-none-match");
  if (noneMatch !== null) return matchesNone(noneMatch, feed.etag);
  const since = Date.parse(request.headers.get("if-modified-since") ?? "");
  return !Number.isNaN(since) && feed.modified * 1000 <= since;
};

/** @param filename the human name of the file, such as skin-test.ics */
export const serveFeed = (request: Request, feed: RenderedFeed, filename: string): Response => {
  const headers = new Headers({
    etag: feed.etag,
    "last-modified": new Date(feed.modified * 1000).toUTCString(),
    "cache-control": "private, no-cache",
    vary: "Accept",
    "referrer-policy": "no-referrer",
    "x-robots-tag": "noindex",
    "x-content-type-options": "nosniff",
  });
  if (isUnchanged(request, feed)) return new Response(null, { status: 304, headers });
  headers.set("content-type", "text/calendar; charset=utf-8");
  headers.set("content-disposition", `inline; filename="${filename}"`);
  return new Response(feed.body, { headers });
};
