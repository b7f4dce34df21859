/**
 * Skin tests in the diary, through HTTP: whose next booking they anchor, what moves and cancels them, and that they stay a
 * plan. The lead is a full 48 hours (NHBF, "Allergy alert testing"); that tests stand in the diary is common practice, no
 * source.
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

beforeEach(() => setClock("2026-12-01T10:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const local = (text: string): string => `DTSTART;TZID=Europe/London:202612${text.replace(" ", "T").replace(":", "")}00`;
const until = (text: string): string => local(text).replace("DTSTART", "DTEND");
const colour = { uid: "colour", start: local("11 10:30"), ...MARA };
const skinTest = (start: string, end: string, who: Readonly<Record<string, string>> = MARA, uid = "test") => ({
  uid,
  start: local(start),
  summary: "Skin test",
  more: [until(end)],
  ...who,
});
const applicationOf = async (key: string, uid = "colour") => {
  const plan = (await plansOf(key)).find(({ booking }) => booking.uid === uid);
  return plan?.steps.find(({ kind }) => kind === "application");
};

describe("a skin test in the diary", () => {
  test("anchors that client's next booking, in the plan and in both feeds", async () => {
    const { key, feed } = await createSalon();
    const report = await push(key, diaryText([colour, skinTest("08 11:00", "08 11:15")]));
    expect(await report.json()).toMatchObject({ counts: { bookings: 1, tests: 1, unsorted: 0 } });
    expect(await applicationOf(key)).toMatchObject({
      opens: "2026-12-08T11:00:00Z",
      due: "2026-12-08T11:00:00Z",
      state: "planned",
    });
    const { feed: hers } = await linkOf(key, "c1");
    for (const address of [feed, hers]) {
      const text = (await (await send(address)).text()).replaceAll("\r\n ", "");
      const event = text.split("BEGIN:VEVENT").find((part) => part.includes("CATEGORIES:application"));
      expect(event).toContain("DTSTART;TZID=Europe/London:20261208T110000");
      expect(event).toContain("DTEND;TZID=Europe/London:20261208T111500");
    }
  });

  test("in another chair's diary, read before or after the booking, under the bare name, is hers", async () => {
    const { key } = await createSalon();
    const bare = {
      uid: "test",
      start: local("08 11:00"),
      summary: "Patch test - Mara Quillfeather",
      more: [until("08 11:15")],
    };
    await push(key, diaryText([bare]), "tests");
    expect(await plansOf(key)).toHaveLength(0);
    await push(key, diaryText([colour]));
    expect(await applicationOf(key)).toMatchObject({ opens: "2026-12-08T11:00:00Z" });
  });

  test("of a bare name that two clients have is nobody's, and of another client never hers", async () => {
    const { key } = await createSalon();
    const namesake = { uid: "other", start: local("12 10:30"), client: MARA.client, email: "another@example.com" };
    const bare = { uid: "test", start: local("08 11:00"), summary: "Patch test - Mara Quillfeather" };
    await push(key, diaryText([colour, namesake, bare, skinTest("08 12:00", "08 12:15", WREN, "wren")]));
    for (const uid of ["colour", "other"]) expect((await applicationOf(key, uid))?.opens).not.toMatch(/T1[12]:00:00Z$/);
  });

  test("of a bare name is nobody's where one of the two has an address, and of an address only hers who has it", async () => {
    const { key } = await createSalon();
    const bareColour = { uid: "bare", start: local("12 10:30"), summary: "Root tint - Mara Quillfeather" };
    const bare = { uid: "test", start: local("08 11:00"), summary: "Patch test - Mara Quillfeather" };
    await push(key, diaryText([colour, bareColour, bare, skinTest("08 12:00", "08 12:15", MARA, "hers")]));
    expect((await applicationOf(key, "bare"))?.due).toBe("2026-12-10T10:30:00Z");
    expect((await applicationOf(key, "colour"))?.opens).toBe("2026-12-08T12:00:00Z");
  });

  test("turns from one to another with the name alone, in plans and feeds alike", async () => {
    const { key, feed } = await createSalon();
    const bareColour = { uid: "bare", start: local("12 10:30"), summary: "Root tint - Mara Quillfeather" };
    const bare = { uid: "test", start: local("08 11:00"), summary: "Patch test - Mara Quillfeather" };
    const anchored = async () =>
      (await (await send(feed)).text()).includes("DTSTART;TZID=Europe/London:20261208T110000");
    await push(key, diaryText([bareColour, bare]));
    expect(await anchored()).toBe(true);
    await push(key, diaryText([colour]), "second");
    expect(await anchored()).toBe(false);
    expect((await applicationOf(key, "bare"))?.due).toBe("2026-12-10T10:30:00Z");
    // It may have been the other's: a cancelled appointment does not make it this one's.
    await ask(key, "DELETE", "/api/salon/diaries/second");
    expect(await anchored()).toBe(false);
  });

  test("stays while the diary holds it and it is no longer understood, as a booking does", async () => {
    const { key } = await createSalon();
    const entry = skinTest("08 11:00", "08 11:15");
    await push(key, diaryText([colour, entry]));
    await push(key, diaryText([colour, { ...entry, start: "DTSTART;TZID=Quillfen/Clocktower:20261208T150000" }]));
    expect((await applicationOf(key))?.opens).toBe("2026-12-08T11:00:00Z");
  });

  test("long before its colour still anchors it when a month has passed, though nothing else changes", async () => {
    const { key, feed } = await createSalon();
    const far = { uid: "far", start: "DTSTART;TZID=Europe/London:20270120T103000", ...MARA };
    await push(key, diaryText([far, skinTest("03 11:00", "03 11:15")]));
    const before = await applicationOf(key, "far");
    expect(before?.opens).toBe("2026-12-03T11:00:00Z");
    setClock("2027-01-10T10:00:00Z");
    await push(key, diaryText([far]));
    expect(await applicationOf(key, "far")).toEqual(before);
    // Its events are more than a month old; what is left is the result, and no kit takes its place.
    const text = await (await send(feed)).text();
    expect([text.includes("CATEGORIES:result"), text.includes("CATEGORIES:shipping")]).toEqual([true, false]);
  });

  test("is for the next booking after it, not for one before and not for the one after that", async () => {
    const { key } = await createSalon();
    const second = { uid: "second", start: local("18 10:30"), ...MARA };
    const third = { uid: "third", start: local("28 10:30"), ...MARA };
    await push(key, diaryText([colour, second, third, skinTest("14 11:00", "14 11:15")]));
    expect((await applicationOf(key, "second"))?.opens).toBe("2026-12-14T11:00:00Z");
    expect((await applicationOf(key, "colour"))?.due).toBe("2026-12-09T10:30:00Z");
    expect((await applicationOf(key, "third"))?.due).toBe("2026-12-26T10:30:00Z");
  });

  test("moves with the diary, goes with it, and stays once it has begun", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([colour, skinTest("08 11:00", "08 11:15")]));
    await push(key, diaryText([colour, skinTest("08 15:00", "08 15:15")]));
    expect((await applicationOf(key))?.opens).toBe("2026-12-08T15:00:00Z");
    await push(key, diaryText([colour]));
    expect((await applicationOf(key))?.due).toBe("2026-12-09T10:30:00Z");
    await push(key, diaryText([colour, skinTest("08 11:00", "08 11:15")]));
    setClock("2026-12-08T11:05:00Z");
    await push(key, diaryText([colour]));
    expect((await applicationOf(key))?.opens).toBe("2026-12-08T11:00:00Z");
  });

  test("makes nothing done: an unrecorded one is late, and a record makes it the test", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([colour, skinTest("08 11:00", "08 11:15")]));
    setClock("2026-12-08T11:16:00Z");
    expect((await plansOf(key))[0]).toMatchObject({ standing: "late" });
    expect((await applicationOf(key))?.state).toBe("planned");
    const told = { booking: "colour", kind: "applied", at: "2026-12-08T11:04:00Z", route: "in-salon" };
    expect((await record(key, told)).status).toBe(201);
    expect((await applicationOf(key))?.state).toBe("done");
  });

  test("that is too near its colour is said, and without a name it is asked whose it is", async () => {
    const { key } = await createSalon();
    const nameless = { uid: "nameless", start: local("08 11:00"), summary: "Skin test" };
    const answer = await push(key, diaryText([colour, skinTest("10 11:00", "10 11:15"), nameless]));
    expect(await answer.json()).toMatchObject({
      counts: { tests: 1, unsorted: 1 },
      unsorted: [{ uid: "nameless", why: { code: "test-no-name" } }],
    });
    const [plan] = await plansOf(key);
    expect(plan?.why.map(({ code }) => code)).toContain("appointment-too-late");
  });

  test("goes with its diary", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([colour]));
    await push(key, diaryText([skinTest("08 11:00", "08 11:15")]), "tests");
    expect((await applicationOf(key))?.opens).toBe("2026-12-08T11:00:00Z");
    expect((await ask(key, "DELETE", "/api/salon/diaries/tests")).status).toBe(204);
    expect((await applicationOf(key))?.due).toBe("2026-12-09T10:30:00Z");
  });
});

describe("GET /api/salon/earliest", () => {
  const KIT = {
    ...MINIMAL,
    country: "GB",
    holidays: { country: "GB", region: "ENG" },
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    opening: { tue: ["09:00-17:30"], wed: ["09:00-17:30"], thu: ["09:00-17:30"], fri: ["09:00-17:30"] },
  };
  const earliestOf = async (key: string, query = "") => {
    const answer = await ask(key, "GET", `/api/salon/earliest${query}`);
    return {
      status: answer.status,
      body: await answer.json<{
        routes: { route: string; start: string; why: { code: string; text: string } }[];
        detail?: string;
      }>(),
    };
  };

  test("gives each route's first start from now on, in the salon's order, with its reason", async () => {
    const { key } = await createSalon(KIT);
    const { body } = await earliestOf(key);
    // Tue 1 Dec 10:00: a walk-in now, 48 hours on is Thu 3 Dec 10:00. A kit posted today leaves at 16:30, comes on the third
    // delivery day, Fri 4 Dec 18:00, goes on Sat 5 Dec 08:15 at the soonest, 120 hours on is Thu 10 Dec 08:15: doors 09:00.
    expect(body.routes.map(({ route, start }) => [route, start])).toEqual([
      ["home-kit", "2026-12-10T09:00:00Z"],
      ["in-salon", "2026-12-03T10:00:00Z"],
    ]);
    for (const { why } of body.routes)
      expect(why).toMatchObject({ code: "earliest", text: expect.stringMatching(/no free chair/) });
  });

  test("takes another moment, a date in the salon's zone or an instant, but none before now", async () => {
    const { key } = await createSalon(KIT);
    const walkInAfter = async (after: string) => (await earliestOf(key, `?after=${after}`)).body.routes[1]?.start;
    // Friday 25 December 2026 is a holiday, the salon opens again on Tuesday 29: in at 09:15, 48 hours on.
    expect(await walkInAfter("2026-12-25")).toBe("2026-12-31T09:15:00Z");
    expect(await walkInAfter("2026-12-08T12:00:00%2B01:00")).toBe("2026-12-10T11:00:00Z");
    expect(await walkInAfter("2020-01-01")).toBe("2026-12-03T10:00:00Z");
  });

  test("knows the holidays of years ahead, and refuses what nobody knows", async () => {
    const { key } = await createSalon(KIT);
    // Good Friday 19 April 2030 (Computus): in on Thu 18 April 09:15, 48 hours on is Saturday, shut; Tuesday 23 at 09:00.
    expect((await earliestOf(key, "?after=2030-04-18")).body.routes[1]?.start).toBe("2030-04-23T08:00:00Z");
    // From Thursday 17:00 on nobody is taken in until Tuesday 23: without the holiday it would be Friday's 09:15.
    expect((await earliestOf(key, "?after=2030-04-18T16:00:01Z")).body.routes[1]?.start).toBe("2030-04-25T08:15:00Z");
    const refused = await earliestOf(key, "?after=2099-01-01");
    expect([refused.status, refused.body.detail]).toEqual([422, expect.stringMatching(/10 years ahead/)]);
    expect((await earliestOf(key, "?after=soon")).status).toBe(422);
    expect((await earliestOf(key, "?before=2026-12-25")).status).toBe(422);
    expect((await send("/api/salon/earliest")).status).toBe(401);
  });

  test("agrees with a count-back under the same key: one minute sooner does not fit, nor years ahead", async () => {
    const { key } = await createSalon(KIT);
    for (const after of ["2026-12-22T12:00:00Z", "2031-04-09T12:00:00Z"]) {
      for (const { route, start } of (await earliestOf(key, `?after=${after}`)).body.routes) {
        const fits = async (at: string): Promise<boolean | undefined> => {
          const answer = await ask(key, "POST", "/api/count-back", { start: at, now: after });
          const plan = await answer.json<{ routes: { route: string; fits: boolean }[] }>();
          return plan.routes.find((each) => each.route === route)?.fits;
        };
        expect(await fits(start), `${route} ${start}`).toBe(true);
        expect(await fits(new Date(Date.parse(start) - 60_000).toISOString().slice(0, 19) + "Z")).toBe(
          // The doors may open only then: a start before them is no start, though the test would fit.
          start.endsWith("T09:00:00Z") || start.endsWith("T08:00:00Z"),
        );
      }
    }
  });
});
