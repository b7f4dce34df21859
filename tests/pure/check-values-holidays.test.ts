/**
 * Which days close, typed in from gov.uk and held against the data set; and what they do to a walk-in and a kit. Days that
 * the data lack are shown to be lacking, so that a newer release changes the row openly. H1, H2 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import { type HolidayTable, holidayPlace, loadHolidays, type NamedDay } from "../../src/plan/holidays.ts";
import type { Rules } from "../../src/plan/rules.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatDay, HOUR, parseDay } from "../../src/time/instant.ts";
import { dueIn, HOME_KIT, local, planFor, rulesOf, SIX_DAYS, shown, WALK_IN } from "./check-values-salon.ts";
import { makeFact } from "./plan-arbitraries.ts";

/** gov.uk, bank holidays (alphagov/frontend, lib/data/bank-holidays.json, file of 25 February 2026): England and Wales. */
const ENGLAND = {
  2026: "01-01 04-03 04-06 05-04 05-25 08-31 12-25 12-28",
  2027: "01-01 03-26 03-29 05-03 05-31 08-30 12-27 12-28",
  2028: "01-03 04-14 04-17 05-01 05-29 08-28 12-25 12-26",
};
/** The same list: Scotland. */
const SCOTLAND = {
  2026: "01-01 01-02 04-03 05-04 05-25 06-15 08-03 11-30 12-25 12-28",
  2027: "01-01 01-04 03-26 05-03 05-31 08-02 11-30 12-27 12-28",
  2028: "01-03 01-04 04-14 05-01 05-29 08-07 11-30 12-25 12-26",
};
/** The same list: Northern Ireland has England's days and these. */
const ULSTER_ALONE = { 2026: "03-17 07-13", 2027: "03-17 07-12", 2028: "03-17 07-12" };

const datesOf = (years: Readonly<Record<string, string>>): readonly string[] =>
  Object.entries(years).flatMap(([year, days]) => days.split(" ").map((day) => `${year}-${day}`));
/** Weekend dates behind a substitute: gov.uk names the substitute alone, the data both (date-holidays 3.37.0). */
const TRUE_DATES = ["2026-12-26", "2027-12-25", "2027-12-26", "2028-01-01"];
const SCOTLAND_ONE_OFF = "2026-06-15";

const dates = (days: readonly NamedDay[]): readonly string[] => days.map(({ day }) => formatDay(day));
const table = (region: string | null, country: string | null = "GB"): Promise<HolidayTable> =>
  loadHolidays(country, region, 2026, 2028);

describe("what gov.uk lists and what closes", () => {
  test("H1: gov.uk lists eight days for England and Wales in 2026, the last the substitute of 28 December", () => {
    expect(datesOf(ENGLAND).filter((date) => date.startsWith("2026"))).toHaveLength(8);
  });
  test.each([
    ["England", "ENG", [...datesOf(ENGLAND), ...TRUE_DATES]],
    ["Wales", "WLS", [...datesOf(ENGLAND), ...TRUE_DATES]],
    [
      "Scotland, but for 15 June 2026,",
      "SCT",
      [...datesOf(SCOTLAND).filter((date) => date !== SCOTLAND_ONE_OFF), ...TRUE_DATES, "2027-01-02", "2028-01-02"],
    ],
    ["Northern Ireland", "NIR", [...datesOf(ENGLAND), ...datesOf(ULSTER_ALONE), ...TRUE_DATES, "2026-07-12"]],
  ])(
    "H1, H3, H4: %s closes on gov.uk's days of 2026 to 2028 and the true dates behind the substitutes, on no other",
    async (_where, region, expected) => {
      const known = await table(region);
      expect(known.place).toBe("known");
      expect(dates(known.salon)).toEqual(expected.toSorted());
      expect(dates(known.post)).toEqual(expected.toSorted());
    },
  );
  test("true dates of 2025 close as well: St Andrew's Sunday in Scotland, Saturday 12 July in Northern Ireland (a run of date-holidays 3.37.0)", async () => {
    expect(dates((await loadHolidays("GB", "SCT", 2025, 2025)).post)).toContain("2025-11-30");
    expect(dates((await loadHolidays("GB", "NIR", 2025, 2025)).post)).toContain("2025-07-12");
  });
  test("H2: Scotland's 15 June 2026 is on gov.uk's list (Royal Proclamation, 5 February 2026) and not in date-holidays 3.37.0", async () => {
    expect(datesOf(SCOTLAND)).toContain(SCOTLAND_ONE_OFF);
    const known = await table("SCT");
    // Where a newer release has it, this row and the advice to add it are to go.
    expect([...dates(known.salon), ...dates(known.post)]).not.toContain(SCOTLAND_ONE_OFF);
  });
});

