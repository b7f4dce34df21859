/**
 * What hostile orders of joins, splits, renamings, erasures and time must never lose: a stop, and whose a result is. Rules of the
 * outward contract, no other source; everyone named is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  linkOf,
  type PlanSeen,
  plansOf,
  push,
  record,
  send,
  setClock,
} from "./client.ts";
import { findStored } from "./storage.ts";

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
const ANN = { client: "Ann Brill", email: "ann@post.example" };
const WREN = { client: "Wren Tallis", email: "wren@post.example" };
const at = (day: string, uid: string, more: Partial<EntryText> = ANN): EntryText => ({
  uid,
  start: `DTSTART;TZID=Europe/London:2026${day}T103000`,
  ...more,
});
const bare = (day: string, uid: string, name = "Ann Brill"): EntryText =>
  at(day, uid, { summary: `Root tint - ${name}` });
const post = async (key: string, path: string, body: unknown = {}): Promise<{ status: number; id: string }> => {
  const answer = await ask(key, "POST", `/api/salon/clients${path}`, body);
  return { status: answer.status, id: (await answer.json<{ id?: string }>()).id ?? "" };
};
const idsOf = async (key: string): Promise<readonly [string, string]> => {
  const { clients } = await (await ask(key, "GET", "/api/salon/clients")).json<{ clients: { id: string }[] }>();
  return [clients[0]?.id ?? "", clients[1]?.id ?? ""];
};
const of = async (key: string, uid: string): Promise<PlanSeen> => {
  const plan = (await plansOf(key)).find(({ booking }) => booking.uid === uid);
  if (!plan) throw new Error(`no plan of ${uid}`);
  return plan;
};
const isHeldBack = ({ standing, why }: PlanSeen): boolean =>
  standing === "stop" || why.some(({ code }) => code === "possible-stop");
const erase = (key: string, id: string, query = ""): Promise<Response> =>
  ask(key, "DELETE", `/api/salon/clients/${id}${query}`);
const clear = (client: string) => ({
  client,
  kind: "read",
  route: "in-salon",
  outcome: "clear",
  at: "2026-11-20T10:00:00Z",
});
const REACTED = { kind: "reacted", at: "2026-11-20T10:00:00Z" };

/** A salon of two, each with an appointment ahead. */
const two = async () => {
  const salon = await createSalon(ON_FILE);
  await push(salon.key, diaryText([at("1211", "b1"), at("1218", "b2", WREN)]));
  const [a, b] = await idsOf(salon.key);
  return { ...salon, a, b };
};

test("time goes on after a join: what was due of the other is hers", async () => {
  const { key } = await createSalon({ ...ON_FILE, retention: { evidence: "P1Y", rest: "P1M" } });
  const a = (await post(key, "", { name: "Ann Brill", email: "a@post.example" })).id;
  const b = (await post(key, "", { name: "Ann Brill", email: "b@post.example" })).id;
  await record(key, clear(a));
  expect((await post(key, `/${a}/join`, { with: b })).status).toBe(200);
  setClock("2027-02-01T09:00:00Z");
  expect((await ask(key, "GET", "/api/salon/clients")).status).toBe(200);
  setClock("2028-12-01T09:00:00Z");
  expect((await ask(key, "GET", `/api/salon/clients/${a}`)).status).toBe(404);
});

test.each(["a", "b"] as const)(
  "nobody is joined while %s of the two is being erased, and no stop is lost",
  async (erased) => {
    const { key, ...ids } = await two();
    await record(key, { client: ids.b, ...REACTED });
    expect((await erase(key, ids[erased], "?evidence=erase")).status).toBe(202);
    expect((await post(key, `/${ids.a}/join`, { with: ids.b })).status).toBe(409);
    setClock("2026-12-02T09:00:00Z");
    expect((await of(key, "b2")).standing).toBe("stop");
  },
);

