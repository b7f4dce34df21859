/**
 * Two at once, and the same twice: nothing is lost, nothing doubled, and whoever comes second hears of it. RFC 9110 §13.1.1 for
 * If-Match; draft-ietf-httpapi-idempotency-key-header for the same request sent again. Everyone named is invented.
 */
import { evictDurableObject, reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, MARA, MINIMAL, objectOf, push, send, setClock, WREN } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const DIARY = diaryText([
  { uid: "b1", start: "DTSTART:20261211T103000Z", ...MARA },
  { uid: "b2", start: "DTSTART:20261212T103000Z", ...WREN },
]);

const post = (key: string, path: string, body: unknown, once?: string): Promise<Response> =>
  send(path, {
    method: "POST",
    headers: {
      authorization: `Bearer ${key}`,
      "content-type": "application/json",
      ...(once === undefined ? {} : { "idempotency-key": once }),
    },
    body: JSON.stringify(body),
  });
const recordsOf = async (key: string): Promise<readonly { id: string; note: string; kind: string }[]> =>
  (
    await (
      await ask(key, "GET", "/api/salon/records")
    ).json<{ records: { id: string; note: string; kind: string }[] }>()
  ).records;
const note = (text: string) => ({ booking: "b1", kind: "note", note: text, at: "2026-12-01T08:00:00Z" });

test("of two tabs with the same settings one is saved and the other hears 412; with the new tag it is saved too", async () => {
  const { key } = await createSalon();
  const tag = (await ask(key, "GET", "/api/salon")).headers.get("etag") ?? "";
  const put = (name: string, match: string) =>
    send("/api/salon", {
      method: "PUT",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "if-match": match },
      body: JSON.stringify({ ...MINIMAL, name }),
    });
  const answers = await Promise.all([put("Left tab", tag), put("Right tab", tag)]);
  expect(answers.map(({ status }) => status).toSorted((one, other) => one - other)).toEqual([200, 412]);
  const lost = answers.find(({ status }) => status === 412);
  expect((await lost?.json<{ detail: string }>())?.detail).toContain("newer version");
  const now = await ask(key, "GET", "/api/salon");
  const won = answers[0]?.status === 200 ? "Left tab" : "Right tab";
  expect((await now.json<{ name: string }>()).name).toBe(won);
  expect((await put("Again", `"other", ${now.headers.get("etag")}`)).status).toBe(200);
  expect((await put("Weak", `W/${now.headers.get("etag")}`)).status).toBe(412);
});

test("two people recording at once lose nothing: each gets a record of its own", async () => {
  const salon = await createSalon();
  const { key } = salon;
  await push(key, DIARY);
  const answers = await Promise.all(
    Array.from({ length: 20 }, (_, n) => post(key, "/api/salon/records", note(`n${n}`))),
  );
  expect(answers.every(({ status }) => status === 201)).toBe(true);
  await evictDurableObject(objectOf(salon));
  const records = await recordsOf(key);
  expect(records.map((each) => each.note).toSorted()).toEqual(Array.from({ length: 20 }, (_, n) => `n${n}`).toSorted());
  expect(new Set(records.map(({ id }) => id)).size).toBe(20);
});

test("the same request sent five times at once, and again after a restart, is done once and answered alike", async () => {
  const salon = await createSalon();
  const { key } = salon;
  await push(key, DIARY);
  const all = await Promise.all(Array.from({ length: 5 }, () => post(key, "/api/salon/records", note("once"), "k-1")));
  await evictDurableObject(objectOf(salon));
  all.push(await post(key, "/api/salon/records", note("once"), "k-1"));
  const bodies = await Promise.all(all.map(async (each) => [each.status, await each.json()]));
  // The fields of a record may come in another order after a restart.
  for (const body of bodies) expect(body).toEqual(bodies[0]);
  expect(bodies[0]?.[0]).toBe(201);
  expect(await recordsOf(key)).toHaveLength(1);
  const other = await post(key, "/api/salon/records", note("another"), "k-1");
  expect([other.status, (await other.json<{ type: string }>()).type]).toEqual([
    422,
    "urn:countback:problem:idempotency-key-reused",
  ]);
  // A key is of its salon, and lasts a day.
  const second = await createSalon();
  await push(second.key, DIARY);
  expect((await post(second.key, "/api/salon/records", note("another"), "k-1")).status).toBe(201);
  setClock("2026-12-02T09:00:01Z");
  expect((await post(key, "/api/salon/records", note("another"), "k-1")).status).toBe(201);
  expect(await recordsOf(key)).toHaveLength(2);
});

test("what was refused may be mended and sent again under its key", async () => {
  const { key } = await createSalon();
  await push(key, DIARY);
  expect((await post(key, "/api/salon/records", { ...note("x"), booking: "b9" }, "k")).status).toBe(422);
  expect((await post(key, "/api/salon/records", note("x"), "k")).status).toBe(201);
});

test("a client who presses twice has told it once; a later press tells it again", async () => {
  const { key } = await createSalon();
  await push(key, DIARY);
  const { page } = await linkOf(key, "c1");
  const press = () =>
    send(`${page}/records`, {
      method: "POST",
      headers: { "content-type": "application/x-www-form-urlencoded" },
      body: new URLSearchParams({ kind: "reacted", booking: "b1", outcome: "", route: "", when: "" }),
    });
  const pressed = await Promise.all([press(), press(), press()]);
  expect(pressed.map(({ status }) => status)).toEqual([303, 303, 303]);
  expect(await recordsOf(key)).toHaveLength(1);
  setClock("2026-12-01T09:05:00Z");
  await press();
  expect(await recordsOf(key)).toHaveLength(2);
  const asked = await send(`${page}/records`, {
    method: "POST",
    headers: { "content-type": "application/json", "idempotency-key": "mine" },
    body: JSON.stringify({ kind: "reacted" }),
  });
  const again = await send(`${page}/records`, {
    method: "POST",
    headers: { "content-type": "application/json", "idempotency-key": "mine" },
    body: JSON.stringify({ kind: "reacted" }),
  });
  expect([asked.status, await asked.json()]).toEqual([again.status, await again.json()]);
  expect(await recordsOf(key)).toHaveLength(3);
});

test("two joins that cross, and a join against an erasure, leave one person or none, never half of one", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([]));
  const add = async (name: string) =>
    (await (await post(key, "/api/salon/clients", { name })).json<{ id: string }>()).id;
  const [one, other] = [await add("Ann Brill"), await add("Ann Sedgewick")];
  const crossed = await Promise.all([
    post(key, `/api/salon/clients/${one}/join`, { with: other }),
    post(key, `/api/salon/clients/${other}/join`, { with: one }),
  ]);
  expect(crossed.map(({ status }) => status)).toEqual([200, 200]);
  const [left, right] = await Promise.all(crossed.map((each) => each.json<{ id: string }>()));
  expect(left?.id).toBe(right?.id);
  const third = await add("Ann Third");
  const race = await Promise.all([
    ask(key, "DELETE", `/api/salon/clients/${third}`),
    post(key, `/api/salon/clients/${one}/join`, { with: third }),
  ]);
  expect([200, 422]).toContain(race[1]?.status);
  const { clients } = await (await ask(key, "GET", "/api/salon/clients")).json<{ clients: unknown[] }>();
  expect(clients.length).toBeLessThanOrEqual(1);
});
