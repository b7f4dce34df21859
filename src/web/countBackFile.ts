/** GET /count-back.ics: the steps of one appointment as a file to take into a calendar once. Nothing is stored. */
import { Hono } from "hono";
import { clientEvents } from "../feed/clientEvents.ts";
import { feedHead } from "../feed/feedHead.ts";
import { feedZone } from "../feed/feedZone.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { onceContent } from "../feed/onceContent.ts";
import type { EventContent } from "../feed/types.ts";
import { writeEvent } from "../feed/writeEvent.ts";
import { writeFeed } from "../feed/writeFeed.ts";
import type { Instant } from "../time/instant.ts";
import { farError, startOf } from "./countOne.ts";
import { countBackFileQuery } from "./doors.ts";
import type { Service } from "./env.ts";
import { countFor, type OnePlan } from "./onePlan.ts";
import { problem } from "./problems.ts";
import { check } from "./readBody.ts";

export const countBackFile = new Hono<Service>();

countBackFile.get("/count-back.ics", async (c) => {
  const read = check(c.req.query(), countBackFileQuery);
  if (!read.ok) return problem(read.fault);
  const { zone = null, test, country } = read.value;
  const start = startOf(read.value);
  if (typeof start !== "number") return problem({ code: "request-refused", errors: [start] });
  const now = Math.floor(Date.now() / 1000);
  const tooFar = farError(start, now);
  if (tooFar) return problem({ code: "request-refused", errors: [tooFar] });
  const counted = await countFor({ start, zone, test, country }, now);
  if (!counted.ok) return problem(counted.fault);
  return c.body(fileOf(counted.value), 200, {
    "content-type": "text/calendar; charset=utf-8",
    "content-disposition": 'attachment; filename="count-back.ics"',
    "cache-control": "no-store",
    "referrer-policy": "no-referrer",
    "x-robots-tag": "noindex",
    "x-content-type-options": "nosniff",
  });
});

/** Of every step, the salon's too: who asks may be either. What is called off was never in this calendar. */
const fileOf = ({ plan, context }: OnePlan): string => {
  const steps = plan.steps.map((step) => ({ ...step, who: "client" as const }));
  const events = clientEvents({ ...plan, steps }, context)
    .filter(({ cancelled }) => !cancelled)
    .toSorted((one, other) => startsAt(one) - startsAt(other) || (one.uid < other.uid ? -1 : 1));
  const times = events.map(startsAt);
  const zone = feedZone(context.zone, Math.min(...times), Math.max(...times));
  const stamps = { created: plan.asOf, lastModified: plan.asOf, sequence: 0 };
  const { language } = context.settings;
  return writeFeed(
    { ...feedHead("client", context), description: catalogueOf(language).feed.onceNoPage, refreshMinutes: null },
    zone,
    events.map((event) => writeEvent(onceContent(event, language), stamps, zone)),
  );
};

const startsAt = ({ time }: EventContent): Instant => time.from;