test.each(["link", "api"] as const)("what she tells by %s while wrongly joined is hers once split", async (by) => {
  const { key, a, b } = await two();
  const { page } = await linkOf(key, b);
  await post(key, `/${a}/join`, { with: b });
  const headers = { "content-type": "application/json" };
  const told =
    by === "api"
      ? await record(key, { client: b, ...REACTED })
      : await send(`${page}/records`, { method: "POST", headers, body: JSON.stringify({ kind: "reacted" }) });
  expect(told.status).toBe(201);
  expect((await post(key, `/${a}/split`, { bookings: ["b2"] })).id).toBe(b);
  expect((await of(key, "b2")).standing).toBe("stop");
  // What was told while they were taken for one is asked about the other.
  expect(isHeldBack(await of(key, "b1"))).toBe(true);
  await post(key, `/${a}/apart`, { with: b });
  expect([isHeldBack(await of(key, "b1")), isHeldBack(await of(key, "b2"))]).toEqual([false, true]);
});

test("who had been joined with her before comes back with her", async () => {
  const { key, a, b } = await two();
  const c = (await post(key, "", { name: "Wren Tallis", phone: "01632 960111" })).id;
  await record(key, { client: c, ...REACTED });
  await post(key, `/${b}/join`, { with: c });
  await post(key, `/${a}/join`, { with: b });
  expect((await post(key, `/${a}/split`, { bookings: ["b2"] })).id).toBe(b);
  expect((await of(key, "b2")).standing).toBe("stop");
});

test("two told apart stay two when each is joined with her named self: a third bare name is neither", async () => {
  const { key } = await createSalon(ON_FILE);
  const diary = [bare("1211", "b1"), bare("1212", "b2")];
  await push(key, diaryText(diary));
  const [first] = await idsOf(key);
  const second = (await post(key, `/${first}/split`, { bookings: ["b2"] })).id;
  for (const [row, email] of [
    [first, "ann1@post.example"],
    [second, "ann2@post.example"],
  ] as const) {
    const named = (await post(key, "", { name: "Ann Brill", email })).id;
    expect((await post(key, `/${named}/join`, { with: row })).status).toBe(200);
    await record(key, clear(named));
  }
  await push(key, diaryText([...diary, bare("1220", "b3")]));
  expect((await of(key, "b3")).route).toBe("in-salon");
});

test("one of two told apart is erased: her name alone proves nothing of the other", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([bare("1124", "b1"), bare("1212", "b2")]));
  const [first] = await idsOf(key);
  const second = (await post(key, `/${first}/split`, { bookings: ["b2"] })).id;
  await record(key, clear(second));
  expect((await erase(key, first)).status).toBe(200);
  await push(key, diaryText([bare("1212", "b2"), bare("1220", "b3")]));
  expect((await of(key, "b3")).route).toBe("in-salon");
});

test("split, renamed in the diary, erased: the result goes back to nobody", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1124", "b1"), at("1211", "b2")]));
  const [a] = await idsOf(key);
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-11-20T10:00:00Z" });
  await record(key, { booking: "b1", kind: "read", outcome: "clear", at: "2026-11-22T10:00:00Z" });
  const split = (await post(key, `/${a}/split`, { bookings: ["b1"] })).id;
  await push(key, diaryText([at("1124", "b1", { client: "Xavia Roe", email: "x@post.example" }), at("1211", "b2")]));
  const erased = await (await erase(key, split)).json<{ kept: unknown[] }>();
  expect(erased.kept).toHaveLength(1);
  expect((await of(key, "b2")).route).toBe("in-salon");
});

test("the old name is erased with its evidence: the appointment's stop stays, without a word of hers", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  await push(key, diaryText([at("1211", "b1")]));
  const [old] = await idsOf(key);
  await record(key, { booking: "b1", ...REACTED, note: "unmistakable" });
  await push(key, diaryText([at("1211", "b1", WREN)]));
  expect((await erase(key, old, "?evidence=erase")).status).toBe(200);
  expect((await of(key, "b1")).standing).toBe("stop");
  expect(await findStored(salon, "unmistakable")).toEqual([]);
});

