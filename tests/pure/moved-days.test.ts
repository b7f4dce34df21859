/**
 * Which shut day moved what, on random salons: every reason is held against the same booking under settings from which the
 * named days, or all, were taken out and which were compiled anew. Nothing here asks the code that found the days.
 */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Plan, RouteName } from "../../src/plan/types.ts";
import { inWords } from "../../src/plan/words.ts";
import { settingsSchema } from "../../src/settings.ts";
import { type Day, DAY_SECONDS, formatDay, type Instant } from "../../src/time/instant.ts";
import { type Salon, type Scene, scenes, WEEKDAYS } from "./moved-salons.ts";
import { bookingAt } from "./plan-arbitraries.ts";

const RUNS = Number(process.env["MOVED_RUNS"] ?? 400);
const STEPS = ["application", "shipping", "result"] as const;
type StepName = (typeof STEPS)[number];

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

/** Only two holidays have hours that a test can go on in: with one of them usual, it goes on in the other. */
const TWO_HOLIDAYS: Scene = {
  salon: {
    zone: "Europe/London",
    opening: {
      mon: ["09:00-17:30"],
      wed: ["09:00-17:30"],
      thu: ["00:00-24:00"],
      fri: ["09:00-17:30"],
      sat: ["09:00-17:30"],
      sun: ["00:00-24:00"],
      holiday: ["00:00-24:00"],
    },
    lastWalkIn: "PT30H",
    tests: [{ route: "in-salon", protocol: "wash-off-24h" }],
    transit: 1,
    count: "delivery",
    collection: WEEKDAYS.slice(0, 5),
    delivery: WEEKDAYS.slice(0, 5),
    keepsHolidays: true,
    closed: [],
    postClosed: [],
    added: [20_799],
    holidays: [{ day: 20_806, name: "Fast" }],
  },
  start: 1_798_039_800,
  now: 1_796_923_800,
  facts: [],
  appointments: [],
};

test(`a named day moved the step, and what it is due instead is the due of a salon that never shuts (${RUNS} salons)`, () => {
  fc.assert(
    fc.property(scenes, (scene) => {
      const rules = compile(scene.salon);
      const plan = planOf(scene, rules);
      for (const step of STEPS) checkStep(step, plan, scene, rules);
    }),
    { numRuns: RUNS, examples: [[TWO_HOLIDAYS]] },
  );
  // A property of reasons proves nothing where none is given.
  expect(counts.said).toBeGreaterThan(RUNS / 10);
  expect(counts.unsaid).toBeGreaterThan(RUNS / 10);
  expect(counts.several).toBeGreaterThan(0);
});
