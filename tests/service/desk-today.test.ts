/** The desk's first page as a day goes: what is due, what is pressed, whom to telephone, what is new. Everyone named is invented. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  plansOf,
  push,
  record,
  send,
  setClock,
  type TestSalon,
  WREN,
} from "./client.ts";
import { DeskVisitor, type Seen, wordsOf } from "./DeskVisitor.ts";

// A Tuesday; the salon opens at nine.
beforeEach(() => setClock("2026-12-01T09:30:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const OPEN = ["09:00-17:30"];
const SETTINGS = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  country: "GB",
  contact: { phone: "01632 960 155" },
  staff: ["Ines", "Tomas"],
  holidays: null,
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
  opening: { mon: OPEN, tue: OPEN, wed: OPEN, thu: OPEN, fri: OPEN, sat: ["09:00-13:00"] },
};
const at = (day: string, time = "1030"): string => `DTSTART;TZID=Europe/London:202612${day}T${time}00`;

const filled = async (
  entries: Parameters<typeof diaryText>[0],
  settings: object = SETTINGS,
): Promise<{ salon: TestSalon; desk: DeskVisitor }> => {
  const salon = await createSalon(settings);
  expect((await push(salon.key, diaryText(entries))).status).toBe(200);
  return { salon, desk: await DeskVisitor.signIn(salon) };
};

/** The part of a page below a heading of the second order, up to the next. */
const part = ({ html }: Seen, heading: string): Seen => {
  const found = html.split(/<h2/).find((each) =>
    wordsOf({ html: `<h2${each}` } as Seen)
      .trim()
      .startsWith(heading),
  );
  return { html: found === undefined ? "" : `<h2${found}` } as Seen;
};
const recordsOf = async (key: string): Promise<readonly Record<string, unknown>[]> =>
  (await (await ask(key, "GET", "/api/salon/records")).json<{ records: Record<string, unknown>[] }>()).records;
/** Presses a button of the first form that leads to an action and holds it. */
const button = (page: Seen, action: string, label: string): Record<string, string> => {
  const form = page.html.split("<form").find((each) => each.includes(`action="${action}"`) && each.includes(label));
  const [, name, value] =
    new RegExp(`<button[^>]*name="([^"]*)"[^>]*value="([^"]*)"[^>]*>\\s*${label}`).exec(form ?? "") ?? [];
  if (name === undefined || value === undefined) throw new Error(`no button says ${label}`);
  return { [name]: value };
};

test("a walk-in test from its day to the confirmed result, a press each, with who pressed and nothing of it twice", async () => {
  const { salon, desk } = await filled([{ uid: "wren-1", start: at("04"), ...WREN }]);
  await desk.press(await desk.open("/desk"), "/desk/who", { who: "Ines" });
  setClock("2026-12-02T09:30:00Z");
  const morning = await desk.open("/desk");
  expect(wordsOf(part(morning, "To do until you next open"))).toMatch(
    /tomorrow 09:00.*Tests to put on here 1.*by today 10:30.*Wren Tallis-Moor/s,
  );
  const on = button(morning, "/desk/records", "Test is on");
  const after = await desk.press(morning, "/desk/records", { ...on, site: "behind the left ear", batch: "B 7" });
  expect(wordsOf(after)).toContain("Recorded.");
  // The same form sent once more, as by a press that was pressed twice.
  expect(
    (await desk.press(morning, "/desk/records", { ...on, site: "behind the left ear", batch: "B 7" })).status,
  ).toBe(200);
  expect(await recordsOf(salon.key)).toMatchObject([
    {
      kind: "applied",
      route: "in-salon",
      by: "Ines",
      via: "desk",
      site: "behind the left ear",
      batch: "B 7",
      booking: "wren-1",
    },
  ]);
  setClock("2026-12-04T09:35:00Z");
  const look = await desk.open("/desk");
  expect(wordsOf(part(look, "To do until you next open"))).toMatch(/Looks 1/);
  const unasked = await desk.press(look, "/desk/records", button(look, "/desk/records", "Clear"));
  // Pressed before the questions are answered it would count for nothing.
  expect(wordsOf(unasked)).not.toContain("Results to confirm");
  await record(salon.key, { kind: "screened", outcome: "pass", booking: "wren-1", via: "desk" });
  const clear = await desk.open("/desk");
  expect(wordsOf(part(clear, "To do until you next open"))).toMatch(
    /Results to confirm before the colour 1.*colour today 10:30/s,
  );
  const confirm = await desk.open("/desk");
  const ready = await desk.press(confirm, "/desk/records", button(confirm, "/desk/records", "Confirm the result"));
  expect(wordsOf(part(ready, "In the chair"))).toMatch(/today 10:30.*Wren Tallis-Moor.*Ready for colour/s);
  expect((await plansOf(salon.key))[0]?.standing).toBe("ready");
});