test("consent is taken back by one who was joined, and by one who was split off, each for her own answers", async () => {
  const { key, a, b } = await two();
  const pages = { a: (await linkOf(key, a)).page, b: (await linkOf(key, b)).page };
  for (const page of [pages.a, pages.b]) {
    const asked = await send(`${page}/screening`, { headers: { accept: "application/json" } });
    const { version, questions } = await asked.json<{ version: number; questions: { id: string }[] }>();
    const answers = Object.fromEntries(questions.map(({ id }) => [id, "no"]));
    const body = JSON.stringify({ version, consent: true, answers });
    await send(`${page}/screening`, { method: "POST", headers: { "content-type": "application/json" }, body });
  }
  const withdraw = (page: string) =>
    send(`${page}/consent`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ consent: false }),
    });
  const kept = async (client: string): Promise<readonly boolean[]> => {
    const listed = await ask(key, "GET", `/api/salon/screenings?client=${client}`);
    return (await listed.json<{ screenings: { answers: unknown }[] }>()).screenings.map(
      ({ answers }) => answers !== null,
    );
  };
  await post(key, `/${a}/join`, { with: b });
  await post(key, `/${a}/split`, { bookings: ["b2"] });
  expect((await withdraw(pages.b)).status).toBe(201);
  expect([await kept(a), await kept(b)]).toEqual([[true], [false]]);
  await post(key, `/${a}/join`, { with: b });
  expect((await withdraw(pages.b)).status).toBe(201);
  expect(await kept(a)).toEqual([false, false]);
});

test("an appointment that was erased and comes again under its UID goes on from its stamps", async () => {
  const { key, feed } = await createSalon(ON_FILE);
  const sequences = async (): Promise<ReadonlyMap<string, number>> =>
    new Map(
      (await (await send(feed)).text())
        .split("BEGIN:VEVENT")
        .slice(1)
        .map((event) => [/\nUID:(\S+)/.exec(event)?.[1] ?? "", Number(/\nSEQUENCE:(\d+)/.exec(event)?.[1])]),
    );
  for (const day of ["1211", "1212", "1210"]) await push(key, diaryText([at(day, "b1"), at("1220", "b2", WREN)]));
  setClock("2026-12-11T09:00:00Z");
  const before = await sequences();
  const [a] = await idsOf(key);
  expect((await erase(key, a)).status).toBe(200);
  await push(key, diaryText([at("1229", "b1"), at("1220", "b2", WREN)]));
  const after = await sequences();
  const again = [...after].filter(([uid]) => before.has(uid));
  expect(again.length).toBeGreaterThan(4);
  for (const [uid, sequence] of again) expect(sequence).toBeGreaterThanOrEqual(before.get(uid) ?? 0);
});

test("a stop stays as long as anything of hers, also where the rest is kept longer than the evidence", async () => {
  const { key } = await createSalon({ ...ON_FILE, retention: { evidence: "P1M", rest: "P2Y" } });
  const a = (await post(key, "", { name: "Ann Brill", email: "ann@post.example" })).id;
  await record(key, { client: a, ...REACTED });
  setClock("2028-11-30T09:00:00Z");
  await push(key, diaryText([at("1211", "b1")]).replace("20261211", "20281211"));
  expect((await of(key, "b1")).standing).toBe("stop");
});

test("a description that a reaction lacked is no repetition", async () => {
  const { key } = await createSalon();
  const rows = (signs: string) =>
    `clientName,kind,at,reaction.signs\nAnn Brill,reacted,2026-11-20T10:00:00Z,${signs}\n`;
  const taken = async (text: string): Promise<readonly number[]> => {
    const headers = { authorization: `Bearer ${key}`, "content-type": "text/csv" };
    const answer = await send("/api/salon/records/import", { method: "POST", headers, body: text });
    const { accepted, known } = await answer.json<{ accepted: number; known: number }>();
    return [accepted, known];
  };
  expect([await taken(rows("")), await taken(rows("itching")), await taken(rows("itching"))]).toEqual([
    [1, 0],
    [1, 0],
    [0, 1],
  ]);
});

test("a name behind an escaped line end is found, and a request of another age is refused", async () => {
  const salon = await createSalon(ON_FILE);
  const { key } = salon;
  const cut = at("1120", "cut", { summary: "Cut", more: ["DESCRIPTION:Booked by\\nAnn Brill"] });
  await push(key, diaryText([at("1119", "b1"), cut, at("1218", "b2", WREN)]));
  const [a] = await idsOf(key);
  for (const received of ["9999-12-31", "0001-01-01", "2026-12-02"]) {
    expect((await post(key, `/${a}/requests`, { what: "access", received })).status).toBe(422);
  }
  expect((await erase(key, a)).status).toBe(200);
  expect(await findStored(salon, "Ann Brill")).toEqual([]);
});

const importTable = (key: string, text: string): Promise<Response> =>
  send("/api/salon/records/import", {
    method: "POST",
    headers: { authorization: `Bearer ${key}`, "content-type": "text/csv" },
    body: text,
  });
