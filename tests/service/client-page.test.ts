/** A client's page beside her feed: what a press keeps and says, what is shown when, and what each calendar is told to do. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, MARA, MINIMAL, push, record, send, setClock, WREN } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const SETTINGS = {
  ...MINIMAL,
  country: "GB",
  contact: { phone: "01632 960 155", email: "hello@quillfen.example" },
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
};
const opened = async (settings: unknown = SETTINGS) => {
  const salon = await createSalon(settings);
  await push(
    salon.key,
    diaryText([
      { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA },
      { uid: "b2", start: "DTSTART;TZID=Europe/London:20261212T103000", ...WREN },
    ]),
  );
  const { page, feed } = await linkOf(salon.key, "c1");
  return { ...salon, page, own: feed };
};
const htmlOf = async (page: string): Promise<string> => (await send(page, { headers: { accept: "text/html" } })).text();
const seen = (html: string): string =>
  html
    .replace(/<head>[^]*<\/head>/, "")
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&#39;", "'")
    .replaceAll("&quot;", '"')
    .replaceAll(/\s+/g, " ");
const press = (page: string, fields: Readonly<Record<string, string>>) =>
  send(`${page}/records`, { method: "POST", body: new URLSearchParams({ booking: "b1", ...fields }) });
/** What the page's buttons send, with their words. */
const buttons = (html: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...html.matchAll(/<button[^>]*name="press" value="([^"]+)"[^>]*>([^<]*)</g)].map(([, value, words]) => [
      words,
      value,
    ]),
  );
const recordsOf = async (key: string) =>
  (await (await ask(key, "GET", "/api/salon/records")).json<{ records: Record<string, unknown>[] }>()).records;

describe("one press", () => {
  test("keeps what its button says, of now, and the page then says what was kept", async () => {
    const { key, page } = await opened();
    await record(key, { booking: "b1", kind: "screened", outcome: "pass" });
    await record(key, { booking: "b1", kind: "arrived" });
    setClock("2026-12-06T09:12:34Z");
    const on = buttons(await htmlOf(page))["My test is on"] ?? "";
    const told = await press(page, { press: on, when: "" });
    expect([told.status, told.headers.get("location")]).toEqual([303, new URL(page).pathname]);
    expect((await recordsOf(key)).at(-1)).toMatchObject({
      kind: "applied",
      at: "2026-12-06T09:12:34Z",
      via: "client-link",
      words: "My test is on",
    });
    expect(seen(await htmlOf(page))).toContain("Saved: “My test is on”, Sun 6 Dec 2026, 09:12.");
    setClock("2026-12-06T11:00:00Z");
    const later = seen(await htmlOf(page));
    expect(later).not.toContain("Saved:");
    expect(later).toContain("You told the salon last: “My test is on”, Sun 6 Dec 2026, 09:12.");
    expect(later).toContain("Test off from Tue 09:13");
    expect(later).toContain("Take the skin test off from Tue 09:13, by Tue 12:12");
  });

  test("takes a time set back, by the salon's clock", async () => {
    const { key, page } = await opened();
    setClock("2026-12-06T18:00:00Z");
    await press(page, { press: "applied..home-kit", when: "2026-12-06T09:30" });
    expect((await recordsOf(key)).at(-1)).toMatchObject({
      kind: "applied",
      route: "home-kit",
      at: "2026-12-06T09:30:00Z",
    });
  });

  test("that cannot be is refused on the page itself, with the time as it was typed", async () => {
    const { key, page } = await opened();
    await record(key, { booking: "b1", kind: "arrived", at: "2026-12-01T08:00:00Z" });
    setClock("2026-12-06T10:00:00Z");
    for (const when of ["2026-12-07T09:30", "yesterday"]) {
      const answer = await press(page, { press: "applied..home-kit", when });
      expect(answer.status).toBe(422);
      const html = await answer.text();
      expect(seen(html)).toContain(
        "This was not saved. That time cannot be: give one that has passed. It is Sun 6 Dec 2026, 10:00 now.",
      );
      expect(html).toMatch(new RegExp(`<details open[^]*name="when"[^>]*value="${when}"`));
      expect(html).toContain('role="alert"');
    }
    const gone = await press(page, { booking: "b9", press: "removed.." });
    expect([gone.status, seen(await gone.text()).includes("This appointment is not there any more.")]).toEqual([
      422,
      true,
    ]);
    const hostile = await press(page, { press: `"><script>.x.y`, when: `"><script>alert(1)</script>` });
    expect(hostile.status).toBe(422);
    expect(await hostile.text()).not.toContain("<script>");
    expect((await recordsOf(key)).map(({ kind }) => kind)).toEqual(["arrived"]);
  });

  test("of a look is one of three, and something that shows is answered with what to do", async () => {
    const { key, page } = await opened();
    await record(key, { booking: "b1", kind: "screened", outcome: "pass" });
    await record(key, { booking: "b1", kind: "arrived" });
    setClock("2026-12-06T09:00:00Z");
    await press(page, { press: "applied..home-kit" });
    setClock("2026-12-08T09:30:00Z");
    const html = await htmlOf(page);
    expect(buttons(html)).toEqual({
      "I have taken it off": "removed..",
      "I looked: clear": "read.clear.",
      "I looked: not sure": "read.not-sure.",
      "Something shows": "reacted..",
    });
    expect(seen(html)).toContain("What to look for: redness, itching");
    await press(page, { press: "reacted.." });
    const after = seen(await htmlOf(page));
    expect(after).toContain("Saved: “Something shows”");
    expect(after).toContain("Take the test off and wash the place with water. Do not colour your hair.");
    expect(after).not.toContain("Every step along its days");
    expect(buttons(await htmlOf(page))).toEqual({ "Something shows": "reacted.." });
  });

  test("that the salon has set aside is not said to be told any more, and hers is never another's", async () => {
    const { key, page } = await opened();
    setClock("2026-12-06T10:00:00Z");
    await press(page, { press: "applied..home-kit" });
    const [applied] = await recordsOf(key);
    await record(key, { booking: "b1", kind: "correction", corrects: applied?.["id"], reason: "pressed by mistake" });
    expect(seen(await htmlOf(page))).not.toMatch(/Saved:|told the salon last/);
    const other = await linkOf(key, "c2");
    expect(seen(await htmlOf(other.page))).not.toContain("told the salon last");
  });
});

