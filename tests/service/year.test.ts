/**
 * A year of bookings in three zones: what the service answers and publishes agrees to the second with an independent
 * reckoning (tests/reckoner, on TC39 Temporal's reference arithmetic), read back from the feeds by ical.js, the parser of
 * Thunderbird. Bookings lie about every nine days, so that every change of the clocks is met.
 */
import { reset } from "cloudflare:test";
import ICAL from "ical.js";
import { Temporal } from "temporal-polyfill";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { reckon } from "../reckoner/reckon.ts";
import { ask, createSalon, diaryText, linkOf, type PlanSeen, plansOf, push, send, setClock } from "./client.ts";

const NOW = "2026-11-25T10:00:00Z";

beforeEach(() => setClock(NOW));
afterEach(async () => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  await reset();
});

const ZONES = ["Europe/London", "America/New_York", "Australia/Lord_Howe"];
const TESTS = [
  ["in-salon", "salon-48h"],
  ["home-kit", "home-kit-120h"],
] as const;

/** Every ninth day of a year from now, at times of day that wander; wall times in the salon's zone. */
const starts = Array.from({ length: 41 }, (_, index) => {
  const day = new Date(Date.UTC(2026, 10, 27 + index * 9)).toISOString().slice(0, 10).replaceAll("-", "");
  const hour = String(8 + ((index * 5) % 11)).padStart(2, "0");
  return `${day}T${hour}${index % 3 === 0 ? "30" : "00"}00`;
});

const diaryIn = (zone: string, from: number, to: number): string =>
  diaryText(
    starts.slice(from, to).map((start, index) => ({
      uid: `b${from + index}`,
      start: `DTSTART;TZID=${zone}:${start}`,
      client: `Client Number${from + index}`,
      email: `client${from + index}@example.com`,
    })),
  );

/** Start and end of each event of a feed by UID, as ical.js reads them, in whole seconds. */
const timesIn = (text: string): Map<string, { from: number; to: number; kind: string }> => {
  const calendar = new ICAL.Component(ICAL.parse(text));
  for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
  return new Map(
    calendar.getAllSubcomponents("vevent").map((component) => {
      const event = new ICAL.Event(component, { exceptions: [] });
      const kind = String(component.getFirstPropertyValue("categories"));
      return [event.uid, { from: event.startDate.toUnixTime(), to: event.endDate.toUnixTime(), kind }];
    }),
  );
};

const seconds = (text: string): number => Date.parse(text) / 1000;

/** The first moment in the client's hours, 08:00 to 21:00, with a quarter of an hour of that day left (rule 18). */
const firstLook = (opens: string, zone: string): number => {
  const at = Temporal.Instant.from(opens).toZonedDateTimeISO(zone);
  const [morning, evening] = [at.with(clock(8)), at.with(clock(20, 45))];
  const isAwake = Temporal.ZonedDateTime.compare(at, evening) <= 0;
  const look = !isAwake
    ? at.add({ days: 1 }).with(clock(8))
    : Temporal.ZonedDateTime.compare(at, morning) < 0
      ? morning
      : at;
  return Math.floor(look.epochMilliseconds / 1000);
};
const clock = (hour: number, minute = 0) => ({
  hour,
  minute,
  second: 0,
  millisecond: 0,
  microsecond: 0,
  nanosecond: 0,
});

/** Design, "Events": done by a time, or done from a time on. */
const expectedTime = ({ kind, opens, due }: PlanSeen["steps"][number], zone: string): { from: number; to: number } => {
  if (kind === "removal" || kind === "reading") {
    const from = kind === "reading" ? firstLook(opens, zone) : seconds(opens);
    return { from, to: from + 900 };
  }
  const to = seconds(due);
  return { from: Math.min(Math.max(to - 3600, seconds(opens)), to - 900), to };
};

const agree = async (
  key: string,
  feed: string,
  settings: Parameters<typeof reckon>[0]["settings"],
  count: number,
): Promise<void> => {
  const plans = await plansOf(key);
  expect(plans).toHaveLength(count);
  const inSalonFeed = timesIn(await (await send(feed)).text());
  for (const plan of plans) {
    const expected = reckon({
      booking: { uid: plan.booking.uid, start: plan.booking.start },
      settings,
      records: [],
      now: NOW,
    });
    expect(plan.route).toBe(expected.route);
    expect(plan.standing).toBe(expected.standing);
    expect(plan.steps.map(({ kind, n, opens, due, state }) => ({ kind, n, opens, due, state }))).toEqual(
      expected.steps,
    );
    expect(
      plan.routes.map(({ route, fits, until, firstDue, earliest }) => ({ route, fits, until, firstDue, earliest })),
    ).toEqual(expected.routes);
    expect(plan.earliest).toEqual(expected.earliest);
    const inClientFeed = timesIn(await (await send((await linkOf(key, plan.booking.client.id)).feed)).text());
    for (const step of plan.steps) {
      expect(inSalonFeed.get(step.uid)).toMatchObject({ ...expectedTime(step, settings.zone), kind: step.kind });
      if (step.who === "client")
        expect(inClientFeed.get(step.uid)).toMatchObject({ ...expectedTime(step, settings.zone), kind: step.kind });
      else expect(inClientFeed.has(step.uid)).toBe(false);
    }
    const colour = [...inClientFeed.values()].filter(({ kind }) => kind === "colour");
    expect(colour.map(({ from }) => from)).toEqual([seconds(plan.booking.start)]);
  }
};

test.each(ZONES.flatMap((zone) => TESTS.map(([route, protocol]) => [zone, route, protocol] as const)))(
  "a year of bookings in %s by %s agrees with the reckoner in plans and both feeds",
  async (zone, route, protocol) => {
    const settings = { name: "Quillfen Colour Room", zone, tests: [{ route, protocol }] };
    const { key, feed } = await createSalon(settings);
    expect((await push(key, diaryIn(zone, 0, 20))).status).toBe(200);
    const pulled = {
      ...settings,
      diaries: [{ name: "main" }, { name: "pulled", url: "https://calendar.example/two.ics" }],
    };
    expect((await ask(key, "PUT", "/api/salon", pulled)).status).toBe(200);
    vi.spyOn(globalThis, "fetch").mockImplementation(() =>
      Promise.resolve(new Response(diaryIn(zone, 20, starts.length))),
    );
    expect((await ask(key, "POST", "/api/salon/refresh")).status).toBe(200);
    await agree(key, feed, settings, starts.length);
  },
);
