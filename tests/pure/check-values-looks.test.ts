/**
 * Published reading times of tests, counted in exact hours from the application. The numbers come from clinics: they try the
 * arithmetic and advise nobody. D1, D2 … only tell the rows apart.
 */
import { describe, expect, test } from "vitest";
import type { Fact, Plan } from "../../src/plan/types.ts";
import { HOUR } from "../../src/time/instant.ts";
import { HOME_KIT, local, looksIn, opensIn, planFor, rulesOf, shown, stepIn } from "./check-values-salon.ts";
import { makeFact } from "./plan-arbitraries.ts";

const HIGGINS = "Higgins & Collins, Dermatitis 2013;24(5): D2 48 h, D4 96 h, D7 168 h";
const IANA = `IANA time zone database ${process.versions["tz"]}`;

/** A salon whose one test is looked at so many hours on, and the plan once it went on. */
const looked = (given: {
  readonly zone?: string;
  readonly on: string;
  readonly least: number;
  readonly looks: readonly number[];
  readonly wear?: number;
}) => {
  const { zone = "Europe/London", on, least, looks, wear } = given;
  const days = {
    lead: { least: `PT${least}H` },
    wear: wear === undefined ? null : `PT${wear}H`,
    readings: looks.map((after) => ({ after: `PT${after}H` })),
  };
  const rules = rulesOf({ zone, tests: [{ route: "in-salon", protocol: "days" }], protocols: { days } });
  const applied = makeFact({ kind: "applied", at: local(rules, on), route: "in-salon" });
  const start = applied.at + least * HOUR;
  const planWith = (more: readonly Fact[] = [], now = on): Plan =>
    planFor(rules, shown(rules, start), [applied, ...more], now);
  return { rules, applied, start, planWith };
};

