/**
 * What the desk keeps of plans it has made is what the salon's own plans say, which are made anew for each answer: after every
 * kind of change, and as time goes. Everyone named is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, MARA, objectOf, plansOf, push, record, setClock, WREN } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:30:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const SETTINGS = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h", onFile: { months: 6 } },
  ],
};
const at = (day: string): string => `DTSTART;TZID=Europe/London:202612${day}T103000`;
const NAMELESS = { client: "Mara Quillfeather", email: "other@example.com" };
const entries = [
  { uid: "mara-1", start: at("11"), ...MARA },
  { uid: "mara-2", start: at("22"), ...MARA },
  { uid: "wren-1", start: at("04"), ...WREN },
  { uid: "namesake", start: at("18"), ...NAMELESS },
];
const DAY = 86_400;
const FIRST = Date.UTC(2026, 11, 1) / 1000 / DAY;

test("after every change and at every hour a row says what the plan says", async () => {
  const salon = await createSalon(SETTINGS);
  const desk = objectOf(salon);
  await push(salon.key, diaryText(entries));
  const compare = async (after: string): Promise<void> => {
    const { weeks } = await desk.deskWeeks({ from: FIRST, to: FIRST + 56 }, null);
    const plans = (await plansOf(salon.key)).filter(({ standing }) => standing !== "cancelled");
    const rows = weeks?.rows.map(({ booking, standing, route, marks }) => ({
      booking,
      standing,
      route,
      dues: marks.map(({ kind, due }) => `${kind} ${due}`),
    }));
    const isShown = ({ standing, why }: (typeof plans)[number]): boolean =>
      standing !== "stop" &&
      standing !== "no-time" &&
      !(standing === "past" && why.some(({ code }) => code === "stop"));
    const wanted = plans.map((plan) => ({
      booking: plan.booking.uid,
      standing: plan.standing,
      route: plan.route,
      dues: plan.steps
        .filter(({ state }) => state !== "done" && state !== "cancelled" && isShown(plan))
        .map(({ kind, due }) => `${kind} ${Date.parse(due) / 1000}`),
    }));
    expect([
      after,
      rows?.map(({ dues, ...row }) => ({
        ...row,
        dues: wanted.find(({ booking }) => booking === row.booking)?.dues.every((due) => dues.includes(due)),
      })),
    ]).toEqual([after, wanted.map((row) => ({ ...row, dues: true }))]);
  };
  await compare("the first reading");
  const did = async (what: string, act: () => Promise<unknown>): Promise<void> => {
    await act();
    await compare(what);
    // Once more, from what was kept.
    await compare(`${what}, again`);
  };
  await did("a record", () => record(salon.key, { kind: "screened", outcome: "pass", booking: "wren-1" }));
  await did("put on", () => record(salon.key, { kind: "applied", route: "in-salon", booking: "wren-1" }));
  await did("another of hers", () => record(salon.key, { kind: "applied", route: "in-salon", booking: "mara-1" }));
  await did("moved", () =>
    push(salon.key, diaryText([{ ...entries[0], start: at("14") } as (typeof entries)[0], ...entries.slice(1)])),
  );
  await did("a test in the diary", () =>
    push(salon.key, diaryText([...entries, { uid: "t", start: at("16"), summary: "Skin test", ...NAMELESS }])),
  );
  await did("a namesake's stop", () => record(salon.key, { kind: "reacted", booking: "namesake" }));
  const clients = (
    await (await ask(salon.key, "GET", "/api/salon/clients")).json<{ clients: { id: string; name: string }[] }>()
  ).clients;
  const [one, other] = clients.filter(({ name }) => name === MARA.client).map(({ id }) => id);
  await did("told apart", () => ask(salon.key, "POST", `/api/salon/clients/${one}/apart`, { with: other }));
  await did("other rules", () =>
    ask(salon.key, "PUT", "/api/salon", { ...SETTINGS, tests: SETTINGS.tests.toReversed() }),
  );
  await did("a correction", () => record(salon.key, { kind: "correction", booking: "wren-1", reason: "not hers" }));
  await did("cancelled", () => push(salon.key, diaryText(entries.slice(0, 3))));
  for (let hour = 0; hour < 24 * 24; hour += 5) {
    setClock(new Date(Date.UTC(2026, 11, 1, 10 + hour)).toISOString());
    await compare(`hour ${hour}`);
  }
});

test("a salon asked again with the tag it gave says that nothing has changed, until something has", async () => {
  const salon = await createSalon(SETTINGS);
  const desk = objectOf(salon);
  await push(salon.key, diaryText(entries));
  const days = { from: FIRST, to: FIRST + 28 };
  const { tag } = await desk.deskWeeks(days, null);
  expect((await desk.deskWeeks(days, tag)).weeks).toBeNull();
  await record(salon.key, { kind: "posted", booking: "mara-1" });
  const changed = await desk.deskWeeks(days, tag);
  expect([changed.tag === tag, changed.weeks === null]).toEqual([false, false]);
});