const tell = (page: string, body: unknown): Promise<Response> =>
  send(`${page}/records`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });

test("a reaction is kept whatever it names: it sets nothing aside, its own or another's, and no ring of names breaks a join", async () => {
  const { key, a, b } = await two();
  const pages = { a: (await linkOf(key, a)).page, b: (await linkOf(key, b)).page };
  for (const [page, corrects] of [
    [pages.a, "r1"],
    [pages.a, "r2"],
    [pages.b, "r1"],
    [pages.b, "r999"],
  ] as const) {
    const told = await tell(page, { kind: "reacted", corrects });
    expect([told.status, (await told.json<{ corrects: unknown }>()).corrects]).toEqual([201, null]);
  }
  const line = "client,kind,at,corrects\n";
  const imported = await importTable(key, `${line}${a},reacted,2026-11-30T10:00:00Z,r5`);
  expect([imported.status, (await imported.json<{ accepted: number }>()).accepted]).toEqual([200, 1]);
  expect((await post(key, `/${a}/join`, { with: b })).status).toBe(200);
  expect((await of(key, "b1")).standing).toBe("stop");
});

test("nothing that another client tells changes what is asked about an appointment", async () => {
  const { key, b } = await two();
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-11-20T10:00:00Z" });
  await push(
    key,
    diaryText([at("1211", "b1", { client: "Dot Marlow", email: "dot@post.example" }), at("1212", "b2", WREN)]),
  );
  const codes = async () => (await of(key, "b1")).why.map(({ code }) => code);
  expect(await codes()).toContain("told-of-another");
  await tell((await linkOf(key, b)).page, { kind: "reacted", corrects: "r1" });
  expect(await codes()).toContain("told-of-another");
});

test("of two who could be meant by one telephone it is neither, in a diary and in a table", async () => {
  const { key } = await createSalon(ON_FILE);
  const phone = "DESCRIPTION:tel:01632 960123";
  const both = [
    at("1211", "b1", { ...ANN, more: [phone] }),
    at("1212", "b2", { client: "Ann Brill", email: "girl@post.example", more: [phone] }),
  ];
  await push(key, diaryText(both.map((entry) => ({ ...entry, more: [] }))));
  await push(key, diaryText(both));
  const [mother] = await idsOf(key);
  await record(key, clear(mother));
  await push(key, diaryText([...both, at("1220", "b3", { summary: "Root tint - Ann Brill", more: [phone] })]));
  const third = await of(key, "b3");
  expect([third.route, third.booking.client.id === mother]).toEqual(["in-salon", false]);
  const line =
    "clientName,clientPhone,kind,outcome,route,at\nAnn Brill,01632 960123,read,clear,in-salon,2026-11-01T10:00:00Z";
  const imported = await importTable(key, line);
  const { refused } = await imported.json<{ refused: { reason: { code: string } }[] }>();
  expect(refused.map(({ reason }) => reason.code)).toEqual(["client-of-several"]);
});

test("an entry whose address gives way to a telephone carries her result to no other entry unasked", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1211", "b1")]));
  const [ann] = await idsOf(key);
  await record(key, clear(ann));
  expect((await of(key, "b1")).route).toBe("on-file");
  const phoned = (day: string, uid: string) =>
    at(day, uid, { summary: "Root tint - Ann Brill", more: ["DESCRIPTION:tel:01632 960123"] });
  await push(key, diaryText([phoned("1211", "b1"), phoned("1220", "b2")]));
  expect((await of(key, "b2")).route).toBe("in-salon");
  expect((await of(key, "b2")).why.map(({ code }) => code)).toContain("person-not-confirmed");
});

test("what is imported of one who is joined stays hers when they are split", async () => {
  const { key, a, b } = await two();
  await post(key, `/${a}/join`, { with: b });
  const lines = [
    "client,clientName,clientEmail,kind,outcome,route,at",
    `,Wren Tallis,wren@post.example,read,clear,in-salon,2026-11-01T10:00:00Z`,
    `${b},,,read,clear,in-salon,2026-11-02T10:00:00Z`,
  ];
  const imported = await importTable(key, lines.join("\n"));
  expect((await imported.json<{ accepted: number }>()).accepted).toBe(2);
  expect((await post(key, `/${a}/split`, { bookings: ["b2"] })).id).toBe(b);
  expect([(await of(key, "b1")).route, (await of(key, "b2")).route]).toEqual(["in-salon", "on-file"]);
});

