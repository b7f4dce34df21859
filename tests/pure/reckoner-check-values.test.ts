/**
 * The independent reckoning against values that stand outside this project, each with its source beside it.
 * Never calls the engine: what the two agree on is another file's matter.
 */
import { describe, expect, test } from "vitest";
import { reckon } from "../reckoner/reckon.ts";
import type { ReckonInput, ReckonProtocol, ReckonSettings, ReckonTest, WeekdayKey } from "../reckoner/types.ts";

const IN_SALON: ReckonTest = { route: "in-salon", protocol: "salon-48h" };
const HOME_KIT: ReckonTest = { route: "home-kit", protocol: "home-kit-120h" };

const settingsOf = (
  zone: string,
  tests: readonly ReckonTest[],
  more: Partial<ReckonSettings> = {},
): ReckonSettings => ({
  name: "Harbour Row Colour Room",
  zone,
  tests,
  ...more,
});

/** The plan of one booking seen four weeks ahead unless `now` says otherwise. */
const planOf = (settings: ReckonSettings, start: string, more: Partial<ReckonInput> = {}) => {
  const booking = { uid: "colour-1", start: new Date(start).toISOString() };
  const now = new Date(Date.parse(start) - 28 * 86_400_000).toISOString();
  return reckon({ booking, settings, records: [], now, ...more });
};
const dueOf = (plan: ReturnType<typeof planOf>, kind: string, n: number | null = null): string | undefined =>
  plan.steps.find((step) => step.kind === kind && step.n === n)?.due;
const opensOf = (plan: ReturnType<typeof planOf>, kind: string, n: number | null = null): string | undefined =>
  plan.steps.find((step) => step.kind === kind && step.n === n)?.opens;

describe("common practice, no source (CP1 to CP6)", () => {
  const friday = "2026-12-11T10:30:00Z";

  test("CP1: a walk-in test for Friday 10:30 is on by Wednesday 10:30", () => {
    const plan = planOf(settingsOf("Europe/London", [IN_SALON]), friday);
    expect(dueOf(plan, "application")).toBe("2026-12-09T10:30:00Z");
  });

  const slowPost = settingsOf("Europe/London", [HOME_KIT], { post: { transit: 7, count: "calendar" } });

  test("CP2 to CP5: a kit goes on Sunday 10:30, off Tuesday 10:30, looks are Tuesday 11:00 and Thursday 10:30", () => {
    const plan = planOf(slowPost, friday);
    expect(dueOf(plan, "application")).toBe("2026-12-06T10:30:00Z");
    expect(opensOf(plan, "removal")).toBe("2026-12-08T10:30:00Z");
    expect(opensOf(plan, "reading", 1)).toBe("2026-12-08T11:00:00Z");
    expect(opensOf(plan, "reading", 2)).toBe("2026-12-10T10:30:00Z");
  });

  test("CP6: it is in hand on Saturday 18:00 and leaves with the Friday collection two weeks before", () => {
    const plan = planOf(slowPost, friday);
    expect(dueOf(plan, "arrival")).toBe("2026-12-05T18:00:00Z");
    expect(dueOf(plan, "shipping")).toBe("2026-11-27T16:30:00Z");
  });
});

/** A salon test, a lead in exact hours, no hours of the salon: the application's due is B less the lead. */
const applicationBefore = (zone: string, start: string): string | undefined =>
  dueOf(planOf(settingsOf(zone, [IN_SALON]), start), "application");

