/** What a reader of the feeds meets: the same bytes, validators, moves, tombstones, links. */
import { evictDurableObject, listDurableObjectIds, reset } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  objectOf,
  ORIGIN,
  OPERATOR,
  plansOf,
  push,
  send,
  setClock,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const mara = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA };
const wren = { uid: "b2", start: "DTSTART;TZID=Europe/London:20261218T140000", ...WREN };

const linesOf = async (address: string): Promise<string[]> => (await (await send(address)).text()).split("\r\n");
const eventsOf = async (address: string): Promise<Map<string, string>> => {
  const text = (await (await send(address)).text()).replaceAll("\r\n ", "");
  return new Map(
    text
      .split("BEGIN:VEVENT")
      .slice(1)
      .map((event) => [/UID:(\S+)/.exec(event)?.[1] ?? "", event]),
  );
};
const headOf = (lines: string[]): string[] => lines.slice(0, lines.indexOf("BEGIN:VEVENT"));
const sequenceOf = (event: string | undefined): number => Number(/SEQUENCE:(\d+)/.exec(event ?? "")?.[1]);

test("the same request twice, minutes later and after an eviction gives the same bytes and the same strong ETag", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara, wren]));
  const client = (await plansOf(salon.key))[0]?.booking.client.id ?? "";
  const { feed } = await linkOf(salon.key, client);
  for (const address of [salon.feed, feed]) {
    const first = await send(address);
    expect(first.status).toBe(200);
    expect(first.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    const [body, etag] = [await first.text(), first.headers.get("etag") ?? ""];
    expect(etag).toMatch(/^"[^"]+"$/);
    setClock("2026-12-01T09:07:00Z");
    await evictDurableObject(objectOf(salon));
    const again = await send(address);
    expect(again.headers.get("etag")).toBe(etag);
    expect(await again.text()).toBe(body);
    for (const match of [etag, `W/${etag}`, `"other", ${etag}`, "*"]) {
      const unchanged = await send(address, { headers: { "if-none-match": match } });
      expect(unchanged.status).toBe(304);
      expect(unchanged.headers.get("etag")).toBe(etag);
      expect(await unchanged.text()).toBe("");
    }
    const changed = await send(address, {
      headers: { "if-none-match": '"other"', "if-modified-since": "Fri, 01 Jan 2100 00:00:00 GMT" },
    });
    expect(changed.status).toBe(200);
    await changed.text();
    const since = await send(address, { headers: { "if-modified-since": first.headers.get("last-modified") ?? "" } });
    expect(since.status).toBe(304);
    const head = await send(address, { method: "HEAD" });
    expect([head.status, head.headers.get("etag"), await head.text()]).toEqual([200, etag, ""]);
    const whole = await send(address);
    const length = (await whole.arrayBuffer()).byteLength;
    expect(Object.fromEntries(head.headers)).toEqual({
      ...Object.fromEntries(whole.headers),
      "content-length": String(length),
    });
  }
});

test("moving one booking changes the lines of its events and no other line", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara, wren]));
  const moved = new Set(
    (await plansOf(salon.key)).find(({ booking }) => booking.uid === "b1")?.steps.map(({ uid }) => uid),
  );
  const [before, linesBefore] = [await eventsOf(salon.feed), await linesOf(salon.feed)];
  setClock("2026-12-01T10:00:00Z");
  await push(salon.key, diaryText([{ ...mara, start: "DTSTART;TZID=Europe/London:20261212T113000" }, wren]));
  const [after, linesAfter] = [await eventsOf(salon.feed), await linesOf(salon.feed)];
  expect([...after.keys()].sort()).toEqual([...before.keys()].sort());
  for (const [uid, event] of after) {
    if (!moved.has(uid)) expect(event).toBe(before.get(uid));
    else expect(sequenceOf(event)).toBe(sequenceOf(before.get(uid)) + 1);
  }
  expect(headOf(linesAfter)).toEqual(headOf(linesBefore));
  const untouched = (lines: string[]) =>
    lines
      .join("\r\n")
      .split("BEGIN:VEVENT")
      .filter((event) => ![...moved].some((uid) => event.includes(uid)));
  expect(untouched(linesAfter)).toEqual(untouched(linesBefore));
});

test("reading the same diary again, in another order and with other DTSTAMPs, changes no byte", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara, wren]));
  const before = await (await send(salon.feed)).text();
  setClock("2026-12-01T11:00:00Z");
  await push(salon.key, diaryText([wren, mara]).replaceAll("DTSTAMP:20260101T000000Z", "DTSTAMP:20261201T105900Z"));
  expect(await (await send(salon.feed)).text()).toBe(before);
});

