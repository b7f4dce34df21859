/** What a trial of settings says of the bookings themselves, and that nothing of it is kept. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, MARA, MINIMAL, objectOf, plansOf, push, send, setClock, WREN } from "./client.ts";

beforeEach(() => setClock("2026-11-20T10:00:00Z"));
afterEach(() => vi.useRealTimers());

interface Change {
  readonly booking: string;
  readonly start: string;
  readonly before: { readonly standing: string } | null;
  readonly after: { readonly standing: string } | null;
  readonly moved: readonly string[];
}

const tried = async (key: string, settings: unknown): Promise<readonly Change[]> =>
  (await (await ask(key, "PUT", "/api/salon?dry-run", settings)).json<{ changes: Change[] }>()).changes;

const DIARY = diaryText([
  { uid: "tint", start: "DTSTART:20261211T103000", summary: "Root tint", ...MARA },
  { uid: "gloss", start: "DTSTART:20261212T103000", summary: "Gloss", ...WREN },
]);
const GLOSS = { ...MINIMAL, services: [{ name: "Gloss", words: ["gloss"] }] };

test("other words say which bookings would come, and which could not be understood any more", async () => {
  const salon = await createSalon();
  await push(salon.key, DIARY);
  const before = [await (await send(salon.feed)).text(), JSON.stringify(await plansOf(salon.key))];
  expect(
    (await tried(salon.key, GLOSS)).map(({ booking, before: was, after }) => [booking, was === null, after === null]),
  ).toEqual([
    ["tint", false, false],
    ["gloss", true, false],
  ]);
  expect([await (await send(salon.feed)).text(), JSON.stringify(await plansOf(salon.key))]).toEqual(before);
  expect((await ask(salon.key, "PUT", "/api/salon", GLOSS)).status).toBe(200);
  expect((await plansOf(salon.key)).map(({ booking }) => booking.uid)).toEqual(["tint", "gloss"]);
  expect(await tried(salon.key, GLOSS)).toEqual([]);
});

test("a word of no colour says which bookings would go", async () => {
  const { key } = await createSalon();
  await push(key, DIARY);
  const settings = { ...MINIMAL, services: [{ name: "Gloss", words: ["gloss"] }], notColour: ["tint"] };
  expect((await tried(key, settings)).map(({ booking, after }) => [booking, after === null])).toEqual([
    ["tint", true],
    ["gloss", false],
  ]);
});

test("another zone moves what the diary writes by the clock on the wall", async () => {
  const { key } = await createSalon();
  await push(key, DIARY);
  const [change] = await tried(key, { ...MINIMAL, zone: "America/New_York" });
  expect(change?.moved).toContain("application");
  expect((await plansOf(key))[0]?.booking.start).toBe("2026-12-11T10:30:00Z");
});

test("the commonest titles that no word matches are told without names", async () => {
  const salon = await createSalon();
  const glosses = ["Mara Quillfeather", "Wren Tallis", "Pia Dunn"].map((name, at) => ({
    uid: `g${at}`,
    start: `DTSTART:2026121${at}T090000`,
    summary: `Glaze - ${name}`,
  }));
  const tints = ["Mara Quillfeather", "Ann Brill"].map((name, at) => ({
    uid: `t${at}`,
    start: `DTSTART:2026120${at + 1}T090000`,
    summary: `Root tint - ${name}`,
  }));
  await push(
    salon.key,
    diaryText([
      ...tints,
      ...glosses,
      { uid: "n1", start: "DTSTART:20261220T090000", summary: "Nell Orrin" },
      { uid: "n2", start: "DTSTART:20261221T090000", summary: "Nell Orrin" },
      { uid: "o", start: "DTSTART:20261221T090000", summary: "Ottilie Brand" },
    ]),
  );
  const titles = await objectOf(salon).commonTitles(10);
  expect(titles.map(({ phrase, count, mayBeName }) => [phrase, count, mayBeName])).toEqual([
    ["glaze", 3, false],
    ["nell orrin", 2, true],
  ]);
});