const MON_SAT = ["mon", "tue", "wed", "thu", "fri", "sat"];
const NEXT_DAY = { collection: MON_SAT, delivery: MON_SAT, transit: 1 };

const salonOf = (holidays: HolidayTable, more: Record<string, unknown> = {}): Rules =>
  rulesOf({ tests: [WALK_IN, HOME_KIT], opening: SIX_DAYS, post: NEXT_DAY, ...more }, holidays);
/** By when the walk-in of a colour is due. */
const walkInBy = (rules: Rules, start: string): string => dueIn(rules, planFor(rules, start), "application");
/** Whether a kit posted at noon of a date is expected by the evening of another: its colour is 120 hours after 20:00. */
const isThere = (rules: Rules, posted: string, date: string): boolean => {
  const record = makeFact({ kind: "posted", at: local(rules, `${posted} 12:00`) });
  const start = shown(rules, local(rules, `${date} 20:00`) + 120 * HOUR);
  const plan = planFor(rules, start, [record], `${posted} 12:00`);
  return plan.routes.find(({ route }) => route === "home-kit")?.fits === true;
};

describe("holidays in whole bookings (computed from gov.uk's list: 48 hours back into opening hours, the next day by post)", () => {
  test("H2: holidays.add closes Scotland's salon and post on 15 June 2026", async () => {
    const known = await table("SCT");
    const [without, added] = [salonOf(known), salonOf(known, { holidays: { add: [SCOTLAND_ONE_OFF] } })];
    // 48 hours before Wednesday 17 June 10:00 is that Monday; closed, it leaves Saturday, whose last walk-in is 17:00.
    expect([walkInBy(without, "2026-06-17 10:00"), walkInBy(added, "2026-06-17 10:00")]).toEqual([
      "2026-06-15 10:00",
      "2026-06-13 17:00",
    ]);
    const monday = [without, added].map((rules) => isThere(rules, "2026-06-13", "2026-06-15"));
    const tuesday = [without, added].map((rules) => isThere(rules, "2026-06-13", "2026-06-16"));
    expect([monday, tuesday]).toEqual([
      [true, false],
      [true, true],
    ]);
    // In hand on Tuesday 16 for a test of Wednesday 17: Monday's collection, or else Saturday's.
    const kit = { tests: [HOME_KIT], holidays: { add: [SCOTLAND_ONE_OFF] } };
    const shipping = (rules: Rules): string => dueIn(rules, planFor(rules, "2026-06-22 10:30"), "shipping");
    expect([shipping(salonOf(known, { tests: [HOME_KIT] })), shipping(salonOf(known, kit))]).toEqual([
      "2026-06-15 16:30",
      "2026-06-13 16:30",
    ]);
  });
  test.each([
    ["ENG", "2026-04-04 17:00"],
    ["SCT", "2026-04-06 10:00"],
    ["NIR", "2026-04-04 17:00"],
  ])("H3: Easter Monday 6 April 2026 in %s", async (region, due) => {
    expect(walkInBy(salonOf(await table(region)), "2026-04-08 10:00")).toBe(due);
  });
  test("H4: both substitutes of Christmas 2027 and the weekend before them close, so the last walk-in is Friday 24 December", async () => {
    const rules = salonOf(await table("ENG"));
    expect(walkInBy(rules, "2027-12-30 10:00")).toBe("2027-12-24 17:00");
    // In 2026 the substitute is Monday 28 December and the true day Saturday 26.
    expect(walkInBy(rules, "2026-12-30 10:00")).toBe("2026-12-24 17:00");
  });
});