describe("exact hours across clock changes (RFC 5545 §3.3.6 and the IANA time zone database; C1 to C10)", () => {
  test.each([
    ["C1", "Europe/London", "2026-03-30T10:00:00+01:00", "2026-03-28T09:00:00+00:00"],
    ["C2", "Europe/London", "2026-10-26T10:00:00+00:00", "2026-10-24T11:00:00+01:00"],
    ["C3", "America/New_York", "2026-03-09T10:00:00-04:00", "2026-03-07T09:00:00-05:00"],
    ["C4", "America/New_York", "2026-11-02T10:00:00-05:00", "2026-10-31T11:00:00-04:00"],
    ["C5", "Australia/Sydney", "2026-04-06T10:00:00+10:00", "2026-04-04T11:00:00+11:00"],
    ["C6", "Australia/Sydney", "2026-10-05T10:00:00+11:00", "2026-10-03T09:00:00+10:00"],
    ["C7", "Australia/Lord_Howe", "2026-10-05T10:00:00+11:00", "2026-10-03T09:30:00+10:30"],
    ["C8", "Pacific/Apia", "2026-10-05T10:00:00+13:00", "2026-10-03T10:00:00+13:00"],
    ["C9", "Africa/Casablanca", "2026-02-16T10:00:00+00:00", "2026-02-14T11:00:00+01:00"],
    ["C10", "Africa/Cairo", "2026-04-25T10:00:00+03:00", "2026-04-23T09:00:00+02:00"],
  ])("%s: keeps a full 48 hours in %s", (_row, zone, start, expected) => {
    expect(applicationBefore(zone, start)).toBe(asUtc(expected));
  });

  test.each([
    ["C1", "Europe/London", "2026-03-30T10:00:00+01:00", "2026-03-28T09:00:00+00:00"],
    ["C7", "Australia/Lord_Howe", "2026-10-05T10:00:00+11:00", "2026-10-03T09:30:00+10:30"],
    ["C10", "Africa/Cairo", "2026-04-25T10:00:00+03:00", "2026-04-23T09:00:00+02:00"],
  ])(
    "%s: a salon in %s that closes at the wall time of the due still takes the walk-in then",
    (_row, zone, start, expected) => {
      const wall = expected.slice(11, 16);
      const weekdays: WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
      const opening = Object.fromEntries(weekdays.map((day) => [day, [`00:00-${wall}`]]));
      const settings = settingsOf(zone, [IN_SALON], { opening, lastWalkIn: "PT0H" });
      expect(dueOf(planOf(settings, start), "application")).toBe(asUtc(expected));
    },
  );
});

const asUtc = (text: string): string => `${new Date(text).toISOString().slice(0, 19)}Z`;

describe("rules with published hours (T3 to T7)", () => {
  const barber: ReckonTest = { route: "in-salon", protocol: "window-24-48h" };
  const colour = "2026-06-10T10:00:00-04:00";
  const settings = settingsOf("America/New_York", [barber]);
  const appliedAt = (at: string) =>
    planOf(settings, colour, {
      now: "2026-06-09T15:00:00Z",
      records: [{ kind: "applied", at: asUtc(at), route: "in-salon" }],
    }).steps.find((step) => step.kind === "application")?.state;

  test("T3: Monday 10:00 to Tuesday 10:00 is allowed (Ohio Administrative Code 4709-9-12)", () => {
    const plan = planOf(settings, colour);
    expect(opensOf(plan, "application")).toBe("2026-06-08T14:00:00Z");
    expect(dueOf(plan, "application")).toBe("2026-06-09T14:00:00Z");
    expect(appliedAt("2026-06-08T10:00:00-04:00")).toBe("done");
    expect(appliedAt("2026-06-09T10:00:00-04:00")).toBe("done");
  });

  test("T3: one second outside on either side does not count (Ohio Administrative Code 4709-9-12)", () => {
    expect(appliedAt("2026-06-08T09:59:59-04:00")).not.toBe("done");
    expect(appliedAt("2026-06-09T10:00:01-04:00")).not.toBe("done");
  });

  test("T4: a test 72 hours before is too early (Ohio Administrative Code 4709-9-12)", () => {
    expect(appliedAt("2026-06-07T10:00:00-04:00")).not.toBe("done");
  });

  test("T5: with a 48-hour least only exactly 48 hours passes (Ohio Administrative Code 4709-9-12, NHBF)", () => {
    const both: ReckonTest = { route: "in-salon", protocol: ["window-24-48h", "salon-48h"] };
    const plan = planOf(settingsOf("America/New_York", [both]), colour);
    expect(opensOf(plan, "application")).toBe("2026-06-08T14:00:00Z");
    expect(dueOf(plan, "application")).toBe("2026-06-08T14:00:00Z");
  });

  const recordedAtTen = (protocol: string) =>
    planOf(settingsOf("Asia/Tokyo", [{ route: "in-salon", protocol }]), "2026-06-12T10:00:00+09:00", {
      now: "2026-06-09T02:00:00Z",
      records: [{ kind: "applied", at: asUtc("2026-06-09T10:00:00+09:00"), route: "in-salon" }],
    });

  test("T6: applied at 10:00, looks about half past ten and 48 hours on (Japan Hair Color Industry Association, 4_patchtest)", () => {
    const plan = recordedAtTen("two-looks-48h");
    expect(opensOf(plan, "reading", 1)).toBe(asUtc("2026-06-09T10:30:00+09:00"));
    expect(opensOf(plan, "reading", 2)).toBe(asUtc("2026-06-11T10:00:00+09:00"));
  });

  test("T7: applied at 10:00, wiped off at 10:45, look 48 hours after that (CTPA, 26 April 2023)", () => {
    const plan = recordedAtTen("salon-45min-48h");
    expect(opensOf(plan, "removal")).toBe(asUtc("2026-06-09T10:45:00+09:00"));
    expect(opensOf(plan, "reading", 1)).toBe(asUtc("2026-06-11T10:45:00+09:00"));
  });
});

