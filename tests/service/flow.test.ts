/** One client's way from diary entry to `ready`, and to `stop`, through the API alone. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createSalon, diaryText, MARA, plansOf, push, record, send, setClock, linkOf } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const BOOKED = diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]);

const standing = async (key: string): Promise<string | undefined> => (await plansOf(key))[0]?.standing;

test("a walk-in test leads from on-track to ready only through screening, look and a confirmation at the salon", async () => {
  const { key } = await createSalon();
  expect((await push(key, BOOKED)).status).toBe(200);
  const [plan] = await plansOf(key);
  expect(plan?.route).toBe("in-salon");
  expect(plan?.steps.map(({ kind }) => kind)).toEqual(["screening", "application", "reading", "result"]);
  // CP1 (common practice, no source): a full 48 hours before a colour on Friday 10:30 is Wednesday 10:30.
  expect(plan?.steps.find(({ kind }) => kind === "application")?.due).toBe("2026-12-09T10:30:00Z");
  expect(
    (await record(key, { booking: "b1", kind: "screened", outcome: "pass", at: "2026-12-01T08:59:00Z" })).status,
  ).toBe(201);
  setClock("2026-12-08T10:05:00Z");
  expect(
    (await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-12-08T10:00:00Z" })).status,
  ).toBe(201);
  setClock("2026-12-10T11:00:00Z");
  await record(key, { booking: "b1", kind: "read", outcome: "clear", at: "2026-12-10T10:30:00Z", via: "desk" });
  expect(await standing(key)).not.toBe("ready");
  const confirmed = await record(key, {
    booking: "b1",
    kind: "confirmed",
    at: "2026-12-10T10:45:00Z",
    by: "Ines",
    via: "desk",
  });
  expect(confirmed.status).toBe(201);
  expect(await standing(key)).toBe("ready");
});

test("a client's own clear is shown as reported and is not ready", async () => {
  const { key } = await createSalon();
  await push(key, BOOKED);
  await record(key, { booking: "b1", kind: "screened", outcome: "pass", at: "2026-12-01T08:59:00Z" });
  setClock("2026-12-10T11:00:00Z");
  await record(key, { booking: "b1", kind: "applied", at: "2026-12-08T10:00:00Z", via: "client-link" });
  await record(key, { booking: "b1", kind: "read", outcome: "clear", at: "2026-12-10T10:30:00Z", via: "client-link" });
  expect(await standing(key)).not.toBe("ready");
  const refused = await record(key, {
    booking: "b1",
    kind: "confirmed",
    at: "2026-12-10T10:45:00Z",
    via: "client-link",
  });
  expect(refused.status).toBe(422);
  expect(await standing(key)).not.toBe("ready");
});

test("a reaction stops the booking: her feed keeps only the appointment and asks her to telephone", async () => {
  const salon = await createSalon();
  const { key } = salon;
  await push(key, BOOKED);
  const [before] = await plansOf(key);
  const { feed } = await linkOf(key, before?.booking.client.id ?? "");
  expect(await (await send(feed)).text()).toContain("CATEGORIES:application");
  setClock("2026-12-08T20:00:00Z");
  const reacted = await record(key, {
    booking: "b1",
    kind: "reacted",
    at: "2026-12-08T19:30:00Z",
    via: "client-link",
    note: "itching",
  });
  expect(reacted.status).toBe(201);
  expect(reacted.headers.get("location")).toContain("/api/salon/records");
  expect(await standing(key)).toBe("stop");
  const text = (await (await send(feed)).text()).replaceAll("\r\n ", "");
  const live = text
    .split("BEGIN:VEVENT")
    .slice(1)
    .filter((event) => event.includes("STATUS:CONFIRMED"));
  expect(live).toHaveLength(1);
  expect(live[0]).toContain("SUMMARY:Please telephone Quillfen Colour Room about this appointment");
  expect(text).not.toMatch(/SUMMARY:(?!Cancelled: )Put/);
  const salonFeed = (await (await send(salon.feed)).text()).replaceAll("\r\n ", "");
  expect(salonFeed).not.toMatch(/SUMMARY:(?!Cancelled: ).*skin test/i);
  await record(key, { booking: "b1", kind: "confirmed", at: "2026-12-08T20:00:00Z", via: "desk" });
  expect(await standing(key)).toBe("stop");
});

test("records name what is wrong with them and are then not kept", async () => {
  const { key } = await createSalon();
  await push(key, BOOKED);
  const ahead = await record(key, { booking: "b1", kind: "applied", at: "2026-12-01T09:06:00Z" });
  expect(ahead.status).toBe(422);
  expect(ahead.headers.get("content-type")).toBe("application/problem+json");
  const unread = await record(key, { booking: "b1", kind: "read", at: "2026-12-01T09:00:00Z" });
  expect((await unread.json<{ errors: { at: string }[] }>()).errors[0]?.at).toBe("outcome");
  const unknown = await record(key, { booking: "b1", kind: "applied", at: "2026-12-01T09:00:00Z", when: "now" });
  expect((await unknown.json<{ errors: { at: string }[] }>()).errors[0]?.at).toBe("when");
  expect((await record(key, { booking: "b9", kind: "applied", at: "2026-12-01T09:00:00Z" })).status).toBe(422);
  const [plan] = await plansOf(key);
  expect(plan?.steps.every(({ state }) => state === "planned")).toBe(true);
});

test("a client tells through her page that the test is on, that she looked, and that something shows", async () => {
  const { key } = await createSalon();
  await push(key, BOOKED);
  const { page } = await linkOf(key, (await plansOf(key))[0]?.booking.client.id ?? "");
  const press = (fields: Record<string, string>): Promise<Response> =>
    send(`${page}/records`, {
      method: "POST",
      body: new URLSearchParams(fields),
      headers: { "content-type": "application/x-www-form-urlencoded" },
    });
  expect(await (await send(page)).text()).not.toContain("Something shows</button>");
  setClock("2026-12-09T10:20:00Z");
  expect(await (await send(page)).text()).toContain("Something shows</button>");
  const applied = await press({ kind: "applied", outcome: "", booking: "b1", when: "2026-12-09T10:15" });
  expect([applied.status, applied.headers.get("location")]).toEqual([303, new URL(page).pathname]);
  const [plan] = await plansOf(key);
  expect(plan?.steps.find(({ kind }) => kind === "reading")?.opens).toBe("2026-12-11T10:15:00Z");
  const ahead = await press({ kind: "applied", outcome: "", booking: "b1", when: "2026-12-09T12:15" });
  expect([ahead.status, (await ahead.text()).includes("This was not saved")]).toEqual([422, true]);
  for (const kind of ["screened", "confirmed", "correction", "posted"]) {
    expect((await press({ kind, outcome: kind === "screened" ? "pass" : "" })).status).toBe(422);
  }
  const told = await send(`${page}/records`, {
    method: "POST",
    body: JSON.stringify({ kind: "reacted", note: "itching" }),
    headers: { "content-type": "application/json" },
  });
  expect([told.status, await told.json<{ booking: string; via: string }>()]).toEqual([
    201,
    expect.objectContaining({ booking: "b1", via: "client-link" }),
  ]);
  expect(await standing(key)).toBe("stop");
});

test("a record that names no booking is of the client's next one, so that an under-16 told by client stops it", async () => {
  const { key } = await createSalon();
  await push(key, BOOKED);
  const client = (await plansOf(key))[0]?.booking.client.id;
  const told = await record(key, {
    client,
    kind: "screened",
    outcome: "do-not-colour",
    reason: "under-16",
    at: "2026-12-01T09:00:00Z",
  });
  expect((await told.json<{ booking: string }>()).booking).toBe("b1");
  expect(await standing(key)).toBe("stop");
});

test("that something shows is kept even with a time that lies ahead", async () => {
  const { key } = await createSalon();
  await push(key, BOOKED);
  const { page } = await linkOf(key, (await plansOf(key))[0]?.booking.client.id ?? "");
  const fields = new URLSearchParams({ kind: "reacted", when: "2027-01-09T10:15" });
  expect((await send(`${page}/records`, { method: "POST", body: fields })).status).toBe(303);
  expect(await standing(key)).toBe("stop");
});
