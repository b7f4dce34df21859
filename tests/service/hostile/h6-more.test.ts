/** Hostile trials of who a client is: joins, splits, erasures and what they must never lose. Outward contract; invented people. */
import { reset, runInDurableObject, evictDurableObject } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, type EntryText, linkOf, objectOf, type PlanSeen, plansOf, push, record, send, setClock } from "../client.ts";
import { findStored, storedTexts } from "../storage.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});
const ON_FILE = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  tests: [{ route: "in-salon", protocol: "salon-48h", onFile: { months: 12, product: "any", shade: "any" } }],
};
const at = (day: string, uid: string, more: Partial<EntryText> = {}): EntryText => ({ uid, start: `DTSTART;TZID=Europe/London:2026${day}T103000`, ...more });
const bare = (day: string, uid: string, name: string): EntryText => at(day, uid, { summary: `Root tint - ${name}` });
const post = (key: string, path: string, body?: unknown) => ask(key, "POST", `/api/salon/clients/${path}`, body);
const add = async (key: string, body: unknown): Promise<string> => (await (await ask(key, "POST", "/api/salon/clients", body)).json<{ id: string }>()).id;
const list = async (key: string, q = "") => (await (await ask(key, "GET", `/api/salon/clients${q}`)).json<{ clients: any[] }>()).clients;
const of = async (key: string, uid: string): Promise<PlanSeen> => {
  const plan = (await plansOf(key)).find(({ booking }) => booking.uid === uid);
  if (!plan) throw new Error(`no plan of ${uid}`);
  return plan;
};
const codes = ({ why }: PlanSeen) => why.map(({ code }) => code);
const clear = (client: string) => ({ client, kind: "read", route: "in-salon", outcome: "clear", at: "2026-11-20T10:00:00Z" });
const ANN = { client: "Ann Brill", email: "ann@post.example" };
const WREN = { client: "Wren Tallis", email: "wren@post.example" };


test("F19 the id of answers that went is given again: whose are they", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  const both = diaryText([at("1202", "b1", ANN), at("1218", "b2", ANN)]);
  await push(key, both);
  const [a] = (await list(key)).map((c) => c.id);
  const { page } = await linkOf(key, a);
  const answer = async (booking: string, word: string) => {
    const { version, questions } = await (await send(`${page}/screening`, { headers: { accept: "application/json" } })).json<any>();
    const answers = Object.fromEntries(questions.map(({ id }: any) => [id, word]));
    return send(`${page}/screening`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ version, consent: true, answers, booking }) });
  };
  expect((await answer("b1", "no")).status).toBe(201);
  const c = (await (await post(key, `${a}/split`, { bookings: ["b1"] })).json<any>()).id;
  await record(key, { client: c, booking: "b1", kind: "note", note: "x", at: "2026-12-01T08:00:00Z" });
  setClock("2026-12-04T09:00:00Z");
  const gone = await ask(key, "DELETE", `/api/salon/clients/${c}`);
  console.log("F19 erase", gone.status, (await gone.text()).slice(0, 300));
  const told = await answer("b2", "not-sure");
  console.log("F19 told", told.status, (await told.text()).slice(0, 300));
  const plan = await of(key, "b2");
  const rows = await (await ask(key, "GET", `/api/salon/clients/${a}/export`)).json<any>();
  console.log("F19", plan.standing, codes(plan), rows.screenings.map((x: any) => [x.id, x.booking]));
  expect(rows.screenings.map((x: any) => x.booking)).toEqual(["b2"]);
});

test("F19 control: nobody split", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  const both = diaryText([at("1202", "b1", ANN), at("1218", "b2", ANN)]);
  await push(key, both);
  const [a] = (await list(key)).map((c) => c.id);
  const { page } = await linkOf(key, a);
  const answer = async (booking: string, word: string) => {
    const { version, questions } = await (await send(`${page}/screening`, { headers: { accept: "application/json" } })).json<any>();
    const answers = Object.fromEntries(questions.map(({ id }: any) => [id, word]));
    return send(`${page}/screening`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ version, consent: true, answers, booking }) });
  };
  expect((await answer("b1", "no")).status).toBe(201);
  setClock("2026-12-04T09:00:00Z");
  const told = await answer("b2", "not-sure");
  console.log("F19 told", told.status, (await told.text()).slice(0, 300));
  const plan = await of(key, "b2");
  const rows = await (await ask(key, "GET", `/api/salon/clients/${a}/export`)).json<any>();
  console.log("F19c", plan.standing, codes(plan), rows.screenings.map((x: any) => [x.id, x.booking]));
  expect(rows.screenings.map((x: any) => x.booking)).toEqual(["b1","b2"]);
});