describe("regions (policy: counting.md 6)", () => {
  test.each(["SCT", "sct", "GB-SCT"])("%s is Scotland", async (region) => {
    expect(await table(region)).toEqual({ ...(await table("SCT")), region });
  });
  test("without a region any region's day closes the post, national days close the salon, and the table says so", async () => {
    const known = await table(null);
    expect(known.place).toBe("region-missing");
    const regional = [...datesOf(ULSTER_ALONE), "2026-01-02", "2026-08-03", "2026-08-31", "2026-11-30"];
    expect(dates(known.post)).toEqual(expect.arrayContaining(regional));
    expect(dates(known.salon).filter((date) => regional.includes(date))).toEqual([]);
    const everywhere = datesOf(ENGLAND).filter((date) => datesOf(SCOTLAND).includes(date));
    expect(dates(known.salon)).toEqual(expect.arrayContaining([...everywhere, ...TRUE_DATES]));
    // St Patrick's Day, Tuesday 17 March 2026: the doors are taken to be open, the post to be shut.
    const rules = salonOf(known);
    expect([walkInBy(rules, "2026-03-19 10:00"), walkInBy(salonOf(await table("NIR")), "2026-03-19 10:00")]).toEqual([
      "2026-03-17 10:00",
      "2026-03-16 17:00",
    ]);
    expect(["2026-03-17", "2026-03-18"].map((date) => isThere(rules, "2026-03-16", date))).toEqual([false, true]);
  });
  test("a region that the data do not know closes what a missing one does, and says so", async () => {
    const unknown = await table("Cornwall");
    expect(unknown).toEqual({ ...(await table(null)), region: "Cornwall", place: "region-unknown" });
  });
  test("a country without regions is known as it stands: Ireland's Good Friday and Monday 28 December 2026 close (date-holidays, type bank)", async () => {
    const ireland = await table(null, "IE");
    expect(ireland.place).toBe("known");
    expect(dates(ireland.post)).toEqual(expect.arrayContaining(["2026-04-03", "2026-12-26", "2026-12-28"]));
    expect(ireland.salon).toEqual(ireland.post);
    expect(await table("Leinster", "IE")).toEqual({ ...ireland, region: "Leinster", place: "region-unknown" });
  });
  test("a country that the data lack, Samoa, and none at all leave the added days alone", async () => {
    expect(await table(null, "WS")).toMatchObject({ place: "country-unknown", post: [], salon: [] });
    expect(await table(null, null)).toMatchObject({ place: "no-country", post: [], salon: [] });
    const apia = async (add: readonly string[]): Promise<string> => {
      const rules = salonOf(await table(null, "WS"), { zone: "Pacific/Apia", holidays: { country: "WS", add } });
      return walkInBy(rules, "2026-06-03 10:00");
    };
    // Independence Day, Monday 1 June, from memory.
    expect([await apia([]), await apia(["2026-06-01"])]).toEqual(["2026-06-01 10:00", "2026-05-30 17:00"]);
  });
  test("the country is the holidays' own, else the salon's; a zone is none", () => {
    const place = (given: object): unknown =>
      holidayPlace(settingsSchema.parse({ name: "A salon", zone: "Europe/London", tests: [WALK_IN], ...given }));
    expect(place({})).toEqual({ country: null, region: null });
    expect(place({ country: "GB" })).toEqual({ country: "GB", region: null });
    expect(place({ country: "GB", holidays: { region: "SCT" } })).toEqual({ country: "GB", region: "SCT" });
    expect(place({ country: "GB", holidays: { country: "IE" } })).toEqual({ country: "IE", region: null });
    expect(place({ country: "GB", holidays: { country: null } })).toEqual({ country: null, region: null });
    expect(place({ country: "GB", holidays: null })).toEqual({ country: null, region: null });
  });
});

