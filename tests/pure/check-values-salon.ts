/** A salon and one booking of it, put to the engine's front door, for the check values. Expects nothing itself. */
import { countBack } from "../../src/plan/countBack.ts";
import { type HolidayTable, NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan, Step, StepKind } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { DAY_SECONDS, formatInstant, type Instant, parseWall, type Seconds } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

export const HOME_KIT = { route: "home-kit", protocol: "home-kit-120h" };
export const WALK_IN = { route: "in-salon", protocol: ["salon-48h"] };

/** Monday to Saturday, 09:00 to 17:30: with half an hour before closing the last walk-in is 17:00. */
export const SIX_DAYS = Object.fromEntries(
  ["mon", "tue", "wed", "thu", "fri", "sat"].map((name) => [name, ["09:00-17:30"]]),
);

export const rulesOf = (given: Record<string, unknown>, holidays: HolidayTable = NO_HOLIDAYS): Rules => {
  const settings = settingsSchema.parse({
    name: "A salon",
    zone: "Europe/London",
    tests: [HOME_KIT, WALK_IN],
    ...given,
  });
  const compiled = compileRules(settings, holidays, "salon-of-the-check-values");
  if (!compiled.ok) throw new Error(compiled.refusals.map((each) => each.text).join("\n"));
  return compiled.rules;
};

/** `2026-12-11 10:30`, or with seconds, by the salon's clock. */
export const local = (rules: Rules, text: string): Instant => {
  const wall = parseWall(text.replace(" ", "T"));
  if (wall === undefined) throw new Error(`no wall time: ${text}`);
  return rules.zone.firstReading(wall);
};

/** `2026-12-11 10:30` by the salon's clock; seconds only where there are some. */
export const shown = (rules: Rules, at: Instant): string =>
  formatInstant(rules.zone.wallAt(at)).replace("T", " ").replace("Z", "").replace(/:00$/, "");

/** The plan of a colour, ninety days before it or at `now`. */
export const planFor = (rules: Rules, start: string, facts: readonly Fact[] = [], now?: string): Plan => {
  const at = local(rules, start);
  const asked = now === undefined ? at - 90 * DAY_SECONDS : local(rules, now);
  return countBack({ booking: bookingAt(at), facts, samePerson: true, now: asked }, rules);
};

export const stepIn = (plan: Plan, kind: StepKind, n: number | null = null): Step => {
  const found = plan.steps.find((step) => step.kind === kind && step.n === n);
  if (!found) throw new Error(`the plan has no ${kind} ${n ?? ""}`);
  return found;
};
export const dueIn = (rules: Rules, plan: Plan, kind: StepKind, n: number | null = null): string =>
  shown(rules, stepIn(plan, kind, n).due);
export const opensIn = (rules: Rules, plan: Plan, kind: StepKind, n: number | null = null): string =>
  shown(rules, stepIn(plan, kind, n).opens);

/** When the looks of a plan open, in their order. */
export const looksIn = (rules: Rules, plan: Plan): readonly string[] =>
  plan.steps.filter((step) => step.kind === "reading").map((step) => shown(rules, step.opens));

/** Whether a test put on at `on` counts for a colour at `start`, asked as it goes on. */
export const counts = (rules: Rules, start: string, on: string): boolean =>
  planFor(rules, start, [makeFact({ kind: "applied", at: local(rules, on), route: rules.tests[0]?.route ?? null })], on)
    .applied;

/** A test of an earlier booking, put on at `on` and recorded clear so long after. */
export const clearTest = (
  rules: Rules,
  on: string,
  looks: readonly Seconds[],
  given: Partial<Fact> = {},
): readonly Fact[] => {
  const at = local(rules, on);
  const booking = "booking-0";
  return [
    makeFact({ kind: "applied", at, booking, route: rules.tests[0]?.route ?? null, ...given }),
    ...looks.map((after) => makeFact({ kind: "read", at: at + after, booking, outcome: "clear" })),
  ];
};
