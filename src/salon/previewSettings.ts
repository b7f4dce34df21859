/** What other rules would change of the plans as they stand. Changes nothing. */
import type { Rules } from "../plan/rules.ts";
import type { Plan, RouteName, Standing } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { change, type Desk, settle } from "./settle.ts";
import type { State } from "./types.ts";

export interface PlanBrief {
  readonly route: RouteName | null;
  readonly standing: Standing;
  readonly firstDue: Instant | null;
}

export interface PlanChange {
  readonly booking: string;
  readonly start: Instant;
  readonly before: PlanBrief;
  readonly after: PlanBrief;
  /** Steps whose time would differ, by kind. */
  readonly moved: readonly string[];
}

const briefOf = (plan: Plan): PlanBrief => ({
  route: plan.route,
  standing: plan.standing,
  firstDue: plan.routes.find(({ route }) => route === plan.route)?.firstDue ?? null,
});

const timesOf = (plan: Plan): Map<string, string> =>
  new Map(plan.steps.map((step) => [step.uid, `${step.kind} ${step.opens} ${step.due}`]));

const movedBetween = (before: Plan, after: Plan): readonly string[] => {
  const [then, now] = [timesOf(before), timesOf(after)];
  const differing = [...then.keys(), ...now.keys()].filter((uid) => then.get(uid) !== now.get(uid));
  return [...new Set(differing.map((uid) => (now.get(uid) ?? then.get(uid) ?? "").split(" ")[0] ?? ""))];
};

/** What would be let go at once, since it has been kept longer than it then may be. */
export interface LetGo {
  readonly records: number;
  /** Sets of answers to the health questions. */
  readonly answers: number;
  readonly clients: number;
}

export interface SettingsPreview {
  readonly changes: readonly PlanChange[];
  readonly erased: LetGo;
}

export const lettingGo = (state: State, desk: Desk, now: Instant): LetGo => {
  const changed = change(state, now, desk, (work) => {
    work.touched = "all";
  });
  const after = settle(changed, changed.settledTo, desk);
  return {
    records: state.facts.size - after.facts.size,
    answers: state.screenings.size - after.screenings.size,
    clients: state.clients.size - after.clients.size,
  };
};

/** The bookings still ahead whose plan would differ. */
export const previewSettings = (state: State, before: Rules, after: Rules, now: Instant): readonly PlanChange[] => {
  const choice = { ...EVERY_PLAN, from: { at: now }, limit: Number.MAX_SAFE_INTEGER };
  const would = new Map(plansOf(state, after, choice, now).plans.map((plan) => [plan.booking.uid, plan]));
  return plansOf(state, before, choice, now).plans.flatMap((plan) => {
    const other = would.get(plan.booking.uid);
    if (!other) return [];
    const brief = { before: briefOf(plan), after: briefOf(other), moved: movedBetween(plan, other) };
    const isSame = brief.moved.length === 0 && JSON.stringify(brief.before) === JSON.stringify(brief.after);
    return isSame ? [] : [{ booking: plan.booking.uid, start: plan.booking.start, ...brief }];
  });
};
