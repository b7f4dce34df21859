/** The desk against whoever is clumsy or means harm. Everyone named is invented. */
import { evictDurableObject, reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ROWS_KEPT_BYTES } from "../../src/bounds.ts";
import { RowShelf } from "../../src/web/desk/RowShelf.ts";
import { createSalon, diaryText, MARA, objectOf, push, setClock, WREN } from "./client.ts";
import { DeskScreen, textOf } from "./deskScreen.ts";

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
