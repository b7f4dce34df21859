/**
 * Exact hours across changes of the clocks, counted back by hand. Every row rests on the IANA database as the runtime
 * knows it, and its release is printed: where a law changes, a row is to change openly. C1, C2 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import { formatInstant, HOUR, parseDay, weekdayOf } from "../../src/time/instant.ts";
import { counts, dueIn, local, planFor, rulesOf, shown, WALK_IN } from "./check-values-salon.ts";

const IANA = `IANA time zone database ${process.versions["tz"]}`;
const DAY = 24 * HOUR;
const WEEK = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

describe(`48 hours are not two days (computed from RFC 5545 §3.3.6 and the ${IANA})`, () => {
  const rows = [
    ["C1", "Europe/London", "2026-03-30 10:00", "2026-03-28 09:00", 0, 47],
    ["C2", "Europe/London", "2026-10-26 10:00", "2026-10-24 11:00", 1, 49],
    ["C3", "America/New_York", "2026-03-09 10:00", "2026-03-07 09:00", -5, 47],
    ["C4", "America/New_York", "2026-11-02 10:00", "2026-10-31 11:00", -4, 49],
    ["C5", "Australia/Sydney", "2026-04-06 10:00", "2026-04-04 11:00", 11, 49],
    ["C6", "Australia/Sydney", "2026-10-05 10:00", "2026-10-03 09:00", 10, 47],
    ["C7", "Australia/Lord_Howe", "2026-10-05 10:00", "2026-10-03 09:30", 10.5, 47.5],
    ["C8", "Pacific/Apia", "2026-10-05 10:00", "2026-10-03 10:00", 13, 48],
    ["C9", "Africa/Casablanca", "2026-02-16 10:00", "2026-02-14 11:00", 1, 49],
    ["C10", "Africa/Cairo", "2026-04-25 10:00", "2026-04-23 09:00", 2, 47],
  ] as const;
  test.each(rows)("%s: in %s a colour at %s is tested by %s", (_row, zone, start, due, offsetHours, twoDays) => {
    const rules = rulesOf({ zone, tests: [WALK_IN] });
    expect(dueIn(rules, planFor(rules, start), "application")).toBe(due);
    expect(rules.zone.offsetAt(local(rules, due)) / HOUR).toBe(offsetHours);
    expect([counts(rules, start, due), counts(rules, start, `${due}:01`)]).toEqual([true, false]);
    // The same time of day two days before, as a calendar counts.
    const begins = local(rules, start);
    const calendar = rules.zone.diaryReading(rules.zone.wallAt(begins) - 2 * DAY);
    expect((begins - calendar) / HOUR).toBe(twoDays);
  });
  test.each(rows)(
    "%s: a salon of %s that closes at that very time still takes it (%s, %s)",
    (_row, zone, start, due) => {
      const opening = Object.fromEntries(WEEK.map((name) => [name, [`00:00-${due.slice(11)}`]]));
      const rules = rulesOf({ zone, tests: [WALK_IN], opening, lastWalkIn: "PT0H" });
      expect(dueIn(rules, planFor(rules, start), "application")).toBe(due);
    },
  );
});

describe(`a day left out (computed from the ${IANA})`, () => {
  const wash = { route: "in-salon", protocol: "wash-off-24h" };
  test("C11: in Apia 24 hours before Saturday 31 December 2011 10:00 it was Thursday 29 December 10:00", () => {
    const rules = rulesOf({ zone: "Pacific/Apia", tests: [wash] });
    expect(dueIn(rules, planFor(rules, "2011-12-31 10:00"), "application")).toBe("2011-12-29 10:00");
    const [on, start] = [local(rules, "2011-12-29 10:00"), local(rules, "2011-12-31 10:00")];
    expect([rules.zone.offsetAt(on) / HOUR, rules.zone.offsetAt(start) / HOUR, (start - on) / HOUR]).toEqual([
      -10, 14, 24,
    ]);
    expect(shown(rules, on + 24 * HOUR)).toBe("2011-12-31 10:00");
  });
  test("C11: Friday 30 December 2011 offers no walk-in, since no clock in Apia ever showed it", () => {
    const opening = { mon: ["09:00-17:00"], fri: ["09:00-17:00"] };
    const rules = rulesOf({ zone: "Pacific/Apia", tests: [wash], opening });
    // 24 hours before Monday 2 January 10:00 is Sunday: the last open day before it is Monday 26 December.
    expect(dueIn(rules, planFor(rules, "2012-01-02 10:00"), "application")).toBe("2011-12-26 16:30");
    const [friday, saturday] = ["2011-12-30", "2011-12-31"].map((text) => parseDay(text) as number);
    expect(rules.zone.startOfDay(friday as number)).toBe(rules.zone.startOfDay(saturday as number));
    expect(formatInstant(rules.zone.startOfDay(saturday as number))).toBe("2011-12-30T10:00:00Z");
  });
});

describe("a day and 24 hours (TC39 Temporal documentation, zoneddatetime.md)", () => {
  const rules = rulesOf({ zone: "America/Los_Angeles", tests: [{ route: "in-salon", protocol: "wash-off-24h" }] });
  const dayAfter = (text: string, days: number): number =>
    rules.zone.diaryReading(rules.zone.wallAt(local(rules, text)) + days * DAY);
  const inUtc = (text: string): string => formatInstant(local(rules, text));

  test("C12: 8 March 2020 00:00 and a day is 9 March 00:00, 23 hours on; and 24 hours is 01:00", () => {
    expect(inUtc("2020-03-08 00:00")).toBe("2020-03-08T08:00:00Z");
    expect(formatInstant(dayAfter("2020-03-08 00:00", 1))).toBe("2020-03-09T07:00:00Z");
    expect((dayAfter("2020-03-08 00:00", 1) - local(rules, "2020-03-08 00:00")) / HOUR).toBe(23);
    expect(dueIn(rules, planFor(rules, "2020-03-09 01:00"), "application")).toBe("2020-03-08 00:00");
    expect(inUtc("2020-03-09 01:00")).toBe("2020-03-09T08:00:00Z");
  });
  test("C13: 9 March 2020 00:00 less a day is 8 March 00:00; less 24 hours it is 7 March 23:00", () => {
    expect(formatInstant(dayAfter("2020-03-09 00:00", -1))).toBe("2020-03-08T08:00:00Z");
    expect(dueIn(rules, planFor(rules, "2020-03-09 00:00"), "application")).toBe("2020-03-07 23:00");
    expect(inUtc("2020-03-07 23:00")).toBe("2020-03-08T07:00:00Z");
  });
});

describe("the length and the name of a day", () => {
  test.each([
    ["2024-03-10", 23],
    ["2024-11-03", 25],
    ["2024-11-04", 24],
  ])("C14: %s had %i hours in New York (MDN, Temporal.ZonedDateTime hoursInDay)", (text, hours) => {
    const { zone } = rulesOf({ zone: "America/New_York" });
    const day = parseDay(text) as number;
    expect((zone.startOfDay(day + 1) - zone.startOfDay(day)) / HOUR).toBe(hours);
  });
  test.each([
    ["2019-12-30", 1, "published articles on ISO week dates: 2020-W01-1"],
    ["2006-12-31", 7, "published articles on ISO week dates: 2006-W52-7"],
    ["2024-12-20", 5, "published articles on ISO week dates: 2024-W51-5"],
    ["2026-12-31", 4, "computed from the ISO 8601 week rule: 2026-W53-4"],
    ["2027-01-03", 7, "computed from the ISO 8601 week rule: 2026-W53-7"],
    ["2027-01-04", 1, "computed from the ISO 8601 week rule: 2027-W01-1"],
  ])("W1, W2: %s is day %i of its week (%s)", (text, weekday) => {
    expect(weekdayOf(parseDay(text) as number)).toBe(weekday);
  });
});
