/**
 * The front door and a client's pages in Chromium: fit and light, the emergency words always in sight, by keyboard, without
 * script, zoomed, and by axe-core.
 */
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium, tabUntil, violationsOn } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";

const folder = newFolder();
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_897, folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

const SCREENS = [
  ["a phone, light", { viewport: { width: 375, height: 667 }, colorScheme: "light" }],
  ["a phone, dark", { viewport: { width: 375, height: 667 }, colorScheme: "dark" }],
  ["a desk, light", { viewport: { width: 1280, height: 800 }, colorScheme: "light" }],
  ["a desk, dark", { viewport: { width: 1280, height: 800 }, colorScheme: "dark" }],
  ["a phone zoomed to twice the size", { viewport: { width: 188, height: 334 }, colorScheme: "light" }],
] as const satisfies readonly (readonly [string, BrowserContextOptions])[];

const home = (): string => `${service.address("Countback is at")}/`;
const key = (): string => /salon key\s+(\S+)/.exec(service.printed())?.[1] ?? "";
const pageOf = (name: string): string =>
  new RegExp(`${name}[^\\n]*\\n\\s+page\\s+(http\\S+)`).exec(service.printed())?.[1] ?? "";
const inDays = (days: number): string => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);
const asked = (days: number): string =>
  `${home()}?date=${inDays(days)}&time=10%3A30&test=&zone=Europe%2FLondon&country=GB`;

/** Opens pages of one screen; `done` says what the console held. */
const onScreen = async (screen: BrowserContextOptions, use: (page: Page) => Promise<void>): Promise<void> => {
  const context = await browser.newContext({ ...screen, javaScriptEnabled: false });
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  // A download ends a navigation.
  page.on("requestfailed", (request) => request.url().includes(".ics") || errors.push(request.url()));
  await use(page);
  await context.close();
  // That a form was refused is said by its status, which Chromium writes down.
  expect(errors.filter((error) => !error.includes("status of 422"))).toEqual([]);
};

const fits = async (page: Page): Promise<void> => {
  const wide = page.locator("html");
  expect(await wide.evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth)).toBe(0);
};

/** axe runs in a page that may hold no script of its own: it is put there past the policy, by the browser. */
const violationsOf = async (address: string, screen: BrowserContextOptions): Promise<readonly string[]> => {
  const context = await browser.newContext({ ...screen, bypassCSP: true });
  const page = await context.newPage();
  await page.goto(address);
  for (const summary of await page.locator("summary").all()) await summary.click();
  const found = await violationsOn(page);
  await context.close();
  return found;
};

describe.each(SCREENS)("on %s", (name, screen) => {
  test("every page fits, and the emergency words stay in sight however far one reads", async () => {
    await onScreen(screen, async (page) => {
      for (const address of [home(), asked(14), asked(2), pageOf("Mara"), pageOf("Suki"), pageOf("Odile")]) {
        expect((await page.goto(address))?.status()).toBe(200);
        await fits(page);
        const { height } = screen.viewport;
        for (const share of [0, 0.5, 1]) {
          await page.locator("html").evaluate((root, part) => root.scrollTo(0, part * root.scrollHeight), share);
          const box = await page.locator(".emergency").boundingBox();
          expect(box?.y).toBeGreaterThanOrEqual(0);
          expect((box?.y ?? height) + (box?.height ?? 0)).toBeLessThanOrEqual(height);
          // The rest is for reading.
          expect(box?.height).toBeLessThan(height / 2);
        }
        if (process.env["SCREENSHOTS"])
          await page.screenshot({
            path: `${process.env["SCREENSHOTS"]}/${name}-${address.length}.png`.replaceAll(" ", "-"),
            fullPage: true,
          });
      }
    });
  });

  test("axe-core finds nothing to mend, everything opened", async () => {
    for (const address of [
      home(),
      asked(14),
      `${asked(14)}&date=x`.replace(/date=[\d-]+&/, ""),
      pageOf("Mara"),
      pageOf("Suki"),
    ]) {
      expect(await violationsOf(address, screen), address).toEqual([]);
    }
  });
});

