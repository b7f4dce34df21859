/**
 * More values that stand outside this project, put to the independent reckoning alone; the engine has the same rows in the
 * other files of this name. T1, C11 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import { reckon } from "../reckoner/reckon.ts";
import type { Reckoned, ReckonRecord, ReckonSettings, ReckonTest } from "../reckoner/types.ts";

const utc = (text: string): string => `${new Date(text).toISOString().slice(0, 19)}Z`;
const later = (text: string, hours: number): string =>
  utc(new Date(Date.parse(text) + hours * 3_600_000).toISOString());

const salonOf = (zone: string, only: ReckonTest, more: Partial<ReckonSettings> = {}): ReckonSettings => ({
  name: "Harbour Row Colour Room",
  zone,
  tests: [only],
  ...more,
});
const planOf = (
  settings: ReckonSettings,
  start: string,
  now: string,
  records: readonly ReckonRecord[] = [],
): Reckoned =>
  reckon({ booking: { uid: "colour-1", start: utc(start) }, settings, records, now: utc(now), holidays: [] });
const step = (plan: Reckoned, kind: string, n: number | null = null) =>
  plan.steps.find((each) => each.kind === kind && each.n === n);

describe("published intervals, to the second", () => {
  /** Whether a test put on then counts: its application is done. */
  const counts = (settings: ReckonSettings, start: string, on: string): boolean =>
    step(planOf(settings, start, on, [{ kind: "applied", at: utc(on), route: "in-salon" }]), "application")?.state ===
    "done";

  test.each([
    [
      "T1",
      "salon-48h",
      "2026-06-10T10:00:00+01:00",
      "2026-06-10T10:00:01+01:00",
      "NHBF, Allergy alert testing: no less than 48 hours",
    ],
    [
      "T2",
      "wash-off-24h",
      "2026-06-11T10:00:00+01:00",
      "2026-06-11T10:00:01+01:00",
      "Health Canada, Hair dyes: 24 hours",
    ],
  ])("%s: %s for Friday 12 June 2026 10:00 counts at %s and not at %s (%s)", (_row, protocol, inTime, tooLate) => {
    const settings = salonOf("Europe/London", { route: "in-salon", protocol });
    const start = "2026-06-12T10:00:00+01:00";
    expect([counts(settings, start, inTime), counts(settings, start, tooLate)]).toEqual([true, false]);
  });
});

describe("exact hours (computed from the IANA time zone database)", () => {
  const wash: ReckonTest = { route: "in-salon", protocol: "wash-off-24h" };
  test.each([
    ["C11", "Pacific/Apia", "2011-12-31T10:00:00+14:00", "2011-12-29T10:00:00-10:00"],
    ["C12", "America/Los_Angeles", "2020-03-09T01:00:00-07:00", "2020-03-08T00:00:00-08:00"],
    ["C13", "America/Los_Angeles", "2020-03-09T00:00:00-07:00", "2020-03-07T23:00:00-08:00"],
  ])("%s: in %s 24 hours before %s is %s", (_row, zone, start, due) => {
    expect(step(planOf(salonOf(zone, wash), start, later(start, -600)), "application")?.due).toBe(utc(due));
  });
  test("C11: the Friday that Apia left out has no opening hours", () => {
    const settings = salonOf("Pacific/Apia", wash, { opening: { mon: ["09:00-17:00"], fri: ["09:00-17:00"] } });
    const plan = planOf(settings, "2012-01-02T10:00:00+14:00", "2011-12-01T10:00:00-10:00");
    expect(step(plan, "application")?.due).toBe(utc("2011-12-26T16:30:00-10:00"));
  });
});

