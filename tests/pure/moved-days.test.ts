/**
 * Which shut day moved what, on random salons: every reason is held against the same booking under settings from which the
 * named days, or all, were taken out and which were compiled anew. Nothing here asks the code that found the days.
 */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import type { NamedDay } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan, RouteName, TestAppointment } from "../../src/plan/types.ts";
import { inWords } from "../../src/plan/words.ts";
import { settingsSchema } from "../../src/settings.ts";
import { type Day, DAY_SECONDS, formatDay, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const RUNS = Number(process.env["MOVED_RUNS"] ?? 400);
const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] as const;
const STEPS = ["application", "shipping", "result"] as const;
type StepName = (typeof STEPS)[number];

/** A salon whose shut days are lists of single days, so that some can be taken out. */
interface Salon {
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

const without = (salon: Salon, isOut: (day: Day) => boolean): Salon => {
  const keep = (days: readonly Day[]): readonly Day[] => days.filter((day) => !isOut(day));
  return {
    ...salon,
    closed: keep(salon.closed),
    postClosed: keep(salon.postClosed),
    added: keep(salon.added),
    holidays: salon.holidays.filter(({ day }) => !isOut(day)),
  };
};

const compile = (salon: Salon, first: RouteName | null = null): Rules => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: salon.zone,
    opening: salon.opening,
    lastWalkIn: salon.lastWalkIn,
    closed: salon.closed.map(formatDay),
    holidays: { add: salon.added.map(formatDay) },
    protocols: { window: { lead: { least: "PT30H", most: "PT120H" }, readings: [{ after: "PT24H" }] } },
    tests: salon.tests.toSorted((one, other) => Number(other.route === first) - Number(one.route === first)),
    post: {
      transit: salon.transit,
      count: salon.count,
      collection: salon.collection,
      delivery: salon.delivery,
      holidays: salon.keepsHolidays,
      closed: salon.postClosed.map(formatDay),
    },
  });
  const days = salon.holidays;
  const place = { country: "GB", region: "ENG", place: "known", fromYear: 2025, toYear: 2029 } as const;
  const compiled = compileRules(settings, { ...place, post: days, salon: days }, "salon");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  return compiled.rules;
};

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