/** Presses Tab until the focus stands on an element of this id or text. */
const tabTo = async (page: Page, wanted: string): Promise<void> => {
  const focus = page.locator(":focus");
  const isThere = async (): Promise<boolean> =>
    (await focus.count()) > 0 &&
    [await focus.getAttribute("id"), (await focus.textContent())?.trim()].some((each) => each === wanted);
  await tabUntil(page, isThere, wanted);
  // Nothing that is reached lies behind what stays in sight.
  const [strip, box] = [await page.locator(".emergency").boundingBox(), await focus.boundingBox()];
  expect((box?.y ?? 0) + 1).toBeGreaterThan((strip?.y ?? 0) + (strip?.height ?? 0));
};

const enter = async (page: Page): Promise<void> => {
  const loaded = page.waitForEvent("load");
  await page.keyboard.press("Enter");
  await loaded;
};

test("the front door counts back by keyboard alone, without script, and its file downloads", async () => {
  await onScreen({ ...SCREENS[0][1], acceptDownloads: true }, async (page) => {
    await page.goto(home());
    await page.locator("#date").fill(inDays(14));
    await page.locator("#time").fill("10:30");
    await tabTo(page, "Count back");
    await enter(page);
    expect(await page.locator("h2").first().textContent()).toMatch(/^First: /);
    expect(await page.locator(".chain svg[role=img]").count()).toBe(1);
    expect(await page.locator("#date").inputValue()).toBe(inDays(14));
    const download = page.waitForEvent("download");
    await page.getByText("Save these times as a calendar file").click();
    expect((await download).suggestedFilename()).toBe("count-back.ics");
  });
});

test("a mistake at the front door is named at its field, and what was typed is still there", async () => {
  await onScreen(SCREENS[0][1], async (page) => {
    const answer = await page.goto(asked(14).replace("Europe%2FLondon", "Europe%2FLondn"));
    expect(answer?.status()).toBe(422);
    expect(await page.locator("#zone-error").textContent()).toContain("“Europe/Londn” is the name of no time zone");
    expect(await page.locator("#date").inputValue()).toBe(inDays(14));
    await tabTo(page, "Time zone of the salon");
    await page.keyboard.press("Enter");
    expect(await page.locator(":focus, :target").first().getAttribute("id")).toBe("zone");
    await page.locator("#zone").fill("Europe/London");
    await tabTo(page, "Count back");
    await enter(page);
    expect(await page.locator("h2").first().textContent()).toMatch(/^First: /);
  });
});

test("a client tells by one press, sees that it was kept, and sets a time back without script", async () => {
  const api = async (path: string, body?: unknown): Promise<unknown> =>
    (
      await fetch(`${home()}api/salon${path}`, {
        method: body === undefined ? "GET" : "POST",
        headers: { authorization: `Bearer ${key()}`, "content-type": "application/json" },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      })
    ).json();
  const address = pageOf("Suki");
  await onScreen(SCREENS[0][1], async (page) => {
    await page.goto(address);
    // Late: it is asked since when, so the time stands open, before the press.
    const yesterday = new Date(Date.now() - 26 * 3_600_000).toISOString().slice(0, 16);
    await page.locator("input[name=when]").fill(yesterday);
    await page.locator("input[name=when]").focus();
    await enter(page);
    expect(await page.locator("[role=alert]").textContent()).toContain("Press below what has happened.");
    expect(await page.locator("input[name=when]").inputValue()).toBe(yesterday);
    expect(await page.locator(".kept").count()).toBe(0);
    await tabTo(page, "My test is on");
    await enter(page);
    expect(await page.locator(".kept[role=status]").textContent()).toContain("Saved: “My test is on”");
    expect(await page.locator(".kept").boundingBox()).toMatchObject({ y: expect.any(Number) });
    const { records } = (await api("/records")) as { records: { kind: string; words: string | null }[] };
    expect(records.at(-1)).toMatchObject({ kind: "applied", words: "My test is on" });
    await page.getByText("Not just now? Set the time").click();
    await page.locator("input[name=when]").fill("2099-01-01T10:00");
    await page.getByRole("button", { name: "Something shows" }).click();
    // That something shows is never lost for a time that cannot be.
    expect(await page.locator(".kept").textContent()).toContain("Saved: “Something shows”");
    expect(await page.locator("main").textContent()).toContain("Take the test off and wash the place with water.");
    expect(page.url()).toBe(address);
  });
});
