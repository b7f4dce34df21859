/** Chromium as every browser test starts it, and what every page of the service must keep to. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Browser, chromium, type Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const launchChromium = (): Promise<Browser> =>
  chromium.launch({
    executablePath: process.env["CHROMIUM"] ?? "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--lang=en-US",
    ],
  });

/** Whether something makes the page wider than the screen. */
export const isTooWide = (page: Page): Promise<boolean> =>
  page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth");

interface Violation {
  readonly id: string;
  readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
}

/** What axe-core finds to mend, with where; it runs only where scripts do. */
export const violationsOn = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate<{ violations: readonly Violation[] }>(
    "axe.run(document, { resultTypes: ['violations'] })",
  );
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ html, failureSummary = "" }) => `${id}: ${html} ${failureSummary}`),
  );
};

/** Presses Tab until the focus stands where it should. */
export const tabUntil = async (page: Page, isThere: () => Promise<boolean>, what: string): Promise<void> => {
  for (let presses = 0; presses < TABS_MAX; presses++) {
    await page.keyboard.press("Tab");
    if (await isThere()) return;
  }
  throw new Error(`the keyboard does not reach ${what}`);
};

/** More than any page has places to stop at. */
const TABS_MAX = 300;