test("a time set back is read by the salon's clock, and one that cannot be is said at the desk with nothing kept", async () => {
  const { salon, desk } = await filled([{ uid: "wren-1", start: at("04"), ...WREN }]);
  setClock("2026-12-02T09:30:00Z");
  const page = await desk.open("/desk");
  const on = button(page, "/desk/records", "Test is on");
  const early = await desk.press(page, "/desk/records", { ...on, when: "2026-12-02T12:00" });
  expect([early.status, wordsOf(early)]).toEqual([
    422,
    expect.stringContaining("You wrote today 12:00, and it is today 09:30."),
  ]);
  expect(await recordsOf(salon.key)).toEqual([]);
  await desk.press(page, "/desk/records", { ...on, when: "2026-12-02T09:10" });
  expect(await recordsOf(salon.key)).toMatchObject([{ kind: "applied", at: "2026-12-02T09:10:00Z" }]);
  const nonsense = await desk.press(page, "/desk/records", { choice: "applied - <b> -", when: "noon" });
  expect([nonsense.status, nonsense.html.includes("<b>")]).toEqual([422, false]);
});

test("something shows, told at night: first on the page until somebody has read it, and kept who did", async () => {
  const { salon, desk } = await filled([{ uid: "wren-1", start: at("04"), ...WREN }]);
  await record(salon.key, { kind: "applied", route: "in-salon", booking: "wren-1" });
  const [plan] = await plansOf(salon.key);
  const { page } = await linkOf(salon.key, plan?.booking.client.id ?? "");
  setClock("2026-12-02T02:13:00Z");
  expect(
    (
      await send(`${page}/records`, {
        method: "POST",
        body: JSON.stringify({ kind: "reacted", note: "red and itching" }),
        headers: { "content-type": "application/json" },
      })
    ).status,
  ).toBe(201);
  setClock("2026-12-02T08:50:00Z");
  await desk.press(await desk.open("/desk"), "/desk/who", { who: "Tomas" });
  const morning = await desk.open("/desk");
  expect(morning.html.indexOf("Something shows: read this first")).toBeLessThan(
    morning.html.indexOf("To do until you next open"),
  );
  expect(wordsOf(morning)).toMatch(/today 02:13 while you were shut.*Wren Tallis-Moor.*red and itching/s);
  const read = await desk.press(morning, "/desk/seen");
  expect(wordsOf(read)).not.toContain("read this first");
  await desk.press(morning, "/desk/seen");
  const evidence = await (await ask(salon.key, "GET", "/api/salon/evidence?booking=wren-1")).json<{
    decisions: { kind: string; by: string }[];
  }>();
  expect(evidence.decisions.filter(({ kind }) => kind === "acknowledged")).toMatchObject([{ by: "Tomas" }]);
  // The stop itself asks for the telephone, and for nothing else.
  expect(wordsOf(part(read, "To telephone"))).toContain("There is a stop");
  expect(wordsOf(part(read, "To do until you next open"))).not.toContain("Wren");
});

