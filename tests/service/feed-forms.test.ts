/** The forms a feed can be asked for in, and what asking costs. Point numbers: the acceptance list of calendar behaviour. */
import { evictDurableObject, reset, runInDurableObject } from "cloudflare:test";
import ICAL from "ical.js";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import * as counting from "../../src/plan/countBack.ts";
import * as rendering from "../../src/salon/renderFeed.ts";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  objectOf,
  ORIGIN,
  plansOf,
  push,
  send,
  setClock,
  type TestSalon,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.restoreAllMocks();
  vi.useRealTimers();
  await reset();
});

const mara = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA };
const wren = { uid: "b2", start: "DTSTART;TZID=Europe/London:20261218T140000", ...WREN };

const twoFeeds = async () => {
  const salon = await createSalon();
  await push(salon.key, diaryText([mara, wren]));
  const client = (await plansOf(salon.key))[0]?.booking.client.id ?? "";
  return { salon, feed: (await linkOf(salon.key, client)).feed };
};

const unfolded = async (address: string, init?: RequestInit): Promise<string> =>
  (await (await send(address, init)).text()).replaceAll("\r\n ", "");

describe("a request that ends in 304", () => {
  /** Statements that the salon's storage was asked, counted at the storage itself. */
  const statementsOf = async (salon: TestSalon, action: () => Promise<Response>): Promise<number> => {
    let count = 0;
    const restore = await runInDurableObject(objectOf(salon), (_instance, state) => {
      const prototype = Object.getPrototypeOf(state.storage.sql) as SqlStorage;
      // oxlint-disable-next-line typescript/unbound-method -- put back as it was
      const { exec } = prototype;
      prototype.exec = function counted(this: SqlStorage, ...given: Parameters<SqlStorage["exec"]>) {
        count++;
        return exec.apply(this, given);
      } as SqlStorage["exec"];
      return () => {
        prototype.exec = exec;
      };
    });
    try {
      expect((await action()).status).toBe(304);
    } finally {
      restore();
    }
    return count;
  };

  test("costs no plan, no rendering, and one storage read at most, be the salon awake or not", async () => {
    const { salon, feed } = await twoFeeds();
    for (const address of [salon.feed, feed, `${salon.feed}?kinds=reading`, `${feed}?once`]) {
      const etag = (await send(address)).headers.get("etag") ?? "";
      const again = () => send(address, { headers: { "if-none-match": etag } });
      const [plans, feeds] = [vi.spyOn(counting, "countBack"), vi.spyOn(rendering, "renderFeed")];
      expect(await statementsOf(salon, again)).toBeLessThanOrEqual(1);
      expect(await statementsOf(salon, again)).toBe(0);
      expect(
        await statementsOf(salon, () =>
          send(address, { headers: { "if-modified-since": "Tue, 01 Dec 2026 09:30:00 GMT" } }),
        ),
      ).toBe(0);
      expect(plans).not.toHaveBeenCalled();
      expect(feeds).not.toHaveBeenCalled();
      vi.restoreAllMocks();
    }
  });

  test("is counted rightly: a changed diary costs readings", async () => {
    const { salon, feed } = await twoFeeds();
    const etag = (await send(feed)).headers.get("etag") ?? "";
    await expect(
      statementsOf(salon, async () => {
        await push(salon.key, diaryText([{ ...mara, start: "DTSTART;TZID=Europe/London:20261212T103000" }, wren]));
        return send(feed, { headers: { "if-none-match": etag } });
      }),
    ).rejects.toThrow();
  });

  test("costs one reading of a salon that was evicted", async () => {
    const { salon, feed } = await twoFeeds();
    const first = await send(feed);
    const etag = first.headers.get("etag") ?? "";
    // A body on its way would keep the object awake.
    await first.text();
    await evictDurableObject(objectOf(salon));
    // The counter itself wakes the object, and reads nothing.
    expect(await statementsOf(salon, () => send(feed, { headers: { "if-none-match": etag } }))).toBe(1);
  });
});

