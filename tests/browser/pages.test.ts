/** The pages in Chromium, at phone and desk width: no console error, nothing wider than the screen, emergency words in sight. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_887, folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

/** Pages of the demo: the front door, what is stored, and each client's. */
const addresses = (): string[] => [
  `${service.address("Countback is at")}/`,
  `${service.address("Countback is at")}/privacy`,
  ...[...service.printed().matchAll(/page\s+(http\S+)/g)].map(([, page]) => page ?? ""),
];

test.each([
  ["a phone, light", 375, 667, "light"],
  ["a phone, dark", 375, 667, "dark"],
  ["a desk, light", 1280, 800, "light"],
] as const)(
  "every page on %s stands without script, fits the width and shows the emergency words at once",
  async (name, width, height, colorScheme) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme, javaScriptEnabled: false });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    page.on("requestfailed", (request) => errors.push(request.url()));
    for (const [index, address] of addresses().entries()) {
      expect((await page.goto(address))?.status()).toBe(200);
      expect(await page.locator("main").evaluate((main) => main.scrollWidth <= main.clientWidth)).toBe(true);
      if (address.includes("/c/")) {
        const words = await page.locator(".emergency").boundingBox();
        expect((words?.y ?? height) + (words?.height ?? 0)).toBeLessThan(height);
        expect(await page.locator(".emergency").textContent()).toContain("call 999 now and say anaphylaxis");
      }
      const folderOfShots = process.env["SCREENSHOTS"];
      if (folderOfShots)
        await page.screenshot({
          path: `${folderOfShots}/${name.replaceAll(/\W+/g, "-")}-${index}.png`,
          fullPage: true,
        });
    }
    expect(errors).toEqual([]);
    await context.close();
  },
);

test.each([
  [375, "light"],
  [1280, "dark"],
] as const)(
  "an appointment's evidence fits a screen %i wide, %s, and one sheet of paper",
  async (width, colorScheme) => {
    const authorization = `Bearer ${/salon key\s+(\S+)/.exec(service.printed())?.[1]}`;
    const viewport = { width, height: 800 };
    const context = await browser.newContext({ viewport, colorScheme, extraHTTPHeaders: { authorization } });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    const address = /"(http[^"]+evidence[^"]+)"/.exec(service.printed())?.[1] ?? "";
    expect((await page.goto(address))?.status()).toBe(200);
    expect(await page.locator("main").evaluate((main) => main.scrollWidth <= main.clientWidth)).toBe(true);
    // Its own stylesheet holds, though it comes from nowhere else.
    expect((await page.locator(".signatures .line").first().boundingBox())?.height).toBeGreaterThan(20);
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(paper.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    expect(errors).toEqual([]);
    await context.close();
  },
);

/** The page of a client of the demo who has not answered her questions yet. */
const questionsPage = async (): Promise<string> => {
  for (const address of addresses().filter((each) => each.includes("/c/"))) {
    const html = await (await fetch(address, { headers: { accept: "text/html" } })).text();
    if (html.includes(">Answer the questions</a>")) return address;
  }
  throw new Error("nobody in the demo has questions to answer");
};

test.each([
  ["a phone, light", 375, 667, "light"],
  ["a phone, dark", 375, 667, "dark"],
  ["a desk, light", 1280, 800, "light"],
  ["a desk, dark", 1280, 800, "dark"],
] as const)(
  "the questions on %s are answered by keyboard alone and without script, and a gap is named and reached",
  async (name, width, height, colorScheme) => {
    const context = await browser.newContext({ viewport: { width, height }, colorScheme, javaScriptEnabled: false });
    const page = await context.newPage();
    const folderOfShots = process.env["SCREENSHOTS"];
    const shoot = async (what: string): Promise<void> => {
      expect(await page.locator("main").evaluate((main) => main.scrollWidth <= main.clientWidth)).toBe(true);
      if (!folderOfShots) return;
      await page.screenshot({
        path: `${folderOfShots}/questions-${name.replaceAll(/\W+/g, "-")}-${what}.png`,
        fullPage: true,
      });
    };
    /** Presses Tab until the focus stands on an element of this id, or of this text. */
    const tabTo = async (wanted: string): Promise<void> => {
      for (let presses = 0; presses < 60; presses++) {
        await page.keyboard.press("Tab");
        const focus = page.locator(":focus");
        if ((await focus.count()) === 0) continue;
        const [id, text] = [await focus.getAttribute("id"), (await focus.textContent())?.trim()];
        if (id === wanted || text === wanted) return;
      }
      throw new Error(`the keyboard does not reach ${wanted}`);
    };
    const enter = async (): Promise<void> => {
      const loaded = page.waitForEvent("load");
      await page.keyboard.press("Enter");
      await loaded;
    };
    await page.goto(await questionsPage());
    await shoot("client-page");
    await tabTo("Answer the questions");
    await enter();
    expect(page.url()).toContain("/screening");
    expect(await page.locator(":checked").count()).toBe(0);
    const emergency = await page.locator(".emergency").boundingBox();
    expect((emergency?.y ?? height) + (emergency?.height ?? 0)).toBeLessThan(height);
    await shoot("form");
    const ids = await page.locator("fieldset input[value=no]").evaluateAll((inputs) => inputs.map(({ id }) => id));
    expect(ids.length).toBeGreaterThanOrEqual(8);
    for (const [index, id] of ids.entries()) {
      if (index === 2) continue;
      const first = id.replace(/-no$/, "-yes");
      await tabTo(first);
      await page.keyboard.press("Space");
      await page.keyboard.press(index === ids.length - 1 ? "ArrowUp" : "ArrowDown");
    }
    await tabTo("Send my answers");
    await enter();
    expect(await page.locator("[role=alert] li").allTextContents()).toEqual([
      "Question 3 is not answered",
      expect.stringContaining("You have not agreed"),
    ]);
    expect(await page.locator(":checked").count()).toBe(ids.length - 1);
    await shoot("gap");
    await tabTo("Question 3 is not answered");
    await page.keyboard.press("Enter");
    const gap = ids[2]?.replace(/-no$/, "-yes") ?? "";
    expect(await page.locator(":focus").getAttribute("id")).toBe(gap);
    await page.keyboard.press("ArrowDown");
    await tabTo("consent");
    await page.keyboard.press("Space");
    await tabTo("Send my answers");
    await enter();
    expect(page.url()).not.toMatch(/yes|not-sure/);
    expect(await page.locator("main").textContent()).toContain("a person at the salon looks at it first and decides");
    await shoot("answered");
    await tabTo("Back to your page");
    await enter();
    // The headline may be a later step's, by the day on which the demo runs; the step itself always says it.
    const step = page.locator("li", { hasText: "The salon is looking at your answers" });
    expect(await step.first().textContent()).toContain("with the salon");
    await shoot("waiting");
    await context.close();
  },
);
