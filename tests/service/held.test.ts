/** Readings that look wrong: held, said, accepted by one call or once they are seen again; and nothing else ends the waiting. */
import { evictDurableObject, reset, runDurableObjectAlarm, runInDurableObject } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  MARA,
  MINIMAL,
  objectOf,
  plansOf,
  push,
  send,
  setClock,
  type TestSalon,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  await reset();
});

interface Report {
  readonly name: string;
  readonly status: string;
  readonly reason: { readonly code: string; readonly text: string } | null;
  readonly counts: Record<string, number>;
  readonly held: { readonly since: string; readonly reason: { readonly code: string } } | null;
}

const entry = (n: number, shift = 0): EntryText => ({
  uid: `b${n}`,
  start: `DTSTART:202612${10 + n}T${10 + shift}3000Z`,
  ...(n % 2 === 0 ? MARA : WREN),
});
const entries = (numbers: readonly number[], shift = 0) => numbers.map((n) => entry(n, shift));
const FIVE = [1, 2, 3, 4, 5];

const pushAt = async (salon: TestSalon, clock: string, text: string): Promise<Report> => {
  setClock(`2026-12-01T${clock}:00Z`);
  return (await push(salon.key, text)).json<Report>();
};
const confirm = (salon: TestSalon, name = "main") => ask(salon.key, "POST", `/api/salon/diaries/${name}/confirm`);
const reportOf = async (salon: TestSalon, name = "main"): Promise<Report> => {
  const { diaries } = await (await ask(salon.key, "GET", "/api/salon/diaries")).json<{ diaries: Report[] }>();
  const report = diaries.find((each) => each.name === name);
  if (!report) throw new Error("a diary has no report");
  return report;
};
const standing = async (salon: TestSalon): Promise<readonly string[]> =>
  (await plansOf(salon.key)).filter((plan) => plan.standing !== "cancelled").map(({ booking }) => booking.uid);
const noticesOf = async (salon: TestSalon): Promise<string[]> =>
  (await (await send(salon.feed)).text())
    .replaceAll("\r\n ", "")
    .split("BEGIN:VEVENT")
    .filter((event) => event.includes("CATEGORIES:notice") && event.includes("STATUS:CONFIRMED"))
    .map((event) => /^SUMMARY:(.*)$/m.exec(event)?.[1]?.trim() ?? "");

test.each<[string, readonly string[], readonly EntryText[], string, Record<string, number>]>([
  ["is emptied", [], [], "diary-emptied", { ahead: 5, lost: 5, vanished: 5 }],
  ["loses most", [], entries([1, 2]), "diary-shrunk", { ahead: 5, lost: 3, added: 0 }],
  ["has another name", ["X-WR-CALNAME:Holly"], entries(FIVE), "calendar-renamed", { ahead: 5, lost: 0, moved: 0 }],
  ["has all its dates moved by an hour", [], entries(FIVE, 1), "dates-jumped", { ahead: 5, lost: 0, moved: 5 }],
])("a diary that %s is held with its counts, and one call accepts it", async (_when, head, after, code, counts) => {
  const salon = await createSalon();
  await push(salon.key, diaryText(entries(FIVE), ["X-WR-CALNAME:Juniper"]));
  const plans = (await plansOf(salon.key)).map(({ booking }) => booking);
  setClock("2026-12-01T09:01:00Z");
  const answer = await push(salon.key, diaryText(after, head));
  const report = await answer.json<Report>();
  expect([answer.status, report.status, report.reason?.code]).toEqual([202, "held", code]);
  expect(report.counts).toMatchObject(counts);
  expect(report.held).toMatchObject({ since: "2026-12-01T09:01:00Z", reason: { code } });
  expect((await plansOf(salon.key)).map(({ booking }) => booking)).toEqual(plans);
  expect(await noticesOf(salon)).toHaveLength(1);
  expect((await confirm(salon)).status).toBe(200);
  expect(await standing(salon)).toEqual(after.map(({ uid }) => uid));
  expect([(await reportOf(salon)).held, await noticesOf(salon)]).toEqual([null, []]);
  expect((await confirm(salon)).status).toBe(409);
});