describe("looks are exact hours from the application", () => {
  test(`D1: D2, D4 and D7 are 48, 96 and 168 hours (${HIGGINS})`, () => {
    const { applied, planWith } = looked({ on: "2026-06-01 10:00", least: 168, looks: [48, 96, 168] });
    const steps = planWith().steps.filter(({ kind }) => kind === "reading");
    expect(steps.map(({ opens, rule }) => [(opens - applied.at) / HOUR, rule.duration])).toEqual([
      [48, "PT48H"],
      [96, "PT96H"],
      [168, "PT168H"],
    ]);
  });
  test("D2: on day 1, off day 3, read days 3 and 5 is 0, 48, 48 and 96 hours (computed from Dermatitis 2020;31:42)", () => {
    const { rules, applied, planWith } = looked({ on: "2026-04-13 10:00", least: 96, looks: [48, 96], wear: 48 });
    const plan = planWith();
    const steps = [stepIn(plan, "removal"), stepIn(plan, "reading", 1), stepIn(plan, "reading", 2)];
    expect(steps.map(({ opens }) => (opens - applied.at) / HOUR)).toEqual([48, 48, 96]);
    const dayNumbers = steps.map(({ opens }) => rules.zone.dayAt(opens) - rules.zone.dayAt(applied.at) + 1);
    expect(dayNumbers).toEqual([3, 3, 5]);
  });

  const rows = [
    [
      "D3",
      "Wednesday, Friday, Monday",
      "2026-04-13 10:00",
      ["2026-04-15 10:00", "2026-04-17 10:00", "2026-04-20 10:00"],
    ],
    [
      "D4",
      "an hour earlier by the clock",
      "2026-10-23 10:00",
      ["2026-10-25 09:00", "2026-10-27 09:00", "2026-10-30 09:00"],
    ],
    [
      "D5",
      "an hour later by the clock",
      "2027-03-26 10:00",
      ["2027-03-28 11:00", "2027-03-30 11:00", "2027-04-02 11:00"],
    ],
  ] as const;
  test.each(rows)(`%s: %s for a test of %s (computed from ${HIGGINS}; ${IANA})`, (_row, _what, on, looks) => {
    const all = looked({ on, least: 168, looks: [48, 96, 168] });
    expect(looksIn(all.rules, all.planWith())).toEqual(looks);
    // Where the lead is 96 hours, D7 falls after the colour: it is looked at, and holds nothing.
    const late = looked({ on, least: 96, looks: [48, 96, 168] });
    const plan = late.planWith();
    expect([plan.applied, ...looksIn(late.rules, plan)]).toEqual([true, ...looks]);
    expect(opensIn(late.rules, plan, "result")).toBe(looks[1]);
  });

  test("D6: a delayed look from 72 to 144 hours takes what was seen anywhere in between (Cutis 2020;106:165)", () => {
    const seen = (after: number): readonly string[] => {
      const { rules, applied, start, planWith } = looked({
        zone: "America/Chicago",
        on: "2026-03-02 10:00",
        least: 144,
        looks: [48, 72],
      });
      // 144 hours on it is 11:00: the clocks go forward on Sunday 8 March 2026.
      expect(shown(rules, start)).toBe("2026-03-08 11:00");
      const read = makeFact({ kind: "read", at: applied.at + after, outcome: "clear" });
      const plan = planWith([read], "2026-03-08 11:00");
      return [opensIn(rules, plan, "reading", 2), stepIn(plan, "reading", 2).state];
    };
    expect(seen(72 * HOUR - 1)).toEqual(["2026-03-05 10:00", "planned"]);
    expect(seen(72 * HOUR)).toEqual(["2026-03-05 10:00", "done"]);
    expect(seen(144 * HOUR)).toEqual(["2026-03-05 10:00", "done"]);
  });

  test.each([
    ["2026-04-13 10:00", ["2026-04-20 10:00", "2026-04-27 10:00", "2026-05-04 10:00"]],
    ["2026-10-12 10:00", ["2026-10-19 10:00", "2026-10-26 09:00", "2026-11-02 09:00"]],
  ])(
    `D8: late looks on D7, D14 and D21 of a test of %s hold nothing (Hillen 2011; clock times computed, ${IANA})`,
    (on, late) => {
      const { rules, applied, start, planWith } = looked({ on, least: 48, looks: [48, 168, 336, 504] });
      const asked = makeFact({ kind: "screened", at: applied.at - 1, outcome: "pass" });
      const read = makeFact({ kind: "read", at: start, outcome: "clear" });
      const confirmed = makeFact({ kind: "confirmed", at: start });
      const plan = planWith([asked, read, confirmed], shown(rules, start));
      expect(looksIn(rules, plan).slice(1)).toEqual(late);
      expect([plan.standing, stepIn(plan, "result").state, stepIn(plan, "reading", 2).state]).toEqual([
        "ready",
        "done",
        "planned",
      ]);
      // A late look that shows something stops what comes after it.
      const shows = makeFact({ kind: "read", at: applied.at + 504 * HOUR, outcome: "reaction" });
      const tellings = [applied, asked, read, confirmed, shows].map((each) => ({ ...each, booking: "booking-0" }));
      const next = shown(rules, shows.at + 240 * HOUR);
      expect(planFor(rules, next, tellings, shown(rules, shows.at)).standing).toBe("stop");
      expect(planFor(rules, next, tellings, shown(rules, shows.at - 1)).standing).not.toBe("stop");
    },
  );

  test("D9: taken off at 10:00, looked at no sooner than 10:30 (computed from skinpulse.ch: 30 minutes)", () => {
    const rules = rulesOf({ tests: [HOME_KIT] });
    const on = makeFact({ kind: "applied", at: local(rules, "2026-12-06 10:00"), route: "home-kit" });
    const planAt = (off: string, read: string): Plan => {
      const facts = [
        on,
        makeFact({ kind: "removed", at: local(rules, off) }),
        makeFact({ kind: "read", at: local(rules, read), outcome: "clear" }),
      ];
      return planFor(rules, "2026-12-11 10:30", facts, "2026-12-08 13:00");
    };
    const first = (off: string, read: string): readonly string[] => {
      const plan = planAt(off, read);
      return [opensIn(rules, plan, "reading", 1), stepIn(plan, "reading", 1).state];
    };
    expect(first("2026-12-08 10:00", "2026-12-08 10:29:59")).toEqual(["2026-12-08 10:30", "planned"]);
    expect(first("2026-12-08 10:00", "2026-12-08 10:30")).toEqual(["2026-12-08 10:30", "done"]);
    // Taken off two hours late, it is looked at two hours later.
    expect(first("2026-12-08 12:00", "2026-12-08 12:29:59")).toEqual(["2026-12-08 12:30", "planned"]);
    expect(first("2026-12-08 12:00", "2026-12-08 12:30")).toEqual(["2026-12-08 12:30", "done"]);
  });
});
