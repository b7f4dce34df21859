/** A stop outlives whatever a diary says of a client's name and address; a result never moves to another person. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, MARA, plansOf, push, record, send, setClock, WREN } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const named = (summary: string, email?: string) =>
  diaryText([
    {
      uid: "b1",
      start: "DTSTART;TZID=Europe/London:20261211T103000",
      summary,
      more: email ? [`ATTENDEE;CN="${summary.split(" - ")[1]}":mailto:${email}`] : [],
    },
  ]);
const stopped = async (key: string): Promise<string[]> => (await plansOf(key)).map(({ standing }) => standing);

test("a stop stays when the entry gains an address, and so do the client and her records", async () => {
  const { key } = await createSalon();
  await push(key, named("Root tint - Mara Quillfeather"));
  const before = (await plansOf(key))[0]?.booking.client.id;
  await record(key, { booking: "b1", kind: "reacted", at: "2026-12-01T08:00:00Z" });
  await push(key, named("Root tint - Mara Quillfeather", "mara@example.com"));
  expect(await stopped(key)).toEqual(["stop"]);
  expect((await plansOf(key))[0]?.booking.client.id).toBe(before);
});

test("a stop stays when the name is corrected; a result does not move to the other name, and the stop can be corrected there", async () => {
  const { key } = await createSalon();
  await push(key, named("Root tint - Mara Quilfeather", "mara@example.com"));
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-12-01T07:00:00Z" });
  const reacted = await (await record(key, { booking: "b1", kind: "reacted", at: "2026-12-01T08:00:00Z" })).json<{
    id: string;
  }>();
  await push(key, named("Root tint - Mara Quillfeather", "mara@example.com"));
  const [plan] = await plansOf(key);
  expect(plan?.standing).toBe("stop");
  expect(plan?.steps.find(({ kind }) => kind === "application")?.state).not.toBe("done");
  const corrected = await record(key, {
    booking: "b1",
    kind: "correction",
    corrects: reacted.id,
    reason: "told of someone else",
    at: "2026-12-01T09:00:00Z",
    via: "desk",
  });
  expect(corrected.status).toBe(201);
  expect(await stopped(key)).not.toContain("stop");
});

test("reading the same diary twice changes nobody", async () => {
  const { key } = await createSalon();
  const entry = (uid: string, lines: string[]) => ({
    uid,
    start: `DTSTART:202612${10 + Number(uid.slice(1))}T100000Z`,
    summary: "Root tint - Mara Quillfeather",
    more: lines,
  });
  const mail = 'ATTENDEE;CN="Mara Quillfeather":mailto:mara@example.com';
  const phone = "DESCRIPTION:tel:+441632960155";
  const diary = diaryText([entry("b1", [mail]), entry("b2", [mail, phone]), entry("b3", [phone])]);
  await push(key, diary);
  const first = (await plansOf(key)).map(({ booking }) => booking.client.id);
  setClock("2026-12-01T10:00:00Z");
  await push(key, diary);
  expect((await plansOf(key)).map(({ booking }) => booking.client.id)).toEqual(first);
  expect(new Set(first).size).toBe(1);
});

test("what is held survives a change of the settings, and is what is then accepted", async () => {
  const { key } = await createSalon();
  const all = Array.from({ length: 10 }, (_, n) => ({
    uid: `b${n}`,
    start: `DTSTART:202612${11 + n}T100000Z`,
    ...MARA,
    email: `m${n}@example.com`,
    client: `Client Number${n}`,
  }));
  await push(key, diaryText(all));
  expect((await push(key, diaryText(all.slice(0, 4)))).status).toBe(202);
  const settings = await (await ask(key, "GET", "/api/salon")).json<object>();
  expect((await ask(key, "PUT", "/api/salon", { ...settings, name: "Quillfen Two" })).status).toBe(200);
  expect((await ask(key, "POST", "/api/salon/diaries/main/confirm")).status).toBe(200);
  expect((await stopped(key)).filter((standing) => standing === "cancelled")).toHaveLength(6);
});

test("something shows can be told from her page for 21 days after the colour, and the fixed words answer", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([{ uid: "b1", start: "DTSTART:20261211T103000Z", ...WREN }]));
  const { page } = await linkOf(key, (await plansOf(key))[0]?.booking.client.id ?? "");
  setClock("2026-12-31T10:00:00Z");
  expect(await (await send(page)).text()).toContain("Something shows</button>");
  await send(`${page}/records`, { method: "POST", body: new URLSearchParams({ kind: "reacted" }) });
  expect(await (await send(page)).text()).toContain("Take the test off and wash the place with water.");
  setClock("2027-01-02T10:00:00Z");
  expect(await (await send(page)).text()).not.toContain("Something shows</button>");
});

test("two diaries taken away at once are both gone", async () => {
  const { key } = await createSalon();
  for (const name of ["one", "two", "three"]) await push(key, diaryText([]), name);
  await Promise.all(["one", "two"].map((name) => ask(key, "DELETE", `/api/salon/diaries/${name}`)));
  const { diaries } = await (await ask(key, "GET", "/api/salon")).json<{ diaries: { name: string }[] }>();
  expect(diaries.map(({ name }) => name)).toEqual(["main", "three"]);
});

test("a name that is corrected while a test is on leaves no record behind without a word, until it is recorded again", async () => {
  const { key } = await createSalon();
  const codes = async () => (await plansOf(key))[0]?.why.map(({ code }) => code);
  const applied = { booking: "b1", kind: "applied", route: "in-salon", at: "2026-12-01T07:00:00Z" };
  await push(key, named("Root tint - Mara Quilfeather", "mara@example.com"));
  await record(key, applied);
  expect(await codes()).not.toContain("told-of-another");
  await push(key, named("Root tint - Mara Quillfeather", "mara@example.com"));
  expect(await codes()).toContain("told-of-another");
  const told = (await plansOf(key))[0]?.why.find(({ code }) => code === "told-of-another")?.text;
  expect(told).toContain("does not count for this client");
  expect((await record(key, applied)).status).toBe(201);
  expect(await codes()).not.toContain("told-of-another");
  expect((await plansOf(key))[0]?.steps.find(({ kind }) => kind === "application")?.state).toBe("done");
});
