/**
 * Kits by post over public holidays, each row a whole booking: in hand, handed over, on its way. Days that close are those
 * of gov.uk's list and the true dates behind its substitutes. K1, K2 … only tell the rows apart.
 */
import { beforeAll, describe, expect, test } from "vitest";
import { type HolidayTable, loadHolidays } from "../../src/plan/holidays.ts";
import type { Rules } from "../../src/plan/rules.ts";
import { HOUR, parseDay } from "../../src/time/instant.ts";
import { dueIn, HOME_KIT, local, opensIn, planFor, rulesOf, shown, SIX_DAYS } from "./check-values-salon.ts";
import { makeFact } from "./plan-arbitraries.ts";

const MON_FRI = ["mon", "tue", "wed", "thu", "fri"];
const MON_SAT = [...MON_FRI, "sat"];
/** Six days a week, the next day (Ofcom, consultation of 30 January 2025). */
const NEXT_DAY = { collection: MON_SAT, delivery: MON_SAT, transit: 1 };
/** Within three working days, no Saturday (Ofcom's decision of 10 July 2025; D+3 of Directive 97/67/EC, Annex II). */
const THREE_DAYS = { collection: MON_FRI, delivery: MON_FRI, transit: 3 };

const kitSalon = (post: object, holidays: HolidayTable, more: Record<string, unknown> = {}): Rules =>
  rulesOf({ tests: [HOME_KIT], opening: SIX_DAYS, post, ...more }, holidays);

/**
 * Of the evenings of these dates, the first by which a kit posted then is expected, asked of whole bookings: a colour is
 * 120 hours after 20:00 of each, so its test would go on at 20:00.
 */
const arrivesOf = (rules: Rules, posted: string, dates: readonly string[]): string | undefined => {
  const record = makeFact({ kind: "posted", at: local(rules, posted) });
  return dates.find((date) => {
    const start = shown(rules, local(rules, `${date} 20:00`) + 120 * HOUR);
    const plan = planFor(rules, start, [record], posted);
    return plan.routes[0]?.fits === true;
  });
};
/** Dates from the day after a posting on, one after another. */
const datesAfter = (posted: string): readonly string[] => {
  const first = (parseDay(posted.slice(0, 10)) as number) + 1;
  return Array.from({ length: 20 }, (_, index) => new Date((first + index) * 86_400_000).toISOString().slice(0, 10));
};
const arrives = (rules: Rules, posted: string): string | undefined => arrivesOf(rules, posted, datesAfter(posted));

