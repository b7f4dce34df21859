/**
 * One appointment on one page for an insurer, and as JSON. Headings of a reaction: the United Kingdom's form for serious
 * undesirable effects of cosmetics. What must be on a record card: NHBF and FHA. Everyone named is invented.
 */
import { evictDurableObject, reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  objectOf,
  push,
  record,
  send,
  setClock,
} from "./client.ts";
import { B1, evidenceOf, pageOf, tell } from "./evidenceSeen.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

test("screening, product, batch, site, on, off, looks, result, who confirmed, notes and a line to sign on are all there", async () => {
  const salon = await createSalon();
  const { key } = salon;
  await push(key, diaryText([B1]));
  const { page: link } = await linkOf(key, "c1");
  const asked = await (await send(`${link}/screening`, { headers: { accept: "application/json" } })).json<{
    version: number;
    questions: { id: string; text: string }[];
  }>();
  const answers = Object.fromEntries(asked.questions.map(({ id }) => [id, "no"]));
  const answered = await send(`${link}/screening`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ version: asked.version, consent: true, answers }),
  });
  expect(answered.status).toBe(201);
  setClock("2026-12-08T10:00:00Z");
  const test48 = { product: "line A", shade: 3, batch: "LOT-77", site: "behind the left ear", route: "in-salon" };
  await tell(key, { kind: "applied", at: "2026-12-08T10:00:00Z", ...test48 });
  setClock("2026-12-10T10:30:00Z");
  await tell(key, { kind: "removed", at: "2026-12-08T10:45:00Z" });
  await tell(key, { kind: "read", outcome: "clear", at: "2026-12-10T10:15:00Z" });
  await tell(key, { kind: "note", note: "prefers the <left> side", at: "2026-12-10T10:20:00Z" });
  setClock("2026-12-11T10:00:00Z");
  await tell(key, { kind: "confirmed", at: "2026-12-11T10:00:00Z" });
  await evictDurableObject(objectOf(salon));
  const evidence = await evidenceOf(key);
  expect(evidence.client.name).toBe(MARA.client);
  expect(evidence.booking).toMatchObject({ start: "2026-12-11T10:30:00Z", service: "Colour" });
  expect(evidence.plan?.standing).toBe("ready");
  expect(evidence.records.map(({ kind }) => kind)).toEqual([
    "screened",
    "applied",
    "removed",
    "read",
    "note",
    "confirmed",
  ]);
  const [screened, applied] = evidence.records;
  expect(screened).toMatchObject({ via: "client-link", questions: 1, zone: "Europe/London", settings: 1 });
  expect(screened?.["words"]).toContain("I agree");
  expect(applied).toMatchObject({
    ...test48,
    by: "Ines",
    via: "desk",
    recorded: "2026-12-08T10:00:00Z",
    rule: { protocol: "salon-48h", duration: "PT48H", source: expect.stringMatching(/\w{4} \w/) },
  });
  expect(evidence.screenings).toMatchObject([{ version: 1, answers }]);
  // Six years from the last event of the case, the colour itself (NHBF: at least six years).
  expect(evidence.until).toBe("2032-12-12T00:00:00Z");
  const page = await pageOf(key);
  for (const words of [
    MARA.client,
    "Fri 11 Dec 2026, 10:30 +00:00",
    "Times are of Europe/London",
    "Tue 8 Dec 2026, 10:00",
    "Tue 8 Dec 2026, 10:45",
    "Thu 10 Dec 2026, 10:15",
    "Product: line A",
    "Depth of shade: 3",
    "Batch: LOT-77",
    "Site: behind the left ear",
    "Result: clear",
    "Ines at the desk",
    "by the client's own link",
    "prefers the &lt;left&gt; side",
    "salon-48h, 48 hours; settings 1",
    "The test went on 72 hours 30 minutes before the appointment; the rule asks for at least 48 hours.",
    "Rule salon-48h: How to do the 48 hour Allergy Alert Test?",
    "Words shown (r1): “I agree",
    "Client: name, signature, date",
    "For the salon: name, signature, date",
    "Reference of the appointment: b1",
    "A clear test does not mean that no reaction will happen.",
    ...asked.questions.map(({ text }) => text),
  ]) {
    expect(page).toContain(words);
  }
  expect(page).not.toMatch(/\bsafe\b/i);
});

