/** The desk's clients, over its pages as they are pressed. Everyone named is invented. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, MARA, MINIMAL, push, record, send, setClock, WREN } from "./client.ts";
import { DeskVisitor, type Seen, wordsOf } from "./DeskVisitor.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const AT = (day: number): string => `DTSTART;TZID=Europe/London:202612${day}T103000`;
const TWO = diaryText([
  { uid: "mara-1", start: AT(11), ...MARA },
  { uid: "wren-1", start: AT(12), ...WREN },
]);
const HOSTILE = [
  '<img src=x onerror="alert(1)">',
  '"><script>alert(2)</script>',
  "\u202Etxet live\u202C Ann",
  "Long ".repeat(38).trim(),
  "Émilie 💇🏽‍♀️ O'Quill & Daughters",
];

/** No tag of a stranger's, and no mark that turns the writing round. */
const expectTame = ({ html: page }: Seen): void => {
  // What was typed into a field comes back as it was typed, and turns nothing but itself.
  const html = page.replaceAll(/ value="[^"]*"/g, "");
  expect(html).not.toMatch(/<img|<script>|<script [^s]|onerror="|[\u202a-\u202e\u2066-\u2069]/i);
  expect(html).not.toMatch(/ style=/);
};
const titleOf = ({ html }: Seen): string => /<title>([^<]*)<\/title>/.exec(html)?.[1] ?? "";

test("nobody sees a client without signing in, and no form of another page is taken", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  const shut = await send("/desk/clients/c1");
  expect([shut.status, shut.headers.get("location")]).toEqual([303, "/desk/sign-in?to=%2Fdesk%2Fclients%2Fc1"]);
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  const forged = await desk.press(page, "/desk/clients/c1/link", { what: "renew", token: "somebody else's" });
  expect(forged.status).toBe(403);
  expect((await linkOf(key, "c1")).page).toBe(page.html.match(/value="(https:[^"]*\/c\/[^"/]*)"/)?.[1]);
});

test("a client is found by name, address or telephone, and what was looked for stands in no address", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  const desk = await DeskVisitor.signIn({ key });
  const list = await desk.open("/desk/clients");
  expect(wordsOf(list)).toMatch(/Mara Quillfeather.*Wren Tallis-Moor/);
  for (const q of ["wren tallis", "WREN@example.com"]) {
    const found = await desk.press(list, "/desk/clients/find", { q });
    expect(found.path).toBe("/desk/clients?found=1");
    expect(wordsOf(found)).toContain("Wren Tallis-Moor");
    expect(wordsOf(found)).not.toContain("Mara Quillfeather");
  }
  const none = await desk.press(list, "/desk/clients/find", { q: "Nobody Hereabouts" });
  expect(wordsOf(none)).toContain("Nobody found for “ Nobody Hereabouts ”");
  expect(wordsOf(await desk.open("/desk/clients"))).toContain("Mara Quillfeather");
  expect((await desk.press(list, "/desk/clients/find", { q: " " })).path).toBe("/desk/clients");
});