test("F20 a salon erased while a diary is on its way", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  const text = new TextEncoder().encode(diaryText([at("1211", "b1", ANN)]));
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const pushed = push(key, readable as any).catch((e) => e);
  const w = writable.getWriter();
  await w.write(text.slice(0, 50));
  await new Promise((r) => setTimeout(r, 50));
  const del = await ask(key, "DELETE", "/api/salon");
  await w.write(text.slice(50)).catch(() => {});
  await w.close().catch(() => {});
  const answer = await pushed;
  console.log("F20", del.status, answer instanceof Response ? [answer.status, (await answer.text()).slice(0, 200)] : String(answer));
  expect(await findStored(salon, "Brill")).toEqual([]);
  expect(answer.status).toBeLessThan(500);
});

test("F21 a stop outlives contact and settings where rest is longer than evidence", async () => {
  const { key } = await createSalon({ ...ON_FILE, retention: { evidence: "P1M", rest: "P2Y" } });
  await push(key, diaryText([at("1211", "b1", ANN)]));
  const [a] = (await list(key)).map((c) => c.id);
  await record(key, { client: a, kind: "reacted", at: "2026-11-20T10:00:00Z" });
  setClock("2027-03-01T09:00:00Z");
  const still = await list(key);
  const n = (await (await ask(key, "GET", `/api/salon/records?client=${a}`)).json<any>()).records.length;
  console.log("F21", still.map((c) => [c.id, c.email]), n);
  expect(still.length === 0 || n === 1).toBe(true);
});

test("F22 into one whose erasure waits: the other's stop is not erased", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1211", "b1", ANN), at("1218", "b2", WREN)]));
  const [a, b] = (await list(key)).map((c) => c.id);
  await record(key, { client: b, kind: "reacted", at: "2026-11-20T10:00:00Z" });
  await ask(key, "DELETE", `/api/salon/clients/${a}?evidence=erase`);
  const joined = await post(key, `${a}/join`, { with: b });
  console.log("F22", joined.status);
  setClock("2026-12-13T09:00:00Z");
  console.log("F22 mid", (await of(key, "b2")).standing);
  expect((await of(key, "b2")).standing).toBe("stop");
});

test("F23 a request far ahead is read back after a restart", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  const a = await add(key, { name: "Ann Brill", email: "a@post.example" });
  console.log("F23", (await post(key, `${a}/requests`, { what: "access", received: "9999-12-31" })).status);
  await evictDurableObject(objectOf(salon));
  expect((await ask(key, "GET", "/api/salon/clients?state=open")).status).toBe(200);
});

test.skip("F24 contacts gone: two once told apart by their addresses are not one bare name", async () => {
  const { key } = await createSalon({ ...ON_FILE, retention: { evidence: "P6Y", rest: "P1M" } });
  const a = await add(key, { name: "Ann Brill", email: "a@post.example" });
  const b = await add(key, { name: "Ann Brill", email: "b@post.example" });
  for (const id of [a, b]) await record(key, clear(id));
  setClock("2027-02-10T09:00:00Z");
  console.log("F24", (await list(key)).map((c) => [c.id, c.email]));
  await push(key, diaryText([{ uid: "n", start: "DTSTART;TZID=Europe/London:20270220T103000", summary: "Root tint - Ann Brill" }]));
  const plan = await of(key, "n");
  console.log("F24", plan.booking.client.id, plan.route, codes(plan));
  expect([a, b]).not.toContain(plan.booking.client.id);
});

