/**
 * Stories of a salon and its clients in Chromium, each at both widths, light and dark, by pointer and by keyboard alone, with
 * script and without. With SCREENSHOTS=folder every page that is met is kept as a picture. Everyone in them is invented.
 */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { launchChromium } from "./chromium.ts";
import { dropFolder, newFolder, type Started, startService } from "./localService.ts";
import { StorySalon } from "./StorySalon.ts";
import { SCREENS, type Screen, Visitor } from "./Visitor.ts";

const folder = newFolder();
let service: Started;
let browser: Browser;

beforeAll(async () => {
  service = await startService(18_967, folder);
  browser = await launchChromium();
});
afterAll(async () => {
  await browser?.close();
  await service?.interrupt();
  dropFolder(folder);
});

const salonAt = (hour: number, settings?: object): Promise<StorySalon> =>
  StorySalon.atHour(service.address("Countback is at"), hour, settings);

const signIn = async (salon: StorySalon, screen: Screen, story: string): Promise<Visitor> => {
  const desk = await Visitor.at(browser, screen, `${story}-desk`);
  await desk.open(`${salon.origin}/desk`);
  await desk.write(desk.page.locator("#key"), salon.key);
  await desk.look("sign-in");
  await desk.press("Sign in");
  return desk;
};

/** A script sends what is chosen by pointer at once; by keyboard one goes through the names, and nothing is sent before "Set". */
const sayWho = async (desk: Visitor, name: string): Promise<void> => {
  const isSent = desk.screen.hasScript && !desk.screen.byKeyboard;
  await desk.unfold("At this screen");
  const loaded = isSent ? desk.page.waitForEvent("load") : null;
  await desk.choose(desk.page.locator("#who"), name);
  await loaded;
  if (!isSent) await desk.press("Set");
  expect(await desk.page.locator("#who").inputValue()).toBe(name);
};

/** A section of the desk's first page or of an appointment's, by the id of its heading. */
const part = (visitor: Visitor, id: string) => visitor.page.locator(`section[aria-labelledby=${id}]`);
/** The row of a list that is about somebody. */
const rowOf = (visitor: Visitor, id: string, name: string) =>
  part(visitor, id).locator(".rows > li", { hasText: name });

const MARA = { client: "Mara Quillfeather", phone: "+441632960471" };
const WREN = { client: "Wren Tallis-Moor", phone: "+441632960472" };
const ODILE = { client: "Odile Brandt-Ashe" };
const PETRA = { client: "Petra Vantongeren", phone: "+441632960474" };
const THE_NUMBER = "call 999 now and say anaphylaxis";