test("a join that is taken back takes back that a bare name is one woman", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([bare("1211", "b1"), bare("1214", "b2"), bare("1216", "b3", "Ann Cole")]));
  const [brill, cole] = await idsOf(key);
  await record(key, { ...clear(brill), booking: "b1", client: brill });
  await post(key, `/${brill}/join`, { with: cole });
  expect((await of(key, "b2")).route).toBe("on-file");
  expect((await post(key, `/${brill}/split`, { bookings: ["b3"] })).id).toBe(cole);
  expect((await of(key, "b2")).route).toBe("in-salon");
});

test("one who came to a join with no appointment is herself again when they are told apart, with what was told of her", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1211", "b1")]));
  const [ann] = await idsOf(key);
  const wren = (await post(key, "", { name: "Wren Tallis", email: "wren@post.example" })).id;
  await record(key, clear(wren));
  const { page } = await linkOf(key, wren);
  await post(key, `/${ann}/join`, { with: wren });
  expect((await of(key, "b1")).route).toBe("on-file");
  expect((await tell(page, { kind: "reacted" })).status).toBe(201);
  expect((await of(key, "b1")).standing).toBe("stop");
  expect((await post(key, `/${ann}/apart`, { with: wren })).status).toBe(200);
  expect((await ask(key, "GET", `/api/salon/clients/${wren}`)).status).toBe(200);
  // A stop stays with the appointment that it was told under, too.
  expect((await of(key, "b1")).standing).toBe("stop");
  await push(key, diaryText([at("1211", "b1"), at("1220", "b2", WREN)]));
  const hers = await of(key, "b2");
  expect([hers.booking.client.id, hers.standing]).toEqual([wren, "stop"]);
});

test.each(["the page's form", "a program"])(
  "that something shows is kept though %s names an appointment that is not hers",
  async (by) => {
    const { key, a } = await two();
    const { page } = await linkOf(key, a);
    await push(
      key,
      diaryText([at("1211", "b1", { client: "Dot Marlow", email: "dot@post.example" }), at("1212", "b2", WREN)]),
    );
    const told =
      by === "a program"
        ? await tell(page, { kind: "reacted", booking: "b1" })
        : await send(`${page}/records`, {
            method: "POST",
            headers: { "content-type": "application/x-www-form-urlencoded" },
            body: "kind=reacted&booking=b1",
            redirect: "manual",
          });
    expect(told.status).toBe(by === "a program" ? 201 : 303);
    const kept = await ask(key, "GET", `/api/salon/records?client=${a}`);
    const { records } = await kept.json<{ records: { kind: string; booking: unknown }[] }>();
    expect(records.map(({ kind, booking }) => [kind, booking])).toEqual([["reacted", null]]);
    const gone = await record(key, { client: a, booking: "nowhere", kind: "reacted", at: "2026-12-01T08:00:00Z" });
    expect(gone.status).toBe(201);
  },
);

test("a stop goes with the appointment it was told under; of the new name's other appointments it is a question, until told apart", async () => {
  const { key } = await createSalon(ON_FILE);
  const dora = { client: "Dora Finch", email: "dora@post.example" };
  await push(key, diaryText([at("1211", "b1", WREN), at("1214", "b2", WREN), at("1216", "d1", dora)]));
  await record(key, { booking: "b1", kind: "screened", outcome: "do-not-colour", reason: "past-reaction" });
  await push(key, diaryText([at("1211", "b1", dora), at("1214", "b2", WREN), at("1216", "d1", dora)]));
  const stands = async () => {
    const plans = [await of(key, "b1"), await of(key, "b2"), await of(key, "d1")];
    return plans.map((plan) => (plan.standing === "stop" ? "stop" : isHeldBack(plan) ? "asked" : "free"));
  };
  expect(await stands()).toEqual(["stop", "stop", "asked"]);
  const [wren, other] = await idsOf(key);
  const shown = await (await ask(key, "GET", `/api/salon/clients/${other}`)).json<{ possible: unknown[] }>();
  expect(shown.possible).toEqual([expect.objectContaining({ id: wren, agrees: ["appointment"], stop: true })]);
  expect((await post(key, `/${other}/apart`, { with: wren })).status).toBe(200);
  expect(await stands()).toEqual(["stop", "stop", "free"]);
});