test("another program is held; another version of the same one, or a diary without bookings ahead, is not", async () => {
  const salon = await createSalon();
  const by = (producer: string, numbers: readonly number[]) =>
    diaryText(entries(numbers)).replace(/PRODID:.*/, `PRODID:${producer}`);
  expect((await pushAt(salon, "09:01", by("-//Quillfen//Book 1.0//EN", []))).status).toBe("read");
  expect((await pushAt(salon, "09:02", by("-//Thistle//Diary//EN", [1, 2]))).status).toBe("read");
  expect((await pushAt(salon, "09:03", by("-//Thistle//DIARY 2.7//EN", [1, 2, 3]))).status).toBe("read");
  const other = await pushAt(salon, "09:04", by("-//Quillfen//Book 1.0//EN", [1, 2, 3]));
  expect(other.reason?.code).toBe("producer-changed");
  expect((await pushAt(salon, "09:19", by("-//Quillfen//Book 1.1//EN", [1, 2, 3]))).status).toBe("read");
  expect((await pushAt(salon, "09:20", by("-//Quillfen//Book 1.1//EN", [1, 2, 3, 4]))).status).toBe("read");
});

test("seen again is the same loss or less; one that loses more waits anew", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText(entries(FIVE)));
  expect((await pushAt(salon, "09:01", diaryText(entries([1, 2])))).status).toBe("held");
  const more = await pushAt(salon, "09:16", diaryText(entries([1])));
  expect([more.status, more.held?.since]).toEqual(["held", "2026-12-01T09:16:00Z"]);
  expect((await pushAt(salon, "09:30", diaryText(entries([1])))).held?.since).toBe("2026-12-01T09:16:00Z");
  expect((await pushAt(salon, "09:31", diaryText(entries([1, 2])))).status).toBe("read");
  expect(await standing(salon)).toEqual(["b1", "b2"]);
});

test("a good reading in between ends the holding: what looked wrong then waits its whole time again", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText(entries(FIVE)));
  expect((await pushAt(salon, "09:01", diaryText([]))).status).toBe("held");
  expect((await pushAt(salon, "09:10", diaryText(entries(FIVE)))).held).toBeNull();
  expect((await confirm(salon)).status).toBe(409);
  expect((await pushAt(salon, "09:16", diaryText([]))).status).toBe("held");
  expect((await pushAt(salon, "09:30", diaryText([]))).status).toBe("held");
  expect((await pushAt(salon, "09:31", diaryText([]))).status).toBe("read");
});

test("what is accepted is exactly the text that is held, after a failed push and an eviction too", async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText(entries(FIVE), ["X-WR-CALNAME:Juniper"]));
  await pushAt(salon, "09:01", diaryText([entry(1), { ...entry(2), start: "DTSTART:20261225T103000Z" }]));
  setClock("2026-12-01T09:02:00Z");
  expect((await push(salon.key, "<html>")).status).toBe(422);
  const after = await reportOf(salon);
  expect([after.status, after.held?.reason.code]).toEqual(["refused", "diary-shrunk"]);
  await evictDurableObject(objectOf(salon));
  const accepted = await (await confirm(salon)).json<Report>();
  expect([accepted.status, accepted.counts["raw"]]).toEqual(["read", 2]);
  const plans = (await plansOf(salon.key)).filter(({ standing: now }) => now !== "cancelled");
  expect(plans.map(({ booking }) => [booking.uid, booking.start])).toEqual([
    ["b1", "2026-12-11T10:30:00Z"],
    ["b2", "2026-12-25T10:30:00Z"],
  ]);
});