test("the list goes on page by page", async () => {
  const { key } = await createSalon();
  const entries = Array.from({ length: 60 }, (_, index) => ({
    uid: `many-${index}`,
    start: "DTSTART:20261220T100000Z",
    client: `Client Number ${String.fromCodePoint(97 + Math.floor(index / 26))}${String.fromCodePoint(97 + (index % 26))}`,
    email: `many${index}@example.com`,
  }));
  await push(key, diaryText(entries));
  const desk = await DeskVisitor.signIn({ key });
  const first = await desk.open("/desk/clients");
  expect(first.html.match(/<a href="\/desk\/clients\/c/g)).toHaveLength(50);
  const next = /href="(\/desk\/clients\?after=c\d+)"/.exec(first.html)?.[1] ?? "";
  expect((await desk.open(next)).html.match(/<a href="\/desk\/clients\/c/g)).toHaveLength(10);
});

test("a client is added by hand once, however often the form is sent, and a wrong field leaves all that was typed", async () => {
  const { key } = await createSalon({ ...MINIMAL, staff: ["Ines"] });
  const desk = await DeskVisitor.signIn({ key });
  const list = await desk.open("/desk/clients");
  const wrong = await desk.press(list, "/desk/clients", { name: "Ann Brill", email: "nowhere", phone: "01632 960001" });
  expect(wrong.status).toBe(422);
  expect(wordsOf(wrong)).toContain("E-mail address must be an e-mail address");
  expect(wrong.html).toContain('value="nowhere"');
  expect(wrong.html).toContain('value="Ann Brill"');
  await desk.press(list, "/desk/who", { who: "Ines" });
  const typed = { name: "Ann Brill", email: "", phone: "01632 960001" };
  const added = await desk.press(list, "/desk/clients", typed);
  expect(added.path).toBe("/desk/clients/c1?said=client-added");
  expect(wordsOf(added)).toMatch(/She is a client now.*Ann Brill.*01632 960001/);
  expect((await desk.press(list, "/desk/clients", typed)).path).toBe("/desk/clients/c1?said=client-added");
  const { clients } = await (await ask(key, "GET", "/api/salon/clients")).json<{ clients: unknown[] }>();
  expect(clients).toHaveLength(1);
  expect(wordsOf(added)).toContain("entered by hand, by Ines");
});

test("that a bare name is one woman is asked, and said by one press with a reason", async () => {
  const { key } = await createSalon();
  const entries = [11, 18].map((day) => ({
    uid: `bare-${day}`,
    start: AT(day),
    summary: "Root tint - Ottoline Reedmace",
  }));
  await push(key, diaryText(entries));
  await record(key, { client: "c1", booking: "bare-11", kind: "note", note: "came by" });
  const desk = await DeskVisitor.signIn({ key });
  expect(wordsOf(await desk.open("/desk/clients?state=open"))).toMatch(/Ottoline Reedmace.*1 thing to decide/);
  const page = await desk.open("/desk/clients/c1");
  expect(wordsOf(page)).toContain("nothing proves that they belong to one person");
  const said = await desk.press(page, "/desk/clients/c1/confirm", { reason: "I know her" });
  expect(said.path).toBe("/desk/clients/c1?said=client-confirmed");
  expect(wordsOf(said)).toContain("because: I know her");
  expect(wordsOf(said)).not.toContain("You have to decide");
});

test.each([
  ["join", "The two are one client", "has a stop", false],
  ["apart", "they are two people", "has a stop", false],
] as const)("a namesake's stop is decided by one press: %s", async (deed, says, hint, isThere) => {
  const { key } = await createSalon();
  await push(key, TWO);
  const made = await ask(key, "POST", "/api/salon/clients", { name: "Mara Quillfeather", phone: "01632 960222" });
  const { id } = await made.json<{ id: string }>();
  await record(key, { client: id, kind: "reacted", at: "2026-11-20T10:00:00Z" });
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  expect(wordsOf(page)).toMatch(/You have to decide.*has a stop/);
  const after = await desk.press(page, "/desk/clients/c1/who", { deed });
  expect(wordsOf(after)).toContain(says);
  expect(wordsOf(after).includes(hint)).toBe(isThere);
  expect(wordsOf(after).includes("Stop: do not colour")).toBe(deed === "join");
});

test("two clients are joined by the other's number, and a wrong number leaves the form as it was sent", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  for (const other of ["c99", "c1", "Wren", "<b>"]) {
    const wrong = await desk.press(page, "/desk/clients/c1/join", { with: other, reason: "the same telephone" });
    expect([other, wrong.status]).toEqual([other, 422]);
    expect(wrong.html).toContain('value="the same telephone"');
    expect(wordsOf(wrong)).toContain("as it stands at the top of her page");
  }
  const joined = await desk.press(page, "/desk/clients/c1/join", { with: " C2 ", reason: "" });
  expect(wordsOf(joined)).toMatch(/Also called Wren Tallis-Moor/);
  expect(wordsOf(await desk.open("/desk/clients/c2"))).toMatch(/Mara Quillfeather.*Also called/);
});

test("ticked appointments are split off once, and none ticked is said", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([11, 18].map((day) => ({ uid: `two "quoted" ${day}`, start: AT(day), ...MARA }))));
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  const [first] = [...page.html.matchAll(/name="booking" value="([^"]+)"/g)].map(([, ref]) => ref ?? "");
  const none = await desk.press(page, "/desk/clients/c1/split", {});
  expect([none.status, wordsOf(none).includes("No appointment is ticked")]).toEqual([422, true]);
  const split = await desk.press(page, "/desk/clients/c1/split", { booking: first ?? "", reason: "her sister" });
  expect(split.path).toBe("/desk/clients/c2?said=client-split");
  expect(wordsOf(split)).toContain("Fri 11 Dec 2026, 10:30");
  expect((await desk.press(page, "/desk/clients/c1/split", { booking: first ?? "", reason: "her sister" })).path).toBe(
    split.path,
  );
  expect(wordsOf(await desk.open("/desk/clients/c1"))).not.toContain("Fri 11 Dec 2026, 10:30");
});

test("a request is written down with its last day, and answered", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  const asked = { what: "access", received: "2026-11-30", reason: "by letter" };
  const late = await desk.press(page, "/desk/clients/c1/requests", { ...asked, received: "2026-12-24" });
  expect([late.status, late.html.includes('value="by letter"')]).toEqual([422, true]);
  expect(wordsOf(late)).toContain("Received on must be today or a day of the last ten years");
  const kept = await desk.press(page, "/desk/clients/c1/requests", asked);
  expect(wordsOf(kept)).toMatch(
    /Mon 30 Nov 2026: a copy of all that is kept of her \( by letter \)\. Answer by \w+ \d+ Dec/,
  );
  expect((await desk.press(page, "/desk/clients/c1/requests", asked)).html.match(/It is answered/g)).toHaveLength(1);
  const answered = await desk.press(kept, "/desk/clients/c1/answered");
  expect(wordsOf(answered)).toContain("Answered Tue 1 Dec 2026.");
});