/** D2, D4 and D7 as looks of one test (Higgins & Collins, Dermatitis 2013;24(5)). */
const DAYS_2_4_7: ReckonProtocol = {
  lead: { least: "PT168H" },
  readings: [{ after: "PT48H" }, { after: "PT96H" }, { after: "PT168H" }],
};

describe("D2, D4 and D7 are 48, 96 and 168 exact hours (Higgins & Collins 2013; IANA time zone database; D3 to D5)", () => {
  test.each([
    [
      "D3",
      "2026-04-13T10:00:00+01:00",
      ["2026-04-15T10:00:00+01:00", "2026-04-17T10:00:00+01:00", "2026-04-20T10:00:00+01:00"],
    ],
    [
      "D4",
      "2026-10-23T10:00:00+01:00",
      ["2026-10-25T09:00:00+00:00", "2026-10-27T09:00:00+00:00", "2026-10-30T09:00:00+00:00"],
    ],
    [
      "D5",
      "2027-03-26T10:00:00+00:00",
      ["2027-03-28T11:00:00+01:00", "2027-03-30T11:00:00+01:00", "2027-04-02T11:00:00+01:00"],
    ],
  ])("%s", (_row, applied, looks) => {
    const settings = settingsOf("Europe/London", [{ route: "in-salon", protocol: "days-2-4-7" }], {
      protocols: { "days-2-4-7": DAYS_2_4_7 },
    });
    const start = new Date(Date.parse(applied) + 10 * 86_400_000).toISOString();
    const plan = planOf(settings, start, {
      now: applied,
      records: [{ kind: "applied", at: asUtc(applied), route: "in-salon" }],
    });
    expect([1, 2, 3].map((n) => opensOf(plan, "reading", n))).toEqual(looks.map(asUtc));
  });
});

/** gov.uk bank holidays (alphagov/frontend lib/data/bank-holidays.json), typed in. */
const ENGLAND = [
  "2026-01-01",
  "2026-04-03",
  "2026-04-06",
  "2026-05-04",
  "2026-05-25",
  "2026-08-31",
  "2026-12-25",
  "2026-12-28",
  "2027-01-01",
  "2027-12-27",
  "2027-12-28",
  "2028-01-03",
];
const SCOTLAND = ["2026-01-01", "2026-01-02", "2026-04-03", "2026-05-04", "2026-05-25"];
const NORTHERN_IRELAND = [...ENGLAND, "2026-03-17"];
/** The true days behind substitutes: no post on 25 December 2021 and 1 January 2022 either (press, December 2021). */
const TRUE_DAYS = ["2026-12-26", "2027-12-25", "2027-12-26", "2028-01-01"];

const SIX_DAYS: WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri", "sat"];
const FIVE_DAYS: WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri"];

/**
 * The date a kit handed over at `posted` is expected, asked from outside: of the colours five exact days after 20:00 UTC
 * of each date, in the client's evening hours, the first for which the posted kit is expected in time.
 */
