/** Pushes that cross one another, a deletion or a change of settings: what began later holds, and what is gone stays gone. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, MARA, MINIMAL, plansOf, push, setClock, type TestSalon, WREN } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  await reset();
});

interface Report {
  readonly name: string;
  readonly status: string;
  readonly reason: { readonly code: string } | null;
}

const mara = (day: number) => ({ uid: "b1", start: `DTSTART:202612${day}T100000Z`, ...MARA });
const wren = { uid: "b2", start: "DTSTART:20261218T140000Z", ...WREN };
const full = (day: number) => diaryText([mara(day), wren]);

/** A push whose first octets are there and whose rest comes with `end`. */
const slowPush = async (salon: TestSalon, text: string, name = "main") => {
  const { readable, writable } = new TransformStream<Uint8Array, Uint8Array>();
  const writer = writable.getWriter();
  const octets = new TextEncoder().encode(text);
  const answer = push(salon.key, readable, name);
  await writer.write(octets.slice(0, 60));
  // The salon has begun to read it once it answers something else.
  await reportsOf(salon);
  return async (): Promise<Response> => {
    await writer.write(octets.slice(60));
    await writer.close();
    return answer;
  };
};

const reportsOf = async (salon: TestSalon): Promise<Report[]> =>
  (await (await ask(salon.key, "GET", "/api/salon/diaries")).json<{ diaries: Report[] }>()).diaries;
const startsOf = async (salon: TestSalon) =>
  (await plansOf(salon.key)).map(({ booking }) => booking.start.slice(0, 10));

test("a push on its way while its diary is taken away does not bring it back", async () => {
  for (const begins of ["known", "unknown"]) {
    const salon = await createSalon();
    if (begins === "known") await push(salon.key, full(11), "chair");
    const end = await slowPush(salon, full(12), "chair");
    if (begins === "unknown") await push(salon.key, full(13), "chair");
    expect((await ask(salon.key, "DELETE", "/api/salon/diaries/chair")).status).toBe(204);
    expect((await end()).status).toBe(404);
    expect((await reportsOf(salon)).map(({ name }) => name)).toEqual(["main"]);
    expect((await plansOf(salon.key)).every(({ standing }) => standing === "cancelled")).toBe(true);
  }
});

test("nor does the second of two first pushes, where the diary that the first one made was taken away meanwhile", async () => {
  const salon = await createSalon();
  const first = await slowPush(salon, full(11), "chair");
  const second = await slowPush(salon, full(12), "chair");
  expect((await first()).status).toBe(200);
  expect((await ask(salon.key, "DELETE", "/api/salon/diaries/chair")).status).toBe(204);
  expect((await second()).status).toBe(404);
  expect((await reportsOf(salon)).map(({ name }) => name)).toEqual(["main"]);
});

test("a push on its way while its diary is taken away and made anew does not land on the new one", async () => {
  const salon = await createSalon();
  for (const day of [11, 12, 13]) await push(salon.key, full(day), "chair");
  const end = await slowPush(salon, full(14), "chair");
  await ask(salon.key, "DELETE", "/api/salon/diaries/chair");
  expect((await push(salon.key, full(15), "chair")).status).toBe(200);
  expect((await end()).status).toBe(404);
  // Nor do the old one's numbers keep the new one's next reading out.
  expect((await (await push(salon.key, full(16), "chair")).json<Report>()).status).toBe("read");
  expect((await startsOf(salon))[0]).toBe("2026-12-16");
});

test("of two first pushes of a new diary the one that began later holds, whichever ends first", async () => {
  const salon = await createSalon();
  const older = await slowPush(salon, full(11), "chair");
  const younger = await slowPush(salon, full(12), "chair");
  expect((await younger()).status).toBe(200);
  const answer = await older();
  expect([answer.status, (await answer.json<Report>()).reason?.code]).toEqual([200, "overtaken"]);
  expect((await startsOf(salon))[0]).toBe("2026-12-12");
});

test("an older push that fails does not trouble a newer good reading", async () => {
  const salon = await createSalon();
  await push(salon.key, full(11));
  const end = await slowPush(salon, `<!DOCTYPE html>${" ".repeat(100)}<p>Sign in</p>`);
  expect((await push(salon.key, full(12))).status).toBe(200);
  const answer = await end();
  await answer.text();
  const [report] = await reportsOf(salon);
  expect([report?.status, report?.reason]).toEqual(["read", null]);
  expect((await startsOf(salon))[0]).toBe("2026-12-12");
});

test("an older push does not land where a newer one is held", async () => {
  const salon = await createSalon();
  await push(salon.key, full(11));
  const end = await slowPush(salon, full(12));
  expect((await push(salon.key, diaryText([]))).status).toBe(202);
  expect((await (await end()).json<Report>()).reason?.code).toBe("overtaken");
  expect((await reportsOf(salon))[0]?.status).toBe("held");
  expect((await startsOf(salon))[0]).toBe("2026-12-11");
});

test("an older good push still lands where a newer one was no calendar", async () => {
  const salon = await createSalon();
  await push(salon.key, full(11));
  const end = await slowPush(salon, full(12));
  expect((await push(salon.key, "<!DOCTYPE html>")).status).toBe(422);
  expect((await end()).status).toBe(200);
  expect((await startsOf(salon))[0]).toBe("2026-12-12");
});

test("a push does not land on a diary that is pulled by the time it ends", async () => {
  const salon = await createSalon();
  await push(salon.key, full(11), "chair");
  const end = await slowPush(salon, full(12), "chair");
  const url = "https://calendar.example/a.ics";
  expect((await ask(salon.key, "PUT", "/api/salon", { ...MINIMAL, diaries: [{ name: "chair", url }] })).status).toBe(
    200,
  );
  expect((await end()).status).toBe(409);
  expect((await startsOf(salon))[0]).toBe("2026-12-11");
});

test("a pull that fails late does not trouble a push that was taken while the diary had no address", async () => {
  const pulled = { ...MINIMAL, diaries: [{ name: "chair", url: "https://calendar.example/a.ics" }] };
  const pushed = { ...MINIMAL, diaries: [{ name: "chair", url: null }] };
  const salon = await createSalon(pulled);
  let letGo: () => void = () => {};
  const late = new Promise<void>((resolve) => (letGo = resolve));
  const asked = vi.spyOn(globalThis, "fetch").mockImplementation(async () => {
    await late;
    return new Response("down", { status: 500 });
  });
  const slow = ask(salon.key, "POST", "/api/salon/refresh");
  await expect.poll(() => asked.mock.calls.length).toBe(1);
  expect((await ask(salon.key, "PUT", "/api/salon", pushed)).status).toBe(200);
  expect((await push(salon.key, full(12), "chair")).status).toBe(200);
  expect((await ask(salon.key, "PUT", "/api/salon", pulled)).status).toBe(200);
  letGo();
  await slow;
  const [report] = await reportsOf(salon);
  expect([report?.status, report?.reason]).toEqual(["read", null]);
});