test("her link opens her page, is noted as given, and a new one ends the old", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/clients/c1");
  expect(wordsOf(page)).toContain("Nobody has noted that she was given it. It has not been opened yet.");
  const address = page.html.match(/value="(https:[^"]*\/c\/[^"/]*)"/)?.[1] ?? "";
  expect((await send(address, { headers: { "sec-fetch-dest": "document" } })).status).toBe(200);
  expect(decodeURIComponent(/href="mailto:mara@example.com\?([^"]*)"/.exec(page.html)?.[1] ?? "")).toContain(address);
  const given = await desk.press(page, "/desk/clients/c1/link", { what: "given" });
  expect(wordsOf(given)).toContain("Given Tue 1 Dec 2026, 09:00. First opened Tue 1 Dec 2026, 09:00.");
  const renewed = await desk.press(page, "/desk/clients/c1/link", { what: "renew" });
  expect(renewed.html).not.toContain(address);
  expect((await send(address)).status).toBe(410);
});

test("the card says what to do next and where, and neither her name nor any result", async () => {
  const { key } = await createSalon({ ...MINIMAL, country: "GB", contact: { phone: "01632 960155" } });
  await push(key, TWO);
  await record(key, { client: "c1", booking: "mara-1", kind: "screened", outcome: "pass", at: "2026-12-01T08:00:00Z" });
  const desk = await DeskVisitor.signIn({ key });
  const card = await desk.open("/desk/clients/c1/card");
  const words = wordsOf(card);
  expect(words).toContain("call 999 now and say anaphylaxis");
  expect(words).toMatch(/Come in for your skin test by .* That is .* Dec 2026/);
  expect(words).toContain("Telephone 01632 960155");
  expect(words).not.toMatch(/Mara|Quillfeather|pass\b|Reported so far/);
  expect(card.html).toContain('aria-label="QR code of her page"');
});

