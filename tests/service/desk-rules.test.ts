/** The salon's rules at the desk: what is typed holds, what is wrong is said where it was typed, and nothing is lost. */
import * as fc from "fast-check";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { lawfulSettings } from "../pure/any-settings.ts";
import { ask, createSalon, diaryText, MARA, MINIMAL, plansOf, push, send, setClock, type TestSalon } from "./client.ts";
import { DeskScreen, fieldsOf, textOf } from "./deskScreen.ts";

beforeEach(() => setClock("2026-11-20T10:00:00Z"));
afterEach(() => vi.useRealTimers());

const RULES = "/desk/rules";
const settingsOf = async ({ key }: TestSalon) => (await ask(key, "GET", "/api/salon")).json<Record<string, unknown>>();
const versionOf = async ({ key }: TestSalon) => (await ask(key, "GET", "/api/salon")).headers.get("etag");

const atDesk = async (settings: unknown = MINIMAL) => {
  const salon = await createSalon(settings);
  const screen = new DeskScreen();
  await screen.signIn(salon.key);
  return { salon, screen };
};

/** What the page says would change. */
const said = (html: string): string => textOf(/<div id="changes"[^]*?<div class="buttons"/.exec(html)?.[0] ?? "");

const EVERYTHING = {
  ...MINIMAL,
  name: 'Quillfen "& Daughters" <b>',
  country: "GB",
  language: "en-US",
  contact: { phone: "01632 960 155", email: "hello@quillfen.example", address: "3 Reedcutter's Row\r\nQuillfen" },
  staff: ["Ines", "Tomas"],
  services: [
    { name: "Permanent\ncolour", words: ["tint", "root*"], product: "line A", shade: 4.5 },
    { name: "Gloss", words: ["gloss"] },
  ],
  notColour: [],
  clientFrom: ["attendee"],
  tests: [
    {
      route: "home-kit",
      protocol: ["own", "home-kit-120h"],
      kit: { name: "Kit", instructions: "One\ntwo" },
      onFile: { months: 6, product: "same", shade: "not-darker" },
      screening: { margin: "PT1440M" },
    },
    { route: "in-salon", protocol: "salon-48h", onFile: null, kit: { name: "left over" } },
  ],
  protocols: {
    own: { lead: { least: "PT130H" }, wear: "PT48H", readings: [{ after: "PT50H" }], source: { note: "leaflet" } },
  },
  questions: [{ id: "own", text: "A piercing?", yes: "test-needed" }],
  opening: { tue: ["09:00-13:00", "14:00 - 17:30"], sat: [] },
  closed: ["2026-12-24/2027-01-02"],
  holidays: { country: "IE", region: null, add: ["2027-06-15"] },
  post: { transit: 2, holidays: false, delivery: ["fri", "mon"] },
  show: { clients: "names", words: "discreet" },
  retention: { evidence: "P7Y", rest: "P18M" },
};

test("a form that is sent back untouched changes nothing, whatever the settings are", async () => {
  for (const settings of [MINIMAL, EVERYTHING]) {
    const { salon, screen } = await atDesk(settings);
    const before = [await settingsOf(salon), await versionOf(salon)];
    const answer = await screen.press(RULES, RULES, { do: "save" });
    expect([answer.status, answer.headers.get("location")]).toEqual([303, "/desk/rules?said=rules-saved"]);
    expect([await settingsOf(salon), await versionOf(salon)]).toEqual(before);
  }
});

test("random settings come back from their page as they are", async () => {
  await fc.assert(
    fc.asyncProperty(lawfulSettings, async (settings) => {
      const made = await ask("operator-key-of-the-tests", "POST", "/api/salons", settings);
      expect([made.status, made.status === 201 ? "" : await made.clone().text()]).toEqual([201, ""]);
      const salon = await made.json<TestSalon>();
      const screen = new DeskScreen();
      await screen.signIn(salon.key);
      const version = await versionOf(salon);
      expect((await screen.press(RULES, RULES, { do: "save" })).status).toBe(303);
      expect(await versionOf(salon)).toBe(version);
    }),
    { numRuns: 40 },
  );
});