test("what is still to come today is listed with its time, and can be told of only once its time has come", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("04", "1700"), ...MARA }]);
  setClock("2026-12-02T16:30:00Z");
  await record(salon.key, { kind: "applied", route: "in-salon", booking: "mara-1" });
  setClock("2026-12-04T09:30:00Z");
  const early = part(await desk.open("/desk"), "To do until you next open");
  expect(wordsOf(early)).toMatch(/Looks 1 from today 16:30 Mara Quillfeather/);
  expect(wordsOf(early)).toContain("Something shows");
  expect(early.html).not.toContain("read clear");
  setClock("2026-12-04T16:31:00Z");
  expect((await desk.open("/desk")).html).toContain("read clear");
});

test("what a client pressed is told in her words, and questions are asked or recorded by two presses that lead back", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("18"), ...MARA }]);
  const { page } = await linkOf(salon.key, "c1");
  setClock("2026-12-08T09:30:00Z");
  await record(salon.key, { kind: "posted", booking: "mara-1" });
  setClock("2026-12-15T09:30:00Z");
  const body = JSON.stringify({ kind: "route", route: "in-salon" });
  await send(`${page}/records`, { method: "POST", body, headers: { "content-type": "application/json" } });
  setClock("2026-12-16T09:15:00Z");
  const morning = await desk.open("/desk");
  expect(wordsOf(part(morning, "To do until you next open"))).toMatch(/Health questions not answered 1/);
  expect(wordsOf(morning)).toContain("She told: “My kit has not come”");
  expect(morning.html).toMatch(
    /href="https:\/\/countback.test\/c\/[^"]+\/screening\?appointment=[^"]+">Ask her on this screen/,
  );
  const [, address = ""] = /href="(\/desk\/booking\/[^"#]+\?from=today)#asked"/.exec(morning.html) ?? [];
  const booking = await desk.open(address);
  const said = await desk.press({ ...booking, html: booking.html.split('id="asked"')[1] ?? "" }, "/desk/records", {
    choice: "screened pass - -",
  });
  expect(said.path).toBe("/desk?said=recorded#due-questions");
  expect(wordsOf(part(said, "To do until you next open"))).not.toContain("Health questions");
});

test("one who told of it at the desk is not news to the desk", async () => {
  const { salon, desk } = await filled([{ uid: "wren-1", start: at("04"), ...WREN }]);
  await record(salon.key, { kind: "reacted", booking: "wren-1", via: "desk" });
  expect(wordsOf(await desk.open("/desk"))).not.toContain("read this first");
});

test("whom to telephone: no link, a link not opened, a booking made late; noted as told by one press, and back with a new reason", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("18"), ...MARA }]);
  const calls = async (): Promise<string> => wordsOf(part(await desk.open("/desk"), "To telephone"));
  expect(await calls()).toContain("She has not been given her link");
  const page = await desk.open("/desk");
  const sent = await desk.press(page, "/desk/told", { how: "sent" });
  expect(wordsOf(part(sent, "To telephone"))).toContain("Nobody to tell anything.");
  const [told] = await recordsOf(salon.key);
  expect(told).toMatchObject({
    kind: "note",
    via: "desk",
    booking: "mara-1",
    note: "Sent to her: She has not been given her link",
    reason: "no-link",
  });
  expect(String(told?.["words"])).toContain("https://countback.test/c/");
  setClock("2026-12-02T09:31:00Z");
  expect(await calls()).toContain("She has not opened her link for a day");
  // A program that looks at a link before it is sent on is nobody; a browser that shows it is her.
  const link = await linkOf(salon.key, "c1");
  setClock("2026-12-03T09:40:00Z");
  await send(link.page, { headers: { accept: "text/html" } });
  expect(await calls()).toContain("has not opened her link");
  await send(link.page, { headers: { accept: "text/html", "sec-fetch-dest": "document" } });
  expect(await calls()).toContain("Nobody to tell anything.");
  // Moved to the day after tomorrow: what is due within a day of being moved is told by telephone.
  await push(salon.key, diaryText([{ uid: "mara-1", start: at("05", "1200"), ...MARA }]));
  expect(await calls()).toMatch(/came up less than a day ahead/);
  await desk.press(await desk.open("/desk"), "/desk/told", { how: "spoken" });
  expect(await calls()).toContain("Nobody to tell anything.");
});