interface Scene {
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

const scenes: fc.Arbitrary<Scene> = fc
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

const planOf = ({ start, now, facts, appointments }: Scene, rules: Rules): Plan =>
  countBack({ booking: bookingAt(start), facts, appointments, samePerson: true, now }, rules);

/** When a step of the plan's route is due in another salon: asked before anything lapses, and of that route first. */
const dueIn = (salon: Salon, step: StepName, plan: Plan, scene: Scene): Instant | null => {
  const early = { ...scene, now: scene.start - 399 * DAY_SECONDS, facts: [] };
  const asked = plan.applied ? scene : { ...early, appointments: plan.route === "in-salon" ? scene.appointments : [] };
  const other = planOf(asked, compile(salon, plan.route));
  if (other.route !== plan.route) return null;
  return other.steps.find(({ kind }) => kind === step)?.due ?? null;
};

const WORDS: Intl.DateTimeFormatOptions = { weekday: "short", day: "numeric", month: "short", timeZone: "UTC" };
const dayWords = (day: Day): string =>
  new Date(day * DAY_SECONDS * 1_000).toLocaleDateString("en-GB", WORDS).replace(",", "");

interface Group {
  readonly from: Day;
  readonly to: Day;
  readonly says: string;
}

/** The days that a sentence names, and what it says they are. */
const readGroups = (text: string, start: Instant): readonly Group[] => {
  const today = Math.floor(start / DAY_SECONDS);
  const days = new Map(Array.from({ length: 200 }, (_, at) => [dayWords(today - 150 + at), today - 150 + at]));
  const dayOf = (words: string): Day => {
    const day = days.get(words);
    if (day === undefined) throw new Error(`no day near reads ${words}`);
    return day;
  };
  return [...text.matchAll(/([^:.]+): (no post|the salon is shut|the salon keeps other hours)\./g)].flatMap(
    ([, list = "", says = ""]) =>
      list.split(/\), | and (?=\w+ \d)/).map((each): Group => {
        const [from = "", to = from] = each
          .trim()
          .replace(/ \(.*$/, "")
          .split(" to ");
        return { from: dayOf(from), to: dayOf(to), says };
      }),
  );
};

const inGroup =
  (groups: readonly Group[]) =>
  (day: Day): boolean =>
    groups.some(({ from, to }) => from <= day && day <= to);

const stepWords = { application: "The last walk-in", shipping: "Posting the kit", result: "The result" } as const;
const counts = { said: 0, unsaid: 0, several: 0 };

const checkStep = (step: StepName, plan: Plan, scene: Scene, rules: Rules): void => {
  const { salon, start } = scene;
  const reasons = plan.why.filter(({ code }) => code === `${step}-moved`);
  const planned = plan.steps.find(({ kind }) => kind === step);
  const isMovable = planned && planned.state === "planned" && !planned.booked;
  const isSpoken = plan.standing === "on-track" || plan.standing === "due" || plan.standing === "late";
  if (!isMovable || !isSpoken || (step === "application" && plan.route === "home-kit")) {
    expect(reasons).toEqual([]);
    return;
  }
  const due = (isOut: (day: Day) => boolean): Instant | null => dueIn(without(salon, isOut), step, plan, scene);
  expect(due(() => false)).toBe(planned.due);
  const unclosed = due(() => true);
  expect(reasons.length).toBe(unclosed === planned.due ? 0 : 1);
  const text = reasons[0]?.text;
  if (text === undefined) {
    counts.unsaid++;
    return;
  }
  const instead =
    unclosed === null ? "and would have no moment otherwise" : `instead of ${inWords(unclosed, start, rules)}`;
  expect(text.endsWith(` ${stepWords[step]} is due ${inWords(planned.due, start, rules)} ${instead}.`)).toBe(true);

  const groups = readGroups(text, start);
  expect(groups.length).toBeGreaterThan(0);
  expect(due(inGroup(groups))).not.toBe(planned.due);
  const moving = groups.filter((group) => due(inGroup([group])) !== planned.due);
  if (moving.length > 0) expect(moving).toEqual(groups);
  counts.said++;
  if (groups.length > 1) counts.several++;
  for (const group of groups) checkWords(group, salon);
};

/** What is said of named days is so on each of them, and the first and last are days that something shuts. */
const checkWords = ({ from, to, says }: Group, salon: Salon): void => {
  const weekday = (day: Day): string => WEEKDAYS[(((day + 3) % 7) + 7) % 7] ?? "";
  const isHoliday = (day: Day): boolean => salon.added.includes(day) || salon.holidays.some((each) => each.day === day);
  const usual = (day: Day): readonly string[] => (salon.opening ? (salon.opening[weekday(day)] ?? []) : ["all day"]);
  const kept = (day: Day): readonly string[] => {
    if (salon.closed.includes(day)) return [];
    return isHoliday(day) ? (salon.opening?.["holiday"] ?? []) : usual(day);
  };
  const isPostDay = (day: Day): boolean => [...salon.collection, ...salon.delivery].includes(weekday(day));
  const isPostShut = (day: Day): boolean => salon.postClosed.includes(day) || (salon.keepsHolidays && isHoliday(day));
  const isAltered = (day: Day): boolean =>
    says === "no post" ? isPostDay(day) && isPostShut(day) : kept(day).join() !== usual(day).join();
  for (let day = from; day <= to; day++) {
    if (says === "no post") expect(!isPostDay(day) || isPostShut(day)).toBe(true);
    if (says === "the salon is shut") expect(kept(day)).toEqual([]);
    if (says === "the salon keeps other hours") expect(isHoliday(day) || usual(day).length === 0).toBe(true);
  }
  expect([isAltered(from), isAltered(to)]).toEqual([true, true]);
};

test(`a named day moved the step, and what it is due instead is the due of a salon that never shuts (${RUNS} salons)`, () => {
  fc.assert(
    fc.property(scenes, (scene) => {
      const rules = compile(scene.salon);
      const plan = planOf(scene, rules);
      for (const step of STEPS) checkStep(step, plan, scene, rules);
    }),
    { numRuns: RUNS },
  );
  // A property of reasons proves nothing where none is given.
  expect(counts.said).toBeGreaterThan(RUNS / 10);
  expect(counts.unsaid).toBeGreaterThan(RUNS / 10);
  expect(counts.several).toBeGreaterThan(0);
});