const random = (seed: number) => () => ((seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648) / 2_147_483_648);
test.each([1, 2, 3, 4, 5, 6])("P random joins, splits, moves: no sequence falls, no 500, the stop stays somewhere (%s)", async (seed) => {
  const { key, feed } = await createSalon(ON_FILE);
  const next = random(seed * 7919);
  const pick = <T>(xs: readonly T[]): T => xs[Math.floor(next() * xs.length)] as T;
  const people = [ANN, WREN, { client: "Mara Quil", email: "mara@post.example" }];
  const days = new Map([["b1", 11], ["b2", 14], ["b3", 17], ["b4", 20]]);
  const whose = new Map([["b1", 0], ["b2", 0], ["b3", 1], ["b4", 2]]);
  const here = new Set(days.keys());
  const text = () => diaryText([...here].map((u) => at(`12${days.get(u)}`, u, people[whose.get(u) as number])).concat(at("1230", "keep1", { client: "Keep One", email: "k@post.example" }), at("1229", "keep2", { client: "Keep One", email: "k@post.example" }), at("1228", "keep3", { client: "Keep One", email: "k@post.example" })));
  await push(key, text());
  const ids = (await list(key)).map((c) => c.id);
  const feeds = new Map<string, string>([["salon", feed]]);
  for (const id of ids) feeds.set(id, (await linkOf(key, id)).feed);
  const stopper = (await list(key, "?q=ann"))[0].id;
  expect((await record(key, { client: stopper, kind: "reacted", at: "2026-11-20T10:00:00Z" })).status).toBe(201);
  const high = new Map<string, number>();
  let clock = Date.parse("2026-12-01T09:00:00Z");
  for (let step = 0; step < 14; step++) {
    clock += 60_000;
    setClock(new Date(clock).toISOString());
    const act = pick(["join", "split", "apart", "move", "gone", "back", "rename"]);
    const all = await list(key);
    const one = pick(all), other = pick(all);
    let status = 0;
    if (act === "join") status = (await post(key, `${one.id}/join`, { with: other.id })).status;
    if (act === "apart") status = (await post(key, `${one.id}/apart`, { with: other.id })).status;
    if (act === "split") {
      const shown = await (await ask(key, "GET", `/api/salon/clients/${one.id}`)).json<any>();
      if (shown.bookings.length > 0) status = (await post(key, `${one.id}/split`, { bookings: [pick<any>(shown.bookings).uid] })).status;
    }
    const u = pick([...days.keys()]);
    if (act === "move") days.set(u, 10 + Math.floor(next() * 15));
    if (act === "gone") here.delete(u);
    if (act === "back") here.add(u);
    if (act === "rename") whose.set(u, Math.floor(next() * 3));
    if (["move", "gone", "back", "rename"].includes(act)) status = (await push(key, text())).status;
    expect([act, status < 500], String(status)).toEqual([act, true]);
    for (const client of await list(key)) if (!feeds.has(client.id)) feeds.set(client.id, (await linkOf(key, client.id)).feed);
    for (const [who, url] of feeds) {
      const answer = await send(url);
      expect([who, answer.status]).toEqual([who, 200]);
      const body = (await answer.text()).replace(/\r\n /g, "");
      for (const [e] of body.matchAll(/BEGIN:VEVENT[\s\S]*?END:VEVENT/g)) {
        const uid = `${who} ${/UID:(.*)/.exec(e)?.[1]?.trim()}`;
        const n = Number(/SEQUENCE:(\d+)/.exec(e)?.[1] ?? 0);
        if ((high.get(uid) ?? 0) > n) throw new Error(`sequence fell in ${who} at step ${step} (${act}): ${uid} ${high.get(uid)} -> ${n}`);
        high.set(uid, n);
      }
    }
    const records = (await (await ask(key, "GET", `/api/salon/records?client=${stopper}`)).json<any>()).records;
    expect(records.length).toBeGreaterThan(0);
    const owner = (await (await ask(key, "GET", `/api/salon/clients/${stopper}`)).json<any>()).id;
    for (const plan of await plansOf(key)) if (plan.booking.client.id === owner && !["past", "cancelled"].includes(plan.standing)) expect([plan.booking.uid, plan.standing]).toEqual([plan.booking.uid, "stop"]);
  }
});
test("F25 after a split her answers are in no other's export", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1211", "b1", ANN), at("1218", "b2", ANN)]));
  const [a] = (await list(key)).map((c) => c.id);
  const { page } = await linkOf(key, a);
  const { version, questions } = await (await send(`${page}/screening`, { headers: { accept: "application/json" } })).json<any>();
  const answers = Object.fromEntries(questions.map(({ id }: any) => [id, "no"]));
  await send(`${page}/screening`, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify({ version, consent: true, answers, booking: "b1" }) });
  await post(key, `${a}/split`, { bookings: ["b1"] });
  const rows = await (await ask(key, "GET", `/api/salon/clients/${a}/export`)).json<any>();
  expect(rows.screenings).toEqual([]);
});