describe("three calendars: the salon's, the post's, the country's (policy: counting.md 6)", () => {
  test("Saturday 4 July 2026 and its observed Friday both close in the United States; that the post works on the Friday is from memory", async () => {
    const america = await loadHolidays("US", "NY", 2026, 2026);
    expect(dates(america.post)).toEqual(expect.arrayContaining(["2026-07-03", "2026-07-04"]));
    const newYork = { zone: "America/New_York" };
    const both = salonOf(america, newYork);
    expect(walkInBy(both, "2026-07-06 10:00")).toBe("2026-07-02 17:00");
    expect(["2026-07-03", "2026-07-04", "2026-07-06"].map((date) => isThere(both, "2026-07-02", date))).toEqual([
      false,
      false,
      true,
    ]);
    const saturday = salonOf(america, {
      ...newYork,
      post: { ...NEXT_DAY, holidays: false, closed: ["2026-07-04"] },
    });
    expect(isThere(saturday, "2026-07-02", "2026-07-03")).toBe(true);
    expect(["2026-07-04", "2026-07-06"].map((date) => isThere(saturday, "2026-07-03", date))).toEqual([false, true]);
  });
  test("a carrier that works through holidays keeps none, added days included; the salon stays shut", async () => {
    const known = await table("ENG");
    const add = ["2026-06-15"];
    const working = salonOf(known, { post: { ...NEXT_DAY, holidays: false }, holidays: { add } });
    const resting = salonOf(known, { holidays: { add } });
    const there = (rules: Rules): readonly boolean[] => [
      isThere(rules, "2026-04-02", "2026-04-03"),
      isThere(rules, "2026-04-04", "2026-04-06"),
      isThere(rules, "2026-06-13", "2026-06-15"),
    ];
    expect([there(working), there(resting)]).toEqual([
      [true, true, true],
      [false, false, false],
    ]);
    expect([walkInBy(working, "2026-04-08 10:00"), walkInBy(working, "2026-06-17 10:00")]).toEqual([
      "2026-04-04 17:00",
      "2026-06-13 17:00",
    ]);
  });
  test("hours for holidays stand in place of the weekday's, and closed dates above both", async () => {
    const known = await table("ENG");
    const opening = { ...SIX_DAYS, holiday: ["10:00-14:00"] };
    const due = (start: string, closed: readonly string[] = []): string =>
      walkInBy(salonOf(known, { opening, closed }), start);
    // Easter Monday, 6 April 2026: from 10:15 to half an hour before 14:00.
    expect(due("2026-04-08 12:00")).toBe("2026-04-06 12:00");
    expect(due("2026-04-08 16:00")).toBe("2026-04-06 13:30");
    expect(due("2026-04-08 10:14")).toBe("2026-04-04 17:00");
    expect(due("2026-04-08 12:00", ["2026-04-06"])).toBe("2026-04-04 17:00");
    // Hours for holidays open a Sunday that is one: 26 December 2027.
    expect(due("2027-12-28 12:00")).toBe("2027-12-26 12:00");
    expect(due("2027-12-28 12:00", ["2027-12-20/2027-12-31"])).toBe("2027-12-18 17:00");
  });
  test("a salon without set hours is shut on a holiday from its first second to its last (counting.md 5)", async () => {
    const rules = salonOf(await table("ENG"), { opening: null });
    // 48 hours before Wednesday 8 April is Easter Monday; before Thursday 9 it is Tuesday, whose day begins at midnight.
    expect([walkInBy(rules, "2026-04-08 10:00"), walkInBy(rules, "2026-04-09 00:15")]).toEqual([
      "2026-04-06 00:00",
      "2026-04-07 00:15",
    ]);
    expect(walkInBy(rules, "2026-04-09 00:14")).toBe("2026-04-06 00:00");
  });
  test("closed dates shut the salon and not the post, post.closed the post and not the salon", async () => {
    const known = await table("ENG");
    const salon = salonOf(known, { closed: ["2026-06-15"] });
    const post = salonOf(known, { post: { ...NEXT_DAY, closed: ["2026-06-15"] } });
    expect([walkInBy(salon, "2026-06-17 10:00"), walkInBy(post, "2026-06-17 10:00")]).toEqual([
      "2026-06-13 17:00",
      "2026-06-15 10:00",
    ]);
    expect([salon, post].map((rules) => isThere(rules, "2026-06-13", "2026-06-15"))).toEqual([true, false]);
  });
  test("an added range closes from its first day to its last, both included", async () => {
    const rules = salonOf(await table("ENG"), { holidays: { add: ["2026-06-12/2026-06-16"] } });
    expect(
      ["2026-06-19 10:00", "2026-06-18 10:00", "2026-06-14 10:00", "2026-06-13 10:00"].map((start) =>
        walkInBy(rules, start),
      ),
    ).toEqual(["2026-06-17 10:00", "2026-06-11 17:00", "2026-06-11 17:00", "2026-06-11 10:00"]);
    expect(["2026-06-12", "2026-06-16", "2026-06-17"].map((date) => isThere(rules, "2026-06-11", date))).toEqual([
      false,
      false,
      true,
    ]);
  });
});

test("a day off of one town counts for the post where no region is set (date-holidays 3.37.0, DE-BY-A: 8 August)", async () => {
  const closed = async (country: string, region: string | null, list: "post" | "salon", date: string) =>
    (await loadHolidays(country, region, 2026, 2026))[list].some(({ day }) => day === parseDay(date));
  expect(await closed("DE", null, "post", "2026-08-08")).toBe(true);
  expect(await closed("DE", null, "salon", "2026-08-08")).toBe(false);
  expect(await closed("DE", "BY", "post", "2026-08-08")).toBe(false);
  expect(await closed("DE", "BY-A", "post", "2026-08-08")).toBe(true);
  // Milan's patron, Sant'Ambrogio, 7 December.
  expect(await closed("IT", null, "post", "2026-12-07")).toBe(true);
});