test("what she was told before never hides that no time is left, nor that no test fits any more", async () => {
  const { salon, desk } = await filled([{ uid: "wren-1", start: at("08"), ...WREN }], {
    ...SETTINGS,
    tests: [{ route: "in-salon", protocol: "salon-48h" }],
  });
  await desk.press(await desk.open("/desk"), "/desk/told", { how: "sent" });
  await send((await linkOf(salon.key, "c1")).page, { headers: { "sec-fetch-dest": "document" } });
  const calls = async (clock: string): Promise<string> => {
    setClock(clock);
    return wordsOf(part(await desk.open("/desk"), "To telephone"));
  };
  expect(await calls("2026-12-02T09:00:00Z")).toContain("Nobody to tell anything.");
  expect(await calls("2026-12-05T17:45:00Z")).toMatch(/No test fits any more|No time is left/);
  await desk.press(await desk.open("/desk"), "/desk/told", { how: "spoken" });
  // What it turns into is another thing to tell.
  const standing = async (): Promise<string | undefined> => (await plansOf(salon.key))[0]?.standing;
  expect([await standing(), await calls("2026-12-08T09:00:00Z"), await standing()]).toEqual([
    "late",
    expect.stringContaining("No time is left for a test before this colour"),
    "no-time",
  ]);
  await desk.press(await desk.open("/desk"), "/desk/told", { how: "spoken" });
  expect(await calls("2026-12-08T09:01:00Z")).toContain("Nobody to tell anything.");
});

test("an earlier clear result waits for a person's word like one of this booking", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("01", "1600"), ...MARA }], {
    ...SETTINGS,
    tests: [{ route: "in-salon", protocol: "salon-48h", onFile: { months: 6 } }],
  });
  const before = { route: "in-salon", client: "c1" };
  await record(salon.key, { kind: "read", outcome: "clear", at: "2026-11-01T10:00:00Z", ...before });
  const asked = await desk.open("/desk");
  expect((await plansOf(salon.key))[0]?.route).toBe("on-file");
  expect(wordsOf(part(asked, "To do"))).not.toContain("Results to confirm");
  await record(salon.key, { kind: "screened", outcome: "pass", booking: "mara-1" });
  const page = await desk.open("/desk");
  expect(wordsOf(part(page, "To do"))).toContain("Results to confirm");
  await desk.press(page, "/desk/records", button(page, "/desk/records", "Confirm the result"));
  expect((await plansOf(salon.key))[0]?.standing).toBe("ready");
});

test("a calendar that follows her feed has opened her link", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("18"), ...MARA }]);
  const link = await linkOf(salon.key, "c1");
  setClock("2026-12-03T09:40:00Z");
  expect(wordsOf(await desk.open("/desk"))).toContain("has not opened her link");
  await send(link.feed, { method: "HEAD" });
  expect(wordsOf(await desk.open("/desk"))).toContain("has not opened her link");
  await send(link.feed);
  expect(wordsOf(await desk.open("/desk"))).not.toContain("has not opened her link");
  // A new link is in nobody's hands.
  await linkOf(salon.key, "c1", true);
  setClock("2026-12-04T09:45:00Z");
  expect(wordsOf(await desk.open("/desk"))).toContain("has not opened her link");
});

