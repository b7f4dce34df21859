/** What other settings would change of the bookings ahead and of their plans. Changes nothing. */
import type { Rules } from "../plan/rules.ts";
import type { Plan, RouteName, Standing } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import type { SalonDesk } from "./desk.ts";
import type { Keeper } from "./keeper.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { type Desk, settle } from "./settle.ts";
import { tryOutSettings } from "./tryOutSettings.ts";
import type { State } from "./types.ts";

export interface PlanBrief {
  readonly route: RouteName | null;
  readonly standing: Standing;
  readonly firstDue: Instant | null;
  /** Whether any way to a clear test fits, or all that the colour waits for is recorded. */
  readonly fits: boolean;
}

export interface PlanChange {
  readonly booking: string;
  readonly start: Instant;
  readonly service: string | null;
  readonly client: { readonly id: string; readonly name: string } | null;
  /** Null: it is no booking yet; the diary's entry is not taken for one. */
  readonly before: PlanBrief | null;
  /** Null: it would be a booking no longer. */
  readonly after: PlanBrief | null;
  /** Steps whose time would differ, by kind. */
  readonly moved: readonly string[];
  /** Its entry could not be understood any more: it would keep what was read last, and the desk would be asked. */
  readonly unread: boolean;
}

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
  /** Entries that nothing is understood of, today and then; null where these settings sort as those that hold. */
  readonly unsorted: { readonly before: number; readonly after: number } | null;
}

/** @param desk made of `settings` */
export const previewSettings = (keeper: Keeper, settings: Settings, desk: SalonDesk, now: Instant): SettingsPreview => {
  const { state } = keeper;
  const tried = tryOutSettings(keeper, settings, desk, now);
  const before = [...state.diaries.values()].reduce((sum, { report }) => sum + (report?.counts["unsorted"] ?? 0), 0);
  return {
    changes: changesBetween({ state, rules: keeper.desk.rules }, { state: tried.state, rules: desk.rules }, now),
    erased: lettingGo(state, tried.unread, desk),
    unsorted: tried.unsorted === null ? null : { before, after: tried.unsorted },
  };
};

/** @param changed by the settings, nothing let go yet */
const lettingGo = (state: State, changed: State, desk: Desk): LetGo => {
  const after = settle(changed, changed.settledTo, desk);
  return {
    records: state.facts.size - after.facts.size,
    answers: state.screenings.size - after.screenings.size,
    clients: state.clients.size - after.clients.size,
  };
};

interface Salon {
  readonly state: State;
  readonly rules: Rules;
}

/** The bookings ahead that would differ, come or go, in order of their starts. */
const changesBetween = (before: Salon, after: Salon, now: Instant): readonly PlanChange[] => {
  const [then, would] = [standingPlans(before, now), standingPlans(after, now)];
  const both = new Map([...then, ...would]);
  return [...both.keys()]
    .map((uid): PlanChange & { isSame: boolean } => {
      const [old, made] = [then.get(uid), would.get(uid)];
      const { start, service, client } = ((old ?? made) as Plan).booking;
      const brief = { before: old ? briefOf(old) : null, after: made ? briefOf(made) : null };
      const moved = old && made ? movedBetween(old, made) : [];
      const unread = isUnread(after.state, uid) && !isUnread(before.state, uid);
      const isAlike = JSON.stringify(brief.before) === JSON.stringify(brief.after);
      const isSame = isAlike && moved.length === 0 && !unread && old?.booking.start === made?.booking.start;
      return { booking: uid, start, service, client, ...brief, moved, unread, isSame };
    })
    .filter(({ isSame }) => !isSame)
    .map(({ isSame: _isSame, ...changed }) => changed)
    .toSorted((one, other) => one.start - other.start || (one.booking < other.booking ? -1 : 1));
};

/** Plans of the bookings ahead that stand in a diary. */
const standingPlans = ({ state, rules }: Salon, now: Instant): ReadonlyMap<string, Plan> => {
  const choice = { ...EVERY_PLAN, from: { at: now }, limit: Number.MAX_SAFE_INTEGER };
  const { plans } = plansOf(state, rules, choice, now);
  return new Map(plans.filter(({ standing }) => standing !== "cancelled").map((plan) => [plan.booking.uid, plan]));
};

const isUnread = ({ bookings }: State, uid: string): boolean => (bookings.get(uid)?.unreadSince ?? null) !== null;

const briefOf = (plan: Plan): PlanBrief => ({
  route: plan.route,
  standing: plan.standing,
  firstDue: plan.routes.find(({ route }) => route === plan.route)?.firstDue ?? null,
  fits: plan.standing === "ready" || plan.applied || plan.routes.some(({ fits }) => fits),
});

const timesOf = (plan: Plan): Map<string, string> =>
  new Map(plan.steps.map((step) => [step.uid, `${step.kind} ${step.opens} ${step.due}`]));

const movedBetween = (before: Plan, after: Plan): readonly string[] => {
  const [then, now] = [timesOf(before), timesOf(after)];
  const differing = [...then.keys(), ...now.keys()].filter((uid) => then.get(uid) !== now.get(uid));
  return [...new Set(differing.map((uid) => (now.get(uid) ?? then.get(uid) ?? "").split(" ")[0] ?? ""))];
};
