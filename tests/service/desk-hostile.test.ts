/** The desk against whoever is clumsy or means harm. Everyone named is invented. */
import { evictDurableObject, reset } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ROWS_KEPT_BYTES } from "../../src/bounds.ts";
import { app } from "../../src/web/app.ts";
import { RowShelf } from "../../src/web/desk/RowShelf.ts";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  objectOf,
  OPERATOR,
  plansOf,
  push,
  send,
  setClock,
  WREN,
} from "./client.ts";
import { DeskScreen, fieldsOf, textOf } from "./deskScreen.ts";

beforeEach(() => setClock("2026-12-01T09:30:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const at = (day: string): string => `DTSTART;TZID=Europe/London:202612${day}T103000`;

test("the coming weeks are made anew after the salon's object was taken out of memory and has read another diary", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([{ uid: "mara-1", start: at("09"), ...MARA }]));
  const desk = new DeskScreen();
  await desk.signIn(salon.key);
  await evictDurableObject(objectOf(salon));
  expect(textOf((await desk.open("/desk/weeks")).html)).toContain("Mara Quillfeather");
  await evictDurableObject(objectOf(salon));
  await push(
    salon.key,
    diaryText([
      { uid: "mara-1", start: at("09"), ...MARA },
      { uid: "wren-1", start: at("10"), ...WREN },
    ]),
  );
  await evictDurableObject(objectOf(salon));
  expect(textOf((await desk.open("/desk/weeks")).html)).toContain("Wren Tallis-Moor");
});

test("weeks without any appointment take room too, so that turning to ever other ones fills no memory", () => {
  const shelf = new RowShelf();
  const weeks = { until: null, from: 0, to: 1, shades: [], ahead: 0 };
  const made = { weeks, count: 0, rows: new Uint8Array() };
  const names = Array.from({ length: ROWS_KEPT_BYTES / 1_000 }, (_, index) => `week ${index}`);
  for (const name of names) shelf.put(name, { tag: "1", made });
  expect(names.filter((name) => shelf.find(name, 0)).length).toBeLessThan(names.length / 2);
  expect(shelf.find(names.at(-1) ?? "", 0)?.tag).toBe("1");
});

test("a held reading is accepted only by whoever has seen it: a page that stood open accepts no later one", async () => {
  const salon = await createSalon();
  const days = ["09", "10", "11", "12", "14"];
  const entries = days.map((day) => ({ uid: `mara-${day}`, start: at(day), ...MARA }));
  await push(salon.key, diaryText(entries));
  const desk = new DeskScreen();
  await desk.signIn(salon.key);
  expect((await push(salon.key, diaryText(entries.slice(0, 2)))).status).toBe(202);
  const seen = await desk.open("/desk/diaries");
  setClock("2026-12-01T09:40:00Z");
  expect((await push(salon.key, diaryText([]))).status).toBe(202);
  const refused = await desk.pressOn(seen.html, "/desk/diaries/accept", {});
  expect(refused.status).toBe(409);
  expect(textOf(refused.html)).toContain("Another reading is held back by now");
  expect((await plansOf(salon.key)).map(({ standing }) => standing)).not.toContain("cancelled");
  const anew = await desk.open("/desk/diaries");
  const accepted = await desk.pressOn(anew.html, "/desk/diaries/accept", {});
  expect(accepted.headers.get("location")).toContain("said=diary-accepted");
  expect((await plansOf(salon.key)).every(({ standing }) => standing === "cancelled")).toBe(true);
});

test("a file brought from a page that stood open makes no new diary of one that was taken away", async () => {
  const salon = await createSalon({ ...MINIMAL, diaries: [{ name: "main" }, { name: "Ines" }] });
  const desk = new DeskScreen();
  await desk.signIn(salon.key);
  const { html } = await desk.open("/desk/diaries");
  const token = fieldsOf(html, "/desk/diaries/push").get("token") ?? "";
  await desk.post("/desk/diaries/drop", { token, name: "Ines" });
  const form = new FormData();
  form.append("token", token);
  form.append("name", "Ines");
  form.append("file", new File([diaryText([{ uid: "mara-1", start: at("09"), ...MARA }])], "ines.ics"));
  expect((await desk.post("/desk/diaries/push", form)).status).toBe(404);
  expect(await plansOf(salon.key)).toEqual([]);
});

const withMara = async (): Promise<{ key: string; desk: DeskScreen; ref: string; page: string }> => {
  const { key } = await createSalon();
  await push(key, diaryText([{ uid: "mara-1", start: at("09"), ...MARA }]));
  const desk = new DeskScreen();
  await desk.signIn(key);
  const [, ref = ""] = /\/desk\/booking\/([0-9a-f-]{36})/.exec((await desk.open("/desk/weeks")).html) ?? [];
  return { key, desk, ref, page: new URL((await linkOf(key, "c1")).page).pathname };
};
const tell = (page: string, fields: Record<string, string>): Promise<Response> =>
  send(`${page}/records`, { method: "POST", body: new URLSearchParams(fields) });

