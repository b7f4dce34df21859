/**
 * Somebody at a screen, who goes from page to page by pointer or by keyboard alone. Every page that she meets is looked at:
 * nothing on the console, nothing wider than the screen, no fault found by axe-core; and kept as a picture where one is wanted.
 */
import type { Browser, BrowserContext, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { isTooWide, tabUntil, violationsOn } from "./chromium.ts";

export interface Screen {
  readonly name: string;
  readonly viewport: { readonly width: number; readonly height: number };
  readonly colorScheme: "light" | "dark";
  readonly hasScript: boolean;
  /** By Tab, Enter, Space, arrows and typing alone. */
  readonly byKeyboard: boolean;
}

const PHONE = { width: 375, height: 667 };
const DESK = { width: 1280, height: 800 };
/** Both widths, light and dark, with and without script, by pointer and by keyboard. */
export const SCREENS: readonly Screen[] = [
  { name: "phone-light", viewport: PHONE, colorScheme: "light", hasScript: true, byKeyboard: false },
  { name: "phone-dark", viewport: PHONE, colorScheme: "dark", hasScript: false, byKeyboard: false },
  { name: "desk-light", viewport: DESK, colorScheme: "light", hasScript: false, byKeyboard: true },
  { name: "desk-dark", viewport: DESK, colorScheme: "dark", hasScript: true, byKeyboard: true },
];

export class Visitor {
  readonly page: Page;
  readonly screen: Screen;
  readonly #context: BrowserContext;
  readonly #story: string;
  readonly #faults: string[] = [];
  #pictures = 0;
  /** Clicks, choices and words typed, since the page was first opened. */
  presses = 0;

  private constructor(context: BrowserContext, page: Page, screen: Screen, story: string) {
    this.#context = context;
    this.page = page;
    this.screen = screen;
    this.#story = story;
    page.on("console", (message) => message.type() === "error" && this.#faults.push(message.text()));
    page.on("pageerror", (error) => this.#faults.push(error.message));
    page.on("requestfailed", (request) => this.#faults.push(`${request.method()} failed: ${request.url()}`));
  }

  static async at(browser: Browser, screen: Screen, story: string): Promise<Visitor> {
    const { viewport, colorScheme, hasScript: javaScriptEnabled } = screen;
    const context = await browser.newContext({ viewport, colorScheme, javaScriptEnabled, locale: "en-GB" });
    return new Visitor(context, await context.newPage(), screen, story);
  }

  /** Closes the screen; whatever was wrong on the way is told now. */
  async leave(): Promise<void> {
    await this.#context.close();
    expect(this.#faults).toEqual([]);
  }

  async open(address: string): Promise<void> {
    expect((await this.page.goto(address))?.status()).toBe(200);
  }

  /** @param name of the page, as its picture is called */
  async look(name: string): Promise<void> {
    const folder = process.env["SCREENSHOTS"];
    const place = String(++this.#pictures).padStart(2, "0");
    if (folder) {
      const path = `${folder}/${this.#story}-${this.screen.name}-${place}-${name}.png`;
      await this.page.screenshot({ path, fullPage: true });
    }
    expect([name, await isTooWide(this.page)]).toEqual([name, false]);
    if (this.screen.hasScript) expect([name, await violationsOn(this.page)]).toEqual([name, []]);
  }

  /** All that the page says, or a part of it. */
  async text(part = "main"): Promise<string> {
    return ((await this.page.locator(part).first().textContent()) ?? "").replaceAll(/\s+/g, " ");
  }

  /** A button or a link whose words begin so, within a part of the page, which leads to another page. */
  async press(words: string, within: Locator = this.page.locator("body")): Promise<void> {
    const target = await this.#named(words, within);
    const loaded = this.page.waitForEvent("load");
    if (this.screen.byKeyboard) {
      await this.#tabTo(target, words);
      await this.page.keyboard.press("Enter");
    } else await target.click();
    await loaded;
    this.presses++;
  }

  /** What is folded away under words that begin so. */
  async unfold(words: string, within: Locator = this.page.locator("body")): Promise<void> {
    const target = within.locator("summary", { hasText: words }).first();
    if (this.screen.byKeyboard) {
      await this.#tabTo(target, words);
      await this.page.keyboard.press("Enter");
    } else await target.click();
    this.presses++;
  }

  async write(field: Locator, text: string): Promise<void> {
    if (this.screen.byKeyboard) {
      await this.#tabTo(field, text);
      await this.page.keyboard.press("ControlOrMeta+A");
      await this.page.keyboard.type(text);
    } else await field.fill(text);
    this.presses++;
  }

  /** @param local as a field for a local time has it, `2026-12-09T10:30` */
  async writeTime(field: Locator, local: string): Promise<void> {
    if (this.screen.byKeyboard) {
      await this.#tabTo(field, local);
      const [, year = "", month = "", day = "", time = ""] = /^(\d+)-(\d+)-(\d+)T(.*)$/.exec(local) ?? [];
      // The field is the browser's own, in its language (`launchChromium`), whatever the page's is.
      await this.page.keyboard.type(`${month}${day}${year}`);
      // A year may have six figures, so that it does not end of itself.
      await this.page.keyboard.press("ArrowRight");
      await this.page.keyboard.type(`${time.replace(":", "")}${Number(time.slice(0, 2)) < 12 ? "AM" : "PM"}`);
    } else await field.fill(local);
    expect(await field.inputValue()).toBe(local);
    this.presses++;
  }

  async choose(field: Locator, words: string): Promise<void> {
    if (this.screen.byKeyboard) {
      await this.#tabTo(field, words);
      await this.page.keyboard.type(words);
    } else await field.selectOption({ label: words });
    this.presses++;
  }

  /** One of several answers of a group; the keyboard goes to the group's first and on by its arrows. */
  async answer(group: Locator, index: number): Promise<void> {
    if (this.screen.byKeyboard) {
      await this.#tabTo(group.locator("input").first(), "an answer");
      await this.page.keyboard.press("Space");
      for (let step = 0; step < index; step++) await this.page.keyboard.press("ArrowDown");
    } else await group.locator("label").nth(index).click();
    expect(await group.locator("input").nth(index).isChecked()).toBe(true);
    this.presses++;
  }

  async tick(box: Locator): Promise<void> {
    if (this.screen.byKeyboard) {
      await this.#tabTo(box, "a box");
      await this.page.keyboard.press("Space");
    } else await box.check();
    expect(await box.isChecked()).toBe(true);
    this.presses++;
  }

  /** The words that a reader of the screen says may go on with whom it is about. */
  async #named(words: string, within: Locator): Promise<Locator> {
    const name = new RegExp(`^\\s*${words.replaceAll(/[.*+?^${}()|[\]\\]/g, "\\$&")}(?![\\p{L}])`, "u");
    const found = within.getByRole("button", { name }).or(within.getByRole("link", { name })).first();
    await expect.poll(() => found.count(), { message: `nothing is called ${words}`, timeout: 2_000 }).toBe(1);
    return found;
  }

  /** What the focus stands on can be seen: it lies within the screen, and under nothing that stays in sight. */
  async #tabTo(target: Locator, what: string): Promise<void> {
    const element = await target.elementHandle({ timeout: 2_000 });
    const isThere = (): Promise<boolean> => element.evaluate((each) => each.matches(":focus"));
    if (!(await isThere())) await tabUntil(this.page, isThere, what);
    const isSeen = await element.evaluate((each) => {
      const { left, top, width, height } = each.getBoundingClientRect();
      const seen = each.ownerDocument.elementFromPoint(left + width / 2, top + height / 2);
      return seen !== null && (each.contains(seen) || seen.contains(each));
    });
    expect([what, isSeen]).toEqual([what, true]);
    await element.dispose();
  }
}
