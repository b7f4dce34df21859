/**
 * Which days are not as on their weekday, for the salon and for the post, and under which names: for the words that say
 * what a shut day moved. Moves nothing itself.
 */
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import type { Day } from "../time/instant.ts";
import type { Dates, Span } from "./spans.ts";

/** The name of a day that the settings close. */
export const DAYS_OFF = "days off";

/** A day; `never` where there is nothing on its weekday anyway. */
export interface DayState {
  readonly salon: "usual" | "never" | "shut" | "other-hours";
  readonly post: "usual" | "never" | "shut";
  /** Null where neither is other than usual; days off before a public holiday. */
  readonly name: string | null;
  /** The same, but what shuts the post comes first: a public holiday amid the salon's days off. */
  readonly nearName: string | null;
  /** The same where the salon is other than usual, whatever the post does. */
  readonly salonName: string | null;
}

/**
 * Days under one name in a row, from one to another, both included: a public holiday, or the salon's days off. A row runs on
 * over weekdays on which there is nothing anyway, and neither begins nor ends with one.
 */
export interface ShutDays extends Dates {
  readonly name: string;
}

/**
 * By which name days are joined. By the near one all days of a group are alike for the salon and for the post; by the
 * salon's they are alike for the salon.
 */
export type Naming = "name" | "nearName" | "salonName";

export interface Closings {
  readonly on: (day: Day) => DayState;
  /** The groups that touch the days from one to another, whole and in order. */
  readonly between: (from: Day, to: Day, naming: Naming) => readonly ShutDays[];
}

export interface ClosingsInput {
  readonly usual: (day: Day) => readonly Span[];
  readonly kept: (day: Day) => readonly Span[];
  /** Whether the settings close the salon. */
  readonly isClosed: (day: Day) => boolean;
  /** A public holiday of the salon's. */
  readonly salonHoliday: (day: Day) => string | null;
  readonly isPostDay: (day: Day) => boolean;
  /** Whether the settings close the post. */
  readonly isPostClosed: (day: Day) => boolean;
  /** A public holiday of the post's. */
  readonly postHoliday: (day: Day) => string | null;
}

/** The closings of a salon; what was asked of a day is kept. */
export const makeClosings = (input: ClosingsInput): Closings => {
  const states = new Map<Day, DayState>();
  const on = (day: Day): DayState => {
    const known = states.get(day);
    if (known) return known;
    const state = readDay(day, input);
    states.set(day, state);
    return state;
  };
  const groups = {
    name: joinDays(on, "name"),
    nearName: joinDays(on, "nearName"),
    salonName: joinDays(on, "salonName"),
  };
  const between: Closings["between"] = (from, to, naming) => {
    const found: ShutDays[] = [];
    for (let day = from; day <= to; day++) {
      const group = groups[naming](day);
      if (group) found.push(group);
      day = group?.to ?? day;
    }
    return found;
  };
  return { on, between };
};

const readDay = (day: Day, input: ClosingsInput): DayState => {
  const [usual, kept] = [input.usual(day), input.kept(day)];
  const isPostClosed = input.isPostClosed(day);
  const holiday = input.postHoliday(day);
  const isUsual = areSame(usual, kept);
  const nothing = isUsual ? "never" : "shut";
  const salon = kept.length === 0 ? nothing : isUsual ? "usual" : "other-hours";
  const post = !input.isPostDay(day) ? "never" : isPostClosed || holiday !== null ? "shut" : "usual";
  const salonName = !isAltered(salon) ? null : input.isClosed(day) ? DAYS_OFF : input.salonHoliday(day);
  const postName = post !== "shut" ? null : isPostClosed ? DAYS_OFF : holiday;
  const isOff = salonName === DAYS_OFF || postName === DAYS_OFF;
  return { salon, post, name: isOff ? DAYS_OFF : (salonName ?? postName), nearName: postName ?? salonName, salonName };
};

const areSame = (one: readonly Span[], other: readonly Span[]): boolean =>
  one.length === other.length && one.every(({ from, to }, at) => from === other[at]?.from && to === other[at]?.to);

/** Whether a day is other than its weekday for the salon, or for the post. */
const isAltered = (state: DayState["salon"] | DayState["post"]): boolean => state === "shut" || state === "other-hours";

/** Days without anything on their weekday that lie between two of a row at most: a week, less the day itself. */
const GAP_DAYS = 6;

/** The group of a day that has a name; undefined for every other day. */
const joinDays = (on: (day: Day) => DayState, naming: Naming): ((day: Day) => ShutDays | undefined) => {
  const known = new Map<Day, ShutDays>();
  /** The next day of the row, backwards or forwards; the two find one another from either side. */
  const nextInRow = (day: Day, way: 1 | -1): Day | undefined => {
    const state = on(day);
    for (let gap = 1; gap <= GAP_DAYS + 1; gap++) {
      const other = on(day + gap * way);
      if (other[naming] === null) {
        if (!isBridged(other, state, naming)) return undefined;
        continue;
      }
      if (other[naming] !== state[naming] || (naming === "nearName" && !areAlike(state, other))) return undefined;
      for (let back = 1; back < gap; back++) if (!isBridged(on(day + back * way), other, naming)) return undefined;
      return day + gap * way;
    }
    return undefined;
  };
  /** The last day of the row; one that was joined already ends it. */
  const endOfRow = (day: Day, way: 1 | -1, row: Day[]): Day => {
    let end = day;
    for (;;) {
      const next = nextInRow(end, way);
      // A salon may be closed for good: a row is not followed farther than a plan looks (counting.md 7).
      if (next === undefined || known.has(next) || Math.abs(next - day) > HORIZON_AHEAD_DAYS) return end;
      row.push(next);
      end = next;
    }
  };
  return (day) => {
    const found = known.get(day);
    const name = on(day)[naming];
    if (found || name === null) return found;
    const row = [day];
    const group = { from: endOfRow(day, -1, row), to: endOfRow(day, 1, row), name };
    for (const each of row) known.set(each, group);
    return group;
  };
};

/** Whether a day without a name leaves a row whole to which a day of that state belongs. */
const isBridged = (between: DayState, { salon, post }: DayState, naming: Naming): boolean =>
  (!isAltered(salon) || between.salon === "never") &&
  (!isAltered(post) || between.post === "never" || naming === "salonName");

const areAlike = (one: DayState, other: DayState): boolean =>
  (one.salon === other.salon || (!isAltered(one.salon) && !isAltered(other.salon))) &&
  isAltered(one.post) === isAltered(other.post);

/** What a group is for a step. */
export type Shutting = "no-post" | "shut" | "other-hours";

/** What all days of a group are for the post, or for the salon; undefined where they are not alike from first to last. */
export const shuttingOf = (
  { from, to }: Dates,
  whose: "salon" | "post",
  { on }: Pick<Closings, "on">,
): Shutting | undefined => {
  const state = on(from)[whose];
  if (!isAltered(state) || on(to)[whose] !== state) return undefined;
  for (let day = from; day <= to; day++) {
    const other = on(day)[whose];
    if (other !== state && other !== "never") return undefined;
  }
  return whose === "post" ? "no-post" : state === "other-hours" ? "other-hours" : "shut";
};
