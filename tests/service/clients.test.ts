/**
 * Who a client is: looked up, added, confirmed, joined, split and told apart over HTTP. No result crosses from one person to
 * another without somebody's word, and a stop of somebody who may be she is a question. Rules of the outward contract, no
 * other source; everyone named is invented.
 */
import { evictDurableObject, reset } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  linkOf,
  objectOf,
  type PlanSeen,
  plansOf,
  push,
  record,
  send,
  setClock,
} from "./client.ts";

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

interface ClientSeen {
  readonly id: string;
  readonly name: string;
  readonly email: string | null;
  readonly confirmed: boolean;
  readonly joined: readonly { readonly id: string }[];
  readonly questions: readonly { readonly code: string }[];
  readonly possible: readonly { readonly id: string; readonly agrees: readonly string[]; readonly stop: boolean }[];
  readonly bookings: readonly { readonly uid: string }[];
  readonly records: number;
  readonly decisions: readonly { readonly kind: string; readonly by: string | null }[];
}

const at = (day: string, uid: string, more: Partial<EntryText> = {}): EntryText => ({
  uid,
  start: `DTSTART;TZID=Europe/London:202612${day}T103000`,
  ...more,
});
const bare = (day: string, uid: string, name: string): EntryText => at(day, uid, { summary: `Root tint - ${name}` });

const clientsOf = async (key: string, query = ""): Promise<readonly ClientSeen[]> =>
  (await (await ask(key, "GET", `/api/salon/clients${query}`)).json<{ clients: ClientSeen[] }>()).clients;
const clientOf = async (key: string, id: string): Promise<ClientSeen> =>
  (await ask(key, "GET", `/api/salon/clients/${id}`)).json();
const of = async (key: string, uid: string): Promise<PlanSeen> => {
  const plan = (await plansOf(key)).find(({ booking }) => booking.uid === uid);
  if (!plan) throw new Error(`no plan of ${uid}`);
  return plan;
};
const codes = ({ why }: PlanSeen): readonly string[] => why.map(({ code }) => code);
const clear = (client: string) => ({
  client,
  kind: "read",
  route: "in-salon",
  outcome: "clear",
  at: "2026-11-20T10:00:00Z",
});

describe("looking up and adding", () => {
  test("a client is found by a part of her name, her address, her telephone; the list has pages", async () => {
    const { key } = await createSalon();
    const add = async (body: unknown) => (await ask(key, "POST", "/api/salon/clients", body)).json<ClientSeen>();
    const wren = await add({ name: "Wren Tállis-Moor", email: "Wren@post.example" });
    const mara = await add({ name: "Mara Quillfeather", phone: "+44 1632 960155" });
    const found = async (q: string) => (await clientsOf(key, `?q=${encodeURIComponent(q)}`)).map(({ id }) => id);
    expect(await found("tallis")).toEqual([wren.id]);
    expect(await found("wren@POST")).toEqual([wren.id]);
    expect(await found("01632 960155")).toEqual([mara.id]);
    expect(await found("nobody")).toEqual([]);
    const first = await (await ask(key, "GET", "/api/salon/clients?limit=1")).json<{
      next: string;
      clients: ClientSeen[];
    }>();
    expect(first.clients.map(({ id }) => id)).toEqual([wren.id]);
    expect((await clientsOf(key, `?limit=1&after=${first.next}`)).map(({ id }) => id)).toEqual([mara.id]);
  });

  test("who is known already is not added again, and the same request under one key is answered as the first time", async () => {
    const salon = await createSalon();
    const { key } = salon;
    const wren = { name: "Wren Tallis-Moor", email: "wren@post.example" };
    const post = (body: unknown, once: string) =>
      send("/api/salon/clients", {
        method: "POST",
        headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "idempotency-key": once },
        body: JSON.stringify(body),
      });
    const first = await post(wren, "k1");
    expect([first.status, first.headers.get("location")]).toEqual([201, "/api/salon/clients/c1"]);
    await evictDurableObject(objectOf(salon));
    const again = await post(wren, "k1");
    expect([again.status, await again.json()]).toEqual([201, await first.json()]);
    expect((await post({ ...wren, name: "Wren Other" }, "k1")).status).toBe(422);
    expect((await post(wren, "a blank")).status).toBe(400);
    const known = await post({ ...wren, name: "WREN  Tallis-Moor" }, "k2");
    expect([known.status, (await known.json<ClientSeen>()).id]).toEqual([200, "c1"]);
    expect(await clientsOf(key)).toHaveLength(1);
  });

  test.each([
    [{}, "name"],
    [{ name: "12" }, "name"],
    [{ name: "Wren", email: "wren" }, "email"],
    [{ name: "Wren", phone: "x" }, "phone"],
    [{ name: "Wren", shoe: 1 }, "shoe"],
  ])("what cannot be a client is refused by name: %j", async (body, field) => {
    const { key } = await createSalon();
    const refused = await ask(key, "POST", "/api/salon/clients", body);
    expect(refused.status).toBe(422);
    const { errors } = await refused.json<{ errors: { at: string }[] }>();
    expect(errors.map((each) => each.at)).toEqual([field]);
    expect(await clientsOf(key)).toEqual([]);
  });
});

