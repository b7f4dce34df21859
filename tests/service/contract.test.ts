/** The outward contract of keys, settings, errors and the count-back, as an integrator meets it. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { app } from "../../src/web/app.ts";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  OPERATOR,
  ORIGIN,
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

interface Problem {
  readonly status: number;
  readonly title: string;
  readonly detail: string;
  readonly errors?: readonly { readonly at: string; readonly limit: string; readonly remedy: string }[];
}

const problemOf = async (answer: Response, status: number): Promise<Problem> => {
  expect(answer.status).toBe(status);
  expect(answer.headers.get("content-type")).toBe("application/problem+json");
  const body = await answer.json<Problem>();
  expect(body.status).toBe(status);
  return body;
};

test("a salon is made from only a name, a zone and one test, by the operator alone", async () => {
  const made = await ask(OPERATOR, "POST", "/api/salons", MINIMAL);
  expect(made.status).toBe(201);
  expect(made.headers.get("location")).toBe("/api/salon");
  const salon = await made.json<Record<string, string>>();
  expect(Object.keys(salon).sort()).toEqual(["feed", "key", "salon"]);
  expect(salon["feed"]).toMatch(new RegExp(`^${ORIGIN}/s/[A-Za-z0-9_-]{50,}/deadlines\\.ics$`));
  const refused = await ask("not-the-operator", "POST", "/api/salons", MINIMAL);
  expect(refused.headers.get("www-authenticate")).toContain("Bearer");
  await problemOf(refused, 401);
  await problemOf(await ask(salon["key"] ?? "", "POST", "/api/salons", MINIMAL), 401);
});

test("settings are refused with the thing, the value, the limit and the remedy", async () => {
  const tests = (protocol: unknown, more = {}) => ({ ...MINIMAL, tests: [{ route: "in-salon", protocol }], ...more });
  const own = (least: string) =>
    tests("own", { protocols: { own: { lead: { least }, readings: [{ after: "PT48H" }] } } });
  for (const [settings, at] of [
    [{ ...MINIMAL, zone: "Europe/Londn" }, "zone"],
    [{ ...MINIMAL, nam: "x" }, "nam"],
    [{ ...MINIMAL, name: undefined }, "name"],
    [tests("no-such-protocol"), "tests[0].protocol"],
    [own("P2D"), "protocols.own.lead.least"],
    [{ ...MINIMAL, opening: {} }, "opening"],
    [{ ...MINIMAL, opening: { mon: ["18:00-09:00"] } }, "opening.mon[0]"],
    [
      { ...MINIMAL, tests: [{ route: "home-kit", protocol: "home-kit-120h", kit: { ownColour: true } }] },
      "tests[0].kit.ownColour",
    ],
  ] as const) {
    const { errors, detail } = await problemOf(await ask(OPERATOR, "POST", "/api/salons", settings), 422);
    expect(errors?.map((error) => error.at)).toEqual([at]);
    expect(errors?.[0]?.remedy).not.toBe("");
    expect(detail).toContain(at);
  }
  const { detail } = await problemOf(await ask(OPERATOR, "POST", "/api/salons", own("P2D")), 422);
  expect(detail).toContain("PT48H");
});

test("GET and PUT of settings carry an ETag, and an outdated If-Match is refused without loss", async () => {
  const { key } = await createSalon();
  const got = await ask(key, "GET", "/api/salon");
  const etag = got.headers.get("etag") ?? "";
  const settings = await got.json<Record<string, unknown>>();
  const put = (body: unknown, match: string) =>
    send("/api/salon", {
      method: "PUT",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "if-match": match },
      body: JSON.stringify(body),
    });
  const changed = await put({ ...settings, name: "Quillfen Two" }, etag);
  expect(changed.status).toBe(200);
  expect(changed.headers.get("etag")).not.toBe(etag);
  await problemOf(await put({ ...settings, name: "Quillfen Three" }, etag), 412);
  const now = await ask(key, "GET", "/api/salon");
  expect(now.headers.get("etag")).toBe(changed.headers.get("etag"));
  expect((await now.json<Record<string, unknown>>())["name"]).toBe("Quillfen Two");
});

test("a dry run says which plans would change and changes none", async () => {
  const { key, feed } = await createSalon();
  await push(key, diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]));
  const before = [await (await send(feed)).text(), JSON.stringify(await plansOf(key))];
  const kit = { ...MINIMAL, tests: [{ route: "home-kit", protocol: "home-kit-120h" }] };
  const { changes } = await (await ask(key, "PUT", "/api/salon?dry-run", kit)).json<{
    changes: { booking: string; start: string; after: { route: string; firstDue: string } }[];
  }>();
  expect(changes.map(({ booking, start, after }) => [booking, start, after.route, after.firstDue])).toEqual([
    ["b1", "2026-12-11T10:30:00Z", "home-kit", "2026-12-01T16:30:00Z"],
  ]);
  expect([await (await send(feed)).text(), JSON.stringify(await plansOf(key))]).toEqual(before);
  expect((await ask(key, "PUT", "/api/salon", kit)).status).toBe(200);
  expect((await plansOf(key))[0]?.route).toBe("home-kit");
});

test("plans are listed by date in the salon's zone, by instant, by client and by page", async () => {
  const { key } = await createSalon({ ...MINIMAL, zone: "Pacific/Auckland" });
  const at = (uid: string, time: string) => ({
    uid,
    start: `DTSTART;TZID=Pacific/Auckland:${time}`,
    client: `Client ${uid}`,
    email: `${uid}@example.com`,
  });
  await push(key, diaryText([at("a", "20261210T233000"), at("b", "20261211T000000"), at("c", "20261212T090000")]));
  const uids = async (query: string) => (await plansOf(key, query)).map(({ booking }) => booking.uid);
  expect(await uids("")).toEqual(["a", "b", "c"]);
  expect(await uids("?from=2026-12-11&to=2026-12-12")).toEqual(["b"]);
  expect(await uids("?to=2026-12-10T11:00:00Z")).toEqual(["a"]);
  const [, second] = await plansOf(key);
  expect(await uids(`?client=${second?.booking.client.id}`)).toEqual(["b"]);
  const page = await (await ask(key, "GET", "/api/salon/plans?limit=2")).json<{ next: string }>();
  expect(await uids(`?limit=2&after=${page.next}`)).toEqual(["c"]);
  await problemOf(await ask(key, "GET", "/api/salon/plans?from=yesterday"), 422);
  await problemOf(await ask(key, "GET", "/api/salon/plans?form=2026-12-11"), 422);
});

test("wrong methods, types, bodies and addresses are told apart", async () => {
  const { key } = await createSalon();
  const wrong = await ask(key, "DELETE", "/api/count-back");
  expect(wrong.headers.get("allow")).toBe("POST");
  await problemOf(wrong, 405);
  await problemOf(await send("/nowhere"), 404);
  await problemOf(await push(key, "<html></html>", "main", "text/html"), 415);
  const json = { method: "POST", headers: { authorization: `Bearer ${key}`, "content-type": "application/json" } };
  await problemOf(await send("/api/salon/records", { ...json, body: "{" }), 400);
  await problemOf(await send("/api/salon/records", { ...json, body: `"${"x".repeat(1_000_001)}"` }), 413);
  await problemOf(await send("/api/salon/records", { ...json, body: "[]" }), 422);
  const health = await send("/healthz");
  expect([health.status, Object.keys(await health.json<object>())]).toEqual([200, ["status", "version"]]);
});

test("a deployed service without its secrets refuses to serve anything", async () => {
  for (const env of [{}, { OPERATOR_KEY: "x" }, { LINK_SECRET: "x", OPERATOR_KEY: "" }]) {
    for (const path of ["/", "/healthz", "/api/count-back"]) {
      const answer = await app.fetch(new Request(`${ORIGIN}${path}`), env);
      expect(answer.headers.get("retry-after")).not.toBeNull();
      await problemOf(answer, 503);
    }
  }
});

const countBack = (body: unknown, key?: string): Promise<Response> =>
  send("/api/count-back", {
    method: "POST",
    headers: { "content-type": "application/json", ...(key ? { authorization: `Bearer ${key}` } : {}) },
    body: JSON.stringify(body),
  });

test("a count-back of one appointment tries the kit first, then the walk-in, and stores nothing", async () => {
  const plan = await (await countBack({ start: "2026-12-11T10:30", zone: "Europe/London" })).json<PlanSeen>();
  expect(plan.booking.start).toBe("2026-12-11T10:30:00Z");
  // CP2 and CP1 (common practice, no source): on by Sunday 10:30 at home, by Wednesday 10:30 in the salon.
  expect(plan.steps.find(({ kind }) => kind === "application")?.due).toBe("2026-12-06T10:30:00Z");
  expect(plan.routes.map(({ route, until }) => [route, until])).toEqual([
    ["home-kit", "2026-12-02T16:30:00Z"],
    ["in-salon", "2026-12-09T10:30:00Z"],
  ]);
  expect(Object.keys(plan).sort()).toEqual([
    "asOf",
    "booking",
    "earliest",
    "route",
    "routes",
    "standing",
    "steps",
    "why",
  ]);
});

test("only the request's own zone reads a start without an offset", async () => {
  const { errors } = await problemOf(await countBack({ start: "2026-12-11T10:30" }), 422);
  expect(errors?.[0]?.at).toBe("start");
  await problemOf(await countBack({ start: "2026-12-11T10:30", settings: MINIMAL }), 422);
  await problemOf(await countBack({ start: "2026-12-11T10:30", zone: "Europe/Nowhere" }), 422);
  await problemOf(await countBack({ start: "2026-02-30T10:30", zone: "Europe/London" }), 422);
  // RFC 5545 §3.3.5: 02:30 on 8 March 2026 does not exist in New York and is read as 03:30 EDT; a repeated time is its first.
  const gap = await (await countBack({ start: "2027-03-14T02:30", zone: "America/New_York" })).json<PlanSeen>();
  expect(gap.booking.start).toBe("2027-03-14T07:30:00Z");
  const fold = await (await countBack({ start: "2027-11-07T01:30", zone: "America/New_York" })).json<PlanSeen>();
  expect(fold.booking.start).toBe("2027-11-07T05:30:00Z");
});

test("a count-back takes records, another booking's among them, and with a key the salon's own settings", async () => {
  const records = [
    { booking: "earlier", kind: "applied", route: "home-kit", at: "2026-10-01T10:00:00Z" },
    { booking: "earlier", kind: "read", outcome: "clear", at: "2026-10-03T11:00:00Z" },
    { booking: "earlier", kind: "read", outcome: "clear", at: "2026-10-05T11:00:00Z" },
  ];
  const covered = await (await countBack({ start: "2026-12-11T10:30:00Z", records })).json<PlanSeen>();
  expect([covered.route, covered.steps.map(({ kind }) => kind)]).toEqual(["on-file", ["rescreening"]]);
  const ahead = await countBack({ start: "2026-12-11T10:30:00Z", now: "2026-09-01T00:00:00Z", records });
  expect((await problemOf(ahead, 422)).errors?.[0]?.at).toBe("records[0].at");
  const { key } = await createSalon();
  const own = await (await countBack({ start: "2026-12-11T10:30:00Z" }, key)).json<PlanSeen>();
  expect(own.routes.map(({ route }) => route)).toEqual(["in-salon"]);
  const another = key.slice(0, -2) + (key.endsWith("AA") ? "QA" : "AA");
  await problemOf(await countBack({ start: "2026-12-11T10:30:00Z" }, another), 401);
});

test("her page says what to do next, every time, the salon's contact and the emergency words, and offers her feed", async () => {
  const { key } = await createSalon({
    ...MINIMAL,
    country: "GB",
    contact: { phone: "01632 960 155", email: "hello@quillfen.example" },
  });
  await push(key, diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]));
  const { page, feed } = await linkOf(key, (await plansOf(key))[0]?.booking.client.id ?? "");
  const answer = await send(page, { headers: { accept: "text/html" } });
  const html = await answer.text();
  expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
  // Letter for letter as it is fixed; 999 is the UK's number (Anaphylaxis UK, What to do in an emergency).
  expect(html).toContain(
    "call 999 now and say anaphylaxis. Lie down; sit up if breathing is hard. Do not stand or walk. Use your adrenaline pen if you have one. Do not wait for the salon.",
  );
  expect(html).toContain("Wed 9 Dec 2026, 10:30");
  expect(html).toContain('href="tel:01632960155"');
  expect(html).toContain(feed);
  expect(html).toContain(feed.replace("https:", "webcal:"));
  expect(html).not.toMatch(/\bsafe\b/i);
  expect(html).not.toContain("<script");
  await record(key, { booking: "b1", kind: "reacted", at: "2026-12-01T09:00:00Z" });
  const stopped = await (await send(page)).text();
  expect(stopped).toContain("Please telephone Quillfen Colour Room about this appointment");
  expect(stopped).toContain("telephone 01632 960 155 then. Ask a pharmacist or doctor.");
  const lost = await send(`/c/${"A".repeat(54)}`, { headers: { accept: "text/html" } });
  expect([lost.status, (await lost.text()).includes("your local emergency number")]).toEqual([404, true]);
});

test("of two changes to one version of the settings, only one holds", async () => {
  const { key } = await createSalon();
  const etag = (await ask(key, "GET", "/api/salon")).headers.get("etag") ?? "";
  const put = (name: string) =>
    send("/api/salon", {
      method: "PUT",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "if-match": etag },
      body: JSON.stringify({ ...MINIMAL, name }),
    });
  const answers = await Promise.all([put("One"), put("Two"), put("Three")]);
  expect(answers.map(({ status }) => status).sort((a, b) => a - b)).toEqual([200, 412, 412]);
});

test("a diary is added by a push only under a name that the settings can keep, and no more than they can hold", async () => {
  const { key } = await createSalon();
  const pushTo = (name: string) => push(key, diaryText([]), name);
  expect((await pushTo("chair%202")).status).toBe(200);
  for (const name of ["%20chair", "a%2Fb", "x".repeat(201), "a%00b"]) {
    expect((await pushTo(name)).status).toBeGreaterThanOrEqual(400);
  }
  const together = await Promise.all([pushTo("chair-3"), pushTo("chair-3"), pushTo("chair-4")]);
  expect(together.map(({ status }) => status)).toEqual([200, 200, 200]);
  for (let n = 5; n <= 50; n++) expect((await pushTo(`chair-${n}`)).status).toBe(200);
  await problemOf(await pushTo("chair-51"), 422);
  expect((await (await ask(key, "GET", "/api/salon")).json<{ diaries: unknown[] }>()).diaries).toHaveLength(50);
  expect((await ask(key, "PUT", "/api/salon", await (await ask(key, "GET", "/api/salon")).json())).status).toBe(200);
});

test("a count-back over centuries is refused at once, and settings that name no diary take no pushed one away", async () => {
  for (const body of [
    { start: "9999-06-05T10:30:00Z", now: "1000-01-01T00:00:00Z", settings: { country: "IN" } },
    { start: "2026-12-11T10:30:00Z", now: "0001-01-01T10:00:00Z" },
  ]) {
    await problemOf(await countBack(body), 422);
  }
  const { key } = await createSalon();
  await push(key, diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]), "chair-2");
  expect((await ask(key, "PUT", "/api/salon", { ...MINIMAL, name: "Quillfen Two" })).status).toBe(200);
  expect((await plansOf(key)).map(({ standing }) => standing)).not.toContain("cancelled");
  expect((await ask(key, "DELETE", "/api/salon/diaries/chair-2")).status).toBe(204);
  expect((await plansOf(key)).map(({ standing }) => standing)).toEqual(["cancelled"]);
  await problemOf(await ask(key, "DELETE", "/api/salon/diaries/chair-2"), 404);
});
