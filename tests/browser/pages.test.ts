/** The pages in Chromium, at phone and desk width: no console error, nothing wider than the screen, emergency words in sight. */
import { type Browser, chromium } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_887, folder);
  browser = await chromium.launch({
    executablePath: process.env["CHROMIUM"] ?? "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

/** Pages of the demo: the front door, and each client's. */
const addresses = (): string[] => [
  `${service.address("Countback is at")}/`,
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