test("what is new since this screen last looked: moved with its old time, new, cancelled, back; not what was seen before", async () => {
  const { salon, desk } = await filled([
    { uid: "mara-1", start: at("18"), ...MARA },
    { uid: "wren-1", start: at("17"), ...WREN },
  ]);
  expect(wordsOf(part(await desk.open("/desk"), "New since you last looked"))).toMatch(/Mara.*New/s);
  setClock("2026-12-01T12:00:00Z");
  expect(wordsOf(part(await desk.open("/desk"), "New since you last looked, today 09:30"))).toContain("Nothing new.");
  setClock("2026-12-01T12:05:00Z");
  await push(
    salon.key,
    diaryText([
      { uid: "mara-1", start: at("19"), ...MARA },
      { uid: "wren-1", start: at("17"), ...WREN, more: ["STATUS:CANCELLED"] },
      { uid: "ann-1", start: at("21"), client: "Ann Brill", email: "ann@example.com" },
    ]),
  );
  const news = wordsOf(part(await desk.open("/desk"), "New since you last looked"));
  expect(news).toMatch(/Mara Quillfeather.*Moved: it was Fri 18 Dec, 10:30/s);
  expect(news).toMatch(/Wren Tallis-Moor.*Cancelled/s);
  expect(news).toMatch(/Ann Brill.*New/s);
  setClock("2026-12-01T15:00:00Z");
  await push(
    salon.key,
    diaryText([
      { uid: "mara-1", start: at("19"), ...MARA },
      { uid: "wren-1", start: at("17"), ...WREN },
      { uid: "ann-1", start: at("21"), client: "Ann Brill", email: "ann@example.com" },
    ]),
  );
  const later = wordsOf(part(await desk.open("/desk"), "New since you last looked"));
  expect(later).toMatch(/Wren Tallis-Moor.*Back in the diary/s);
  expect(later).not.toContain("Ann Brill");
});

test("a booking that moves within the look that first showed it is told as moved too", async () => {
  const { salon, desk } = await filled([{ uid: "mara-1", start: at("18"), ...MARA }]);
  await desk.open("/desk");
  setClock("2026-12-01T09:40:00Z");
  await push(salon.key, diaryText([{ uid: "mara-1", start: at("12"), ...MARA }]));
  const news = wordsOf(part(await desk.open("/desk"), "New since you last looked"));
  expect(news).toMatch(/today 09:40.*Moved: it was Fri 18 Dec, 10:30.*New/s);
});

test("until the salon next opens: today while it is open or about to be, the night once it has shut, over a day off and a holiday", async () => {
  const { desk } = await filled([], {
    ...SETTINGS,
    closed: ["2026-12-07"],
    country: "GB",
    holidays: { country: "GB", region: "ENG", add: [] },
  });
  const until = async (clock: string): Promise<string> => {
    setClock(clock);
    return /To do until you next open, ([^<]*)</.exec((await desk.open("/desk")).html)?.[1] ?? "";
  };
  expect(await until("2026-12-01T07:00:00Z")).toBe("tomorrow 09:00");
  expect(await until("2026-12-01T17:30:00Z")).toBe("tomorrow 09:00");
  // Saturday; Sunday is shut, Monday a day off.
  expect(await until("2026-12-05T10:00:00Z")).toBe("Tue 09:00");
  expect(await until("2026-12-05T13:00:00Z")).toBe("Tue 09:00");
});

test("names that would be marks of the page, or longer than it, change nothing on any of the three pages", async () => {
  const hostile = ['<img src=x onerror="alert(1)">', '"><script>alert(2)</script>', `${"Long ".repeat(38)}Name`];
  const { salon, desk } = await filled(
    hostile.map((client, index) => ({
      uid: `h${index}"><b>`,
      start: at("03", `1${index}30`),
      client: client.replaceAll('"', "'"),
      email: `h${index}@example.com`,
    })),
    { ...SETTINGS, services: [{ name: "<i>Colour</i>", words: ["tint"] }] },
  );
  const plans = await plansOf(salon.key);
  expect(plans).toHaveLength(3);
  for (const path of ["/desk", "/desk/weeks"]) {
    const { html, status } = await desk.open(path);
    expect(status).toBe(200);
    expect(html).not.toMatch(/<img|<script>|<script [^s]|<b>|<i>|style=/);
  }
  const weeks = await desk.open("/desk/weeks");
  for (const [path] of weeks.html.matchAll(/\/desk\/booking\/[0-9a-f-]{36}/g)) {
    const { html, status } = await desk.open(path);
    expect(status).toBe(200);
    expect(html).not.toMatch(/<img|<script>|<script [^s]|<b>|<i>|style=/);
    expect(/<title>([^<]*)</.exec(html)?.[1]).toBe("Appointment – desk");
  }
});
