/**
 * A salon's busy day, and how many presses it takes: from the desk's first page to every record that is due, and from a client's
 * link to everything that she can tell. A press is a click, or a choice that must be made; the numbers are printed.
 */
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";
import { type StoryEntry, StorySalon } from "./StorySalon.ts";
import { SCREENS, Visitor } from "./Visitor.ts";

const [PHONE] = SCREENS;
const folder = newFolder();
let service: Started;
let browser: Browser;
let salon: StorySalon;

/** Invented: a first name for each of a kind, a second for each kind. */
const FIRST = ["Mara", "Odile", "Petra", "Suki", "Wren", "Imke", "Tansy", "Basil", "Ludo", "Ines"];
/** How many appointments of each kind the day begins with: forty. */
const KINDS = {
  Ashpost: { count: 5, inDays: 7, at: "12:00" },
  Birchwalk: { count: 5, inDays: 2, at: "12:00" },
  Cedarkit: { count: 4, inDays: 5, at: "17:00" },
  Dunoff: { count: 4, inDays: 3, at: "12:00" },
  Elmlook: { count: 6, inDays: 0, at: "16:00" },
  Fernsure: { count: 4, inDays: 1, at: "12:00" },
  Gorseplea: { count: 4, inDays: 7, at: "10:00" },
  Hollyask: { count: 4, inDays: 8, at: "11:30" },
  Ivyfar: { count: 4, inDays: 24, at: "11:00" },
} as const;
type Kind = keyof typeof KINDS;
const of = (kind: Kind): readonly string[] =>
  Array.from({ length: KINDS[kind].count }, (_, index) => `${kind}-${index}`);
const nameOf = (uid: string): string => {
  const [kind = "", index = ""] = uid.split("-");
  return `${FIRST[Number(index)]} ${kind}`;
};

const entries: readonly StoryEntry[] = [
  ...Object.entries(KINDS).flatMap(([kind, { inDays, at }]) =>
    of(kind as Kind).map((uid) => ({ uid, inDays, at, client: nameOf(uid), phone: "+441632960471" })),
  ),
  { uid: "unknown-1", inDays: 12, at: "16:30", summary: "The big one - Tansy Ferrow" },
  { uid: "unknown-2", inDays: 13, at: "16:30", summary: "Ordinary glaze - Basil Hartnoll" },
];

const pass = (uid: string): Promise<void> => salon.record(uid, "screened", 0, "09:00", { outcome: "pass" });

/** What had happened before this day. */
const fill = async (): Promise<void> => {
  await salon.push(entries);
  for (const uid of of("Ashpost")) await pass(uid);
  for (const uid of of("Birchwalk")) await pass(uid);
  for (const uid of of("Cedarkit")) {
    await pass(uid);
    await salon.record(uid, "posted", -3, "12:00");
  }
  for (const uid of of("Dunoff")) {
    await pass(uid);
    await salon.record(uid, "applied", -2, "09:00", { route: "home-kit" });
  }
  for (const uid of of("Elmlook")) {
    await pass(uid);
    await salon.record(uid, "applied", -2, "09:00", { route: "in-salon" });
  }
  for (const uid of of("Fernsure")) {
    await pass(uid);
    await salon.record(uid, "applied", -3, "09:00", { route: "in-salon" });
    await salon.record(uid, "read", -1, "09:30", { outcome: "clear" });
  }
  for (const uid of of("Gorseplea")) await answerNotSure(uid);
};

const answerNotSure = async (uid: string): Promise<void> => {
  const { page } = await salon.linkOf(uid);
  const asked = await fetch(`${page}/screening`, { headers: { accept: "application/json" } });
  const { version, questions } = await asked.json<{ version: number; questions: { id: string }[] }>();
  const answers = Object.fromEntries(questions.map(({ id }, index) => [id, index === 0 ? "not-sure" : "no"]));
  const answered = await fetch(`${page}/screening`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ version, consent: true, answers }),
  });
  expect(answered.status).toBe(201);
};

const newSalon = (): Promise<StorySalon> => StorySalon.atHour(service.address("Countback is at"), 10);