const URL_A = "https://calendar.example/a.ics";
const pulled = (url = URL_A) => ({ ...MINIMAL, diaries: [{ name: "chair", url }] });
/** A salon whose diary is pulled and answers what is set; one clock step a pull. */
const pulling = async () => {
  let answer: () => Response = () => new Response(diaryText(entries(FIVE)));
  vi.spyOn(globalThis, "fetch").mockImplementation(() => Promise.resolve(answer()));
  const salon = await createSalon(pulled());
  const pull = async (clock: string, next: () => Response): Promise<Report> => {
    answer = next;
    setClock(`2026-12-01T${clock}:00Z`);
    await ask(salon.key, "POST", "/api/salon/refresh");
    return reportOf(salon, "chair");
  };
  await runDurableObjectAlarm(objectOf(salon));
  return { salon, pull };
};
const text = (numbers: readonly number[]) => () => new Response(diaryText(entries(numbers)));
const bad = () => new Response("", { status: 502 });

test("a fetch that fails between two readings that look wrong takes nothing from the waiting", async () => {
  const { salon, pull } = await pulling();
  expect((await pull("09:01", text([]))).status).toBe("held");
  const notice = await noticesOf(salon);
  const failed = await pull("09:08", bad);
  expect([failed.status, failed.reason?.code, failed.held?.since]).toEqual([
    "refused",
    "answered-badly",
    "2026-12-01T09:01:00Z",
  ]);
  expect(await noticesOf(salon)).toEqual(notice);
  expect((await pull("09:16", text([]))).status).toBe("read");
  expect([await standing(salon), await noticesOf(salon)]).toEqual([[], []]);
});

test("after a failed fetch the held reading can be accepted, and an unchanged answer ends the holding", async () => {
  const { salon, pull } = await pulling();
  await pull("09:01", text([]));
  await pull("09:02", bad);
  expect((await confirm(salon, "chair")).status).toBe(200);
  expect(await standing(salon)).toEqual([]);
  const again = await pulling();
  const tagged = (numbers: readonly number[]) => () =>
    new Response(diaryText(entries(numbers)), { headers: { etag: '"1"' } });
  expect((await again.pull("09:31", tagged([...FIVE, 6]))).status).toBe("read");
  await again.pull("09:32", text([]));
  const unchanged = await again.pull("09:33", () => new Response(null, { status: 304 }));
  expect([unchanged.status, unchanged.held]).toEqual(["unchanged", null]);
  expect((await confirm(again.salon, "chair")).status).toBe(409);
});

const storedOf = (salon: TestSalon, table: "blocks" | "held") =>
  runInDurableObject(
    objectOf(salon),
    (_instance, state) => state.storage.sql.exec(`SELECT 1 FROM ${table} WHERE diary = 'chair'`).toArray().length,
  );

test("another address drops what is held, and its first reading is never suspicious for its name", async () => {
  const { salon, pull } = await pulling();
  await pull("09:01", text([1]));
  expect(await storedOf(salon, "held")).toBe(1);
  expect((await ask(salon.key, "PUT", "/api/salon", pulled("https://calendar.example/b.ics"))).status).toBe(200);
  expect([await storedOf(salon, "held"), (await confirm(salon, "chair")).status]).toEqual([0, 409]);
  expect(await noticesOf(salon)).toEqual([]);
  const named = () => new Response(diaryText(entries(FIVE), ["X-WR-CALNAME:Holly"]).replace("Quillfen", "Thistle"));
  expect((await pull("09:03", named)).status).toBe("read");
  expect((await pull("09:04", text(FIVE))).reason?.code).toBe("producer-changed");
});

test("the text of a diary that leaves the settings goes with it", async () => {
  const { salon, pull } = await pulling();
  await pull("09:01", text([1]));
  expect([await storedOf(salon, "blocks"), await storedOf(salon, "held")]).toEqual([5, 1]);
  await ask(salon.key, "PUT", "/api/salon", MINIMAL);
  expect([await storedOf(salon, "blocks"), await storedOf(salon, "held")]).toEqual([0, 0]);
});
