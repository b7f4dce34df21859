/** A salon's first visit and its rules in Chromium: by keyboard, without script, at both widths, light and dark. */
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { isTooWide, launchChromium, tabUntil, violationsOn } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
const files = mkdtempSync(join(tmpdir(), "countback-diary-"));
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_957, folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
  dropFolder(files);
});

const origin = (): string => service.address("Countback is at");

/** Where a page is and what is wrong with it; a page without script cannot be asked by axe. */
const faultsOn = async (page: Page, hasScript: boolean): Promise<readonly string[]> => {
  const wide = (await isTooWide(page)) ? ["wider than the screen"] : [];
  return hasScript ? [...wide, ...(await violationsOn(page))] : wide;
};

/** Presses Tab until the focus stands on what a selector names. */
const tabTo = (page: Page, selector: string): Promise<void> =>
  tabUntil(page, async () => (await page.locator(`${selector}:focus`).count()) > 0, selector);

const pressing = async (page: Page, key: "Enter" | "Space"): Promise<void> => {
  const loaded = page.waitForEvent("load");
  await page.keyboard.press(key);
  await loaded;
};

const typeInto = async (page: Page, name: string, text: string): Promise<void> => {
  await tabTo(page, `[name="${name}"]`);
  await page.keyboard.type(text);
};

test.each([
  [375, 667, "dark"],
  [1280, 800, "light"],
] as const)(
  "a first visit at %i by %i, %s, is made by keyboard alone and without script",
  async (width, height, colorScheme) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme, javaScriptEnabled: false });
    const page = await context.newPage();
    await page.goto(`${origin()}/desk/new`);
    await typeInto(page, "operator", "operator-of-a-test");
    await typeInto(page, "name", "Saltmarsh Hair");
    await typeInto(page, "zone", "London");
    await typeInto(page, "country", "gb");
    await pressing(page, "Enter");
    expect(await page.locator("main").textContent()).toContain("Time zone must be the name of an IANA time zone");
    expect(await faultsOn(page, false)).toEqual([]);
    await tabTo(page, "a[href='#f-zone']");
    await page.keyboard.press("Enter");
    expect(await page.locator(":focus").getAttribute("name")).toBe("zone");
    await page.keyboard.press("ControlOrMeta+A");
    await page.keyboard.type("Europe/London");
    await pressing(page, "Enter");
    const key = (await page.locator(".key-shown code").textContent()) ?? "";
    expect((await fetch(`${origin()}/api/salon`, { headers: { authorization: `Bearer ${key}` } })).status).toBe(200);
    expect(await faultsOn(page, false)).toEqual([]);
    await typeInto(page, "address", service.address("its diaries"));
    await tabTo(page, "[name=kept]");
    await page.keyboard.press("Space");
    await tabTo(page, "form[action='/desk/new/diary'] button");
    await pressing(page, "Space");
    expect(await page.locator("main").textContent()).toContain("What was understood");
    expect(await page.content()).not.toContain(key);
    expect(await faultsOn(page, false)).toEqual([]);
    await tabTo(page, "a[href='/desk/new/tests']");
    await pressing(page, "Enter");
    await tabTo(page, "[name=tests]");
    await page.keyboard.press("Home");
    await tabTo(page, "form[action='/desk/new/tests'] button");
    await pressing(page, "Enter");
    expect(page.url()).toBe(`${origin()}/desk/new/feed`);
    expect(await faultsOn(page, false)).toEqual([]);
    await tabTo(page, "a[href='/desk'].button");
    await pressing(page, "Enter");
    expect(await page.locator(".top .salon").textContent()).toBe("Saltmarsh Hair");
    await context.close();
  },
);

const inDays = (days: number): string =>
  `${new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10).replaceAll("-", "")}T103000`;

const writeDiary = (): string => {
  const titles = ["Glaze - Pia Dunn", "Glaze - Ann Brill", "Root tint - Mara Quillfeather", "Cut - Odile Brandt"];
  const events = titles.map((title, at) =>
    ["BEGIN:VEVENT", `UID:e${at}`, `DTSTART:${inDays(10 + at)}`, `SUMMARY:${title}`, "END:VEVENT"].join("\r\n"),
  );
  const path = join(files, "diary.ics");
  writeFileSync(
    path,
    ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Quillfen//EN", ...events, "END:VCALENDAR", ""].join("\r\n"),
  );
  return path;
};

