/**
 * What is told must reach whoever has to know: corrections that cannot undo what comes later, forms that take a whole record,
 * a stop and an outdated test said in the salon's feed, and a page that has a button for what it asks. Sources: counting.md
 * 22 to 24, 30; what a reaction means is the published label's "do not colour if you have ever experienced any reaction"
 * (Regulation (EC) 1223/2009, Annex III).
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  plansOf,
  push,
  record,
  send,
  setClock,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const KIT_FIRST = {
  ...MINIMAL,
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
};
const booked = async (settings: unknown = MINIMAL) => {
  const salon = await createSalon(settings);
  await push(salon.key, diaryText([{ uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000", ...MARA }]));
  return { ...salon, page: (await linkOf(salon.key, "c1")).page };
};
const standing = async (key: string) => (await plansOf(key))[0]?.standing;
const form = (page: string, fields: Readonly<Record<string, string>>) =>
  send(`${page}/records`, { method: "POST", body: new URLSearchParams(fields) });
const recordsOf = async (key: string) =>
  (await (await ask(key, "GET", "/api/salon/records")).json<{ records: Record<string, unknown>[] }>()).records;
const summariesOf = async (address: string, kind: string): Promise<readonly string[]> => {
  const text = (await (await send(address)).text()).replaceAll("\r\n ", "");
  return text
    .split("BEGIN:VEVENT")
    .filter((event) => event.includes(`CATEGORIES:${kind}`) && !event.includes("STATUS:CANCELLED"))
    .map((event) => /SUMMARY:(.*)/.exec(event)?.[1]?.trim() ?? "");
};

describe("a correction that names nothing", () => {
  test("is kept with the record it found, and turns to no other when something earlier is told late", async () => {
    const { key } = await booked();
    setClock("2026-12-08T18:30:00Z");
    for (const at of ["2026-12-08T09:00:00Z", "2026-12-08T09:30:00Z"]) {
      await record(key, { booking: "b1", kind: "applied", route: "in-salon", at });
    }
    const answer = await record(key, {
      booking: "b1",
      kind: "correction",
      reason: "wrong time typed",
      at: "2026-12-08T18:30:00Z",
    });
    expect([answer.status, (await answer.json<{ corrects: string }>()).corrects]).toEqual([201, "r2"]);
    const told = await record(key, { booking: "b1", kind: "reacted", at: "2026-12-08T17:45:00Z" });
    expect(told.status).toBe(201);
    expect(await standing(key)).toBe("stop");
  });

  test("told twice sets aside two records, the newest first", async () => {
    const { key } = await booked();
    for (const kind of ["posted", "arrived"]) await record(key, { booking: "b1", kind, at: "2026-12-01T08:00:00Z" });
    const undo = () => record(key, { booking: "b1", kind: "correction", at: "2026-12-01T09:00:00Z" });
    expect((await (await undo()).json<{ corrects: string }>()).corrects).toBe("r2");
    expect((await (await undo()).json<{ corrects: string }>()).corrects).toBe("r1");
    expect((await undo()).status).toBe(422);
  });
});

describe("a form is a whole record", () => {
  test("with an instant, a site and a note, or a local time, and empty fields left out", async () => {
    const { key, page } = await booked();
    const sent = await form(page, {
      kind: "applied",
      booking: "b1",
      at: "2026-12-01T08:30:00Z",
      outcome: "",
      when: "",
      site: "behind the left ear",
      note: "with Ines",
      shade: "4",
    });
    expect(sent.status).toBe(303);
    expect((await recordsOf(key))[0]).toMatchObject({
      kind: "applied",
      at: "2026-12-01T08:30:00Z",
      site: "behind the left ear",
      note: "with Ines",
      shade: 4,
      via: "client-link",
      outcome: null,
    });
    expect((await form(page, { kind: "removed", booking: "b1", when: "2026-12-01T08:45" })).status).toBe(303);
    expect((await recordsOf(key))[1]).toMatchObject({ kind: "removed", at: "2026-12-01T08:45:00Z" });
  });

  test("refuses what only the salon may say, and names a field it does not know, with the country's emergency number", async () => {
    const { page } = await booked({ ...MINIMAL, country: "GB" });
    for (const fields of [
      { kind: "confirmed" },
      { kind: "applied", who: "me" },
      { kind: "applied", at: "yesterday" },
    ]) {
      const answer = await form(page, fields);
      expect([answer.status, (await answer.text()).includes("call 999 now")]).toEqual([422, true]);
    }
  });

  test("asks for a kit, or says that it has not come", async () => {
    const { key, page } = await booked(KIT_FIRST);
    expect((await form(page, { kind: "route", route: "in-salon" })).status).toBe(303);
    expect((await plansOf(key))[0]?.route).toBe("in-salon");
    setClock("2026-12-01T09:01:00Z");
    const html = await (await send(page)).text();
    expect(html).toContain("I cannot come in: please post me a kit");
    expect((await form(page, { kind: "route", route: "home-kit" })).status).toBe(303);
    expect((await plansOf(key))[0]?.route).toBe("home-kit");
    await record(key, { booking: "b1", kind: "posted", at: "2026-12-01T09:00:00Z" });
    setClock("2026-12-04T09:01:00Z");
    expect(await (await send(page)).text()).toContain("My kit has not come");
  });
});

describe("the page has a button for what it asks", () => {
  test("where a kit was left behind, and where no time is left, she can say that her test is on", async () => {
    const { key, page } = await booked(KIT_FIRST);
    await record(key, { booking: "b1", kind: "posted", at: "2026-12-01T09:00:00Z" });
    setClock("2026-12-06T12:00:00Z");
    expect((await plansOf(key))[0]?.route).toBe("in-salon");
    expect(await (await send(page)).text()).toContain("My test is on");
    setClock("2026-12-11T09:59:00Z");
    expect(await standing(key)).toBe("no-time");
    const html = await (await send(page)).text();
    expect(html).toContain("My test is on");
    expect(html).toContain("before your colour, Fri 11 Dec 2026, 10:30");
  });
});

test("a press says of which kind the test is, and a told result is not said to be done until the salon has confirmed", async () => {
  const { key, feed, page } = await booked(KIT_FIRST);
  await record(key, { booking: "b1", kind: "screened", outcome: "pass" });
  setClock("2026-12-09T10:31:00Z");
  const html = await (await send(page)).text();
  const pressed = /<form[^>]*>(?:(?!<\/form>)[^])*My test is on/.exec(html)?.[0] ?? "";
  expect(pressed).toContain('value="applied..in-salon"');
  await form(page, { kind: "applied", route: "in-salon", booking: "b1", when: "2026-12-08T10:00" });
  setClock("2026-12-10T11:00:00Z");
  await form(page, { kind: "read", outcome: "clear", booking: "b1", at: "2026-12-10T10:30:00Z" });
  const resultIn = async () => (await summariesOf(feed, "result"))[0];
  expect(await resultIn()).toBe(
    "M.Q.: every look is told\\, nobody has confirmed yet. Confirm before the colour on Fri 11 Dec 2026\\, 10:30",
  );
  await record(key, { booking: "b1", kind: "confirmed" });
  expect(await standing(key)).toBe("ready");
  expect(await resultIn()).toMatch(/^Done: /);
});

describe("what the salon's feed must say besides steps", () => {
  test("a warning stands as it stood when the appointment begins, unless all is recorded", async () => {
    const { key, feed, page } = await booked();
    await record(key, { booking: "b1", kind: "screened", outcome: "pass" });
    await form(page, { kind: "reacted", booking: "b1" });
    const [told] = await summariesOf(feed, "notice");
    expect(told).toMatch(/^Telephone M\.Q\. before anything is done/);
    setClock("2026-12-11T10:30:01Z");
    expect(await standing(key)).toBe("past");
    expect(await summariesOf(feed, "notice")).toEqual([told]);
    setClock("2026-12-12T12:00:00Z");
    expect(await summariesOf(feed, "notice")).toEqual([told]);
  });

  test("that no test fits stands while she sits in the chair, and goes when a test of hers is recorded and confirmed", async () => {
    const { key, feed } = await booked();
    setClock("2026-12-11T10:00:00Z");
    const [told] = await summariesOf(feed, "notice");
    expect(told).toMatch(/^No time left for a skin test: M\.Q\.\\, colour on Fri 11 Dec 2026/);
    setClock("2026-12-11T10:31:00Z");
    expect([await standing(key), await summariesOf(feed, "notice")]).toEqual(["past", [told]]);
    for (const each of [
      { kind: "screened", outcome: "pass", at: "2026-12-08T10:00:00Z" },
      { kind: "applied", route: "in-salon", at: "2026-12-08T10:01:00Z" },
      { kind: "read", outcome: "clear", at: "2026-12-10T10:30:00Z" },
      { kind: "confirmed", at: "2026-12-11T10:00:00Z" },
    ]) {
      await record(key, { booking: "b1", ...each });
    }
    expect(await summariesOf(feed, "notice")).toEqual([]);
  });

  test("a reaction after the colour: a notice from the day it was told", async () => {
    const { feed, page } = await booked();
    setClock("2026-12-14T09:00:00Z");
    await form(page, { kind: "reacted", booking: "b1" });
    const notices = await summariesOf(feed, "notice");
    expect(notices).toEqual(["Telephone M.Q. today about the colour on Fri 11 Dec 2026\\, 10:30"]);
    const text = await (await send(feed)).text();
    expect(text).toContain("DTSTART;VALUE=DATE:20261214\r\nDTEND;VALUE=DATE:20261221");
  });

  test("a stop: one notice from the day it was told to the day of the colour, without a word of why", async () => {
    const { key, feed, page } = await booked();
    await form(page, { kind: "reacted", booking: "b1" });
    expect(await summariesOf(feed, "notice")).toEqual([
      "Telephone M.Q. before anything is done for the colour on Fri 11 Dec 2026\\, 10:30",
    ]);
    expect(await (await send(feed)).text()).not.toMatch(/react|allerg|SUMMARY:.*shows/i);
    const [told] = await recordsOf(key);
    await record(key, {
      booking: "b1",
      kind: "correction",
      corrects: told?.["id"],
      reason: "a slip",
      at: "2026-12-01T09:00:00Z",
    });
    expect(await summariesOf(feed, "notice")).toEqual([]);
  });

  test("that the test which is on does not suffice: to the salon, on her page and in her feed", async () => {
    const { key, feed, page } = await booked();
    const told = (at: string, facts: object) => record(key, { booking: "b1", at, ...facts });
    await told("2026-12-01T08:59:00Z", { kind: "screened", outcome: "pass" });
    setClock("2026-12-04T10:00:00Z");
    await told("2026-12-04T10:00:00Z", { kind: "applied", route: "in-salon" });
    setClock("2026-12-06T11:00:00Z");
    await told("2026-12-06T10:30:00Z", { kind: "read", outcome: "clear" });
    await told("2026-12-06T11:00:00Z", { kind: "screened", outcome: "test-needed" });
    await told("2026-12-06T11:00:00Z", { kind: "confirmed" });
    const [plan] = await plansOf(key);
    expect(plan?.standing).not.toBe("ready");
    expect(plan?.why.find(({ code }) => code === "new-test-needed")?.text).toBe(
      "The health questions asked for a new test after the one of Fri 4 Dec, 10:00 went on, so that one does not suffice. A new walk-in test counts up to Wed 10:30. Telephone the client.",
    );
    expect(await summariesOf(feed, "notice")).toEqual([
      "A new skin test is needed: M.Q.\\, colour on Fri 11 Dec 2026\\, 10:30. Telephone the client",
    ]);
    const words = "Please telephone Quillfen Colour Room: a new skin test is needed before your colour";
    expect(await (await send(page)).text()).toContain(words);
    expect((await summariesOf((await linkOf(key, "c1")).feed, "colour"))[0]).toContain(words);
    setClock("2026-12-07T10:00:00Z");
    await told("2026-12-07T10:00:00Z", { kind: "applied", route: "in-salon" });
    expect((await plansOf(key))[0]?.why.map(({ code }) => code)).not.toContain("new-test-needed");
    expect(await summariesOf(feed, "notice")).toEqual([]);
  });
});

describe("answers that a person has to decide on", () => {
  const decidesIn = async (key: string): Promise<boolean> =>
    (await plansOf(key))[0]?.why.some(({ code }) => code === "person-decides") ?? false;
  const answer = async (page: string, health: string) => {
    const asked = await (await send(`${page}/screening`)).json<{ version: number; questions: { id: string }[] }>();
    const answers = Object.fromEntries(asked.questions.map(({ id }) => [id, id === "health" ? health : "no"]));
    return send(`${page}/screening`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ version: asked.version, consent: true, answers }),
    });
  };
  const decide = (key: string) => record(key, { booking: "b1", kind: "screened", outcome: "pass" });

  test("wait for a person at the salon, whatever she answers after, and within one second too", async () => {
    const { key, page } = await booked();
    expect(await (await answer(page, "not-sure")).json()).toMatchObject({ outcome: null });
    expect(await (await answer(page, "no")).json()).toMatchObject({ outcome: "pass" });
    expect(await decidesIn(key)).toBe(true);
    expect((await plansOf(key))[0]?.steps[0]).toMatchObject({ kind: "screening", state: "planned" });
    await decide(key);
    expect(await decidesIn(key)).toBe(false);
    expect((await plansOf(key))[0]?.steps[0]?.state).toBe("done");
    await answer(page, "not-sure");
    expect(await decidesIn(key)).toBe(true);
  });

  test("are not decided by a screening of before them that is entered late, nor by another client's", async () => {
    const { key, page } = await booked();
    setClock("2026-12-03T09:00:00Z");
    await answer(page, "not-sure");
    setClock("2026-12-04T09:00:00Z");
    await record(key, { booking: "b1", kind: "screened", outcome: "pass", at: "2026-12-01T09:00:00Z" });
    expect(await decidesIn(key)).toBe(true);
    const entry = { uid: "b1", start: "DTSTART;TZID=Europe/London:20261211T103000" };
    await push(key, diaryText([{ ...entry, ...WREN }]));
    expect(await decidesIn(key)).toBe(false);
    await decide(key);
    await push(key, diaryText([{ ...entry, ...MARA }]));
    expect(await decidesIn(key)).toBe(true);
    await decide(key);
    expect(await decidesIn(key)).toBe(false);
  });

  test("wait again where the decision is set aside", async () => {
    const { key, page } = await booked();
    await answer(page, "not-sure");
    await decide(key);
    await record(key, { booking: "b1", kind: "correction", reason: "the wrong Mara" });
    expect(await decidesIn(key)).toBe(true);
  });

  test("are taken twenty times a day and no more", async () => {
    const { key, page } = await booked();
    for (let times = 0; times < 20; times++) expect((await answer(page, "no")).status).toBe(201);
    const refused = await answer(page, "yes");
    expect([refused.status, refused.headers.get("retry-after")]).toEqual([429, "86400"]);
    setClock("2026-12-02T09:00:00Z");
    expect((await answer(page, "yes")).status).toBe(201);
    expect((await plansOf(key))[0]?.standing).not.toBe("stop");
  });
});

describe("POST /api/count-back takes records as they are told", () => {
  const count = (records: readonly unknown[]) =>
    send("/api/count-back", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ start: "2026-12-11T10:30:00Z", now: "2026-12-09T12:00:00Z", uid: "b1", records }),
    });
  const standingOf = async (records: readonly unknown[]) =>
    (await (await count(records)).json<{ standing: string }>()).standing;
  const reacted = { kind: "reacted", at: "2026-12-08T12:00:00Z" };

  test("an id of the caller's own never meets one of ours", async () => {
    const records = [
      { kind: "screened", outcome: "pass", at: "2026-12-01T10:00:00Z" },
      { kind: "applied", at: "2026-12-08T10:00:00Z" },
      reacted,
      { kind: "note", id: "r3", note: "a slip of the pen", at: "2026-12-08T13:00:00Z" },
      { kind: "correction", corrects: "r3", reason: "wrong client", at: "2026-12-08T14:00:00Z" },
    ];
    expect(await standingOf(records)).toBe("stop");
    expect(
      await standingOf([
        { ...reacted, id: "x" },
        { kind: "correction", corrects: "x", at: "2026-12-08T14:00:00Z" },
      ]),
    ).not.toBe("stop");
    expect(await standingOf([reacted, { kind: "correction", corrects: "r1", at: "2026-12-08T14:00:00Z" }])).toBe(
      "stop",
    );
    expect(await standingOf([reacted, { kind: "correction", corrects: "none", at: "2026-12-08T14:00:00Z" }])).toBe(
      "stop",
    );
  });

  test("an outcome that is none of its kind is refused by name", async () => {
    for (const wrong of [
      { kind: "read" },
      { kind: "read", outcome: "pass" },
      { kind: "screened", outcome: "clear" },
      { kind: "route" },
    ]) {
      const answer = await count([reacted, { ...wrong, at: "2026-12-08T13:00:00Z" }]);
      const { errors } = await answer.json<{ errors: { at: string }[] }>();
      expect([answer.status, errors[0]?.at]).toEqual([
        422,
        wrong.kind === "route" ? "records[1].route" : "records[1].outcome",
      ]);
    }
  });
});