describe("13: jCal by negotiation", () => {
  const JCAL = "application/calendar+json";

  test("says what the text says, event by event, under an ETag of its own", async () => {
    const { salon, feed } = await twoFeeds();
    for (const address of [salon.feed, feed]) {
      const text = await send(address);
      const json = await send(address, { headers: { accept: `${JCAL}, text/calendar;q=0.5` } });
      expect(json.headers.get("content-type")).toBe(`${JCAL}; charset=utf-8`);
      expect(json.headers.get("vary")).toBe("Accept");
      expect(json.headers.get("content-disposition")).toMatch(/^inline; filename="[a-z-]+\.json"$/);
      expect(json.headers.get("etag")).not.toBe(text.headers.get("etag"));
      const calendar = await json.json<unknown[]>();
      const ics = await text.text();
      // ical.js 2.2.1 as the reference for RFC 7265: both trees give the same text.
      const written = ICAL.stringify(calendar as never).replaceAll("\r\n ", "");
      expect(written.replace(/^(NAME|COLOR);VALUE=TEXT:/gm, "$1:")).toBe(
        ICAL.stringify(ICAL.parse(ics)).replaceAll("\r\n ", ""),
      );
      const events = new ICAL.Component(calendar as never).getAllSubcomponents("vevent");
      expect(events.length).toBe(ics.split("BEGIN:VEVENT").length - 1);
      const typed = JSON.stringify(calendar);
      expect(typed).toMatch(/\["name",\{\},"text","[^"\\]+, [^"\\]+"\]/);
      expect(typed).toContain('["refresh-interval",{},"duration","PT1H"]');
      const etag = json.headers.get("etag") ?? "";
      const held = await send(address, { headers: { accept: JCAL, "if-none-match": etag } });
      expect(held.status).toBe(304);
      expect((await send(address, { headers: { "if-none-match": etag } })).status).toBe(200);
    }
  });

  test.each([
    ["no Accept", null],
    ["anything", "*/*"],
    ["a page", "text/html"],
    ["a tie (Nextcloud)", `text/calendar, ${JCAL}, application/calendar+xml`],
    ["less", `text/calendar, ${JCAL};q=0.9`],
    ["not at all", `${JCAL};q=0`],
    ["the same through a wider range", `${JCAL};q=0.5, text/*;q=0.5`],
  ])("12: %s is iCalendar", async (_, accept) => {
    const { feed } = await twoFeeds();
    const answer = await send(feed, accept === null ? {} : { headers: { accept } });
    expect(answer.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect((await answer.text()).startsWith("BEGIN:VCALENDAR\r\n")).toBe(true);
  });
});

test("?once is a file to import: the same events, each of which says first that it will not follow a move", async () => {
  const { feed } = await twoFeeds();
  const [once, plain] = [await send(`${feed}?once`), await unfolded(feed)];
  expect(once.headers.get("content-disposition")).toBe('attachment; filename="skin-test.ics"');
  const text = (await once.text()).replaceAll("\r\n ", "");
  const uidsOf = (calendar: string): string[] => Array.from(calendar.matchAll(/^UID:(\S+)/gm), ([, uid = ""]) => uid);
  expect(uidsOf(text)).toEqual(uidsOf(plain));
  const events = text.split("BEGIN:VEVENT").length - 1;
  expect(text.match(/^DESCRIPTION:This entry was saved once and does not follow/gm)).toHaveLength(events);
  expect(text).not.toMatch(/REFRESH-INTERVAL|X-PUBLISHED-TTL/);
  expect(once.headers.get("etag")).not.toBe((await send(feed)).headers.get("etag"));
});

test("as=tasks: every step is a to-do with its due, ticked off when it is done, and none takes time", async () => {
  const { salon } = await twoFeeds();
  const [tasks, plain] = [await unfolded(`${salon.feed}?as=tasks`), await unfolded(salon.feed)];
  expect(tasks).not.toContain("BEGIN:VEVENT");
  expect(tasks).not.toMatch(/^(DTEND|TRANSP)/m);
  const parts = tasks.split("BEGIN:VTODO").slice(1);
  // RFC 5545 §3.8.2.3: "this property MUST be set to a date/time value later than the DTSTART".
  for (const part of parts) {
    const [start, due] = ["DTSTART", "DUE"].map(
      (name) => new RegExp(`^${name}[;:].*?(\\d{8}T\\d{6}Z?)`, "m").exec(part)?.[1],
    );
    if (start !== undefined) expect((due ?? "") > start).toBe(true);
  }
  expect(parts).toHaveLength(plain.split("BEGIN:VEVENT").length - 1);
  for (const part of parts) {
    expect(part).toMatch(/^DUE[;:]/m);
    expect(part).toMatch(/^STATUS:(NEEDS-ACTION|COMPLETED|CANCELLED)\r$/m);
  }
  // A look is due hours after it opens, not when its event ends.
  const plan = (await plansOf(salon.key))[0];
  const look = plan?.steps.find(({ kind }) => kind === "reading");
  const part = parts.find((each) => each.includes(look?.uid ?? "?")) ?? "";
  const todo = new ICAL.Component(
    ICAL.parse(`BEGIN:VCALENDAR\r\nBEGIN:VTODO${part}`.replace(/END:VCALENDAR\r\n$/, "") + "END:VCALENDAR\r\n"),
  );
  const due = todo.getFirstSubcomponent("vtodo")?.getFirstPropertyValue("due");
  expect(String(due)).toBe((look?.due ?? "").replace("Z", ""));
});

test("14: nobody on the way may compress a feed that asks to be left as it is; nothing is compressed unasked", async () => {
  const { feed } = await twoFeeds();
  expect((await send(feed)).headers.get("content-encoding")).toBeNull();
  expect((await send(`${feed}?encoding=identity`)).headers.get("cache-control")).toBe(
    "private, no-cache, no-transform",
  );
});

test("15: what is asked over http is sent to https for good, on the same path", async () => {
  const { feed } = await twoFeeds();
  const answer = await send(feed.replace("https:", "http:"));
  expect(answer.status).toBe(308);
  expect(answer.headers.get("location")).toBe(feed);
  expect((await send(feed)).status).toBe(200);
});

test("18, 19: a human name, no cookie, and robots may fetch what they may not index", async () => {
  const { salon, feed } = await twoFeeds();
  for (const [address, name] of [
    [salon.feed, "deadlines.ics"],
    [feed, "skin-test.ics"],
    [feed.replace("skin-test.ics", "reminders.ics"), "reminders.ics"],
  ] as const) {
    const { headers } = await send(address, { headers: { "user-agent": "curl/8" } });
    expect(headers.get("content-disposition")).toBe(`inline; filename="${name}"`);
    expect(headers.get("x-robots-tag")).toBe("noindex");
    expect(headers.get("set-cookie")).toBeNull();
    expect(address.endsWith(name)).toBe(true);
  }
  expect(await (await send(`${ORIGIN}/robots.txt`)).text()).not.toMatch(/Disallow: *\S/);
});

test("forms nobody asks for again make room, and the plain feed stays", async () => {
  const { salon } = await twoFeeds();
  await send(salon.feed);
  for (let each = 0; each < 30; each++) expect((await send(`${salon.feed}?service=s${each}`)).status).toBe(200);
  const rows = await runInDurableObject(objectOf(salon), (_instance, state) =>
    state.storage.sql.exec<{ variant: string }>("SELECT variant FROM feeds WHERE audience = 'salon'").toArray(),
  );
  expect(rows.length).toBeLessThanOrEqual(21);
  expect(rows.some(({ variant }) => variant === "")).toBe(true);
});

const stampsOf = (event: string): { modified: string; sequence: number } => ({
  modified: /LAST-MODIFIED:(\S+)/.exec(event)?.[1] ?? "",
  sequence: Number(/SEQUENCE:(\d+)/.exec(event)?.[1]),
});

const eventOf = (feed: string, kind: string): string =>
  feed.split("BEGIN:VEVENT").find((event) => event.includes(`CATEGORIES:${kind}\r`)) ?? "";

test("4, 5: a change of the reminders alone moves LAST-MODIFIED on and leaves SEQUENCE", async () => {
  const { salon, feed } = await twoFeeds();
  const before = eventOf(await unfolded(feed), "application");
  setClock("2026-12-01T10:00:00Z");
  const settings = await (await ask(salon.key, "GET", "/api/salon")).json<object>();
  const put = await ask(salon.key, "PUT", "/api/salon", { ...settings, clientHours: "10:00-21:00" });
  expect(put.status).toBe(200);
  const after = eventOf(await unfolded(feed), "application");
  const said = (event: string): string => event.replace(/^(DTSTAMP|LAST-MODIFIED|TRIGGER):.*$/gm, "");
  expect(said(after)).toBe(said(before));
  expect(after).not.toBe(before);
  expect(stampsOf(after).modified > stampsOf(before).modified).toBe(true);
  expect(stampsOf(after).sequence).toBe(stampsOf(before).sequence);
});

test("6: a UID is a name-based UUID that lives through a move", async () => {
  const { salon, feed } = await twoFeeds();
  const uidsOf = (text: string): string[] =>
    text
      .split("BEGIN:VEVENT")
      .slice(1)
      .map((event) => /^UID:(\S+)/m.exec(event)?.[1] ?? "")
      .sort();
  const before = uidsOf(await unfolded(feed));
  expect(before.length).toBeGreaterThan(3);
  for (const uid of before)
    expect(uid).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  await push(salon.key, diaryText([{ ...mara, start: "DTSTART;TZID=Europe/London:20261212T140000" }, wren]));
  const moved = await unfolded(feed);
  expect(uidsOf(moved)).toEqual(before);
  expect(stampsOf(eventOf(moved, "colour")).sequence).toBe(1);
  // Whoever asks rarely meets the present state, under the same UID, whatever it saw last.
  expect(moved).not.toContain("20261211T103000");
});

test("21: her page offers webcal, https and a file, and asks to keep the alerts", async () => {
  const { feed } = await twoFeeds();
  const page = await (await send(feed.replace("/skin-test.ics", ""))).text();
  expect(page).toContain(`href="${feed.replace("https:", "webcal:")}"`);
  expect(page).toContain(`href="${feed}"`);
  expect(page).toContain(`href="${feed}?once"`);
  expect(page).toMatch(/Remove Alerts/);
});

test("a discreet wording: her calendar's name, its file and its events say little, her page says all", async () => {
  const salon = await createSalon({
    name: "Quillfen Colour Room",
    zone: "Europe/London",
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
    show: { words: "discreet" },
  });
  await push(salon.key, diaryText([mara]));
  const client = (await plansOf(salon.key))[0]?.booking.client.id ?? "";
  const { feed } = await linkOf(salon.key, client);
  const text = await unfolded(feed);
  for (const [, open = ""] of text.matchAll(/^(?:SUMMARY|NAME|X-WR-CALNAME):(.*)$/gm)) {
    expect(open).not.toMatch(/skin|test|colour|Quillfen/i);
  }
  const page = await (await send(feed.replace("/skin-test.ics", ""))).text();
  expect(page).toContain("/reminders.ics");
  expect(page).toContain("skin test");
});

test("23: hostile names make no line in any form, and each form is read whole by ical.js", async () => {
  const hostile = `Mara\r\nX-EVIL:1\nBEGIN:VEVENT\u2028\u0000\u0085;,\\:"^n${"🦔".repeat(2_000)}`;
  const settings = {
    name: hostile.replace(/\0/g, "").slice(0, 150).trim(),
    zone: "Europe/London",
    show: { clients: "names" },
    contact: { phone: '020\r\nX-EVIL:2;,\\"', address: hostile.slice(0, 300) },
    tests: [
      {
        route: "home-kit",
        protocol: "home-kit-120h",
        kit: { name: 'K\nX-EVIL:3"', instructions: hostile.slice(0, 300) },
      },
    ],
  };
  const salon = await createSalon(settings);
  const title = hostile.replace(/[\r\n\0]/g, " ").replaceAll(/[\\;,]/g, "\\$&");
  await push(salon.key, diaryText([mara]).replace(/^SUMMARY:.*$/m, `SUMMARY:Full head colour ${title}`));
  const [plan] = await plansOf(salon.key);
  const { feed } = await linkOf(salon.key, plan?.booking.client.id ?? "");
  const known =
    /^(BEGIN|END|VERSION|PRODID|NAME|X-WR-CALNAME|DESCRIPTION|X-WR-CALDESC|URL|REFRESH-INTERVAL|X-PUBLISHED-TTL|COLOR|X-APPLE-CALENDAR-COLOR|TZID|TZNAME|TZOFFSETFROM|TZOFFSETTO|RRULE|UID|DTSTAMP|CREATED|LAST-MODIFIED|SEQUENCE|DTSTART|DTEND|DUE|PERCENT-COMPLETE|SUMMARY|STATUS|TRANSP|CLASS|CATEGORIES|RELATED-TO|ACTION|TRIGGER)[;:]/;
  for (const address of [salon.feed, `${salon.feed}?as=tasks`, `${salon.feed}?tz=utc`, feed, `${feed}?once`]) {
    const text = await unfolded(address);
    const lines = text.split("\r\n").slice(0, -1);
    expect(lines.filter((line) => !known.test(line))).toEqual([]);
    expect(text.replaceAll("\r\n", "")).not.toMatch(/[\p{Cc}\u2028\u2029\ufeff]/u);
    const read = new ICAL.Component(ICAL.parse(text));
    const kind = address.includes("tasks") ? "vtodo" : "vevent";
    expect(read.getAllSubcomponents(kind)).toHaveLength(text.split(`BEGIN:${kind.toUpperCase()}\r\n`).length - 1);
    const json = await (await send(address, { headers: { accept: "application/calendar+json" } })).json<never>();
    expect(new ICAL.Component(json).getAllSubcomponents(kind)).toHaveLength(read.getAllSubcomponents(kind).length);
  }
});

describe("filters", () => {
  const services = {
    ...MINIMAL,
    services: [
      { name: "Tint, roots & more", words: ["tint"] },
      { name: "Café", words: ["balayage"] },
    ],
  };
  const entry = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA, summary: "Root tint" };
  const kindsIn = async (address: string): Promise<readonly string[]> =>
    Array.from((await unfolded(address)).matchAll(/^CATEGORIES:(\S+)/gm), ([, kind = ""]) => kind).sort();

  test("follow a booking to another service, though nothing that is said of it changes", async () => {
    const salon = await createSalon(services);
    await push(salon.key, diaryText([entry]));
    const [old, other] = [`${salon.feed}?service=Tint, roots %26 more`, `${salon.feed}?service=CAFE%CC%81`];
    const all = (await kindsIn(old)).filter((kind) => kind !== "notice");
    expect(all.length).toBeGreaterThan(3);
    const before = await send(other);
    expect((await kindsIn(other)).filter((kind) => kind !== "notice")).toEqual([]);
    setClock("2026-12-01T10:00:00Z");
    await push(salon.key, diaryText([{ ...entry, summary: "Balayage" }]));
    expect((await kindsIn(old)).filter((kind) => kind !== "notice")).toEqual([]);
    expect((await kindsIn(other)).filter((kind) => kind !== "notice")).toEqual(all);
    const since = { headers: { "if-modified-since": before.headers.get("last-modified") ?? "" } };
    expect((await send(other, since)).status).toBe(200);
  });

  test("by who and service keep what says that a diary is not read, and show all where they name nothing that a salon's feed has", async () => {
    const salon = await createSalon();
    expect(await kindsIn(`${salon.feed}?who=client&service=Café`)).toEqual(["notice"]);
    expect(await kindsIn(`${salon.feed}?kinds=reading`)).toEqual([]);
    await push(salon.key, diaryText([entry]));
    const all = await kindsIn(salon.feed);
    expect(await kindsIn(`${salon.feed}?kinds=colour`)).toEqual(all);
    expect(await kindsIn(`${salon.feed}?kinds=reading&kinds=result`)).toEqual(["reading", "result"]);
  });
});

