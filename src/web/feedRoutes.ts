/** The published feeds. A link is checked before any salon is woken; a wrong one tells nothing. */
import { type Context, Hono } from "hono";
import { EVENT_KINDS } from "../feed/types.ts";
import { askRequest } from "../salon/feedAsk.ts";
import { type FeedForm, PLAIN } from "../salon/feedForm.ts";
import type { LinkClaim } from "../salon/link.ts";
import { clientClaim, salonFeedClaim } from "./admit.ts";
import { salonNamed, type Service } from "./env.ts";
import { prefersJcal } from "./prefersJcal.ts";
import { problem } from "./problems.ts";

export const feedRoutes = new Hono<Service>();

type FeedContext = Context<Service, "/:kind/:link/:file">;

/** The same feed under two names: some calendars are called by the file's, and one is for who wants it discreet. */
for (const name of ["skin-test", "reminders"]) {
  feedRoutes.get(`/c/:link/${name}.ics`, (c) => {
    const claim = clientClaim(c.req.param("link"), c.env.LINK_SECRET);
    if (!claim) return problem({ code: "link-unknown" });
    const { once, tz } = c.req.query();
    const form = { ...PLAIN, once: once !== undefined, utc: tz === "utc" };
    return serve(c, claim, `c${claim.holder.client}`, form, name);
  });
}

feedRoutes.get("/s/:link/deadlines.ics", (c) => {
  const claim = salonFeedClaim(c.req.param("link"), c.env.LINK_SECRET);
  return claim ? serve(c, claim, "salon", salonForm(c.req.query()), "deadlines") : problem({ code: "link-unknown" });
});

/** Where the feed is given, the salon's answer goes out as it is. */
const serve = async (
  c: Pick<FeedContext, "req" | "env">,
  { salon, generation }: LinkClaim,
  audience: string,
  form: FeedForm,
  name: string,
): Promise<Response> => {
  const { headers } = c.req.raw;
  const since = Date.parse(headers.get("if-modified-since") ?? "");
  const answer = await salonNamed(c.env, salon).fetch(
    askRequest({
      audience,
      generation,
      form: prefersJcal(headers.get("accept")) ? { ...form, jcal: true } : form,
      name,
      noneMatch: headers.get("if-none-match"),
      since: Number.isNaN(since) ? null : since,
      asIs: c.req.query("encoding") === "identity",
    }),
  );
  if (answer.status === 404) return problem({ code: "link-unknown" });
  return answer.status === 410 ? problem({ code: "link-revoked" }) : answer;
};

/** A comma list as sorted words, each once; null where it is not asked for. */
const listOf = (value: string | undefined): readonly string[] | null =>
  value === undefined
    ? null
    : [...new Set(value.split(",").map((word) => word.trim()))].filter((word) => word !== "").sort();

const among = (words: readonly string[] | null, known: readonly string[]): readonly string[] | null =>
  words && words.filter((word) => known.includes(word));

/** What a salon feed's address asks for. What is not known is ignored: clients add their own. */
const salonForm = ({ kinds, who, service, tz, as }: Record<string, string>): FeedForm => ({
  ...PLAIN,
  kinds: among(listOf(kinds), EVENT_KINDS),
  who: among(listOf(who), ["client", "salon"]),
  service: listOf(service),
  utc: tz === "utc",
  tasks: as === "tasks",
});
