/** The front door and its file, as anybody meets them. Dates are the trade's check values (trade.md CP1 to CP5), or reckoned by hand. */
import ICAL from "ical.js";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { PRESETS } from "../../src/plan/protocols.ts";
import { TESTS_OFFERED } from "../../src/web/presetWords.ts";
import { type PlanSeen, send, setClock } from "./client.ts";

beforeEach(() => setClock("2026-11-20T09:00:00Z"));
afterEach(() => void vi.useRealTimers());

const LONDON = { date: "2026-12-11", time: "10:30", test: "", zone: "Europe/London", country: "GB" };
const asked = (more: Readonly<Record<string, string>> = {}): string =>
  `/?${new URLSearchParams({ ...LONDON, ...more }).toString()}`;
const pageOf = async (path: string, status = 200): Promise<string> => {
  const answer = await send(path, { headers: { accept: "text/html" } });
  expect(answer.status).toBe(status);
  expect(answer.headers.get("content-security-policy")).not.toContain("script-src");
  expect(answer.headers.get("cache-control")).toBe("private, no-store");
  return answer.text();
};
/** What a reader sees, in one line. */
const seen = (html: string): string =>
  html
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&#39;", "'")
    .replaceAll(/\s+/g, " ");
const valueOf = (html: string, id: string): string =>
  new RegExp(`<input[^>]*value="([^"]*)"[^>]*id="${id}"`).exec(html)?.[1] ?? "?";