describe("a feed's date", () => {
  test("tells two bodies apart that were said in one second, and is never ahead of the clock", async () => {
    const salon = await createSalon();
    await push(salon.key, diaryText([mara]));
    const dated = async (): Promise<string> => (await send(salon.feed)).headers.get("last-modified") ?? "";
    const statusOf = async (since: string): Promise<number> =>
      (await send(salon.feed, { headers: { "if-modified-since": since } })).status;
    const first = await dated();
    expect(first).toBe("Tue, 01 Dec 2026 09:00:00 GMT");
    expect(await statusOf(first)).toBe(304);
    await push(salon.key, diaryText([mara, wren]));
    expect(await statusOf(first)).toBe(200);
    expect(await dated()).toBe("Tue, 01 Dec 2026 09:00:00 GMT");
    setClock("2026-12-01T09:00:03Z");
    expect(await statusOf(first)).toBe(200);
    const second = await dated();
    expect(second).toBe("Tue, 01 Dec 2026 09:00:01 GMT");
    expect(await statusOf(second)).toBe(304);
  });

  test("is asked for by an HTTP date and by nothing else (RFC 9110 §13.1.3, §5.6.7)", async () => {
    const { salon } = await twoFeeds();
    setClock("2026-12-01T09:00:10Z");
    const statusOf = async (since: string): Promise<number> =>
      (await send(salon.feed, { headers: { "if-modified-since": since } })).status;
    for (const date of [
      "Tue, 01 Dec 2026 09:00:10 GMT",
      "Tuesday, 01-Dec-26 09:00:10 GMT",
      "Tue Dec  1 09:00:10 2026",
    ]) {
      expect([date, await statusOf(date)]).toEqual([date, 304]);
    }
    for (const date of [
      "2099",
      "2099-01-01",
      "Mon, 30 Feb 2099 00:00:00 GMT",
      "Thu, 01 Jan 2099 00:00:00 PST",
      "Thu, 01 Jan 2099 00:00:00",
    ]) {
      expect([date, await statusOf(date)]).toEqual([date, 200]);
    }
  });
});

test("16: a fault of ours is a 503 that names a time to ask again, never an empty 200, and ends when the fault does", async () => {
  const { salon, feed } = await twoFeeds();
  vi.spyOn(console, "error").mockImplementation(() => {});
  const broken = vi.spyOn(rendering, "renderFeed").mockImplementation(() => {
    throw new Error("Mara Quillfeather cannot be written");
  });
  for (const address of [salon.feed, feed, `${feed}?once`]) {
    for (const method of ["GET", "HEAD"]) {
      const answer = await send(address, { method });
      expect([address, method, answer.status]).toEqual([address, method, 503]);
      expect(Number(answer.headers.get("retry-after"))).toBeGreaterThan(0);
      expect(await answer.text()).not.toMatch(/BEGIN:|Mara/);
    }
  }
  broken.mockRestore();
  expect((await unfolded(feed)).split("BEGIN:VEVENT").length).toBeGreaterThan(3);
});
