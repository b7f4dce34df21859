/**
 * A salon with colour bookings for six weeks ahead and thirty behind, made through the service's own API, and its two kinds
 * of feed. Each client comes every six weeks. Sixteen bookings a week make a salon feed of some 900 events; three chairs
 * that are always full have forty, and 2,300 events.
 */
import { DAY_SECONDS, type Instant } from "../../../src/time/instant.ts";
import { diaryText } from "../busyDiary.ts";
import { busySettings } from "../busySalon.ts";
import { OPERATOR } from "./startWorker.ts";

const BOOKINGS_A_WEEK = Number(process.env["BENCH_BOOKINGS"] ?? 16);
const WEEKS_AHEAD = 6;
/** busyDiary.ts gives each client six entries: over 36 weeks that is one every six weeks. */
const WEEKS = 36;

export interface OpenSalon {
  readonly clientFeed: string;
  readonly salonFeed: string;
}

interface PlanSeen {
  readonly booking: { readonly client: { readonly id: string } };
}

interface BusySalon {
  readonly key: string;
  readonly feed: string;
  /** Asks the salon's own API. */
  readonly call: <Body>(method: string, path: string, body?: unknown) => Promise<Body>;
}

/** A new salon with so many bookings a week, of so many weeks, so many of them ahead. */
export const makeBusySalon = async (
  origin: URL,
  now: Instant,
  { bookingsAWeek, weeksAhead, weeks }: { bookingsAWeek: number; weeksAhead: number; weeks: number },
): Promise<BusySalon> => {
  const call = async <Body>(key: string, method: string, path: string, type?: string, body?: string): Promise<Body> => {
    const headers = { authorization: `Bearer ${key}`, ...(type === undefined ? {} : { "content-type": type }) };
    const answer = await fetch(new URL(path, origin), { method, headers, ...(body === undefined ? {} : { body }) });
    if (!answer.ok) throw new Error(`${method} ${path} answered ${answer.status}: ${await answer.text()}`);
    return answer.json<Body>();
  };
  const settings = JSON.stringify({ ...busySettings, services: [{ name: "Colour", words: ["tint"] }] });
  const made = await call<{ key: string; feed: string }>(OPERATOR, "POST", "/api/salons", "application/json", settings);
  const today = now - (now % DAY_SECONDS);
  const diary = diaryText({
    entries: weeks * bookingsAWeek,
    from: today - (weeks - weeksAhead) * 7 * DAY_SECONDS,
    to: today + weeksAhead * 7 * DAY_SECONDS,
    stampedAt: now,
    brief: false,
    moved: null,
  });
  await call(made.key, "PUT", "/api/salon/diaries/main", "text/calendar", diary);
  return {
    ...made,
    call: (method, path, body) =>
      call(made.key, method, path, ...(body === undefined ? [] : ["application/json", JSON.stringify(body)])),
  };
};

/** Paths of the feeds of a new salon and of one of its clients. */
export const openSalon = async (origin: URL, now: Instant): Promise<OpenSalon> => {
  const made = await makeBusySalon(origin, now, {
    bookingsAWeek: BOOKINGS_A_WEEK,
    weeksAhead: WEEKS_AHEAD,
    weeks: WEEKS,
  });
  const { plans } = await made.call<{ plans: readonly PlanSeen[] }>("GET", "/api/salon/plans");
  const client = plans[Math.floor(plans.length / 2)]?.booking.client.id;
  if (client === undefined) throw new Error("the diary led to no plan");
  const link = await made.call<{ feed: string }>("POST", `/api/salon/clients/${client}/link`);
  return { clientFeed: new URL(link.feed).pathname, salonFeed: new URL(made.feed).pathname };
};