describe("the front door", () => {
  test("asks for one appointment and says what it is, with the fixed words of no country", async () => {
    const text = seen(await pageOf("/"));
    expect(text).toContain("Count back from one appointment");
    expect(text).toContain("call your local emergency number now and say anaphylaxis");
    expect(text).not.toMatch(/\bsafe\b/i);
  });

  test("counts back from Friday 10:30 by the check values, as list, picture and ways", async () => {
    const html = await pageOf(asked());
    const text = seen(html);
    for (const words of [
      "First: Answer the salon's questions by Tue 1 Dec, 16:30",
      "The colour starts on Fri 11 Dec 2026, 10:30",
      "The salon posts your skin test kit by Wed 2 Dec, 16:30",
      "from Sun 6 Dec 2026, 08:00 to 10:30",
      "Take the skin test off 48 hours after you put it on (Tue 10:30 if that was Sun 10:30)",
      "Look at your skin test 48 hours 30 minutes after you put it on (Tue 11:00 if that was Sun 10:30)",
      "Look at your skin test 96 hours after you put it on (Thu 10:30 if that was Sun 10:30)",
      "A kit sent home fits until Wed 2 Dec 2026, 16:30.",
      "A test at the salon fits until Wed 9 Dec 2026, 10:30.",
      "call 999 now and say anaphylaxis",
      "A clear test does not mean that no reaction will happen.",
    ]) {
      expect(text).toContain(words);
    }
    expect(html.match(/<svg[^>]*role="img"/g)).toHaveLength(1);
    expect(html).not.toMatch(/\sstyle=|<script/);
    expect(html.length).toBeLessThan(60_000);
  });

  test("gives the test that was asked for, and says the same as the call", async () => {
    for (const name of Object.keys(PRESETS)) {
      const route = name === "home-kit-120h" ? "home-kit" : "in-salon";
      const answer = await send("/api/count-back", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({
          start: "2026-12-11T10:30:00Z",
          zone: "Europe/London",
          settings: { country: "GB", tests: [{ route, protocol: name }] },
        }),
      });
      const plan = await answer.json<PlanSeen>();
      const [only] = plan.routes;
      const until = new Date(only?.until ?? "");
      const day = `${until.getUTCDate()} Dec 2026, ${only?.until?.slice(11, 16)}`;
      expect(seen(await pageOf(asked({ test: name })))).toContain(`${day}.`);
    }
    expect(TESTS_OFFERED.map(({ name }) => name).sort()).toEqual(["", ...Object.keys(PRESETS)].sort());
  });

  test("keeps 48 exact hours over the change of the clocks", async () => {
    // Monday 29 March 2027, 09:00 in summer time is 08:00 UTC; 48 hours before is 08:00 on the Saturday's clock.
    const text = seen(await pageOf(asked({ date: "2027-03-29", time: "09:00", test: "salon-48h" })));
    expect(text).toContain("A test at the salon fits until Sat 27 Mar 2027, 08:00.");
  });

  test("says so where nothing fits, with the earliest start that a test begun now allows", async () => {
    const text = seen(await pageOf(asked({ date: "2026-11-21", time: "15:00" })));
    expect(text).toContain("No test fits any more before this colour");
    // A walk-in at once, 48 hours before: Sunday 09:00. A kit takes longer.
    expect(text).toContain(
      "The earliest colour that a test begun now allows is on Sun 22 Nov 2026, 09:00: a test at the salon.",
    );
    expect(text).toContain("A kit sent home does not fit any more.");
  });

  test.each([
    [{ date: "" }, "The day of the colour is missing"],
    [{ date: "2026-02-30" }, "“2026-02-30” is no day"],
    [{ time: "" }, "The time at which the colour starts is missing"],
    [{ time: "25:00" }, "“25:00” is no time of day"],
    [{ zone: "" }, "The time zone is missing"],
    [{ zone: "Europe/Londn" }, "“Europe/Londn” is the name of no time zone"],
    [{ test: "salon-49h" }, "“salon-49h” is none of these tests"],
    [{ country: "XX" }, "“XX” is none of these countries"],
    [{ date: "2026-11-20", time: "08:59" }, "That start has passed: in Europe/London it is Fri 20 Nov 2026, 09:00."],
    [{ date: "3000-01-01" }, "That is too far away: give a day at most 10 years from now"],
    [
      { date: "2027-03-28", time: "01:30" },
      "There is no 01:30 on that day in Europe/London: the clocks go forward over it. Give the time that the clock will show, such as 02:30.",
    ],
    [{ zone: `"><script>alert(1)</script>` }, "is the name of no time zone"],
    [{ date: "x".repeat(5_000) }, "is no day"],
  ])("says at the field what is wrong with %o, and keeps what was typed", async (wrong, words) => {
    const html = await pageOf(asked(wrong), 422);
    const [field] = Object.keys(wrong).toReversed() as [keyof typeof LONDON];
    expect(seen(html)).toContain(words);
    expect(html).not.toContain("<script>");
    expect(html).toMatch(/aria-invalid="true" aria-describedby="\w+-error"/);
    for (const id of ["date", "time", "zone"].filter((each) => !(each in wrong))) {
      expect(valueOf(html, id)).toBe(LONDON[id as keyof typeof LONDON]);
    }
    if (wrong[field as keyof typeof wrong] === "Europe/Londn") expect(valueOf(html, "zone")).toBe("Europe/Londn");
    expect(html).not.toContain("/count-back.ics");
  });

  test("takes the first of a time that comes twice, and says so", async () => {
    const html = await pageOf(asked({ date: "2027-10-31", time: "01:30", test: "salon-48h" }));
    expect(seen(html)).toContain("01:30 comes twice on that day");
    expect(html).toContain("start=2027-10-31T00%3A30%3A00Z");
  });

  test("minds no other parameter, and takes one of two", async () => {
    await pageOf("/?utm_source=x&fbclid=y");
    await pageOf(`${asked()}&fbclid=y&date=2026-12-12`);
  });
});