describe.each(SCREENS)("$name", (screen) => {
  test("a day at the desk: who is here, a kit, a test, a look and its result, a client told, an entry answered, news", async () => {
    const salon = await salonAt(10);
    await salon.push([
      { uid: "kit", inDays: 7, at: "12:00", ...MARA },
      { uid: "walk-in", inDays: 2, at: "12:00", ...WREN },
      { uid: "look", inDays: 0, at: "16:00", ...ODILE },
      { uid: "far", inDays: 20, at: "11:00", ...PETRA },
      { uid: "unknown", inDays: 12, at: "16:30", summary: "The big one - Tansy Ferrow" },
    ]);
    await salon.record("kit", "screened", -1, "10:00", { outcome: "pass" });
    await salon.record("walk-in", "screened", 0, "09:30", { outcome: "pass" });
    await salon.record("look", "applied", -2, "09:00", { route: "in-salon" });
    await salon.record("look", "screened", -2, "09:00", { outcome: "pass" });
    const desk = await signIn(salon, screen, "day");
    await desk.look("today");
    await sayWho(desk, "Tomas");
    expect(await desk.text("section[aria-labelledby=news]")).toContain("Petra Vantongeren");

    await desk.press("Kit is posted", rowOf(desk, "due", MARA.client));
    expect(await desk.text(".said")).toBe("Recorded.");
    const walkIn = rowOf(desk, "due", WREN.client);
    await desk.unfold("Another time", walkIn);
    await desk.write(walkIn.locator("[name=batch]"), "QF 2207");
    await desk.write(walkIn.locator("[name=site]"), "behind the left ear");
    await desk.look("walk-in");
    await desk.press("Test is on", walkIn);
    await desk.press("Clear", rowOf(desk, "due", ODILE.client));
    await desk.press("Confirm the result", rowOf(desk, "due", ODILE.client));
    expect(await desk.text("section[aria-labelledby=chairs]")).toContain("Ready for colour");
    await desk.look("recorded");
    await desk.press("Sent", rowOf(desk, "calls", PETRA.client));
    expect(await desk.text(".said")).toBe("Noted that she was told.");

    await desk.press("1 entry to answer");
    await desk.look("entry");
    await desk.press("Colour", desk.page.locator(".entries"));
    expect(await desk.text()).toContain("Every entry is understood");
    expect((await salon.plan("unknown")).booking.client.name).toBe("Tansy Ferrow");
    await desk.look("answered");

    const told = (await salon.records()).filter(({ by }) => by === "Tomas");
    expect(told).toMatchObject([
      { kind: "posted", booking: "kit" },
      { kind: "applied", booking: "walk-in", batch: "QF 2207", site: "behind the left ear" },
      { kind: "read", outcome: "clear", booking: "look" },
      { kind: "confirmed", booking: "look" },
      { kind: "note", note: expect.stringMatching(/^Sent to her: /) as string, booking: "far" },
    ]);
    expect((await salon.plan("look")).standing).toBe("ready");
    await desk.press("Today");
    expect(await desk.text("section[aria-labelledby=due]")).toContain("Nothing is due before then.");
    await desk.look("evening");
    await desk.leave();
  });

  test("a client from her link to a clear result: questions, on, off, looked at twice, and the salon's word for it", async () => {
    const salon = await salonAt(10);
    await salon.push([{ uid: "mara", inDays: 5, at: "16:00", ...MARA }]);
    await salon.record("mara", "posted", -7, "12:00");
    await salon.record("mara", "arrived", -6, "12:00");
    const { page } = await salon.linkOf("mara");
    const mara = await Visitor.at(browser, screen, "clear-client");
    await mara.open(page);
    await mara.look("first");
    await mara.press("Answer the questions");
    await mara.look("questions");
    for (const group of await mara.page.locator("fieldset").all()) await mara.answer(group, 1);
    await mara.tick(mara.page.locator("#consent"));
    await mara.press("Send my answers");
    await mara.look("answered");
    await mara.press("Back to your page");

    const tell = async (words: string, inDays: number, at: string): Promise<void> => {
      const isOpen = await mara.page.locator("[name=when]").isVisible();
      if (!isOpen) await mara.unfold("Not just now? Set the time");
      await mara.writeTime(mara.page.locator("[name=when]"), salon.local(inDays, at));
      await mara.press(words);
      expect(await mara.text(".kept")).toContain(`Saved: “${words}”`);
      expect(await mara.text(".emergency")).toContain(THE_NUMBER);
      await mara.look(words.replaceAll(/\W+/g, "-"));
    };
    await tell("My test is on", -5, "09:00");
    await tell("I have taken it off", -3, "09:10");
    await tell("I looked: clear", -3, "10:00");
    await tell("I looked: clear", -1, "09:30");
    expect(await mara.text()).toContain("The salon will look at what you reported before your colour");

    const desk = await signIn(salon, screen, "clear");
    await desk.look("today");
    await desk.press("Confirm the result", rowOf(desk, "due", MARA.client));
    await desk.leave();
    expect((await salon.plan("mara")).standing).toBe("ready");
    await mara.open(page);
    await mara.look("ready");
    expect(await mara.text("h2")).toContain("Nothing more to do before your colour");
    await mara.leave();
  });

  test("a reaction at night: the fixed words at once, first at the desk until read, and nobody asks her for a test any more", async () => {
    const salon = await salonAt(2);
    await salon.push([
      { uid: "soon", inDays: 1, at: "16:30", ...WREN },
      { uid: "later", inDays: 30, at: "10:00", ...WREN },
    ]);
    await salon.record("soon", "screened", -1, "10:00", { outcome: "pass" });
    await salon.record("soon", "applied", -1, "10:00", { route: "in-salon" });
    const { page, feed } = await salon.linkOf("soon");
    const wren = await Visitor.at(browser, screen, "night-client");
    await wren.open(page);
    await wren.look("before");
    await wren.press("Something shows");
    const words = await wren.text();
    expect(words).toContain("Saved: “Something shows”");
    expect(words).toContain("Take the test off and wash the place with water. Do not colour your hair.");
    expect(words).toContain("nobody may read it before the salon opens, so telephone 01632 960 155 then.");
    expect(words).toContain(THE_NUMBER);
    await wren.look("shown");

    const desk = await signIn(salon, screen, "night");
    expect(await desk.text("section")).toMatch(/^Something shows: read this first.*while you were shut.*Wren/);
    await desk.look("unread");
    expect(await part(desk, "due").getByText(WREN.client).count()).toBe(0);
    expect(await desk.text("section[aria-labelledby=calls]")).toContain("There is a stop");
    await desk.press("I have read this");
    expect(await desk.page.locator("#unread").count()).toBe(0);
    await desk.look("read");
    await desk.press("Colour", rowOf(desk, "calls", WREN.client));
    expect(await desk.text(".stands")).toContain("Stop");
    expect(await desk.text("section[aria-labelledby=ways]")).toContain("None while there is a stop");
    await desk.look("booking");
    await desk.leave();

    // Of neither appointment is a test asked for: not on her page, and not in her calendar.
    await wren.open(page);
    const buttons = await wren.page.locator("button[name=press]:not([value=''])").allTextContents();
    expect(new Set(buttons)).toEqual(new Set(["Something shows"]));
    expect(await wren.text()).not.toMatch(/put your skin test on|I looked|My test is on|Answer the questions/i);
    await wren.look("after");
    const open = (await (await fetch(feed)).text())
      .split("BEGIN:VEVENT")
      .filter((each) => !/STATUS:CANCELLED/.test(each));
    expect(open.slice(1).map((each) => /CATEGORIES:(\S+)/.exec(each)?.[1])).toEqual(["colour", "colour"]);
    await wren.leave();
  });

  test("a moved booking: her page, the desk's news, its telephone list and the appointment's page say it", async () => {
    const salon = await salonAt(10);
    await salon.push([{ uid: "petra", inDays: 20, at: "11:00", ...PETRA }]);
    const { page } = await salon.linkOf("petra");
    const petra = await Visitor.at(browser, screen, "moved-client");
    await petra.open(page);
    const before = await petra.text();
    await petra.look("before");
    await salon.push([{ uid: "petra", inDays: 8, at: "12:00", ...PETRA }]);
    await petra.open(page);
    const after = await petra.text();
    await petra.look("after");
    expect([before.includes("11:00"), before.includes("12:00")]).toEqual([true, false]);
    expect(after).toMatch(/is on .* 12:00\. It has moved: before, it was on .* 11:00\./);
    await petra.leave();

    const desk = await signIn(salon, screen, "moved");
    expect(await desk.text("section[aria-labelledby=news]")).toMatch(/Petra Vantongeren.*Moved: it was .* 11:00/);
    expect(await desk.text("section[aria-labelledby=calls]")).toMatch(/Petra Vantongeren.*less than a day ahead/);
    await desk.look("today");
    await desk.press("Colour", rowOf(desk, "calls", PETRA.client));
    expect(await desk.text()).toMatch(/Moved today .*: it was .* 11:00/);
    await desk.look("booking");
    await desk.press("Today");
    await desk.press("Spoke to her", rowOf(desk, "calls", PETRA.client));
    expect(await desk.text("section[aria-labelledby=calls]")).toContain("Nobody to tell anything.");
    await desk.leave();
  });

  test("a kit lost in the post: she says that it has not come, and the way turns to a test at the salon", async () => {
    const salon = await salonAt(10);
    await salon.push([{ uid: "odile", inDays: 5, at: "17:00", ...ODILE }]);
    await salon.record("odile", "screened", -4, "10:00", { outcome: "pass" });
    await salon.record("odile", "posted", -3, "12:00");
    const desk = await signIn(salon, screen, "lost");
    expect(await desk.text("section[aria-labelledby=due]")).toMatch(/Kits to ask after.*Odile/);
    await desk.look("asked-after");
    const { page } = await salon.linkOf("odile");
    const odile = await Visitor.at(browser, screen, "lost-client");
    await odile.open(page);
    await odile.look("waiting");
    await odile.press("My kit has not come");
    expect(await odile.text(".kept")).toContain("Saved: “My kit has not come”");
    await odile.look("not-come");
    expect((await salon.plan("odile")).route).toBe("in-salon");
    await odile.leave();
    await desk.press("Today");
    expect(await desk.text("section[aria-labelledby=due]")).not.toContain("Kits to ask after");
    expect(await desk.text("section[aria-labelledby=news]")).toContain("She told: “My kit has not come”");
    await desk.look("turned");
    await desk.press("Colour", rowOf(desk, "news", ODILE.client));
    expect(await desk.text("section[aria-labelledby=ways]")).toMatch(/at the salonThis is the way/);
    await desk.look("booking");
    await desk.leave();
  });
});