const expectedDate = (posted: string, transit: number, days: WeekdayKey[], holidays: readonly string[]): string => {
  const settings = settingsOf("Europe/London", [HOME_KIT], {
    clientHours: "18:00-21:00",
    post: { transit, collection: days, delivery: days },
  });
  for (let day = Date.parse(`${posted.slice(0, 10)}T00:00:00Z`); ; day += 86_400_000) {
    const start = new Date(day + 5 * 86_400_000 + 20 * 3_600_000).toISOString();
    const records = [{ kind: "posted" as const, at: posted }];
    const plan = planOf(settings, start, { now: posted, records, holidays });
    if (plan.routes[0]?.fits) return new Date(day).toISOString().slice(0, 10);
  }
};

/** The date by which a kit must be handed over to be in hand on `date`. */
const postBy = (date: string, transit: number, days: WeekdayKey[], holidays: readonly string[]): string | undefined => {
  const settings = settingsOf("Europe/London", [HOME_KIT], {
    clientHours: "18:00-21:00",
    post: { transit, collection: days, delivery: days },
  });
  const start = new Date(Date.parse(`${date}T00:00:00Z`) + 5 * 86_400_000 + 20 * 3_600_000).toISOString();
  return dueOf(planOf(settings, start, { holidays }), "shipping")?.slice(0, 10);
};

const noon = (date: string): string => `${date}T12:00:00Z`;

describe("the post (Directive 97/67/EC Annex II; gov.uk bank holidays; K1 to K10)", () => {
  test("K1: a deposit counts the same day to the second of the last collection, then the next collection day", () => {
    expect(expectedDate("2026-02-03T16:30:00Z", 1, SIX_DAYS, ENGLAND)).toBe("2026-02-04");
    expect(expectedDate("2026-02-03T16:30:01Z", 1, SIX_DAYS, ENGLAND)).toBe("2026-02-05");
  });

  test.each([
    ["K2", "2026-04-02", 1, SIX_DAYS, ENGLAND, "2026-04-04"],
    ["K3 England", "2026-04-04", 1, SIX_DAYS, ENGLAND, "2026-04-07"],
    ["K3 Scotland", "2026-04-04", 1, SIX_DAYS, SCOTLAND, "2026-04-06"],
    ["K4 England", "2026-04-01", 3, FIVE_DAYS, ENGLAND, "2026-04-08"],
    ["K4 Scotland", "2026-04-01", 3, FIVE_DAYS, SCOTLAND, "2026-04-07"],
    ["K6", "2026-12-24", 1, SIX_DAYS, [...ENGLAND, ...TRUE_DAYS], "2026-12-29"],
    ["K7 December", "2027-12-24", 1, SIX_DAYS, [...ENGLAND, ...TRUE_DAYS], "2027-12-29"],
    ["K7 January", "2027-12-31", 1, SIX_DAYS, [...ENGLAND, ...TRUE_DAYS], "2028-01-04"],
    ["K10 England", "2026-03-16", 1, SIX_DAYS, ENGLAND, "2026-03-17"],
    ["K10 Northern Ireland", "2026-03-16", 1, SIX_DAYS, NORTHERN_IRELAND, "2026-03-18"],
  ])("%s: posted %s, D+%i", (_row, posted, transit, days, holidays, expected) => {
    expect(expectedDate(noon(posted), transit, days, holidays)).toBe(expected);
  });

  test.each([
    ["K5 D+1", "2026-04-07", 1, SIX_DAYS, ENGLAND, "2026-04-04"],
    ["K5 D+3", "2026-04-07", 3, FIVE_DAYS, ENGLAND, "2026-03-31"],
    ["K8 D+1", "2026-12-22", 1, SIX_DAYS, ENGLAND, "2026-12-21"],
    ["K8 D+3", "2026-12-22", 3, FIVE_DAYS, ENGLAND, "2026-12-17"],
    // A provider's published example of ordering three working days ahead, May 2021.
    ["K9", "2021-04-30", 3, FIVE_DAYS, ["2021-04-02", "2021-04-05", "2021-05-03"], "2021-04-27"],
  ])("%s: in hand by %s, D+%i", (_row, date, transit, days, holidays, expected) => {
    expect(postBy(date, transit, days, holidays)).toBe(expected);
  });
});
