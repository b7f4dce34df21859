/** Makes the demo salon through the service's own API, as an integrator would, and tells it what happened there. */
import { type Day, formatInstant, HOUR, type Instant, midnight, parseDay } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { CHAIRS, DEMO_ZONE, demoDay, demoUid, RETURNING } from "./demoDiaries.ts";
import type { DemoBook } from "./demoServer.ts";

/** What is kept between two starts. */
export interface DemoMemory {
  readonly key: string;
  readonly feed: string;
  /** Days around which the diaries were written, oldest first. */
  readonly anchors: readonly string[];
}

/** Older than this, a new set of entries is written around today. */
const ANCHOR_LASTS_DAYS = 6;

/** The demo salon's settings; its diaries are served on this machine at `diaryPort`. */
export const demoSettings = (diaryPort: number) => ({
  name: "Quillfen Colour Room",
  zone: DEMO_ZONE,
  country: "GB",
  contact: { phone: "01632 960 155", email: "hello@quillfen.example", address: "3 Reedcutter's Row, Quillfen" },
  staff: ["Ines", "Tomas"],
  diaries: CHAIRS.map((name) => ({ name, url: `http://127.0.0.1:${diaryPort}/${name}.ics`, pollMinutes: 15 })),
  tests: [
    {
      route: "home-kit",
      protocol: "home-kit-120h",
      kit: { name: "Home test kit", instructions: "Follow the leaflet in the box." },
    },
    { route: "in-salon", protocol: "salon-48h" },
  ],
  opening: {
    sun: ["10:00-16:00"],
    mon: ["09:00-17:30"],
    tue: ["09:00-17:30"],
    wed: ["09:00-17:30"],
    thu: ["09:00-20:00"],
    fri: ["09:00-17:30"],
    sat: ["08:30-13:00", "14:00-16:00"],
  },
  holidays: { country: "GB", region: "ENG", add: [] },
});

const api = async (origin: string, key: string, method: string, path: string, body?: unknown): Promise<Response> => {
  const answer = await fetch(`${origin}${path}`, {
    method,
    headers: { authorization: `Bearer ${key}`, "content-type": "application/json" },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  if (!answer.ok) throw new Error(`${method} ${path} answered ${answer.status}: ${await answer.text()}`);
  return answer;
};

const today = (): Day => {
  const zone = Zone.named(DEMO_ZONE);
  if (!zone) throw new Error(`this runtime knows no ${DEMO_ZONE}`);
  return zone.dayAt(Math.floor(Date.now() / 1000));
};

const localTime = (day: Day, hour: number): Instant =>
  (Zone.named(DEMO_ZONE) as Zone).firstReading(midnight(day) + hour * HOUR);

/** The demo salon with dates around today: made on the first start, kept on later ones. */
export const prepareDemoSalon = async (
  origin: string,
  operatorKey: string,
  book: DemoBook,
  diaryPort: number,
  memory: DemoMemory | undefined,
): Promise<DemoMemory> => {
  const feedNow = memory && (await feedOf(origin, memory.key));
  const kept = memory && feedNow !== undefined ? { ...memory, feed: feedNow } : undefined;
  const days = (kept?.anchors ?? []).map((text) => parseDay(text) as Day);
  const latest = days.at(-1);
  const settings = demoSettings(diaryPort);
  const { key, feed } = kept ?? (await makeSalon(origin, operatorKey, settings));
  if (kept) await api(origin, key, "PUT", "/api/salon", settings);
  if (latest !== undefined && today() - latest <= ANCHOR_LASTS_DAYS) {
    Object.assign(book, { anchors: days, stage: "now" });
    await api(origin, key, "POST", "/api/salon/refresh");
  } else {
    const anchors = [...days, today()];
    Object.assign(book, { anchors, stage: "before" });
    await api(origin, key, "POST", "/api/salon/refresh");
    for (const record of whatHappened(today())) await api(origin, key, "POST", "/api/salon/records", record);
    book.stage = "now";
    await api(origin, key, "POST", "/api/salon/refresh");
  }
  return { key, feed, anchors: book.anchors.map((day) => formatInstant(midnight(day)).slice(0, 10)) };
};

/** The address of the feed of the salon that a key opens, which may have been renewed; undefined where it opens none. */
const feedOf = async (origin: string, key: string): Promise<string | undefined> => {
  const answer = await fetch(`${origin}/api/salon`, { headers: { authorization: `Bearer ${key}` } });
  return answer.ok ? /^<([^>]+)>/.exec(answer.headers.get("link") ?? "")?.[1] : undefined;
};

const makeSalon = async (
  origin: string,
  operatorKey: string,
  settings: unknown,
): Promise<{ key: string; feed: string }> => {
  const answer = await api(origin, operatorKey, "POST", "/api/salons", settings);
  return answer.json<{ key: string; feed: string }>();
};

/** The returning client's first test, from kit to confirmation, as records. */
export const whatHappened = (anchor: Day) => {
  const colour = demoDay(anchor, -20);
  const on = colour - RETURNING.testedDaysBefore;
  return [
    { kind: "screened", outcome: "pass", at: localTime(on - 5, 12) },
    { kind: "posted", route: "home-kit", at: localTime(on - 5, 15) },
    { kind: "applied", route: "home-kit", at: localTime(on, 9), site: "behind the left ear" },
    { kind: "removed", at: localTime(on + 2, 9) },
    { kind: "read", outcome: "clear", at: localTime(on + 2, 10) },
    { kind: "read", outcome: "clear", at: localTime(on + 4, 10) },
    { kind: "confirmed", at: localTime(colour, 13) },
  ].map(({ at, ...record }) => ({
    ...record,
    booking: demoUid(RETURNING.earlier, anchor),
    at: formatInstant(at),
    by: "Ines",
    via: "desk",
  }));
};