describe("a result never crosses without a person's word", () => {
  test("an earlier result under a bare name counts once somebody has confirmed that it is one woman", async () => {
    const { key } = await createSalon(ON_FILE);
    await push(key, diaryText([bare("11", "b1", "Ann Brill"), bare("18", "b2", "Ann Brill")]));
    const [ann] = await clientsOf(key);
    expect((await record(key, clear(ann?.id ?? ""))).status).toBe(201);
    expect(codes(await of(key, "b1"))).not.toContain("ready");
    expect((await of(key, "b1")).route).toBe("in-salon");
    expect((await clientsOf(key, "?state=open")).map(({ questions }) => questions.map(({ code }) => code))).toEqual([
      ["same-person"],
    ]);
    const confirmed = await ask(key, "POST", `/api/salon/clients/${ann?.id}/confirm`, { by: "Ines", via: "desk" });
    expect(confirmed.status).toBe(200);
    const said = await confirmed.json<ClientSeen>();
    expect([said.confirmed, said.decisions.map(({ kind, by }) => [kind, by])]).toEqual([true, [["confirmed", "Ines"]]]);
    expect([(await of(key, "b1")).route, (await of(key, "b2")).route]).toEqual(["on-file", "on-file"]);
    expect(await clientsOf(key, "?state=open")).toEqual([]);
    // Said once, also for an appointment that comes later.
    const later = [bare("11", "b1", "Ann Brill"), bare("18", "b2", "Ann Brill"), bare("28", "b3", "ANN BRILL")];
    await push(key, diaryText(later));
    expect((await of(key, "b3")).route).toBe("on-file");
    expect((await clientOf(key, ann?.id ?? "")).decisions).toHaveLength(1);
  });

  test("mother and daughter of one address are two, and the daughter's result stays hers", async () => {
    const { key } = await createSalon(ON_FILE);
    const one = { email: "brill@post.example" };
    await push(
      key,
      diaryText([at("11", "b1", { client: "Ann Brill", ...one }), at("12", "b2", { client: "Bea Brill", ...one })]),
    );
    const [ann, bea] = await clientsOf(key);
    await record(key, clear(bea?.id ?? ""));
    expect([(await of(key, "b1")).route, (await of(key, "b2")).route]).toEqual(["in-salon", "on-file"]);
    // Her stop is a question about whoever shares the address, until somebody says that they are two.
    await record(key, { booking: "b2", kind: "reacted", at: "2026-12-01T08:00:00Z" });
    expect(codes(await of(key, "b1"))).toContain("possible-stop");
    expect((await of(key, "b1")).standing).not.toBe("stop");
    expect((await clientOf(key, ann?.id ?? "")).possible).toEqual([
      { id: bea?.id, name: "Bea Brill", agrees: ["email"], stop: true },
    ]);
    const apart = await ask(key, "POST", `/api/salon/clients/${ann?.id}/apart`, { with: bea?.id });
    expect(apart.status).toBe(200);
    expect(codes(await of(key, "b1"))).not.toContain("possible-stop");
    expect((await of(key, "b2")).standing).toBe("stop");
  });

  test("two clients of one name and different addresses are two; a stop of one is a question about the other", async () => {
    const { key, feed } = await createSalon();
    await push(
      key,
      diaryText([
        at("11", "b1", { client: "Ann Brill", email: "ann@post.example" }),
        at("12", "b2", { client: "Ann Brill", email: "other@post.example" }),
      ]),
    );
    const [one, other] = await clientsOf(key);
    expect(one?.id).not.toBe(other?.id);
    for (const [kind, more] of [
      ["screened", { outcome: "pass" }],
      ["applied", { route: "in-salon", at: "2026-11-28T09:00:00Z" }],
      ["read", { outcome: "clear", at: "2026-11-30T12:00:00Z" }],
      ["confirmed", {}],
    ] as const) {
      const told = await record(key, { booking: "b1", kind, at: "2026-12-01T09:00:00Z", via: "desk", ...more });
      expect(told.status).toBe(201);
    }
    expect((await of(key, "b1")).standing).toBe("ready");
    await record(key, { booking: "b2", kind: "reacted", at: "2026-12-01T08:00:00Z" });
    const asked = await of(key, "b1");
    expect([asked.standing, codes(asked)]).toEqual(["on-track", expect.arrayContaining(["possible-stop"])]);
    expect(await (await send(feed)).text()).toContain("Find out which client");
    await ask(key, "POST", `/api/salon/clients/${other?.id}/apart`, { with: one?.id });
    expect((await of(key, "b1")).standing).toBe("ready");
  });

  test("one client of two names is one once joined: her stop counts for both, and each record keeps where it came from", async () => {
    const salon = await createSalon();
    const { key } = salon;
    const entries = [
      at("11", "b1", { client: "Ann Brill", email: "ann@post.example" }),
      at("12", "b2", { client: "Ann Sedgewick", email: "ann@post.example" }),
    ];
    await push(key, diaryText(entries));
    const [brill, sedgewick] = await clientsOf(key);
    await record(key, { booking: "b2", kind: "reacted", at: "2026-12-01T08:00:00Z" });
    const old = await linkOf(key, sedgewick?.id ?? "");
    const before = await (await send(old.feed)).text();
    const joined = await ask(key, "POST", `/api/salon/clients/${brill?.id}/join`, { with: sedgewick?.id, by: "Ines" });
    expect(joined.status).toBe(200);
    expect((await joined.json<ClientSeen>()).joined.map(({ id }) => id)).toEqual([sedgewick?.id]);
    expect((await plansOf(key)).map(({ standing, booking }) => [standing, booking.client.id])).toEqual([
      ["stop", brill?.id],
      ["stop", brill?.id],
    ]);
    const { records } = await (await ask(key, "GET", `/api/salon/records?client=${brill?.id}`)).json<{
      records: { client: string }[];
    }>();
    expect(records.map(({ client }) => client)).toEqual([sedgewick?.id]);
    // Both links show her, and no sequence falls.
    const after = await (await send(old.feed)).text();
    const sequences = (text: string): readonly (readonly [string, number])[] =>
      text
        .split("BEGIN:VEVENT")
        .slice(1)
        .map((event) => [/\nUID:(\S+)/.exec(event)?.[1] ?? "", Number(/\nSEQUENCE:(\d+)/.exec(event)?.[1])]);
    const now = new Map(sequences(after));
    expect(sequences(before).length).toBeGreaterThan(0);
    for (const [uid, sequence] of sequences(before)) expect(now.get(uid)).toBeGreaterThanOrEqual(sequence);
    expect(after).toBe(await (await send((await linkOf(key, brill?.id ?? "")).feed)).text());
    // The next reading does not part them, and renewing revokes both links.
    await evictDurableObject(objectOf(salon));
    await push(key, diaryText([...entries, at("19", "b3", { client: "Ann Sedgewick", email: "ann@post.example" })]));
    expect((await of(key, "b3")).booking.client.id).toBe(brill?.id);
    await linkOf(key, brill?.id ?? "", true);
    expect((await send(old.feed)).status).toBe(410);
    // Split again, she is who she was, with her record.
    const split = await ask(key, "POST", `/api/salon/clients/${brill?.id}/split`, { bookings: ["b2", "b3"] });
    expect([split.status, (await split.json<ClientSeen>()).id]).toEqual([201, sedgewick?.id]);
    expect([(await of(key, "b1")).standing, (await of(key, "b2")).standing]).toEqual(["due", "stop"]);
    expect((await clientsOf(key)).map(({ id }) => id)).toEqual([brill?.id, sedgewick?.id]);
  });

  test("bookings that are another's go with what was told of them; a new entry of that name is then nobody's until somebody says", async () => {
    const { key } = await createSalon(ON_FILE);
    const entries = [bare("11", "b1", "Ann Brill"), bare("12", "b2", "Ann Brill")];
    await push(key, diaryText(entries));
    const [ann] = await clientsOf(key);
    await ask(key, "POST", `/api/salon/clients/${ann?.id}/confirm`);
    await record(key, { booking: "b2", kind: "applied", route: "in-salon", at: "2026-11-28T09:00:00Z" });
    const split = await (
      await ask(key, "POST", `/api/salon/clients/${ann?.id}/split`, { bookings: ["b2"] })
    ).json<ClientSeen>();
    expect([split.records, split.bookings.map(({ uid }) => uid)]).toEqual([1, ["b2"]]);
    expect((await clientOf(key, ann?.id ?? "")).records).toBe(0);
    await push(key, diaryText([...entries, bare("19", "b3", "Ann Brill")]));
    const third = (await of(key, "b3")).booking.client.id;
    expect([ann?.id, split.id]).not.toContain(third);
    expect((await of(key, "b1")).booking.client.id).toBe(ann?.id);
    expect((await of(key, "b2")).booking.client.id).toBe(split.id);
    await ask(key, "POST", `/api/salon/clients/${split.id}/join`, { with: third });
    expect((await of(key, "b3")).booking.client.id).toBe(split.id);
  });

  test("a client who changes chairs stays one, with her result", async () => {
    const { key } = await createSalon(ON_FILE);
    const hers = at("11", "b1", { client: "Ann Brill", email: "ann@post.example" });
    await push(key, diaryText([hers, at("20", "x", { client: "Wren Moor" })]), "ines");
    await push(key, diaryText([at("20", "y", { client: "Bea Moor", email: "bea@post.example" })]), "tomas");
    const id = (await of(key, "b1")).booking.client.id;
    await record(key, clear(id));
    await push(key, diaryText([hers, at("20", "y", { client: "Bea Moor", email: "bea@post.example" })]), "tomas");
    await push(key, diaryText([at("20", "x", { client: "Wren Moor" })]), "ines");
    const moved = await of(key, "b1");
    expect([moved.booking.diary, moved.booking.client.id, moved.route]).toEqual(["tomas", id, "on-file"]);
  });
});