describe("the post over public holidays", () => {
  let [england, scotland, ulster, england2021] = [] as unknown as [
    HolidayTable,
    HolidayTable,
    HolidayTable,
    HolidayTable,
  ];
  beforeAll(async () => {
    england = await loadHolidays("GB", "ENG", 2025, 2028);
    scotland = await loadHolidays("GB", "SCT", 2025, 2028);
    ulster = await loadHolidays("GB", "NIR", 2025, 2028);
    england2021 = await loadHolidays("GB", "ENG", 2020, 2022);
  });

  test("K1: handed over by the second of the last collection it goes that day, a second later the next (Directive 97/67/EC, Annex II, note)", () => {
    const rules = kitSalon({ transit: 1 }, england);
    expect(arrives(rules, "2026-12-07 16:30")).toBe("2026-12-08");
    expect(arrives(rules, "2026-12-07 16:30:01")).toBe("2026-12-09");
    // The next day of collection after Friday is Monday.
    expect(arrives(rules, "2026-12-11 16:30")).toBe("2026-12-12");
    expect(arrives(rules, "2026-12-11 16:30:01")).toBe("2026-12-15");
  });

  const posted = [
    ["K2", "ENG", "2026-04-02", NEXT_DAY, "2026-04-04"],
    ["K3, England", "ENG", "2026-04-04", NEXT_DAY, "2026-04-07"],
    ["K3, Scotland", "SCT", "2026-04-04", NEXT_DAY, "2026-04-06"],
    ["K4, England", "ENG", "2026-04-01", THREE_DAYS, "2026-04-08"],
    ["K4, Scotland", "SCT", "2026-04-01", THREE_DAYS, "2026-04-07"],
    ["K10, England", "ENG", "2026-03-16", NEXT_DAY, "2026-03-17"],
    ["K10, Northern Ireland", "NIR", "2026-03-16", NEXT_DAY, "2026-03-18"],
  ] as const;
  test.each(posted)(
    "%s: in %s a kit posted on %s (computed from gov.uk's bank holidays and Ofcom's service days)",
    (_row, region, on, post, expected) => {
      const holidays = region === "SCT" ? scotland : region === "NIR" ? ulster : england;
      expect(arrives(kitSalon(post, holidays), `${on} 12:00`)).toBe(expected);
    },
  );

  /** No collections or deliveries on Saturdays 25 December 2021 and 1 January 2022 nor on the substitutes (press, December 2021). */
  test.each([
    ["K6", "2026-12-24", "2026-12-29", "2026-12-26"],
    ["K7, Christmas", "2027-12-24", "2027-12-29", "2027-12-25"],
    ["K7, New Year", "2027-12-31", "2028-01-04", "2028-01-01"],
  ])(
    "%s: posted on %s a kit is there on %s, true day and substitute both closed (computed from gov.uk and the press of December 2021)",
    (_row, on, expected, wrong) => {
      expect(arrives(kitSalon(NEXT_DAY, england), `${on} 12:00`)).toBe(expected);
      // By gov.uk's list alone, which names only the substitute, it would come on the true holiday.
      const listed = ["2026-12-25", "2026-12-28", "2027-12-27", "2027-12-28", "2028-01-03"];
      const alone = { ...england, post: listed.map((date) => ({ day: parseDay(date) as number, name: "listed" })) };
      expect(arrives(kitSalon(NEXT_DAY, alone), `${on} 12:00`)).toBe(wrong);
    },
  );

  /** Shipping due, arrival due, application opens and due, of a colour with these settings. */
  const bookingOf = (rules: Rules, start: string): readonly string[] => {
    const plan = planFor(rules, start);
    return [
      dueIn(rules, plan, "shipping"),
      dueIn(rules, plan, "arrival"),
      opensIn(rules, plan, "application"),
      dueIn(rules, plan, "application"),
    ];
  };

  test("K5: in hand by Tuesday 7 April 2026, the next day leaves on Saturday 4, three days on Tuesday 31 March (computed from gov.uk and Ofcom)", () => {
    // 120 hours before Monday 13 April 10:30 is Wednesday 8; that morning the kit must be there, so it came on Tuesday.
    const rest = ["2026-04-07 18:00", "2026-04-08 08:00", "2026-04-08 10:30"];
    const quick = kitSalon(NEXT_DAY, england);
    expect(bookingOf(quick, "2026-04-13 10:30")).toEqual(["2026-04-04 16:30", ...rest]);
    expect(bookingOf(kitSalon(THREE_DAYS, england), "2026-04-13 10:30")).toEqual(["2026-03-31 16:30", ...rest]);
    const fits = ["2026-04-04 16:30", "2026-04-04 16:30:01"].map(
      (now) => planFor(quick, "2026-04-13 10:30", [], now).routes[0]?.fits,
    );
    expect(fits).toEqual([true, false]);
  });
  test("K5: a salon that is shut from Good Friday to Easter Monday hands it over on Thursday evening, for Saturday's collection", () => {
    const { sat: _shut, ...opening } = SIX_DAYS;
    const rules = kitSalon(NEXT_DAY, england, { opening });
    expect(bookingOf(rules, "2026-04-13 10:30")[0]).toBe("2026-04-02 17:30");
  });
  test("K8: in hand by Tuesday 22 December 2026 it leaves on Monday 21, or Thursday 17 (computed from gov.uk and Ofcom)", () => {
    const open = { opening: { ...SIX_DAYS, holiday: ["10:00-15:00"] } };
    const rest = ["2026-12-22 18:00", "2026-12-23 08:00", "2026-12-23 10:30"];
    expect(bookingOf(kitSalon(NEXT_DAY, england, open), "2026-12-28 10:30")).toEqual(["2026-12-21 16:30", ...rest]);
    expect(bookingOf(kitSalon(THREE_DAYS, england, open), "2026-12-28 10:30")).toEqual(["2026-12-17 16:30", ...rest]);
  });
  test("K9: for use from Monday 3 May 2021, a bank holiday, it is in hand on Friday 30 April and sent on Tuesday 27 (a UK test provider's FAQ, May 2021)", () => {
    const rules = kitSalon(THREE_DAYS, england2021, { opening: { ...SIX_DAYS, holiday: ["10:00-15:00"] } });
    expect(bookingOf(rules, "2021-05-08 10:30")).toEqual([
      "2021-04-27 16:30",
      "2021-04-30 18:00",
      "2021-05-03 08:00",
      "2021-05-03 10:30",
    ]);
  });
});