test("what is typed is tried first, and holds once it is saved", async () => {
  const { salon, screen } = await atDesk();
  await push(salon.key, diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]));
  const changes = { tests: "home-kit,in-salon", opening: "kept", "opening.tue": "9 to 5.30pm" };
  const tried = await screen.press(RULES, RULES, { ...changes, do: "preview" });
  expect(tried.status).toBe(200);
  expect(said(tried.html)).toContain("1 booking would have steps at other times.");
  expect(said(tried.html)).toContain("Mara Quillfeather");
  expect(fieldsOf(tried.html, RULES).get("opening.tue")).toBe("9 to 5.30pm");
  expect((await plansOf(salon.key))[0]?.route).toBe("in-salon");
  const saved = await screen.pressOn(tried.html, RULES, { do: "save" });
  expect(saved.status).toBe(303);
  expect((await plansOf(salon.key))[0]?.route).toBe("home-kit");
  expect((await settingsOf(salon))["opening"]).toEqual({ tue: ["09:00-17:30"] });
});

test("bookings that would come, go, or have no time are told before anything is saved", async () => {
  const { salon, screen } = await atDesk();
  await push(
    salon.key,
    diaryText([
      { uid: "near", start: "DTSTART;TZID=Europe/London:20261124T103000", ...MARA },
      { uid: "gloss", start: "DTSTART;TZID=Europe/London:20261212T103000", summary: "Gloss", ...MARA },
    ]),
  );
  const more = await screen.press(RULES, RULES, {
    "service.1.name": "Gloss",
    "service.1.words": "gloss",
    do: "preview",
  });
  expect(said(more.html)).toContain("1 entry would become a booking with deadlines.");
  expect(said(more.html)).toContain("Entries that nothing is understood of: 1 now, 0 then.");
  const late = await screen.press(RULES, RULES, { tests: "home-kit", do: "preview" });
  expect(said(late.html)).toContain("1 booking would no longer fit: no time would be left for a test.");
  const shorter = await screen.press(RULES, RULES, {
    "retention.rest": "1 day",
    "retention.evidence": "1 day",
    do: "preview",
  });
  expect(shorter.status).toBe(200);
});

test("what is refused stands at its field, in the form as it was typed, and nothing is saved", async () => {
  const { salon, screen } = await atDesk();
  const version = await versionOf(salon);
  const typed = {
    name: "",
    zone: "London",
    opening: "kept",
    "opening.mon": "all day",
    lastWalkIn: "2 days",
    closed: "2026-12-24\r\nsoon",
    "post.transit": "x",
    "post.collection": [""],
    "test.in-salon.protocol": [""],
    "service.0.shade": "11",
    protocols: '{"own": ',
  };
  const answer = await screen.press(RULES, RULES, { ...typed, do: "save" });
  expect(answer.status).toBe(422);
  const sent = fieldsOf(answer.html, RULES);
  for (const [name, value] of Object.entries(typed)) expect(sent.getAll(name)).toEqual([value].flat());
  const faultAt = (name: string) => textOf(new RegExp(`id="f-${name}-fault">([^<]*)`).exec(answer.html)?.[1] ?? "none");
  expect(faultAt("zone")).toContain("Must be the name of an IANA time zone");
  expect(faultAt("service.0.shade")).toContain("Must be a depth from 1, darkest, to 10, lightest");
  expect(faultAt("post.transit")).toContain("Must be a number");
  expect(faultAt("post.collection")).toBe("Must have at least one tick; set one.");
  expect(faultAt("test.in-salon.protocol")).not.toBe("none");
  expect(faultAt("protocols")).toContain("Is not JSON");
  expect(faultAt("name")).toContain("text with something in it");
  const rest = await screen.press(RULES, RULES, {
    opening: "kept",
    "opening.mon": "all day",
    lastWalkIn: "2 days",
    closed: "2026-12-24\r\nsoon",
    do: "preview",
  });
  expect(rest.status).toBe(422);
  const text = textOf(rest.html);
  expect(text).toContain("Last walk-in before closing must be in exact hours, such as 48 hours, not 2 days");
  expect(text).toContain("Closed days: line 2 must be a date");
  expect(text).toContain("Opening hours: Monday must be two times");
  expect(await versionOf(salon)).toBe(version);
});