test("what cannot be joined, split or parted is refused, and changes nothing", async () => {
  const { key } = await createSalon();
  await push(
    key,
    diaryText([at("11", "b1", { client: "Ann Brill" }), at("12", "b2", { client: "Bea Moor", email: "b@x.example" })]),
  );
  const before = await clientsOf(key);
  const post = async (path: string, body: unknown) =>
    (await ask(key, "POST", `/api/salon/clients/${path}`, body)).status;
  expect(await post("c9/confirm", {})).toBe(404);
  expect(await post("c1/join", {})).toBe(422);
  expect(await post("c1/join", { with: "c9" })).toBe(422);
  expect(await post("c9/join", { with: "c1" })).toBe(404);
  expect(await post("c1/apart", { with: "c1" })).toBe(409);
  expect(await post("c1/split", { bookings: [] })).toBe(422);
  expect(await post("c1/split", { bookings: ["b2"] })).toBe(422);
  expect(await post("c1/split", { bookings: ["b1"], to: "c2" })).toBe(422);
  expect(await clientsOf(key)).toEqual(before);
  expect((await ask(key, "PUT", "/api/salon/clients/c1", {})).status).toBe(405);
});

test("a restart changes nobody's recognition and no order", async () => {
  const told = (day: string, uid: string, email: string | null, phone: string | null): EntryText =>
    at(day, uid, {
      ...(email === null ? { summary: "Root tint - Ann Brill" } : { client: "Ann Brill", email }),
      more: phone === null ? [] : [`DESCRIPTION:tel:${phone}`],
    });
  const others = Array.from({ length: 9 }, (_, n) => bare("30", `other-${n}`, `Guest Number ${"ABCDEFGHI"[n]}`));
  const entries = [told("11", "b1", null, "01632 960111")];
  const salons = [await createSalon(ON_FILE), await createSalon(ON_FILE)];
  const named: string[] = [];
  for (const salon of salons) {
    const { key } = salon;
    await push(key, diaryText(others.slice(0, 1)));
    await push(key, diaryText([...others.slice(0, 1), ...entries]));
    await push(key, diaryText([...entries, ...others]));
    const later = told("12", "b2", "ann@post.example", null);
    await push(key, diaryText([...entries, ...others, later]));
    const both = told("13", "b3", "ann@post.example", "01632 960111");
    await push(key, diaryText([...entries, ...others, later, both]));
    if (salon === salons[1]) await evictDurableObject(objectOf(salon));
    await push(key, diaryText([...entries, ...others, later, both, told("14", "b4", null, "01632 960111")]));
    named.push((await of(key, "b4")).booking.client.id);
    expect([(await of(key, "b1")).booking.client.id, (await of(key, "b2")).booking.client.id]).toEqual(["c2", "c11"]);
  }
  // It is neither of the two: with no restart between as with one.
  expect(named).toEqual(["c12", "c12"]);
  const lists = await Promise.all(salons.map(({ key }) => clientsOf(key)));
  expect(lists[0]?.map(({ id }) => id)).toEqual(lists[1]?.map(({ id }) => id));
});
