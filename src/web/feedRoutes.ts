/**
 * The published feeds. A link is checked before any salon is woken; a wrong one tells nothing. A feed is asked for a thousand
 * times as often as anything else, so that the Worker answers it before its other routes are looked through.
 */
import { Hono } from "hono";
import { feedAddress } from "../salon/feedAsk.ts";
import { type Env, missingSecrets, salonNamed, type Service } from "./env.ts";
import { problem } from "./problems.ts";
import { httpsAddress } from "./toHttps.ts";

/** The answer where a feed is asked for in the usual way; null leaves it to the routes, which say what is wrong. */
export const answerFeed = (request: Request, env: Env): Promise<Response> | null => {
  if (request.method !== "GET" || missingSecrets(env).length > 0 || httpsAddress(request, env) !== null) return null;
  const address = feedAddress(request.url, env.LINK_SECRET);
  return address ? askSalon(request, env, address.claim.salon).catch(unavailable) : null;
};

export const feedRoutes = new Hono<Service>();

for (const path of ["/c/:link/skin-test.ics", "/c/:link/reminders.ics", "/s/:link/deadlines.ics"]) {
  feedRoutes.get(path, async (c) => {
    const address = feedAddress(c.req.url, c.env.LINK_SECRET);
    return address ? askSalon(c.req.raw, c.env, address.claim.salon) : problem({ code: "link-unknown" });
  });
}

/** Where the feed is given, the salon's answer goes out as it is. */
const askSalon = async (request: Request, env: Env, salon: string): Promise<Response> => {
  const answer = await salonNamed(env, salon).fetch(request);
  if (answer.status === 404) return problem({ code: "link-unknown" });
  return answer.status === 410 ? problem({ code: "link-revoked" }) : answer;
};

/** A fault of this code: readers keep what they have on a 503, and some switch a calendar off on other failures. */
const unavailable = (error: unknown): Response => {
  console.error(error instanceof Error ? (error.stack ?? error.message) : "a feed failed");
  return problem({ code: "feed-unavailable" });
};
