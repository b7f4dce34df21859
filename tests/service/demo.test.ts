/**
 * The demo salon's whole chain as a golden fixture: two diaries in, plans and both kinds of feed out. What changes here
 * changes for everyone; `vitest -u` rewrites the files, and the difference is then read line by line.
 */
import { reset } from "cloudflare:test";
import { env } from "cloudflare:workers";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { CHAIRS, demoDiary, type Stage } from "../../src/local/demoDiaries.ts";
import { demoSettings, whatHappened } from "../../src/local/demoSalon.ts";
import { hashKey, makeKey, makeLink } from "../../src/salon/link.ts";
import { settingsSchema } from "../../src/settings.ts";
import { parseDay } from "../../src/time/instant.ts";
import { linkOf, ORIGIN, plansOf, push, record, send, setClock } from "./client.ts";

const FOLDER = "../../fixtures/salons/quillfen";
const ANCHOR = parseDay("2026-11-25") as number;
const SALON = "51756c6c66656e000001";
const GOLDEN = /\r\n/g;

beforeEach(() => setClock("2026-11-25T12:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

/** A made-up salon under a name that is always the same, so that UIDs and links are too. */
const createFixedSalon = async (): Promise<{ key: string; feed: string }> => {
  const key = makeKey(SALON, env.LINK_SECRET);
  const diaries = CHAIRS.map((name) => ({ name }));
  const settings = settingsSchema.parse({ ...demoSettings(8788), diaries });
  const made = await env.SALON.get(env.SALON.idFromName(SALON)).create(SALON, ORIGIN, settings, hashKey(key), null);
  if (!made.ok) throw new Error("the demo settings are refused");
  const link = makeLink({ salon: SALON, holder: "salon-feed", generation: 1 }, env.LINK_SECRET);
  return { key, feed: `${ORIGIN}/s/${link}/deadlines.ics` };
};

test("the demo diaries lead to these plans and these feeds", async () => {
  const { key, feed } = await createFixedSalon();
  const read = async (stage: Stage): Promise<void> => {
    for (const chair of CHAIRS) {
      const text = demoDiary(chair, [ANCHOR], stage);
      await expect(text.replace(GOLDEN, "\n")).toMatchFileSnapshot(`${FOLDER}/diary-${chair}-${stage}.ics`);
      expect((await push(key, text, chair)).status).toBe(200);
    }
  };
  await read("before");
  for (const facts of whatHappened(ANCHOR)) expect((await record(key, facts)).status).toBe(201);
  setClock("2026-11-25T12:30:00Z");
  await read("now");
  const plans = await plansOf(key);
  await expect(`${JSON.stringify(plans, null, 2)}\n`).toMatchFileSnapshot(`${FOLDER}/plans.json`);
  const salonFeed = await (await send(feed)).text();
  await expect(salonFeed.replace(GOLDEN, "\n")).toMatchFileSnapshot(`${FOLDER}/deadlines.ics`);
  const mara = plans.find(({ booking }) => booking.client.name === "Mara Quillfeather")?.booking.client.id ?? "";
  const clientFeed = await (await send((await linkOf(key, mara)).feed)).text();
  await expect(clientFeed.replace(GOLDEN, "\n")).toMatchFileSnapshot(`${FOLDER}/skin-test-mara.ics`);
  expect(new Set(plans.map(({ route }) => route))).toEqual(new Set(["in-salon", "home-kit", "on-file"]));
});
