/**
 * The published feeds. A link is checked before any salon is woken; a wrong one tells nothing. A feed is asked for a thousand
 * times as often as anything else, so that the Worker answers it before its other routes are looked through.
 */
import { Hono } from "hono";
import { EVENT_KINDS } from "../feed/types.ts";
import { askRequest } from "../salon/feedAsk.ts";
import { type FeedForm, PLAIN } from "../salon/feedForm.ts";
import { clientClaim, salonFeedClaim } from "./admit.ts";
import { type Env, missingSecrets, salonNamed, type Service } from "./env.ts";
import { prefersJcal } from "./prefersJcal.ts";
import { problem } from "./problems.ts";
import { httpsAddress } from "./toHttps.ts";

/** The same feed of a client under two names: some calendars are called by the file's, and one is for who wants it discreet. */
const CLIENT_FILES = ["skin-test", "reminders"] as const;
const SALON_FILE = "deadlines";

const FEED_PATH = /^[^:]+:\/\/[^/]+\/(?:c\/([^/?#]+)\/(skin-test|reminders)|s\/([^/?#]+)\/(deadlines))\.ics(?:[?#]|$)/;

/** The answer where a feed is asked for in the usual way; null leaves it to the routes, which say what is wrong. */
export const answerFeed = (request: Request, env: Env): Promise<Response> | null => {
  if (request.method !== "GET") return null;
  const found = FEED_PATH.exec(request.url);
  if (!found || missingSecrets(env).length > 0 || httpsAddress(request, env) !== null) return null;
  const [, client, clientFile, salon] = found;
  return client === undefined
    ? salonFeed(request, env, salon as string).catch(unavailable)
    : clientFeed(request, env, client, clientFile as string).catch(unavailable);
};

export const feedRoutes = new Hono<Service>();

for (const name of CLIENT_FILES) {
  feedRoutes.get(`/c/:link/${name}.ics`, (c) => clientFeed(c.req.raw, c.env, c.req.param("link"), name));
}
feedRoutes.get(`/s/:link/${SALON_FILE}.ics`, (c) => salonFeed(c.req.raw, c.env, c.req.param("link")));

const clientFeed = async (request: Request, env: Env, link: string, name: string): Promise<Response> => {
  const claim = clientClaim(link, env.LINK_SECRET);
  if (!claim) return problem({ code: "link-unknown" });
  const asked = parametersOf(request);
  const form = asked ? { ...PLAIN, once: asked.has("once"), utc: asked.get("tz") === "utc" } : PLAIN;
  return ask(request, env, { ...claim, audience: `c${claim.holder.client}`, form, name, asked });
};

const salonFeed = async (request: Request, env: Env, link: string): Promise<Response> => {
  const claim = salonFeedClaim(link, env.LINK_SECRET);
  if (!claim) return problem({ code: "link-unknown" });
  const asked = parametersOf(request);
  const form = asked ? salonForm(asked) : PLAIN;
  return ask(request, env, { ...claim, audience: "salon", form, name: SALON_FILE, asked });
};

/** A fault of this code: readers keep what they have on a 503, and some switch a calendar off on other failures. */
const unavailable = (error: unknown): Response => {
  console.error(error instanceof Error ? (error.stack ?? error.message) : "a feed failed");
  return problem({ code: "feed-unavailable" });
};

const parametersOf = ({ url }: Request): URLSearchParams | null =>
  url.includes("?") ? new URL(url).searchParams : null;

interface Wanted {
  readonly salon: string;
  readonly generation: number;
  readonly audience: string;
  readonly form: FeedForm;
  readonly name: string;
  readonly asked: URLSearchParams | null;
}

/** Where the feed is given, the salon's answer goes out as it is. */
const ask = async (
  { headers }: Request,
  env: Env,
  { salon, generation, audience, form, name, asked }: Wanted,
): Promise<Response> => {
  const modifiedSince = headers.get("if-modified-since");
  const since = modifiedSince === null ? Number.NaN : Date.parse(modifiedSince);
  const answer = await salonNamed(env, salon).fetch(
    askRequest({
      audience,
      generation,
      form: prefersJcal(headers.get("accept")) ? { ...form, jcal: true } : form,
      name,
      noneMatch: headers.get("if-none-match"),
      since: Number.isNaN(since) ? null : since,
      asIs: asked?.get("encoding") === "identity",
    }),
  );
  if (answer.status === 404) return problem({ code: "link-unknown" });
  return answer.status === 410 ? problem({ code: "link-revoked" }) : answer;
};

/** A comma list as sorted words, each once; null where it is not asked for. */
const listOf = (value: string | null): readonly string[] | null =>
  value === null
    ? null
    : [...new Set(value.split(",").map((word) => word.trim()))].filter((word) => word !== "").sort();

const among = (words: readonly string[] | null, known: readonly string[]): readonly string[] | null =>
  words && words.filter((word) => known.includes(word));

/** What a salon feed's address asks for. What is not known is ignored: clients add their own. */
const salonForm = (asked: URLSearchParams): FeedForm => ({
  ...PLAIN,
  kinds: among(listOf(asked.get("kinds")), EVENT_KINDS),
  who: among(listOf(asked.get("who")), ["client", "salon"]),
  service: listOf(asked.get("service")),
  utc: asked.get("tz") === "utc",
  tasks: asked.get("as") === "tasks",
});