test("what was saved on another screen meanwhile is taken over, and what was typed is kept", async () => {
  const { salon, screen } = await atDesk();
  const { html } = await screen.open(RULES);
  await screen.press(RULES, RULES, { "contact.phone": "01632 960 100", closed: "2026-12-24", do: "save" });
  const late = await screen.pressOn(html, RULES, { closed: "2026-12-25", "post.transit": "2", do: "save" });
  expect(late.status).toBe(412);
  expect(textOf(late.html)).toContain("Changed by both of you, and left as you typed it: Closed days");
  const fields = fieldsOf(late.html, RULES);
  expect(["contact.phone", "closed", "post.transit"].map((name) => fields.get(name))).toEqual([
    "01632 960 100",
    "2026-12-25",
    "2",
  ]);
  expect((await screen.pressOn(late.html, RULES, { do: "save" })).status).toBe(303);
  expect(await settingsOf(salon)).toMatchObject({
    contact: { phone: "01632 960 100" },
    closed: ["2026-12-25"],
    post: { transit: 2 },
  });
});

test("a press that is sent twice is saved once, and both times said to be saved", async () => {
  const { salon, screen } = await atDesk();
  const { html } = await screen.open(RULES);
  const once = await screen.pressOn(html, RULES, { name: "Two", do: "save" });
  const version = await versionOf(salon);
  const twice = await screen.pressOn(html, RULES, { name: "Two", do: "save" });
  expect([once.status, twice.status, await versionOf(salon)]).toEqual([303, 303, version]);
});

test("a new key holds once it is said to be kept, signs every other screen out and keeps this one", async () => {
  const { salon, screen } = await atDesk();
  const other = new DeskScreen();
  await other.signIn(salon.key);
  const shown = await screen.press(RULES, "/desk/rules/key", {});
  const key = fieldsOf(shown.html, "/desk/rules/key/use").get("key") ?? "";
  expect((await ask(salon.key, "GET", "/api/salon")).status).toBe(200);
  expect((await ask(key, "GET", "/api/salon")).status).toBe(401);
  const used = await screen.pressOn(shown.html, "/desk/rules/key/use", {});
  expect(used.status).toBe(303);
  expect(used.headers.get("location")).not.toContain(key);
  expect((await ask(salon.key, "GET", "/api/salon")).status).toBe(401);
  expect((await ask(key, "GET", "/api/salon")).status).toBe(200);
  expect((await screen.ask(RULES)).status).toBe(200);
  expect((await other.ask(RULES)).headers.get("location")).toContain("/desk/sign-in");
});

test("a key of another salon cannot be put in place of one's own", async () => {
  const { salon, screen } = await atDesk();
  const another = await createSalon();
  const shown = await screen.press(RULES, "/desk/rules/key", {});
  expect((await screen.pressOn(shown.html, "/desk/rules/key/use", { key: another.key })).status).toBe(422);
  expect((await ask(salon.key, "GET", "/api/salon")).status).toBe(200);
});

test("the calendar gets another address, and the one before is gone", async () => {
  const { salon, screen } = await atDesk();
  const { html } = await screen.open(RULES);
  expect(html).toContain(salon.feed);
  expect((await screen.pressOn(html, "/desk/rules/feed", {})).status).toBe(303);
  expect((await send(salon.feed)).status).toBe(410);
  const feed = /<code>(https[^<]+deadlines\.ics)/.exec((await screen.open(RULES)).html)?.[1] ?? "";
  expect((await send(feed)).status).toBe(200);
});
