/** A salon's first visit, from the operator's key to the calendar, without script: nothing is lost on the way, and no key gets out. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, diaryText, MARA, MINIMAL, createSalon, OPERATOR, plansOf, send, setClock, WREN } from "./client.ts";
import { DeskScreen, fieldsOf, textOf } from "./deskScreen.ts";

beforeEach(() => setClock("2026-11-20T10:00:00Z"));
afterEach(() => {
  vi.useRealTimers();
  vi.restoreAllMocks();
});

const NEW = "/desk/new";
const SALON = {
  operator: OPERATOR,
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  country: "gb",
  "contact.phone": "01632 960 155",
};

const keyIn = (html: string): string => /<div class="key-shown"><p><code>([^<]+)/.exec(html)?.[1] ?? "";

const visit = async () => {
  const screen = new DeskScreen();
  const made = await screen.press(NEW, NEW, SALON);
  return { screen, made, key: keyIn(made.html) };
};

const uploadOf = (html: string, text: string | Blob, address = ""): FormData => {
  const form = new FormData();
  for (const [name, value] of fieldsOf(html, "/desk/new/diary")) form.append(name, value);
  form.set("address", address);
  form.set("kept", "yes");
  form.set("file", new File([text], "diary.ics", { type: "text/calendar" }));
  return form;
};

const GLOSSES = ["Pia Dunn", "Wren Tallis", "Odile Brandt"].map((name, at) => ({
  uid: `g${at}`,
  start: `DTSTART;TZID=Europe/London:2026121${at}T090000`,
  summary: `Glaze - ${name}`,
}));
const DIARY = diaryText([
  { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", summary: "Root tint - Mara Quillfeather" },
  { uid: "t1", start: "DTSTART;TZID=Europe/London:20261202T103000", summary: "Skin test - Mara Quillfeather" },
  { uid: "c1", start: "DTSTART;TZID=Europe/London:20261203T103000", summary: "Cut - Ann Brill" },
  { uid: "x1", start: "DTSTART;TZID=Nowhere/Land:20261203T103000", summary: "Root tint - Nell Orrin" },
  ...GLOSSES,
]);

test("a salon is made with the operator's key, and its own key is shown on that page alone", async () => {
  const { screen, made, key } = await visit();
  expect([made.status, made.headers.get("cache-control")]).toEqual([200, "private, no-store"]);
  expect((await ask(key, "GET", "/api/salon")).status).toBe(200);
  expect(await (await ask(key, "GET", "/api/salon")).json()).toMatchObject({
    name: "Quillfen Colour Room",
    country: "GB",
    contact: { phone: "01632 960 155" },
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
  });
  for (const path of ["/desk/new/diary", "/desk/new/tests", "/desk/new/feed", "/desk/rules"]) {
    const page = await screen.ask(path);
    expect([path, page.status, page.html.includes(key)]).toEqual([path, 200, false]);
  }
  expect(made.html).not.toContain(OPERATOR);
});

test("a wrong operator's key makes nothing, and loses nothing that was typed", async () => {
  const screen = new DeskScreen();
  const refused = await screen.press(NEW, NEW, { ...SALON, operator: "wrong" });
  expect(refused.status).toBe(401);
  expect(textOf(refused.html)).toContain("That is not the operator's key of this service.");
  const fields = fieldsOf(refused.html, NEW);
  expect([fields.get("name"), fields.get("zone"), fields.get("contact.phone"), fields.get("operator")]).toEqual([
    "Quillfen Colour Room",
    "Europe/London",
    "01632 960 155",
    "",
  ]);
  expect(refused.html).not.toContain("wrong");
  expect((await screen.pressOn(refused.html, NEW, { operator: OPERATOR })).status).toBe(200);
});

test("a fault in another field does not ask for the operator's key again, and its page does not hold it", async () => {
  const screen = new DeskScreen();
  const refused = await screen.press(NEW, NEW, { ...SALON, zone: "London" });
  expect(refused.status).toBe(422);
  expect(textOf(refused.html)).toContain("Time zone must be the name of an IANA time zone, not London");
  expect(refused.html).not.toContain(OPERATOR);
  expect((await screen.pressOn(refused.html, NEW, { zone: "Europe/London" })).status).toBe(200);
});

test("a pass that has run out, or was made up, opens nothing", async () => {
  const screen = new DeskScreen();
  const refused = await screen.press(NEW, NEW, { ...SALON, zone: "London" });
  const made = { zone: "Europe/London", pass: `9999999999.${"a".repeat(43)}` };
  expect((await screen.pressOn(refused.html, NEW, made)).status).toBe(401);
  setClock("2026-11-20T11:00:01Z");
  expect((await screen.pressOn(refused.html, NEW, { zone: "Europe/London" })).status).toBe(401);
});

test("the same form sent twice makes one salon and shows its key again; another under it makes none", async () => {
  const screen = new DeskScreen();
  const { html } = await screen.open(NEW);
  const [once, twice] = [await screen.pressOn(html, NEW, SALON), await screen.pressOn(html, NEW, SALON)];
  expect([once.status, twice.status, keyIn(twice.html)]).toEqual([200, 200, keyIn(once.html)]);
  const other = await screen.pressOn(html, NEW, { ...SALON, name: "Other" });
  expect([other.status, textOf(other.html).includes("This form has made a salon already")]).toEqual([409, true]);
});

test("a form of another site makes no salon", async () => {
  const screen = new DeskScreen();
  const { html } = await screen.open(NEW);
  const fields = fieldsOf(html, NEW);
  for (const [name, value] of Object.entries(SALON)) fields.set(name, value);
  const answer = await screen.ask(NEW, { method: "POST", body: fields, headers: { "sec-fetch-site": "cross-site" } });
  expect(answer.status).toBe(403);
  expect(keyIn(answer.html)).toBe("");
});

test("a file is read and explained: how many of each, and how some were taken", async () => {
  const { screen, made, key } = await visit();
  const read = await screen.post("/desk/new/diary", uploadOf(made.html, DIARY));
  expect([read.status, read.headers.get("location")]).toEqual([303, "/desk/new/diary"]);
  expect((await plansOf(key)).map(({ booking }) => booking.uid)).toEqual(["b1"]);
  const text = textOf((await screen.open("/desk/new/diary")).html);
  for (const words of [
    "1 colour booking ",
    "1 skin test ",
    "1 entry that is no colour",
    "3 entries not understood",
    "1 entry whose time is not certain",
    "“Root tint - Mara Quillfeather”, Fri 11 Dec 2026, 10:30: Colour for Mara Quillfeather",
    "glaze 3 times",
  ])
    expect(text).toContain(words);
});

test("one press answers the commonest titles, and the next like them is understood", async () => {
  const { screen, made, key } = await visit();
  await screen.post("/desk/new/diary", uploadOf(made.html, DIARY));
  const answered = await screen.press("/desk/new/diary", "/desk/new/words", { as: "service-0" });
  expect(answered.headers.get("location")).toBe("/desk/new/diary?said=words-kept");
  expect((await plansOf(key)).map(({ booking }) => booking.uid)).toEqual(["g0", "g1", "b1", "g2"]);
  const settings = await (await ask(key, "GET", "/api/salon")).json<{ services: { words: string[] }[] }>();
  expect(settings.services[0]?.words).toContain("glaze");
  const again = await screen.open("/desk/new/diary");
  expect(again.html).not.toContain("/desk/new/words");
});

test("a word that no diary says, or that would hide a client, is not taken", async () => {
  const { screen, made, key } = await visit();
  const nells = [1, 2].map((day) => ({
    uid: `n${day}`,
    start: `DTSTART;TZID=Europe/London:2026122${day}T090000`,
    summary: "Nell Orrin",
  }));
  await screen.post("/desk/new/diary", uploadOf(made.html, diaryText([...nells, ...GLOSSES.slice(0, 1)])));
  const before = await (await ask(key, "GET", "/api/salon")).json();
  const { html } = await screen.open("/desk/new/diary");
  expect(textOf(html)).toContain("This may be a client's name.");
  await screen.pressOn(html, "/desk/new/words", { phrase: ["nell orrin", "colour"], as: ["not-colour", "not-colour"] });
  expect(await (await ask(key, "GET", "/api/salon")).json()).toEqual(before);
});

test.each([
  ["a page", "<!doctype html><title>Sign in</title>", "What came is not a calendar."],
  ["half a file", DIARY.slice(0, 400), "The calendar was cut off"],
  ["a picture", new Blob([new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2])]), "What came is not a calendar."],
])("%s in place of a diary is said, and can be tried again", async (_, content, words) => {
  const { screen, made, key } = await visit();
  expect((await screen.post("/desk/new/diary", uploadOf(made.html, content))).status).toBe(303);
  const page = await screen.open("/desk/new/diary");
  expect(textOf(page.html)).toContain(words);
  expect((await screen.post("/desk/new/diary", uploadOf(page.html, DIARY))).status).toBe(303);
  expect(await plansOf(key)).toHaveLength(1);
});

test("an address is asked at once, and one that cannot be is said with what was typed", async () => {
  const { screen, made, key } = await visit();
  for (const [address, words] of [
    ["", "Give the address of the diary's feed, or choose a file."],
    ["ftp://calendar.example/a.ics", "The address must be an address that begins with https"],
    ["https://127.0.0.1/a.ics", "The address must be an address on the public internet"],
  ] as const) {
    const refused = await screen.pressOn(made.html, "/desk/new/diary", { address });
    expect([refused.status, textOf(refused.html).includes(words)]).toEqual([422, true]);
    expect(fieldsOf(refused.html, "/desk/new/diary").get("address")).toBe(address);
  }
  vi.spyOn(globalThis, "fetch").mockImplementation(async () => new Response("gone", { status: 404 }));
  await screen.pressOn(made.html, "/desk/new/diary", { address: "https://calendar.example/a.ics" });
  expect(textOf((await screen.open("/desk/new/diary")).html)).toContain("answered with status 404");
  vi.spyOn(globalThis, "fetch").mockImplementation(async () => new Response(DIARY));
  const again = await screen.press("/desk/new/diary", "/desk/new/diary", {});
  expect(again.status).toBe(303);
  expect(await plansOf(key)).toHaveLength(1);
});

test("a file in place of an address that did not answer is read", async () => {
  const { screen, made, key } = await visit();
  vi.spyOn(globalThis, "fetch").mockImplementation(async () => new Response("gone", { status: 404 }));
  await screen.pressOn(made.html, "/desk/new/diary", { address: "https://calendar.example/a.ics" });
  const { html } = await screen.open("/desk/new/diary");
  const kept = fieldsOf(html, "/desk/new/diary").get("address") ?? "";
  expect((await screen.post("/desk/new/diary", uploadOf(html, DIARY, kept))).status).toBe(303);
  expect(await plansOf(key)).toHaveLength(1);
});

test("20 MB are read, and what is larger than a diary may be is refused with its bound", async () => {
  const { screen, made } = await visit();
  const filler = `X-NOTE:${"x".repeat(1_000)}\r\n`.repeat(20_000);
  const large = DIARY.replace("END:VCALENDAR", `${filler}END:VCALENDAR`);
  expect((await screen.post("/desk/new/diary", uploadOf(made.html, large))).status).toBe(303);
  expect(textOf((await screen.open("/desk/new/diary")).html)).toContain("1 colour booking ");
  const larger = await screen.post("/desk/new/diary", uploadOf(made.html, new Blob([new Uint8Array(29_000_000)])));
  expect([larger.status, textOf(larger.html).includes("larger than")]).toEqual([413, true]);
});

test("tests and hours are asked with their defaults, and hold; what is wrong is said with what was typed", async () => {
  const { screen, key } = await visit();
  const page = await screen.open("/desk/new/tests");
  const before = await (await ask(key, "GET", "/api/salon")).json();
  expect((await screen.pressOn(page.html, "/desk/new/tests", {})).headers.get("location")).toBe("/desk/new/feed");
  expect(await (await ask(key, "GET", "/api/salon")).json()).toEqual(before);
  const wrong = await screen.pressOn(page.html, "/desk/new/tests", { opening: "kept", "opening.tue": "always" });
  expect([wrong.status, fieldsOf(wrong.html, "/desk/new/tests").get("opening.tue")]).toEqual([422, "always"]);
  const right = { tests: "home-kit,in-salon", "test.home-kit.kit.name": "Kit", "opening.tue": "9-17" };
  expect((await screen.pressOn(wrong.html, "/desk/new/tests", right)).status).toBe(303);
  expect(await (await ask(key, "GET", "/api/salon")).json()).toMatchObject({
    tests: [{ route: "home-kit", kit: { name: "Kit" } }, { route: "in-salon" }],
    opening: { tue: ["09:00-17:00"] },
  });
});

test("the last page has the calendar, and it answers", async () => {
  const { screen, key } = await visit();
  const { html } = await screen.open("/desk/new/feed");
  const feed = /<code>(https[^<]+deadlines\.ics)/.exec(html)?.[1] ?? "";
  expect((await send(feed)).status).toBe(200);
  expect(html).not.toContain(key);
});

test("a salon with several diaries is sent to their own page, and loses none", async () => {
  const salon = await createSalon({ ...MINIMAL, diaries: [{ name: "one" }, { name: "two" }] });
  const screen = new DeskScreen();
  await screen.signIn(salon.key);
  const { html } = await screen.open("/desk/new/diary");
  expect(html).not.toContain('action="/desk/new/diary"');
  expect(textOf(html)).toContain("This salon has several diaries");
  expect([MARA.client, WREN.client].some((name) => html.includes(name))).toBe(false);
});