describe("the page", () => {
  test("has the picture of what leads on, the times with their dates, how to do each, and the way to the salon", async () => {
    const { page } = await opened();
    const html = await htmlOf(page);
    const text = seen(html);
    expect(html).toContain(
      'role="img" aria-label="Every step along its days: 0 of 8 done, next Questions by Tue 16:30',
    );
    expect(text).toContain("If it went on Sun 10:30: from Tue 8 Dec 2026, 10:30 to 13:30.");
    expect(text).toContain("Look at the place in good light");
    expect(html).toContain('href="tel:01632960155"');
    expect(html).toContain('href="mailto:hello@quillfen.example"');
    expect(html).toMatch(/<svg class="qr"[^>]*aria-label="Open this page on another screen"/);
    expect(html).not.toMatch(/\sstyle=|<script/);
    expect(text).not.toMatch(/\bsafe\b/i);
    expect(html.length).toBeLessThan(60_000);
  });

  test("says of each kind of calendar how often it looks and whether it keeps the reminders", async () => {
    const { page, own } = await opened();
    const text = seen(await htmlOf(page));
    for (const words of ["Remove Alerts", "after 8 to 24 hours", "about every 3 hours", "every 30 minutes"]) {
      expect(text).toContain(words);
    }
    expect(text).toContain(own);
    expect(text).toContain("Nothing here needs a calendar.");
  });

  test("asks for a kit by post in one press where that still fits", async () => {
    const { key, page } = await opened({ ...SETTINGS, tests: SETTINGS.tests.toReversed() });
    const value = buttons(await htmlOf(page))["I cannot come in: please post me a kit"] ?? "";
    expect(value).toBe("route..home-kit");
    await press(page, { press: value });
    expect((await recordsOf(key)).at(-1)).toMatchObject({ kind: "route", route: "home-kit" });
    expect(seen(await htmlOf(page))).toContain("Saved: “I cannot come in: please post me a kit”");
  });

  test("says of an appointment that has moved when it was before, and of one that has not nothing", async () => {
    const { key, page } = await opened();
    expect(await htmlOf(page)).not.toContain("It has moved");
    const moved = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261216T120000", ...MARA };
    await push(key, diaryText([moved, { uid: "b2", start: "DTSTART;TZID=Europe/London:20261212T103000", ...WREN }]));
    expect(seen(await htmlOf(page))).toContain("It has moved: before, it was on Fri 11 Dec 2026, 10:30.");
    const other = await linkOf(key, "c2");
    expect(await htmlOf(other.page)).not.toContain("It has moved");
  });

  test("of many appointments stays below 100 KB", async () => {
    const { key } = await createSalon(SETTINGS);
    const entries = Array.from({ length: 40 }, (_, index) => ({
      uid: `m${index}`,
      start: `DTSTART;TZID=Europe/London:${new Date(Date.UTC(2026, 11, 2 + 7 * index)).toISOString().slice(0, 10).replaceAll("-", "")}T103000`,
      ...MARA,
    }));
    await push(key, diaryText(entries));
    const html = await htmlOf((await linkOf(key, "c1")).page);
    const text = seen(html);
    expect(text).toContain("Later appointments");
    for (const { start } of entries) {
      expect(text).toMatch(new RegExp(` ${Number(start.slice(-9, -7))} \\w{3} ${start.slice(-15, -11)}, 10:30`));
    }
    expect(html.length).toBeLessThan(100_000);
  });
});

test("after something has shown neither her page nor her calendar says that somebody will tell her when the test comes off", async () => {
  const { key, page, own } = await opened();
  await record(key, { kind: "applied", route: "in-salon", booking: "b1" });
  await record(key, { kind: "reacted", booking: "b1" });
  const feed = (await (await send(own)).text()).replaceAll("\r\n ", "");
  for (const said of [seen(await htmlOf(page)), feed]) {
    expect(said).toContain("Please telephone before you come. A person at the salon will look at it with you.");
    expect(said).not.toContain("says when what is still on your skin");
  }
  expect(seen(await htmlOf(page))).toContain("Take the test off and wash the place with water.");
});

test("once the day of an appointment is over what is ahead comes first", async () => {
  const salon = await createSalon(SETTINGS);
  await push(
    salon.key,
    diaryText([
      { uid: "a", start: "DTSTART;TZID=Europe/London:20261204T103000", ...MARA },
      { uid: "b", start: "DTSTART;TZID=Europe/London:20261219T103000", ...MARA },
    ]),
  );
  const { page } = await linkOf(salon.key, "c1");
  const places = async (clock: string): Promise<readonly number[]> => {
    setClock(clock);
    const words = seen(await htmlOf(page));
    return [words.indexOf("4 Dec"), words.indexOf("19 Dec")];
  };
  const [past = 0, ahead = 0] = await places("2026-12-04T20:00:00Z");
  expect(past).toBeLessThan(ahead);
  const [then = 0, next = 0] = await places("2026-12-05T08:00:00Z");
  expect(next).toBeGreaterThan(0);
  expect(next).toBeLessThan(then);
});
