/** The published feeds. A link is checked before any salon is woken; a wrong one tells nothing. */
import { Hono } from "hono";
import type { FeedChoice } from "../salon/renderFeed.ts";
import { clientClaim, salonFeedClaim } from "./admit.ts";
import { salonNamed, type Service } from "./env.ts";
import { problem } from "./problems.ts";
import { serveFeed } from "./serveFeed.ts";

export const feedRoutes = new Hono<Service>();

feedRoutes.get("/c/:link/skin-test.ics", async (c) => {
  const claim = clientClaim(c.req.param("link"), c.env.LINK_SECRET);
  if (!claim) return problem({ code: "link-unknown" });
  const feed = await salonNamed(c.env, claim.salon).clientFeed(claim.holder.client, claim.generation);
  return feed.ok ? serveFeed(c.req.raw, feed.value, "skin-test.ics") : problem(feed.fault);
});

feedRoutes.get("/s/:link/deadlines.ics", async (c) => {
  const claim = salonFeedClaim(c.req.param("link"), c.env.LINK_SECRET);
  if (!claim) return problem({ code: "link-unknown" });
  const feed = await salonNamed(c.env, claim.salon).salonFeed(claim.generation, choiceOf(c.req.query()));
  return feed.ok ? serveFeed(c.req.raw, feed.value, "deadlines.ics") : problem(feed.fault);
});

const listOf = (value: string | undefined): ReadonlySet<string> | null =>
  value === undefined
    ? null
    : new Set(
        value
          .split(",")
          .map((word) => word.trim())
          .filter((word) => word !== ""),
      );

/** The filter a feed address asks for; null where it asks for none. What is not known is ignored: clients add their own. */
const choiceOf = ({ kinds, who, service, tz }: Record<string, string>): FeedChoice | null => {
  const choice = { kinds: listOf(kinds), who: listOf(who), service: listOf(service), utc: tz === "utc" };
  return choice.kinds || choice.who || choice.service || choice.utc ? choice : null;
};
