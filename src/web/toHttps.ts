/**
 * A `webcal:` link is asked for over http by some calendars (it names no other port): whoever asks a public service that way
 * is sent to https for good. 308 keeps the method, and is the one redirect that ICSx5 remembers.
 */
import { createMiddleware } from "hono/factory";
import type { Env, Service } from "./env.ts";

/** Hosts that have no certificate: this machine and its network. */
const LOCAL =
  /^(localhost|.*\.(localhost|local)|127\.[\d.]+|10\.[\d.]+|192\.168\.[\d.]+|172\.(1[6-9]|2\d|3[01])\.[\d.]+|\[.*\])$/;

/** The https address of what was asked over http; null where it was asked rightly, or where there is no https. */
export const httpsAddress = (
  request: Request,
  { PUBLIC_ORIGIN, ALLOW_LOCAL_DIARIES }: Pick<Env, "PUBLIC_ORIGIN" | "ALLOW_LOCAL_DIARIES">,
): string | null => {
  if (!request.url.startsWith("http:") || (PUBLIC_ORIGIN === undefined && ALLOW_LOCAL_DIARIES === "true")) return null;
  // In front of a service of one's own a proxy may speak https for it.
  if (request.headers.get("x-forwarded-proto")?.split(",")[0]?.trim() === "https") return null;
  const { host, hostname, pathname, search } = new URL(request.url);
  if (PUBLIC_ORIGIN !== undefined) {
    return PUBLIC_ORIGIN.startsWith("https:") ? `${new URL(PUBLIC_ORIGIN).origin}${pathname}${search}` : null;
  }
  if (LOCAL.test(hostname)) return null;
  return `https://${host}${pathname}${search}`;
};

export const toHttps = createMiddleware<Service>(async (c, next) => {
  const address = httpsAddress(c.req.raw, c.env);
  return address === null ? next() : c.redirect(address, 308);
});