test("all that is kept of her is a file, and her erasure says what waits, what is kept and until when", async () => {
  const { key } = await createSalon();
  await push(key, TWO);
  await record(key, {
    client: "c1",
    booking: "mara-1",
    kind: "applied",
    route: "in-salon",
    at: "2026-12-01T08:00:00Z",
  });
  const desk = await DeskVisitor.signIn({ key });
  const file = await desk.open("/desk/clients/c1/export");
  expect(file.headers.get("content-disposition")).toBe('attachment; filename="client-c1.json"');
  expect(JSON.parse(file.html).client.name).toBe("Mara Quillfeather");
  const asks = await desk.open("/desk/clients/c1/erase");
  expect(wordsOf(asks)).toMatch(/It waits for these entries.*Fri 11 Dec 2026, 10:30.*1 record, until/);
  const waits = await desk.press(asks, "/desk/clients/c1/erase", { evidence: "keep", reason: "she asked" });
  expect(waits.path).toBe("/desk/clients/c1?said=erase-waits");
  expect(wordsOf(waits)).toMatch(/She is being erased.*Root tint/);
  await push(key, diaryText([{ uid: "wren-1", start: AT(12), ...WREN }]));
  await ask(key, "POST", "/api/salon/diaries/main/confirm");
  const gone = await desk.open("/desk/clients/c1");
  expect(wordsOf(gone)).toMatch(/She was erased.*1 record, until/);
  expect(gone.html).not.toContain("mara@example.com");
  expect(wordsOf(await desk.open("/desk/clients?state=erased"))).toContain("Mara Quillfeather");
  const last = await desk.press(await desk.open("/desk/clients/c1/erase"), "/desk/clients/c1/erase", {
    evidence: "erase",
  });
  expect(last.path).toBe("/desk/clients?said=erased-all");
  expect((await desk.open("/desk/clients/c1")).status).toBe(404);
});

test("what strangers write is text on every page of a client, and stands in no title", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([{ uid: '"><b onclick=x>', start: AT(11), summary: `Root tint ${HOSTILE[0]}`, ...MARA }]));
  const desk = await DeskVisitor.signIn({ key });
  for (const name of HOSTILE) {
    const list = await desk.open("/desk/clients");
    const page = await desk.press(list, "/desk/clients", { name, email: "", phone: "" });
    expect(page.status).toBe(200);
    const id = /\/desk\/clients\/(c\d+)/.exec(page.path)?.[1] ?? "";
    await record(key, { client: id, kind: "note", note: name, reason: name, by: name, at: "2026-12-01T08:00:00Z" });
    await desk.press(page, `/desk/clients/${id}/requests`, {
      what: "correction",
      received: "2026-12-01",
      reason: name,
    });
    for (const path of [
      `/desk/clients/${id}`,
      `/desk/clients/${id}/erase`,
      `/desk/clients/${id}/card`,
      "/desk/clients",
    ]) {
      const seen = await desk.open(path);
      expect([path, seen.status]).toEqual([path, 200]);
      expectTame(seen);
      expect(titleOf(seen)).toMatch(/^(A client|Erase a client|A card to print|Clients) – desk$/);
    }
    const refused = await desk.press(list, "/desk/clients", { name, email: name, phone: name });
    expect(refused.status).toBe(422);
    expectTame(refused);
    expectTame(await desk.press(list, "/desk/clients/find", { q: name }));
  }
  expectTame(await desk.open("/desk/clients/c1"));
  expect((await desk.open("/desk/clients/%3Cscript%3E")).status).toBe(404);
});