test("what a client tells by her link of a reaction waits to be read, whatever year she mistypes", async () => {
  const { desk, page } = await withMara();
  expect((await tell(page, { press: "reacted..", when: "2025-12-01T08:00" })).status).toBe(303);
  const { html } = await desk.open("/desk");
  expect(html).toContain('action="/desk/seen"');
});

test("nothing that is recorded happened before anybody living was coloured", async () => {
  const { desk, page, ref } = await withMara();
  for (const when of ["0026-12-01T08:00", "1899-12-31T23:59"]) {
    expect((await tell(page, { press: "reacted..", when })).status).toBe(422);
    const { html } = await desk.open(`/desk/booking/${ref}`);
    const token = fieldsOf(html, "/desk/records").get("token") ?? "";
    expect((await desk.post("/desk/records", { token, choice: "applied", booking: ref, when })).status).toBe(422);
  }
});

test("another start is tried only where holidays and clocks are known", async () => {
  const { desk, ref } = await withMara();
  for (const [start, status] of [
    ["2026-12-20T10:00", 200],
    ["9999-12-31T23:59", 422],
    ["1900-01-01T00:00", 422],
  ] as const) {
    expect((await desk.open(`/desk/booking/${ref}?start=${start}`)).status, start).toBe(status);
  }
});

const signedIn = async (): Promise<{ key: string; desk: DeskScreen; token: string }> => {
  const { key } = await createSalon();
  const desk = new DeskScreen();
  await desk.signIn(key);
  const token = fieldsOf((await desk.open("/desk/log")).html, "/desk/who").get("token") ?? "";
  return { key, desk, token };
};

test("an address to go on to is one of the desk, however it is written", async () => {
  const { key, desk, token } = await signedIn();
  const elsewhere = [
    "/desk/..//evil.example/x",
    "/desk/%2e%2e//evil.example",
    "/desk/../c/x",
    "//evil.example",
    "/desk@evil",
  ];
  for (const back of elsewhere) {
    const gone = await desk.post("/desk/who", { token, who: "Ines", back });
    expect(gone.headers.get("location"), back).toBe("/desk?said=who");
    const fault = await desk.post("/desk/records", { token, back });
    expect(fault.html, back).toContain('<a href="/desk">');
    const entry = await desk.post("/desk/entries/x/forget", { token, back });
    expect(entry.html, back).toContain('<a href="/desk/entries">');
    const signing = await new DeskScreen().post("/desk/sign-in", { key, to: back });
    expect(signing.headers.get("location"), back).toBe("/desk");
  }
  const near = await desk.post("/desk/who", { token, who: "Ines", back: "/desk/entries?state=unsorted#e-1" });
  expect(near.headers.get("location")).toBe("/desk/entries?state=unsorted&said=who#e-1");
});

test("a page says of a press what it knows, and nothing of what every object has", async () => {
  const { desk } = await signedIn();
  for (const said of ["constructor", "__proto__", "toString"])
    expect((await desk.open(`/desk?said=${said}`)).html, said).not.toContain('class="said"');
  expect((await desk.open("/desk?said=recorded")).html).toContain('class="said"');
});

test("a name is cut between its characters, and turns nothing round beside a record", async () => {
  const { key, desk, token } = await signedIn();
  expect((await desk.post("/desk/clients/find", { token, q: `${"a".repeat(199)}\u{1f600}` })).status).toBe(303);
  expect((await desk.post("/desk/who", { token, who: `${"a".repeat(99)}\u{1f600}` })).status).toBe(303);
  await desk.post("/desk/who", { token, who: "Ines\u202e\r\nTomas" });
  await ask(key, "POST", "/api/salon/clients", { name: "Ann Brill" });
  await desk.post("/desk/records", { token, choice: "note", client: "c1", note: "x" });
  const { records } = await (await ask(key, "GET", "/api/salon/records")).json<{ records: { by: string }[] }>();
  expect(records.map(({ by }) => by)).toEqual(["Ines Tomas"]);
});

test("signing in and a first visit take no file, whatever is in it", async () => {
  const { key } = await createSalon();
  const form = new FormData();
  form.append("key", key);
  form.append("file", new File(["x".repeat(1_000)], "x.ics"));
  for (const path of ["/desk/sign-in", "/desk/new"]) expect((await new DeskScreen().post(path, form)).status).toBe(415);
});

