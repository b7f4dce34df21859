/** The coming weeks, a row an appointment, with as little of each as its row shows. Pure; makes no words. */
import { doneTimes, shownSteps, type StepLine } from "../feed/nextToDo.ts";
import type { Rules } from "../plan/rules.ts";
import { type Shade, shadesBetween } from "../plan/shades.ts";
import type { Plan, RouteName, Standing, StepKind } from "../plan/types.ts";
import type { Day, Instant } from "../time/instant.ts";
import type { MakePlans } from "./PlanMemo.ts";
import { plansOf } from "./plans.ts";
import type { State } from "./types.ts";

/** A step on a row's axis. */
export interface RowMark {
  readonly kind: StepKind;
  readonly n: number | null;
  readonly opens: Instant;
  readonly due: Instant;
  readonly state: StepLine["state"];
  /** Whether its times hang on a test that nobody has recorded. */
  readonly hangs: boolean;
}

export interface DeskRow {
  readonly booking: string;
  readonly client: string;
  readonly name: string;
  readonly start: Instant;
  readonly service: string;
  readonly diary: string | null;
  readonly standing: Standing;
  readonly route: RouteName | null;
  readonly marks: readonly RowMark[];
  /** The earliest step that is open or asked about, else the earliest to come; null: none is left. */
  readonly next: RowMark | null;
}

export interface DeskWeeks {
  readonly now: Instant;
  /** Until when it stays as it is if nothing is told or read; null: for ever. */
  readonly until: Instant | null;
  readonly from: Instant;
  /** Exclusive. */
  readonly to: Instant;
  readonly rows: readonly DeskRow[];
  readonly shades: readonly Shade[];
  /** Appointments ahead in all, whatever is shown. */
  readonly ahead: number;
}

/**
 * @param days local days, from the first up to and without the second
 * @param make as in `plansOf`
 */
export const deskWeeks = (
  state: State,
  rules: Rules,
  days: { readonly from: Day; readonly to: Day },
  now: Instant,
  make?: MakePlans,
): DeskWeeks => {
  const choice = { client: null, after: null, limit: Number.MAX_SAFE_INTEGER };
  const { plans } = plansOf(state, rules, { ...choice, from: { day: days.from }, to: { day: days.to } }, now, make);
  const rows = plans.filter(({ standing }) => standing !== "cancelled").map(rowOf);
  const [from, to] = [rules.zone.startOfDay(days.from), rules.zone.startOfDay(days.to)];
  const first = Math.min(from, ...rows.flatMap(({ marks }) => marks.map(({ opens }) => opens)));
  const times = rows.flatMap(({ start, marks }) => [start, ...marks.flatMap(({ opens, due }) => [opens, due + 1])]);
  const until = Math.min(...times.filter((at) => at > now));
  return {
    now,
    until: Number.isFinite(until) ? until : null,
    from,
    to,
    rows,
    shades: shadesBetween(rules, first, to - 1),
    ahead: [...state.bookings.values()].filter(({ start, cancelledAt }) => start > now && cancelledAt === null).length,
  };
};

const rowOf = (plan: Plan): DeskRow => {
  const { booking, standing, route } = plan;
  const marks = shownSteps(plan).map(
    ({ step, step: { kind, n, opens, due, counted }, state }): RowMark => ({
      kind,
      n,
      ...(state === "done" ? doneTimes(step, plan) : { opens, due }),
      state,
      hangs: counted !== null && !counted.recorded,
    }),
  );
  const left = marks
    .filter(({ state }) => state !== "done" && state !== "off")
    .toSorted((one, two) => one.due - two.due);
  return {
    booking: booking.uid,
    client: booking.client?.id ?? "",
    name: booking.client?.name ?? "",
    start: booking.start,
    service: booking.service,
    diary: booking.diary,
    standing,
    route,
    marks,
    next: left.find(({ state }) => state !== "open") ?? left[0] ?? null,
  };
};
