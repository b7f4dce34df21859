/**
 * Random salons and bookings among many shut days, for the reasons that name them. Every shut day stands by itself, so that
 * some can be taken out. Expects no result.
 */
import * as fc from "fast-check";
import type { NamedDay } from "../../src/plan/holidays.ts";
import type { Fact, TestAppointment } from "../../src/plan/types.ts";
import { type Day, DAY_SECONDS, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { makeFact } from "./plan-arbitraries.ts";

export const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;

/** A salon whose shut days are lists of single days. */
export interface Salon {
  readonly zone: string;
  readonly opening: { readonly [weekday: string]: readonly string[] } | null;
  readonly lastWalkIn: string;
  readonly tests: readonly { readonly route: string; readonly protocol: string }[];
  readonly transit: number;
  readonly count: "delivery" | "calendar";
  readonly collection: readonly string[];
  readonly delivery: readonly string[];
  readonly keepsHolidays: boolean;
  readonly closed: readonly Day[];
  readonly postClosed: readonly Day[];
  readonly added: readonly Day[];
  readonly holidays: readonly NamedDay[];
}

const hours = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom<string[]>(["09:00-17:30"], ["10:00-13:00", "14:00-19:00"]) },
  { weight: 1, arbitrary: fc.constantFrom<string[]>(["00:00-24:00"], ["18:00-24:00", "00:00-01:00"], ["23:50-24:00"]) },
  { weight: 2, arbitrary: fc.constant<string[]>([]) },
);
const postDays = fc.constantFrom<string[]>(
  WEEKDAYS.slice(0, 5),
  WEEKDAYS.slice(0, 6),
  [...WEEKDAYS],
  ["tue", "thu", "sat"],
);
const daysBefore = (day: Day, most: number, longest: number) =>
  fc
    .array(fc.tuple(fc.integer({ min: -22, max: 2 }), fc.integer({ min: 0, max: longest })), { maxLength: most })
    .map((rows) => [
      ...new Set(rows.flatMap(([first, more]) => Array.from({ length: more + 1 }, (_, at) => day + first + at))),
    ]);

const salonAround = (day: Day): fc.Arbitrary<Salon> =>
  fc.record({
    zone: fc.constantFrom("Europe/London", "Australia/Sydney", "America/Santiago", "Asia/Kolkata"),
    opening: fc.oneof(
      { weight: 1, arbitrary: fc.constant(null) },
      {
        weight: 9,
        arbitrary: fc
          .record({
            ...(Object.fromEntries(WEEKDAYS.map((name) => [name, hours])) as Record<string, typeof hours>),
            holiday: fc.oneof({ weight: 3, arbitrary: fc.constant<string[]>([]) }, { weight: 2, arbitrary: hours }),
          })
          .filter((week: { readonly [name: string]: string[] }) => WEEKDAYS.some((name) => week[name]?.length)),
      },
    ),
    lastWalkIn: fc.constantFrom("PT30M", "PT30M", "PT0H", "PT30H"),
    tests: fc
      .constantFrom<Salon["tests"][number]["protocol"][]>(
        ["home-kit-120h", "salon-48h"],
        ["home-kit-120h", "window"],
        ["home-kit-120h", ""],
        ["", "wash-off-24h"],
        ["", "salon-48h"],
        ["", "window"],
      )
      .map(([kit = "", walkIn = ""]) =>
        [
          { route: "home-kit", protocol: kit },
          { route: "in-salon", protocol: walkIn },
        ].filter(({ protocol }) => protocol !== ""),
      ),
    transit: fc.integer({ min: 1, max: 4 }),
    count: fc.constantFrom("delivery", "delivery", "calendar"),
    collection: postDays,
    delivery: postDays,
    keepsHolidays: fc.boolean(),
    closed: daysBefore(day, 2, 7),
    postClosed: daysBefore(day, 2, 3),
    added: daysBefore(day, 1, 2),
    holidays: daysBefore(day, 4, 0).map((days) =>
      days.map((each) => ({ day: each, name: each % 3 === 0 ? "Feast" : "Fast" })),
    ),
  });

export interface Scene {
  readonly salon: Salon;
  readonly start: Instant;
  readonly now: Instant;
  readonly facts: readonly Fact[];
  readonly appointments: readonly TestAppointment[];
}

/** Most bookings have no record; some a test that went on, a kit that was posted, or a test in the diary. */
const told = (start: Instant): fc.Arbitrary<Pick<Scene, "facts" | "appointments">> =>
  fc.oneof(
    { weight: 6, arbitrary: fc.constant({ facts: [], appointments: [] }) },
    {
      weight: 3,
      arbitrary: fc.record({
        facts: fc
          .record({
            kind: fc.constantFrom("applied" as const, "posted" as const),
            hours: fc.integer({ min: 24, max: 140 }),
          })
          .map((each) => [makeFact({ kind: each.kind, at: start - each.hours * HOUR })]),
        appointments: fc.constant([]),
      }),
    },
    {
      weight: 1,
      arbitrary: fc
        .integer({ min: 24, max: 140 })
        .map((before) => ({ facts: [], appointments: [{ start: start - before * HOUR, end: null }] })),
    },
  );

/** Bookings of such salons, seen from weeks before to the hour. */
export const scenes: fc.Arbitrary<Scene> = fc
  .record({
    day: fc.integer({ min: 20_600, max: 21_100 }),
    minute: fc.oneof(
      fc.integer({ min: 0, max: 1_439 }),
      fc.integer({ min: 16, max: 40 }).map((half) => half * 30),
    ),
    before: fc.oneof(fc.integer({ min: 120, max: 720 }), fc.integer({ min: 0, max: 120 })),
  })
  .chain(({ day, minute, before }) => {
    const start = day * DAY_SECONDS + minute * MINUTE;
    return fc.record({
      salon: salonAround(day),
      start: fc.constant(start),
      now: fc.constant(start - before * HOUR),
      told: told(start),
    });
  })
  .map(({ told: { facts, appointments }, now, ...rest }) => ({
    ...rest,
    now,
    facts: facts.filter(({ at }) => at <= now),
    appointments,
  }));
