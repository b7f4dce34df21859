/** The desk's clients, diaries, entries, earliest starts and records in Chromium: both widths, light and dark, by keyboard, without script. */
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { isTooWide, launchChromium, tabUntil, violationsOn } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_940, folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

const origin = (): string => service.address("Countback is at");
const key = (): string => /salon key\s+(\S+)/.exec(service.printed())?.[1] ?? "";

/** A page of the desk, signed in. */
const signIn = async (context: BrowserContext): Promise<Page> => {
  const page = await context.newPage();
  await page.goto(`${origin()}/desk/sign-in?to=/desk/clients`);
  await page.fill("#key", key());
  await page.click("main button[type=submit]");
  expect(page.url()).toBe(`${origin()}/desk/clients`);
  return page;
};

const hrefOf = async (page: Page, on: string, like: string): Promise<string> => {
  await page.goto(`${origin()}${on}`);
  return (await page.locator(`a[href*="${like}"]`).first().getAttribute("href")) ?? "";
};

test.each([
  [375, 667, "light", true],
  [375, 667, "dark", false],
  [1280, 800, "light", false],
  [1280, 800, "dark", true],
] as const)(
  "every page at %i by %i, %s, fits its width and is found without fault by axe (script: %s)",
  async (width, height, colorScheme, javaScriptEnabled) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme, javaScriptEnabled });
    const page = await signIn(context);
    const errors: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    const client = await hrefOf(page, "/desk/clients", "/desk/clients/c");
    const evidence = await hrefOf(page, client, "/desk/evidence/");
    const paths = [
      "/desk/clients",
      "/desk/clients?state=open",
      client,
      `${client}/card`,
      `${client}/erase`,
      "/desk/diaries",
      "/desk/entries?state=unsorted",
      "/desk/entries?state=booking",
      "/desk/entries?state=not-certain",
      "/desk/answers",
      "/desk/earliest",
      evidence,
      "/desk/log",
      "/desk/log/import",
    ];
    for (const path of paths) {
      expect([path, (await page.goto(`${origin()}${path}`))?.status()]).toEqual([path, 200]);
      expect([path, await isTooWide(page)]).toEqual([path, false]);
      expect(await page.locator("footer").textContent()).toContain("call 999 now and say anaphylaxis");
      if (javaScriptEnabled) expect([path, await violationsOn(page)]).toEqual([path, []]);
    }
    expect(errors).toEqual([]);
    await context.close();
  },
);

test("an entry is answered by keyboard alone and without script, and taken back", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, javaScriptEnabled: false });
  const page = await signIn(context);
  await page.goto(`${origin()}/desk/entries?state=unsorted`);
  expect(await page.locator(".entries > li").count()).toBe(1);
  expect(await page.locator("input[name='client.name']").inputValue()).toBe("Tansy Ferrow");
  await tabTo(page, "Colour");
  await enter(page);
  expect(await page.locator("main").textContent()).toContain("Every entry is understood");
  await tabTo(page, "Take it back");
  await enter(page);
  expect(await page.locator(".entries > li").count()).toBe(1);
  await context.close();
});

/** Presses Tab until the focus stands on a button whose text begins so. */
const tabTo = (page: Page, text: string): Promise<void> => {
  const focus = page.locator("button:focus");
  const isThere = async (): Promise<boolean> =>
    (await focus.count()) > 0 && ((await focus.textContent()) ?? "").trim().startsWith(text);
  return tabUntil(page, isThere, text);
};

const enter = async (page: Page): Promise<void> => {
  const loaded = page.waitForEvent("load");
  await page.keyboard.press("Enter");
  await loaded;
};

test("a diary's file is read and a table brought in, without script", async () => {
  const context = await browser.newContext({ viewport: { width: 375, height: 667 }, javaScriptEnabled: false });
  const page = await signIn(context);
  await page.goto(`${origin()}/desk/diaries`);
  await page.click("summary:has-text('Add a diary')");
  await page.fill("#diary-name", "Chair by the window");
  await page.click("button:has-text('Add the diary')");
  const text = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Quillfen//EN",
    "BEGIN:VEVENT",
    "UID:window-1",
    "DTSTAMP:20260101T000000Z",
    `DTSTART:${new Date(Date.now() + 20 * 86_400_000).toISOString().slice(0, 10).replaceAll("-", "")}T120000Z`,
    "SUMMARY:Root tint - Ottoline Reedmace",
    "END:VEVENT",
    "END:VCALENDAR",
    "",
  ].join("\r\n");
  await page.setInputFiles("input[name=file]", { name: "w.ics", mimeType: "text/calendar", buffer: Buffer.from(text) });
  await page.click("button:has-text('Read the file')");
  expect(await page.locator("[role=status]").textContent()).toContain("The file was read.");
  await page.goto(`${origin()}/desk/log/import`);
  const table = "clientName,kind,at,outcome,route\nOttoline Reedmace,read,2026-03-14T10:45:00Z,clear,in-salon\n";
  await page.setInputFiles("#table-file", { name: "t.csv", mimeType: "text/csv", buffer: Buffer.from(table) });
  await page.click("button:has-text('Try it')");
  expect(await page.locator("h2").first().textContent()).toBe("1 line can be brought in");
  await page.click("button:has-text('Bring in 1 line')");
  expect(await page.locator("h2").first().textContent()).toBe("1 line was brought in");
  await context.close();
});

test("the card and the evidence each take one sheet of paper, and the desk around them none", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await signIn(context);
  const client = await hrefOf(page, "/desk/clients", "/desk/clients/c");
  for (const path of [`${client}/card`, await hrefOf(page, client, "/desk/evidence/")]) {
    await page.goto(`${origin()}${path}`);
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect([path, paper.match(/\/Type\s*\/Page\b/g)?.length]).toEqual([path, 1]);
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".top").isVisible()).toBe(false);
    await page.emulateMedia({ media: null });
  }
  await context.close();
});