test.each([
  [375, 667, "light"],
  [1280, 800, "dark"],
] as const)(
  "a first visit with files at %i by %i, %s: a wrong one is said, titles are answered at once, and axe finds no fault",
  async (width, height, colorScheme) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on("pageerror", (error) => errors.push(error.message));
    await page.goto(`${origin()}/desk/new`);
    expect(await faultsOn(page, true)).toEqual([]);
    await page.fill("[name=operator]", "operator-of-a-test");
    await page.fill("[name=name]", "Saltmarsh Hair");
    await page.fill("[name=zone]", "Europe/London");
    await page.click("text=Make the salon");
    expect(await faultsOn(page, true)).toEqual([]);
    const wrong = join(files, "picture.ics");
    writeFileSync(wrong, new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1]));
    await page.check("[name=kept]");
    await page.setInputFiles("#file", wrong);
    await page.click("text=Read the diary");
    expect(await page.locator("main").textContent()).toContain("What came is not a calendar.");
    expect(await faultsOn(page, true)).toEqual([]);
    await page.setInputFiles("#file", writeDiary());
    await page.click("text=Read the diary");
    expect(await page.locator(".understood").textContent()).toContain("2 entries not understood");
    expect(await faultsOn(page, true)).toEqual([]);
    await page.selectOption("#as-0", { label: "Colour: Colour" });
    await page.click("text=Save these answers");
    expect(await page.locator(".understood").textContent()).toContain("3 colour bookings");
    await page.click("text=On to tests and hours");
    expect(await faultsOn(page, true)).toEqual([]);
    await page.click("text=Save and go on");
    expect(await faultsOn(page, true)).toEqual([]);
    expect(errors).toEqual([]);
    await context.close();
  },
);

const signIn = async (page: Page): Promise<void> => {
  await page.goto(`${origin()}/desk/sign-in?to=/desk/rules`);
  await page.fill("#key", /salon key\s+(\S+)/.exec(service.printed())?.[1] ?? "");
  await page.click("main button[type=submit]");
  await page.waitForURL(/\/desk\/rules$/, { waitUntil: "load" });
};

test.each([
  [375, 667, "light"],
  [375, 667, "dark"],
  [1280, 800, "light"],
  [1280, 800, "dark"],
] as const)(
  "the rules at %i by %i, %s, fit the width, and axe finds no fault, refused or not",
  async (width, height, scheme) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme: scheme });
    const page = await context.newPage();
    await signIn(page);
    for (const details of await page.locator("main details").all())
      await details.evaluate("(each) => { each.open = true; }");
    expect(await faultsOn(page, true)).toEqual([]);
    await page.fill("[name='zone']", "London");
    await page.click(".rules-side button[value=save]");
    expect(await page.locator("#changes").textContent()).toContain("Time zone must be the name of an IANA time zone");
    expect(await page.locator("[name='zone']").inputValue()).toBe("London");
    expect(await faultsOn(page, true)).toEqual([]);
    await context.close();
  },
);

test("without script a page of rules that is sent back untouched changes nothing, and Enter in a field saves nothing", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, javaScriptEnabled: false });
  const page = await context.newPage();
  await signIn(page);
  const version = await page.locator("input[name=version]").inputValue();
  await page.click(".rules-side button[value=save]");
  expect(await page.locator(".said").textContent()).toContain("Saved.");
  expect(await page.locator("input[name=version]").inputValue()).toBe(version);
  await page.fill("[name='name']", "Another name");
  await page.press("[name='name']", "Enter");
  await page.waitForURL(/#changes$/);
  expect(await page.locator("#changes").textContent()).toContain("Nothing is saved yet.");
  expect(await page.locator("[name='name']").inputValue()).toBe("Another name");
  expect(await page.locator(".top .salon").textContent()).toBe("Quillfen Colour Room");
  await context.close();
});

test("with script what would change is shown while somebody types, and nothing is saved by it", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  await signIn(page);
  await page.fill("[name='closed']", `${new Date(Date.now() + 86_400_000).toISOString().slice(0, 10)} to 2099-01-01`);
  await expect
    .poll(() => page.locator("#changes").textContent(), { timeout: 10_000 })
    .toContain("would have steps at other times");
  expect(await page.locator(":focus").getAttribute("name")).toBe("closed");
  await page.goto(`${origin()}/desk/rules`);
  expect(await page.locator("[name='closed']").inputValue()).toBe("");
  expect(errors).toEqual([]);
  await context.close();
});