describe("looks after the colour, and after a removal", () => {
  test("D8: looks on D7, D14 and D21 hold nothing (Hillen 2011; clock times computed from the IANA database)", () => {
    const protocols = {
      late: { lead: { least: "PT48H" }, readings: ["PT48H", "PT168H", "PT336H", "PT504H"].map((after) => ({ after })) },
    };
    const settings = salonOf("Europe/London", { route: "in-salon", protocol: "late" }, { protocols });
    const [on, start] = ["2026-10-12T10:00:00+01:00", "2026-10-14T10:00:00+01:00"];
    const plan = planOf(settings, start, start, [
      { kind: "screened", at: later(on, -1), outcome: "pass" },
      { kind: "applied", at: utc(on), route: "in-salon" },
      { kind: "read", at: utc(start), outcome: "clear" },
      { kind: "confirmed", at: utc(start) },
    ]);
    expect([2, 3, 4].map((n) => step(plan, "reading", n)?.opens)).toEqual(
      ["2026-10-19T10:00:00+01:00", "2026-10-26T09:00:00+00:00", "2026-11-02T09:00:00+00:00"].map(utc),
    );
    expect(plan.standing).toBe("ready");
  });
  test("D9: taken off at 10:00, looked at no sooner than 10:30 (computed from skinpulse.ch: 30 minutes)", () => {
    const settings = salonOf("Europe/London", { route: "home-kit", protocol: "home-kit-120h" });
    const firstLook = (off: string): string | undefined =>
      step(
        planOf(settings, "2026-12-11T10:30:00Z", "2026-12-08T13:00:00Z", [
          { kind: "applied", at: "2026-12-06T10:00:00Z", route: "home-kit" },
          { kind: "removed", at: off },
        ]),
        "reading",
        1,
      )?.opens;
    expect([firstLook("2026-12-08T10:00:00Z"), firstLook("2026-12-08T12:00:00Z")]).toEqual([
      "2026-12-08T10:30:00Z",
      "2026-12-08T12:30:00Z",
    ]);
  });
});

describe("an earlier result", () => {
  const routeAfter = (months: number, on: string, start: string): string | null => {
    const settings = salonOf("Etc/UTC", { route: "in-salon", protocol: "salon-48h", onFile: { months } });
    const booking = "colour-0";
    return planOf(settings, `${start}T10:00:00Z`, later(`${start}T10:00:00Z`, -72), [
      { kind: "applied", at: `${on}T10:00:00Z`, route: "in-salon", booking },
      { kind: "read", at: later(`${on}T10:00:00Z`, 48), outcome: "clear", booking },
    ]).route;
  };
  test.each([
    ["T10", 6, "2026-06-10", "2026-12-10", "2026-12-11", "NHBF, Allergy alert testing"],
    ["T11", 12, "2026-06-10", "2027-06-10", "2027-06-11", "FHA protocol, 12 months"],
    ["R7", 1, "2019-01-31", "2019-02-28", "2019-03-01", "TC39 Temporal documentation, plaindate.md"],
    ["R8", 6, "2026-08-31", "2027-02-28", "2027-03-01", "NHBF and Temporal's plaindate.md"],
  ])(
    "%s: by a rule of %i months a test of %s counts on %s and not on %s (computed from %s)",
    (_row, months, on, last, after) => {
      expect([routeAfter(months, on, last), routeAfter(months, on, after)]).toEqual(["on-file", "in-salon"]);
    },
  );
});

test("H2: a day that was added, Scotland's 15 June 2026, closes the doors and the post (gov.uk; Royal Proclamation, 5 February 2026)", () => {
  const opening = Object.fromEntries(["mon", "tue", "wed", "thu", "fri", "sat"].map((day) => [day, ["09:00-17:30"]]));
  const post = { transit: 1, collection: ["mon", "tue", "wed", "thu", "fri", "sat"] as const };
  const dues = (add: readonly string[]): readonly (string | undefined)[] => {
    const more = { opening, post, holidays: { add } };
    const walkIn = salonOf("Europe/London", { route: "in-salon", protocol: "salon-48h" }, more);
    const kit = salonOf("Europe/London", { route: "home-kit", protocol: "home-kit-120h" }, more);
    const now = "2026-05-20T10:00:00+01:00";
    return [
      step(planOf(walkIn, "2026-06-17T10:00:00+01:00", now), "application")?.due,
      step(planOf(kit, "2026-06-22T10:30:00+01:00", now), "shipping")?.due,
    ];
  };
  expect(dues(["2026-06-15"])).toEqual(["2026-06-13T17:00:00+01:00", "2026-06-13T16:30:00+01:00"].map(utc));
  expect(dues([])).toEqual(["2026-06-15T10:00:00+01:00", "2026-06-15T16:30:00+01:00"].map(utc));
});