test("a reaction is recorded under the headings of the form, and a correction stands beside what it corrects", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([B1]));
  const reaction = {
    productName: "line A, 4",
    company: "Quillfen Supplies",
    batchNumber: "LOT-77",
    firstUse: "2026-11-30",
    frequency: "once",
    professionalUse: "yes",
    applicationSite: "behind the left ear",
    useStopped: "yes",
    firstSymptomAfterStart: "20 hours",
    firstSymptomAfterLastUse: "20 hours",
    signs: "itching, redness",
    diagnosis: "none",
    bodyAreas: "neck",
    seriousness: "none of the criteria",
    doctorConfirmed: "no",
  };
  const wrong = await tell(key, { kind: "reacted", at: "2026-12-01T08:00:00Z", reaction });
  const page = await pageOf(key);
  for (const told of Object.values(reaction)) expect(page).toContain(`<dd>${told}</dd>`);
  expect((await evidenceOf(key)).records[0]?.["reaction"]).toEqual(reaction);
  const correction = await tell(key, {
    kind: "correction",
    corrects: wrong,
    reason: "told of another",
    at: "2026-12-01T08:30:00Z",
  });
  const { records } = await evidenceOf(key);
  expect(records.map(({ id, correctedBy }) => [id, correctedBy])).toEqual([
    [wrong, correction],
    [correction, null],
  ]);
  expect(await pageOf(key)).toContain(`Set aside by ${correction}.`);
  // What is known later is a note under the same headings; anywhere else it is out of place.
  await tell(key, {
    kind: "note",
    note: "the doctor's letter",
    at: "2026-12-01T08:40:00Z",
    reaction: { diagnosis: "none" },
  });
  const misplaced = await record(key, { booking: "b1", kind: "applied", at: "2026-12-01T08:00:00Z", reaction });
  expect([misplaced.status, (await misplaced.json<{ errors: { at: string }[] }>()).errors[0]?.at]).toEqual([
    422,
    "reaction",
  ]);
  const unknown = await record(key, {
    booking: "b1",
    kind: "reacted",
    at: "2026-12-01T08:00:00Z",
    reaction: { shoe: "x" },
  });
  expect(unknown.status).toBe(422);
  expect(await unknown.text()).not.toContain("itching");
});

test("what a client pressed is kept as the words she read, with the rule of the test she tells of", async () => {
  const { key } = await createSalon({ ...MINIMAL, tests: [{ route: "home-kit", protocol: "home-kit-120h" }] });
  await push(key, diaryText([B1]));
  const { page } = await linkOf(key, "c1");
  setClock("2026-12-05T10:00:00Z");
  const pressed = await send(`${page}/records`, {
    method: "POST",
    headers: { "content-type": "application/x-www-form-urlencoded" },
    body: new URLSearchParams({
      kind: "applied",
      route: "home-kit",
      booking: "b1",
      outcome: "",
      when: "2026-12-05T09:00",
    }),
  });
  expect(pressed.status).toBe(303);
  expect((await evidenceOf(key)).records).toMatchObject([
    {
      kind: "applied",
      at: "2026-12-05T09:00:00Z",
      via: "client-link",
      words: "My test is on",
      rule: { protocol: "home-kit-120h", duration: "PT120H" },
    },
  ]);
});

test("an appointment on file shows the earlier test it rests on, and stops of other appointments", async () => {
  const { key } = await createSalon({
    ...MINIMAL,
    tests: [{ route: "in-salon", protocol: "salon-48h", onFile: { months: 12, product: "any", shade: "any" } }],
  });
  await push(key, diaryText([B1, { ...B1, uid: "b2", start: "DTSTART:20261218T103000Z" }]));
  const told = await record(key, {
    client: "c1",
    kind: "read",
    outcome: "clear",
    route: "in-salon",
    at: "2026-09-01T10:00:00Z",
  });
  const earlier = (await told.json<{ id: string }>()).id;
  await tell(key, { kind: "screened", outcome: "pass", at: "2026-12-01T08:00:00Z" });
  expect((await evidenceOf(key)).earlier.map(({ id }) => id)).toEqual([earlier]);
  expect(await pageOf(key)).toContain("The earlier test it rests on");
  const reacted = await tell(key, { booking: "b2", kind: "reacted", at: "2026-12-01T08:30:00Z" });
  // After a reaction no earlier result counts any more, and none is shown as if it did.
  const evidence = await evidenceOf(key);
  expect([evidence.earlier, evidence.stops.map(({ id }) => id)]).toEqual([[], [reacted]]);
});

test("what was told under another name stays apart, and an unknown appointment is 404", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([B1]));
  const other = await tell(key, { kind: "applied", route: "in-salon", at: "2026-12-01T08:00:00Z" });
  await push(key, diaryText([{ ...B1, client: "Wilma Otherwise", email: "wilma@example.com" }]));
  const evidence = await evidenceOf(key);
  expect([evidence.client.name, evidence.records, evidence.foreign.map(({ id }) => id)]).toEqual([
    "Wilma Otherwise",
    [],
    [other],
  ]);
  expect((await ask(key, "GET", "/api/salon/evidence?booking=nothing")).status).toBe(404);
  expect((await ask(key, "GET", "/api/salon/evidence")).status).toBe(422);
  expect((await send("/api/salon/evidence?booking=b1")).status).toBe(401);
});

test("what turns words round or hides them is shown as a mark, so that paper and record say the same", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([B1]));
  await tell(key, { kind: "note", note: "evil \u202elive\u202c and \u0000 \ud800", at: "2026-12-01T08:00:00Z" });
  const page = await pageOf(key);
  expect(page).toContain("Note: evil \ufffdlive\ufffd and \ufffd \ufffd");
  for (const hidden of ["\u0000", "\u202e", "\u202c"]) expect(page).not.toContain(hidden);
});

test("an earlier result that does not count is not shown as what the appointment rests on", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([B1]));
  await record(key, { client: "c1", kind: "read", outcome: "clear", route: "in-salon", at: "2026-09-01T10:00:00Z" });
  await tell(key, { kind: "screened", outcome: "pass", at: "2026-12-01T08:00:00Z" });
  expect((await evidenceOf(key)).earlier).toEqual([]);
  expect(await pageOf(key)).not.toContain("The earlier test it rests on");
});
