/**
 * What stood around a record when it was told: the salon's zone, the version of its settings, the start of the appointment, the
 * rule it was done by with its source, the questions and the words that were shown. Kept with the record for good: rules and
 * settings change later, and appointments move.
 */
import type { Rules } from "../plan/rules.ts";
import type { Fact, Plan, RecordKind, Step, StepKind, StepRule } from "../plan/types.ts";
import { formatDuration } from "../time/duration.ts";
import type { Keeper } from "./keeper.ts";
import { mattersByClient } from "./matters.ts";
import { planClient } from "./planClient.ts";
import type { Circumstances } from "./types.ts";

/** The steps that a record of each kind tells of. */
const STEPS: Partial<Record<RecordKind, readonly StepKind[]>> = {
  screened: ["screening", "rescreening"],
  posted: ["shipping"],
  arrived: ["arrival"],
  applied: ["application"],
  removed: ["removal"],
  read: ["reading"],
  confirmed: ["result"],
  reacted: ["application"],
};

/** The rule of the step that a record tells of: of a look, the last that had opened. */
const ruleOfStep = (fact: Fact, plan: Plan): StepRule | null => {
  const kinds = STEPS[fact.kind] ?? [];
  const steps = plan.steps.concat(plan.leftBehind).filter(({ kind }) => kinds.includes(kind));
  const opened = steps.findLast((step: Step) => step.opens <= fact.at);
  return (opened ?? steps[0])?.rule ?? null;
};

/** The least lead of the record's own route, where no plan says more. */
const ruleOfRoute = ({ route }: Fact, rules: Rules): StepRule | null => {
  const test = rules.tests.find((each) => each.route === route);
  if (!test) return null;
  const { name, source } = test.decided.least;
  return { protocol: name, duration: formatDuration(test.least), source };
};

/** What was shown to who told it. */
export type Shown = Pick<Circumstances, "questions" | "words">;

/** Of a record that belongs to no booking. */
export const plainCircumstances = (keeper: Keeper, fact: Fact, shown: Shown): Circumstances => ({
  zone: keeper.settings.zone,
  settings: keeper.version,
  rule: ruleOfRoute(fact, keeper.desk.rules),
  questions: fact.kind === "screened" ? shown.questions : null,
  words: shown.words,
  start: null,
});

/** @param fact as it will be kept; it is not among the salon's records yet */
export const circumstancesOf = (keeper: Keeper, fact: Fact, shown: Shown): Circumstances => {
  const { state, desk } = keeper;
  const booking = fact.booking === null ? undefined : state.bookings.get(fact.booking);
  const plain = { ...plainCircumstances(keeper, fact, shown), start: booking?.start ?? null };
  const client = booking && state.clients.get(booking.client);
  if (!booking || !client) return plain;
  const matters = mattersByClient(state, new Set([client.id])).get(client.id);
  if (!matters) return plain;
  // What a record makes of a plan, its route among it, is what says by which rule it was done.
  const plans = planClient(client, { ...matters, facts: [...matters.facts, fact] }, fact.recorded, desk.rules);
  const plan = plans.find((each) => each.booking.uid === booking.uid);
  return { ...plain, rule: (plan && ruleOfStep(fact, plan)) ?? plain.rule };
};