test("a cancelled and a vanished booking leave tombstones for 30 days, and their sequence never falls when they return", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara, wren, { ...wren, uid: "b3", start: "DTSTART:20261219T140000Z" }]));
  const plans = await plansOf(salon.key);
  const uidsOf = (booking: string) =>
    plans.find((plan) => plan.booking.uid === booking)?.steps.map(({ uid }) => uid) ?? [];
  setClock("2026-12-01T10:00:00Z");
  await push(salon.key, diaryText([{ ...mara, more: ["STATUS:CANCELLED"] }, wren]));
  const after = await eventsOf(salon.feed);
  for (const uid of [...uidsOf("b1"), ...uidsOf("b3")]) {
    expect(after.get(uid)).toContain("STATUS:CANCELLED");
    expect(after.get(uid)).toContain("SUMMARY:Cancelled: ");
    expect(sequenceOf(after.get(uid))).toBe(1);
  }
  expect((await plansOf(salon.key)).map(({ booking, standing }) => [booking.uid, standing])).toEqual([
    ["b1", "cancelled"],
    ["b2", expect.not.stringMatching("cancelled")],
    ["b3", "cancelled"],
  ]);
  setClock("2026-12-31T09:59:59Z");
  expect((await eventsOf(salon.feed)).has(uidsOf("b1")[0] ?? "")).toBe(true);
  setClock("2026-12-31T10:00:00Z");
  expect((await eventsOf(salon.feed)).has(uidsOf("b1")[0] ?? "")).toBe(false);
  await push(salon.key, diaryText([{ ...mara, start: "DTSTART;TZID=Europe/London:20270115T103000" }]));
  const returned = await eventsOf(salon.feed);
  expect(uidsOf("b1").map((uid) => sequenceOf(returned.get(uid)))).toEqual(uidsOf("b1").map(() => 2));
});

test("a forged link is refused before any salon is woken, a renewed one answers 410, a later one 404", async () => {
  const before = (await listDurableObjectIds(env.SALON)).length;
  const forged = `${"A".repeat(53)}Q`;
  expect((await send(`/c/${forged}/skin-test.ics`)).status).toBe(404);
  expect((await send(`/s/${forged}/deadlines.ics`)).status).toBe(404);
  expect((await send("/c/short")).status).toBe(404);
  expect((await ask("A".repeat(77), "GET", "/api/salon")).status).toBe(401);
  expect(await listDurableObjectIds(env.SALON)).toHaveLength(before);
  const salon = await createSalon();
  await push(salon.key, diaryText([mara]));
  const client = (await plansOf(salon.key))[0]?.booking.client.id ?? "";
  const old = await linkOf(salon.key, client);
  expect(await linkOf(salon.key, client)).toEqual(old);
  expect((await send(old.page)).status).toBe(200);
  const renewed = await linkOf(salon.key, client, true);
  expect(renewed.feed).not.toBe(old.feed);
  expect((await send(old.feed)).status).toBe(410);
  expect((await send(old.page)).status).toBe(410);
  expect((await send(renewed.feed)).status).toBe(200);
  const swapped = renewed.feed.replace("/c/", "/s/").replace("skin-test.ics", "deadlines.ics");
  expect((await send(swapped)).status).toBe(404);
  const link = renewed.feed.slice(`${ORIGIN}/c/`.length).split("/")[0] ?? "";
  expect(link.length).toBeGreaterThan(40);
});

test("a salon's feed and its key can be renewed: the old link answers 410, the old key opens nothing", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara]));
  const before = await (await send(salon.feed)).text();
  const { feed } = await (await ask(salon.key, "POST", "/api/salon/feed")).json<{ feed: string }>();
  expect(feed).not.toBe(salon.feed);
  expect(await (await send(feed)).text()).toBe(before);
  for (const query of ["", "?tz=utc", "?as=tasks"]) expect((await send(`${salon.feed}${query}`)).status).toBe(410);
  const { key } = await (await ask(salon.key, "POST", "/api/salon/key")).json<{ key: string }>();
  expect((await ask(salon.key, "GET", "/api/salon")).status).toBe(401);
  const settings = await ask(key, "GET", "/api/salon");
  expect([settings.status, settings.headers.get("link")?.includes(feed)]).toEqual([200, true]);
  expect((await ask(OPERATOR, "POST", "/api/salon/feed")).status).toBe(401);
});

test("the salon feed is filtered by kind, who and service, and written in UTC when asked; other parameters are ignored", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara]));
  const kinds = async (query: string) =>
    [...(await eventsOf(`${salon.feed}?${query}`)).values()].map((event) => /CATEGORIES:(\S+)/.exec(event)?.[1]);
  expect(await kinds("kinds=result,application")).toEqual(["application", "result"]);
  expect(await kinds("who=salon&kinds=application,result")).toEqual(["result"]);
  expect(await kinds("who=client&kinds=application,result")).toEqual(["application"]);
  expect(await kinds("service=nothing-of-the-kind&kinds=application")).toEqual([]);
  expect(await kinds("nocache=1")).toEqual(await kinds(""));
  // A slip of the pen must not look like nothing due.
  expect(await kinds("kinds=&who=")).toEqual(await kinds(""));
  expect(await kinds("kinds=posting")).toEqual(await kinds(""));
  expect(await kinds("kinds=posting,result")).toEqual(["result"]);
  const utc = await (await send(`${salon.feed}?tz=utc`)).text();
  expect(utc).not.toContain("TZID=Europe/London");
  expect(utc).toMatch(/DTEND:20261209T103000Z/);
});

const MINIMAL_OTHER = {
  name: "Reedcutter Colour",
  zone: "Pacific/Auckland",
  tests: [{ route: "in-salon", protocol: "salon-48h" }],
};

test("two salons never mix: a key opens its own salon only, and feeds hold their own clients only", async () => {
  const [first, second] = [await createSalon(), await createSalon(MINIMAL_OTHER)];
  await push(first.key, diaryText([mara]));
  await push(second.key, diaryText([{ ...wren, uid: "b1" }]));
  expect((await plansOf(first.key)).map(({ booking }) => booking.client.name)).toEqual([MARA.client]);
  expect((await plansOf(second.key)).map(({ booking }) => booking.client.name)).toEqual([WREN.client]);
  const [one, other] = [await eventsOf(first.feed), await eventsOf(second.feed)];
  expect([...one.keys()].filter((uid) => other.has(uid))).toEqual([]);
});