test("signing out forgets whom somebody looked for, and news is of each salon its own", async () => {
  const { desk, token } = await signedIn();
  await desk.post("/desk/clients/find", { token, q: "Mara" });
  const out = await desk.post("/desk/sign-out", { token });
  const gone = out.headers.getSetCookie().filter((cookie) => cookie.includes("Max-Age=0"));
  expect(gone.map((cookie) => cookie.split("=")[0])).toEqual(["desk", "sought"]);
  const names = await Promise.all(
    [await createSalon(), await createSalon()].map(async ({ key }) => {
      const screen = new DeskScreen();
      await screen.signIn(key);
      return (await screen.ask("/desk")).headers.getSetCookie().map((cookie) => cookie.split("=")[0]);
    }),
  );
  expect(names[0]).not.toEqual(names[1]);
});

test("an e-mail address writes nothing into a message", async () => {
  const { key, desk } = await signedIn();
  const email = "ann@post.example?body=x";
  await ask(key, "POST", "/api/salon/clients", { name: "Ann Brill", email });
  await ask(key, "POST", "/api/salon/records", { client: "c1", kind: "reacted" });
  const { html } = await desk.open("/desk");
  expect(html).toContain('href="mailto:ann@post.example%3Fbody%3Dx"');
});

test("cookies go over https alone where a proxy speaks it for the service", async () => {
  const { key } = await createSalon();
  const signIn = (address: string, headers: Record<string, string>): Promise<Response> =>
    send(`${address}/desk/sign-in`, { method: "POST", body: new URLSearchParams({ key }), headers });
  const [plain, proxied] = [
    await signIn("http://localhost:8787", {}),
    await signIn("http://localhost:8787", { "x-forwarded-proto": "https" }),
  ];
  expect(plain.headers.get("set-cookie")).not.toContain("Secure");
  expect(proxied.headers.get("set-cookie")).toContain("Secure");
});

test("rules are saved only by a form that says what it was filled with", async () => {
  const { key, desk } = await signedIn();
  const { html } = await desk.open("/desk/rules");
  for (const version of [null, "", "-1", "1e400", "x"]) {
    const sent = await desk.pressOn(html, "/desk/rules", { version, name: "Another", do: "save" });
    expect(sent.status, String(version)).toBe(404);
  }
  expect(await (await ask(key, "GET", "/api/salon")).json()).toMatchObject({ name: MINIMAL.name });
});

const NEW_SALON = {
  operator: OPERATOR,
  name: "A",
  zone: "Europe/London",
  country: "GB",
  "contact.phone": "1",
  language: "en-GB",
  press: "reacted..",
};

test("where there is no page, or the service fails, whoever looks at it gets a page", async () => {
  const { desk } = await signedIn();
  const none = await desk.open("/desk/nothing");
  expect([none.status, textOf(none.html)]).toEqual([404, expect.stringContaining("No such page")]);
  const { page } = await withMara();
  const silent = vi.spyOn(console, "error").mockImplementation(() => {});
  const broken = { ...env, SALON: null };
  for (const [path, method] of [
    ["/desk/new", "POST"],
    [`${page}/records`, "POST"],
    [page, "GET"],
  ] as const) {
    const answer = await app.request(
      `https://countback.test${path}`,
      {
        method,
        headers: { accept: "text/html" },
        ...(method === "POST" ? { body: new URLSearchParams(NEW_SALON) } : {}),
      },
      broken,
    );
    expect([answer.status, textOf(await answer.text())], path).toEqual([
      500,
      expect.stringContaining("What was pressed may not be saved"),
    ]);
    expect(answer.headers.get("content-security-policy"), path).toContain("default-src 'none'");
  }
  silent.mockRestore();
});

test("who presses twice that a new key holds is not told that nothing was saved", async () => {
  const { key } = await createSalon();
  const signIn = await send("/desk/sign-in", { method: "POST", body: new URLSearchParams({ key }) });
  const cookie = (signIn.headers.get("set-cookie") ?? "").split(";")[0] ?? "";
  // Both presses were on their way before the first was answered.
  const press = (path: string, body: URLSearchParams): Promise<Response> =>
    send(path, { method: "POST", headers: { cookie }, body });
  const token = fieldsOf(await (await send("/desk", { headers: { cookie } })).text(), "/desk/who");
  const shown = fieldsOf(await (await press("/desk/rules/key", token)).text(), "/desk/rules/key/use");
  expect((await press("/desk/rules/key/use", shown)).status).toBe(303);
  const twice = await press("/desk/rules/key/use", shown);
  expect(twice.status).toBe(401);
  const told = textOf(await twice.text());
  expect(told).toContain("the new key holds already: sign in with it");
  expect(told).not.toContain("Nothing was saved");
});