beforeAll(async () => {
  service = await startService(18_977, folder);
  browser = await launchChromium();
  salon = await newSalon();
  await fill();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

const click = async (target: Locator): Promise<void> => {
  await Promise.all([target.page().waitForEvent("load"), target.click({ timeout: 5_000 })]);
};

const signIn = async ({ origin, key }: StorySalon): Promise<Page> => {
  const context = await browser.newContext({ viewport: PHONE!.viewport });
  const page = await context.newPage();
  await page.goto(`${origin}/desk`);
  await page.fill("#key", key);
  await click(page.getByRole("button", { name: "Sign in" }));
  return page;
};

/** What the desk presses for a row under each heading: the usual answer, over as many pages as it takes. */
const PRESSES: Readonly<Record<string, readonly [string, ...string[]]>> = {
  "Answers to decide about": ["Read the answers and decide", "Nothing against it"],
  "Kits to post": ["Kit is posted"],
  "Tests to put on here": ["Test is on"],
  "Kits to ask after": ["Kit has come"],
  "Tests to take off": ["Taken off"],
  Looks: ["Clear"],
  "Results to confirm before the colour": ["Confirm the result"],
  "Health questions not answered": ["Record what she said", "Nothing against it"],
};

interface Counted {
  records: number;
  presses: number;
  most: number;
}

const count = (counted: Map<string, Counted>, what: string, presses: number): void => {
  const before = counted.get(what) ?? { records: 0, presses: 0, most: 0 };
  counted.set(what, {
    records: before.records + 1,
    presses: before.presses + presses,
    most: Math.max(before.most, presses),
  });
};

const print = (title: string, counted: ReadonlyMap<string, Counted>): void => {
  const rows = [...counted].map(
    ([what, { records, presses, most }]) =>
      `${what.padEnd(44)}${String(records).padStart(8)}${String(presses).padStart(9)}${String(most).padStart(6)}`,
  );
  const head = `${title.padEnd(44)}${"records".padStart(8)}${"presses".padStart(9)}${"most".padStart(6)}`;
  console.log([head, ...rows].join("\n"));
};

const wordsLike = (words: string): RegExp => new RegExp(`^\\s*${words}`);

/** Presses the usual answer of the first row that has one, and says under which heading it stood; null: none is left. */
const pressFirst = async (page: Page): Promise<{ readonly heading: string; readonly presses: number } | null> => {
  for (const heading of await page.locator("h3[id^=due-]").all()) {
    const text = (await heading.textContent()) ?? "";
    const [name, [first, ...more]] = Object.entries(PRESSES).find(([each]) => text.startsWith(each)) ?? [text, [""]];
    const list = page.locator(`#${await heading.getAttribute("id")} + .rows`);
    const usual = list.getByRole("button", { name: wordsLike(first) });
    const target = usual.or(list.getByRole("link", { name: wordsLike(first) })).first();
    if ((await target.count()) === 0) continue;
    await click(target);
    for (const words of more) await click(page.getByRole("button", { name: wordsLike(words) }).first());
    // Every press leads back to the list, without another.
    expect(new URL(page.url()).pathname).toBe("/desk");
    return { heading: name, presses: 1 + more.length };
  }
  return null;
};

test.each([80, 160, 240])(
  "a second press %i ms after the first tells nothing about the next in the list",
  async (apart) => {
    const few = await newSalon();
    const looks = ["one", "two", "three", "four"];
    await few.push(looks.map((uid, index) => ({ uid, inDays: 0, at: "16:00", client: `${FIRST[index]} Elmlook` })));
    for (const uid of looks) await few.record(uid, "applied", -2, "09:00", { route: "in-salon" });
    const page = await signIn(few);
    const clear = page.getByRole("button", { name: wordsLike("Clear") });
    const before = await clear.count();
    // Once pressed, the list stands where the next press finds it.
    await click(clear.first());
    await page.waitForTimeout(500);
    const box = await clear.first().boundingBox();
    const press = (): Promise<void> => page.mouse.click((box?.x ?? 0) + 20, (box?.y ?? 0) + 20);
    const loaded = page.waitForEvent("load");
    await press();
    await page.waitForTimeout(apart);
    await press();
    await loaded;
    await page.waitForTimeout(500);
    expect(await clear.count()).toBe(before - 2);
    await page.context().close();
  },
);

test("every record that a busy day asks for is made from the desk's first page, none by more than two presses", async () => {
  const page = await signIn(salon);
  const counted = new Map<string, Counted>();
  for (let rows = 0; rows < 200; rows++) {
    const pressed = await pressFirst(page);
    if (pressed === null) break;
    count(counted, pressed.heading, pressed.presses);
  }
  for (let left = 2; left > 0; left--) {
    if (!page.url().includes("/desk/entries")) await click(page.getByRole("link", { name: /entr(y|ies) to answer/ }));
    await click(
      page
        .locator(".entries")
        .getByRole("button", { name: wordsLike("Colour") })
        .first(),
    );
    count(counted, "Entries to answer", left === 2 ? 2 : 1);
  }
  print("At the desk", counted);
  await page.goto(`${salon.origin}/desk`);
  // A look opens a while after the test came off, and can be told of only then.
  const left = page.locator("section[aria-labelledby=due] .rows > li");
  expect(await left.locator(".booked a:first-child").allTextContents()).toEqual(of("Dunoff").map(nameOf));
  expect(await left.getByRole("button").allTextContents()).toEqual(
    of("Dunoff").map((uid) => `Something shows: ${nameOf(uid)}`),
  );
  const records = await salon.records();
  const made = (kind: string): string[] =>
    records
      .filter((record) => record["kind"] === kind && record["recorded"] && record["by"] === null)
      .map((record) => String(record["booking"]))
      .sort();
  expect(made("posted")).toEqual([...of("Ashpost"), ...of("Gorseplea")]);
  expect(made("applied")).toEqual(of("Birchwalk"));
  expect(made("arrived")).toEqual(of("Cedarkit"));
  expect(made("removed")).toEqual(of("Dunoff"));
  expect(made("read")).toEqual(of("Elmlook"));
  expect(made("confirmed")).toEqual([...of("Elmlook"), ...of("Fernsure")]);
  expect(made("screened")).toEqual(expect.arrayContaining([...of("Gorseplea"), ...of("Hollyask")]));
  for (const [what, { most }] of counted) expect([what, most <= 2]).toEqual([what, true]);
  await page.context().close();
});

test("a client tells whatever there is to tell by one press from her link", async () => {
  const counted = new Map<string, Counted>();
  const tell = async (uid: string, words: string): Promise<void> => {
    const { page } = await salon.linkOf(uid);
    const client = await Visitor.at(browser, PHONE!, "presses");
    await client.open(page);
    await client.press(words);
    expect(await client.text(".kept")).toContain(`Saved: “${words}”`);
    count(counted, words, client.presses);
    await client.leave();
  };
  await tell("Ashpost-0", "My kit has come");
  await tell("Ashpost-1", "My kit has not come");
  await salon.record("Ivyfar-1", "route", 0, "09:30", { route: "in-salon" });
  await tell("Ivyfar-1", "I cannot come in: please post me a kit");
  await tell("Cedarkit-0", "My test is on");
  await salon.record("Cedarkit-1", "applied", -3, "09:00", { route: "home-kit" });
  await tell("Cedarkit-1", "I have taken it off");
  for (const uid of ["Cedarkit-2", "Cedarkit-3"]) {
    await salon.record(uid, "applied", -3, "09:00", { route: "home-kit" });
    await salon.record(uid, "removed", -1, "09:05");
  }
  await tell("Cedarkit-2", "I looked: clear");
  await tell("Cedarkit-3", "I looked: not sure");
  await tell("Cedarkit-0", "Something shows");
  const { page } = await salon.linkOf("Ivyfar-0");
  const client = await Visitor.at(browser, PHONE!, "presses");
  await salon.push(entries.map((entry) => (entry.uid === "Ivyfar-0" ? { ...entry, inDays: 9 } : entry)));
  await client.open(page);
  await client.press("Answer the questions");
  for (const group of await client.page.locator("fieldset").all()) await client.answer(group, 1);
  await client.tick(client.page.locator("#consent"));
  await client.press("Send my answers");
  count(counted, "Every health question, each its answer", client.presses);
  await client.leave();
  print("From her link", counted);
  for (const [what, { most }] of counted)
    if (!what.startsWith("Every health question")) expect([what, most]).toEqual([what, 1]);
});