describe("the file of one appointment", () => {
  const fileOf = async (query: string): Promise<string> => {
    const answer = await send(`/count-back.ics?${query}`);
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect(answer.headers.get("content-disposition")).toBe('attachment; filename="count-back.ics"');
    return answer.text();
  };
  /** Kind, start and end of every event, by another reader. */
  const read = (text: string): readonly (readonly [string, string, string])[] => {
    const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
    for (const zone of calendar.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);
    const events = calendar.getAllSubcomponents("vevent").map((component) => {
      const event = new ICAL.Event(component, { exceptions: [] });
      const iso = (time: ICAL.Time): string => new Date(time.toUnixTime() * 1000).toISOString().slice(0, 16);
      return [String(component.getFirstPropertyValue("categories")), iso(event.startDate), iso(event.endDate)] as const;
    });
    ICAL.TimezoneService.reset();
    return events;
  };

  test("has every step of the check values and the appointment, whatever way the start is written", async () => {
    const local = await fileOf("start=2026-12-11T10:30&zone=Europe/London");
    expect(read(local)).toEqual([
      ["screening", "2026-12-01T15:30", "2026-12-01T16:30"],
      ["shipping", "2026-12-02T15:30", "2026-12-02T16:30"],
      ["arrival", "2026-12-05T17:00", "2026-12-05T18:00"],
      ["application", "2026-12-06T09:30", "2026-12-06T10:30"],
      ["removal", "2026-12-08T10:30", "2026-12-08T10:45"],
      ["reading", "2026-12-08T11:00", "2026-12-08T11:15"],
      ["reading", "2026-12-10T10:30", "2026-12-10T10:45"],
      ["result", "2026-12-11T09:30", "2026-12-11T10:30"],
      ["colour", "2026-12-11T10:30", "2026-12-11T11:30"],
    ]);
    for (const start of ["2026-12-11T10:30:00Z", "2026-12-11T11:30:00%2B01:00", "2026-12-11T11:30:00+01:00"]) {
      expect(await fileOf(`start=${start}&zone=Europe/London`)).toBe(local);
    }
    const salon = read(await fileOf("start=2026-12-11T10:30:00Z&test=salon-48h"));
    expect(salon.find(([kind]) => kind === "application")?.[2]).toBe("2026-12-09T10:30");
  });

  test("says in each event that it does not follow, with the emergency words, and asks nobody to look again", async () => {
    const text = await fileOf("start=2026-12-11T10:30&zone=Europe/London&country=GB");
    const unfolded = text.replaceAll("\r\n ", "");
    const descriptions = unfolded.match(/^DESCRIPTION:This entry was saved once and does not follow.*$/gm) ?? [];
    expect(descriptions.filter((line) => line.includes("call 999 now"))).toHaveLength(9);
    expect(text).not.toContain("REFRESH-INTERVAL");
    expect(unfolded).not.toMatch(/^URL:|http/m);
  });

  test("gives two appointments events that are not each other's, and one appointment the same again", async () => {
    const uids = async (start: string) =>
      (await fileOf(`start=${start}&zone=Europe/London`)).match(/^UID:\S+$/gm) ?? [];
    const [one, again, other] = [
      await uids("2026-12-11T10:30"),
      await uids("2026-12-11T10:30:00"),
      await uids("2026-12-12T10:30"),
    ];
    expect(again).toEqual(one);
    expect(new Set([...one, ...other]).size).toBe(one.length + other.length);
  });

  test.each([
    ["", "start"],
    ["start=soon", "start"],
    ["start=2026-12-11T10:30", "start"],
    ["start=2026-12-11T10:30&zone=Mars/Base", "zone"],
    ["start=3000-01-01T10:30:00Z", "start"],
    ["start=2026-12-11T10:30:00Z&test=salon-49h", "test"],
    ["start=2026-12-11T10:30:00Z&country=gb", "country"],
    ["start=2026-12-11T10:30:00Z&colour=red", "colour"],
  ])("is refused for %s with the thing that is wrong", async (query, at) => {
    const answer = await send(`/count-back.ics?${query}`);
    expect([answer.status, answer.headers.get("content-type")]).toEqual([422, "application/problem+json"]);
    const { errors } = await answer.json<{ errors: { at: string; remedy: string }[] }>();
    expect(errors.map((error) => error.at)).toEqual([at]);
    expect(errors[0]?.remedy).not.toBe("");
  });
});
