/**
 * What a plan costs: the CPU of one count-back for a salon with every rule on, as a ratio to plain luxon arithmetic for the
 * same number of instants. `npm run bench`, in Node, since clocks stand still inside workerd; it prints and asserts nothing.
 *
 * **Counted** are the instants that a plan answers: its booking's start, `opens` and `due` of each step, and what its routes
 * name of `until`, `firstDue` and `earliest`. Not counted is what it must reckon beside them: the steps of the route not
 * taken, records, what changes next, UIDs, and the sentences of `why`, in which it also writes some of those times out.
 *
 * **Plain luxon** reckons as many instants, each by the one chain that it needs at least: from UTC into the zone, an exact
 * length taken off, then, where a wall time decides, back day by day while shut, set to that day's hours, and to UTC. It
 * keeps no windows, margins, breaks, transit days, gaps or records, so it is less than a right answer would take.
 *
 * **One subtraction** is the floor: an instant made in the zone, hours taken off, and back. No plan can be had for it.
 *
 * Bookings lie over a year, looked at from two months before to the day after; none is asked twice in a row.
 */
import { countBack, type CountBackInput } from "../../src/plan/countBack.ts";
import { loadHolidays } from "../../src/plan/holidays.ts";
import type { Rules } from "../../src/plan/rules.ts";
import { formatDay } from "../../src/time/instant.ts";
import { BOOKINGS, busyQuestions, busySettings, compileBusy, COUNTRY } from "./busySalon.ts";
import { cpuOf, spreadOf, spreadText, takeTurns } from "./measure.ts";
import { needsOf, reckonPlainly, subtractOnly } from "./plainLuxon.ts";

const ROUNDS = Number(process.env["BENCH_ROUNDS"] ?? 60);
const WARM_UP = 15;
const EARLIER_RECORDS = 18;
const FRESH_SALONS = 40;

const holidays = await loadHolidays(COUNTRY.country, COUNTRY.region, 2024, 2029);
const shut = new Set(holidays.salon.map(({ day }) => formatDay(day)));
const rules = compileBusy(holidays);

let kept = 0;
const planAll = (questions: readonly CountBackInput[], by: Rules): void => {
  for (const question of questions) kept += countBack(question, by).steps.length;
};

const questions = busyQuestions(EARLIER_RECORDS);
const plans = questions.map((question) => countBack(question, rules));
const work = plans.map((plan) => ({ start: plan.booking.start, needs: needsOf(plan) }));
const instants = work.reduce((sum, { needs }) => sum + needs.length, 0);
const records = questions.reduce((sum, { facts }) => sum + facts.length, 0);
const standings = Map.groupBy(plans, ({ standing }) => standing);
const routes = Map.groupBy(plans, ({ route }) => route ?? "none");
const countsOf = (groups: ReadonlyMap<string, readonly unknown[]>): string =>
  [...groups].map(([name, each]) => `${name} ${each.length}`).join(", ");

const oneMoment = busyQuestions(EARLIER_RECORDS, questions[40]?.now ?? null);
const taken = takeTurns(
  {
    plan: () => planAll(questions, rules),
    plain: () => {
      for (const { start, needs } of work) kept += reckonPlainly(start, needs, shut);
    },
    floor: () => {
      for (const { start, needs } of work) kept += subtractOnly(start, needs.length);
    },
  },
  ROUNDS,
  WARM_UP,
);
const ratioTo = (name: "plain" | "floor"): string =>
  spreadText(spreadOf(taken.plan.map((cost, round) => cost / (taken[name][round] ?? NaN))), 3);
const each = (costs: readonly number[]): string => spreadText(spreadOf(costs.map((cost) => cost / BOOKINGS)), 1);

const byRecords = takeTurns(
  Object.fromEntries(
    [0, 10, 200].map((count) => {
      const asked = busyQuestions(count);
      return [String(count), () => planAll(asked, rules)];
    }),
  ),
  Math.ceil(ROUNDS / 3),
  5,
);
const atOnce = takeTurns({ all: () => planAll(oneMoment, rules) }, Math.ceil(ROUNDS / 3), 5);

const compiling: number[] = [];
const firstPlans: number[] = [];
const firstYears: number[] = [];
for (let salon = 0; salon < FRESH_SALONS; salon++) {
  let fresh = rules;
  compiling.push(cpuOf(() => (fresh = compileBusy(holidays))));
  firstPlans.push(cpuOf(() => planAll(questions.slice(salon, salon + 1), fresh)));
  firstYears.push(cpuOf(() => planAll(questions, fresh)));
}

const lines: readonly (readonly [string, string])[] = [
  ["bookings, records and instants of a round", `${BOOKINGS}, ${records}, ${instants}`],
  ["instants of one plan", (instants / BOOKINGS).toFixed(1)],
  ["standings", countsOf(standings)],
  ["routes", countsOf(routes)],
  ["plan : plain luxon", ratioTo("plain")],
  ["plan : one subtraction an instant", ratioTo("floor")],
  ["µs of one plan", each(taken.plan)],
  ["µs of its instants by plain luxon", each(taken.plain)],
  ["µs of its instants by one subtraction each", each(taken.floor)],
  ...Object.entries(byRecords).map(
    ([count, costs]) => [`µs of one plan, ${count} records of other bookings`, each(costs)] as const,
  ),
  ["µs of one plan, all of a year seen at one moment", each(atOnce.all)],
  ["µs to compile a salon", spreadText(spreadOf(compiling), 0)],
  ["µs of a fresh salon's first plan", spreadText(spreadOf(firstPlans), 0)],
  [`µs of a fresh salon's first ${BOOKINGS} plans`, spreadText(spreadOf(firstYears), 0)],
];
console.log(`${busySettings.zone}, Node ${process.version}, ${ROUNDS} rounds; median (10th to 90th hundredth)`);
for (const [name, value] of lines) console.log(`${name.padEnd(52)} ${value}`);
if (Number.isNaN(kept)) throw new Error("an instant that is none");