test.each(["apart", "split"] as const)(
  "who was joined and is two again by %s is asked about what was told meanwhile",
  async (by) => {
    const { key } = await createSalon(ON_FILE);
    const other = at("1216", "b2", { client: "Ann Brill", email: "ann.b@post.example" });
    await push(key, diaryText(by === "split" ? [at("1211", "b1"), other] : [other]));
    const one = (await post(key, "", { name: "Ann Brill", email: "ann@post.example" })).id;
    const second = (await of(key, "b2")).booking.client.id;
    await post(key, `/${second}/join`, { with: one });
    await record(key, { client: second, ...REACTED });
    const said =
      by === "apart"
        ? await post(key, `/${second}/apart`, { with: one })
        : await post(key, `/${second}/split`, { bookings: ["b1"] });
    expect([200, 201]).toContain(said.status);
    await push(key, diaryText([at("1211", "b1"), other]));
    expect((await of(key, "b1")).booking.client.id).toBe(one);
    expect([isHeldBack(await of(key, "b1")), (await of(key, "b2")).standing]).toEqual([true, "stop"]);
  },
);

test("a look that is not sure is kept though its appointment was handed on", async () => {
  const { key, a } = await two();
  const { page } = await linkOf(key, a);
  await push(
    key,
    diaryText([
      at("1211", "b1", { client: "Dot Marlow", email: "dot@post.example" }),
      at("1220", "b3"),
      at("1212", "b2", WREN),
    ]),
  );
  expect((await tell(page, { kind: "read", outcome: "not-sure", booking: "b1" })).status).toBe(201);
  expect((await of(key, "b3")).standing).toBe("stop");
});

test("an erasure leaves a stop with its appointment, and makes it no record of whose that is", async () => {
  const { key } = await createSalon(ON_FILE);
  const dora = { client: "Dora Finch", email: "dora@post.example" };
  await push(key, diaryText([at("1211", "b1", WREN), at("1216", "d1", dora)]));
  const [wren, other] = await idsOf(key);
  await record(key, { booking: "b1", ...REACTED });
  await push(key, diaryText([at("1211", "b1", dora), at("1216", "d1", dora)]));
  expect((await erase(key, wren, "?evidence=erase")).status).toBe(200);
  expect([(await of(key, "b1")).standing, (await of(key, "d1")).standing]).not.toEqual(["stop", "stop"]);
  expect((await of(key, "b1")).standing).toBe("stop");
  const copy = await ask(key, "GET", `/api/salon/clients/${other}/export`);
  expect((await copy.json<{ records: unknown[] }>()).records).toEqual([]);
});

test("the question about a stop that came with an appointment stays as long as the stop", async () => {
  const { key } = await createSalon({ ...ON_FILE, retention: { evidence: "P6Y", rest: "P1M" } });
  const dora = { client: "Dora Finch", email: "dora@post.example" };
  await push(key, diaryText([at("1211", "b1", WREN), at("1216", "d1", dora)]));
  await record(key, { booking: "b1", ...REACTED });
  await push(key, diaryText([at("1211", "b1", dora), at("1216", "d1", dora)]));
  for (const [now, uid, day] of [
    ["2027-01-10", "d2", "20270201"],
    ["2027-02-10", "d3", "20270301"],
    ["2027-03-10", "d4", "20270401"],
  ] as const) {
    setClock(`${now}T09:00:00Z`);
    await push(key, diaryText([{ uid, start: `DTSTART;TZID=Europe/London:${day}T103000`, ...dora }]));
    expect([now, isHeldBack(await of(key, uid))]).toEqual([now, true]);
  }
});

test("one who was erased, joined and split again is erased again", async () => {
  const { key } = await createSalon(ON_FILE);
  await push(key, diaryText([at("1124", "b1"), at("1211", "b2", WREN)]));
  const [ann, wren] = await idsOf(key);
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-11-20T10:00:00Z" });
  expect((await erase(key, ann)).status).toBe(200);
  expect((await post(key, `/${wren}/join`, { with: ann })).status).toBe(200);
  expect((await post(key, `/${wren}/split`, { bookings: ["b1"] })).status).toBe(201);
  expect((await ask(key, "GET", `/api/salon/clients/${ann}`)).status).toBe(404);
});
