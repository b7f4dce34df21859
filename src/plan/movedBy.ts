/**
 * Which shut days moved which step: the booking's test counted back once more with days re-opened. For words alone;
 * nothing is decided here.
 */
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { type Day, DAY_SECONDS, type Instant } from "../time/instant.ts";
import { type Closings, type Naming, type ShutDays, type Shutting, shuttingOf } from "./closings.ts";
import { countFresh, type Term } from "./fresh.ts";
import { countResult, lastHoldingOpens, openLooks } from "./looks.ts";
import type { Rules } from "./rules.ts";
import type { OpenHours } from "./salonHours.ts";
import type { TestState } from "./survey.ts";

export type MovedStep = "application" | "shipping" | "result";

/** Shut days without which a step would be due at another time, and what they are for it. */
export interface Mover extends ShutDays {
  readonly shutting: Shutting;
}

export interface Moved {
  readonly step: MovedStep;
  /** When it would be due if no day were shut; null where it would have no moment. */
  readonly from: Instant | null;
  readonly to: Instant;
  /** In order. */
  readonly by: readonly Mover[];
}

/** When a step is due by some hours; null where it has no moment. */
type Reckon = (hours: OpenHours) => Instant | null;

/** What shut days moved of a test's open steps; empty where none lies in their way. */
export const movedSteps = (
  state: TestState,
  open: ReadonlyMap<MovedStep, Term>,
  start: Instant,
  rules: Rules,
): readonly Moved[] => {
  const { zone, unclosed } = rules;
  // How long before closing a walk-in is taken can hang on a day after the start (counting.md 9).
  const last = zone.dayAt(start) + 1 + Math.ceil(rules.walkIn.before / DAY_SECONDS);
  const dayBefore = (at: Instant): Day => zone.dayAt(at) - 1;
  // A result hangs on all that lies between the test and the start, whichever of its closings comes out (counting.md 19).
  const from = (step: MovedStep, { opens, due }: Term): Instant =>
    step !== "result" ? due : fixedApplication(state) === null ? (state.fresh?.application.due ?? opens) : opens;
  const planned = Math.min(...[...open].map(([step, term]) => from(step, term)));
  if (!isAnyShut(dayBefore(planned), last, rules.closings)) return [];
  return [...open].flatMap(([step, term]): readonly Moved[] => {
    const reckon = reckonOf(step, state, start, rules);
    const [to, unmoved] = [term.due, reckon(unclosed)];
    if (unmoved === to) return [];
    const first = dayBefore(Math.min(from(step, term), unmoved ?? to));
    const by = findMovers(step, { to, reckon, first, last }, rules);
    return by.length === 0 ? [] : [{ step, from: unmoved, to, by }];
  });
};

const isAnyShut = (first: Day, last: Day, { on }: Closings): boolean => {
  for (let day = first; day <= last; day++) if (on(day).name !== null) return true;
  return false;
};

/** When a test went on, or is booked to: no shut day moves that. */
const fixedApplication = ({ application, appointment }: TestState): Instant | null =>
  application?.fact.at ?? appointment?.due ?? null;

const reckonOf = (step: MovedStep, state: TestState, start: Instant, rules: Rules): Reckon => {
  const { test } = state;
  const fresh = (hours: OpenHours) => countFresh(test, start, { ...rules, ...pick(hours) });
  if (step === "application") return (hours) => fresh(hours)?.application.due ?? null;
  if (step === "shipping") return (hours) => fresh(hours)?.post?.shipping.due ?? null;
  const fixed = fixedApplication(state);
  return (hours) => {
    const from = fixed ?? fresh(hours)?.application.due;
    if (from === undefined) return null;
    const looks = state.application?.looks ?? openLooks(test, from, null);
    return countResult(lastHoldingOpens(looks), start, { ...rules, ...pick(hours) }).due;
  };
};

const pick = ({ walkIn, handOver, post }: OpenHours): OpenHours => ({ walkIn, handOver, post });

/** A step that was moved: its due, how it is reckoned, and the days among which the cause lies. */
interface Sought {
  readonly to: Instant;
  readonly reckon: Reckon;
  readonly first: Day;
  readonly last: Day;
}

/**
 * The groups of shut days of which one alone moves the step, or else as many of them as it takes. The kit hangs on salon and
 * post, and where not all days of a group are alike for what it does to the posting, groups are joined by their near names.
 */
const findMovers = (step: MovedStep, sought: Sought, rules: Rules): readonly Mover[] =>
  (step === "shipping"
    ? (tellMovers(sought, "name", rules) ?? tellMovers(sought, "nearName", rules))
    : tellMovers(sought, "salonName", rules)) ?? [];

/**
 * More groups than this lie in the way only where a calendar is a patchwork of a year: no list of them explains anything,
 * and each is a calendar to reckon by.
 */
const GROUPS_MAX = 40;

const tellMovers = (sought: Sought, naming: Naming, rules: Rules): readonly Mover[] | undefined => {
  const { to, reckon } = sought;
  const dueWith = (days: readonly ShutDays[]): Instant | null => reckon(rules.reopened(days));
  const groups = groupsInTheWay(sought, dueWith, naming, rules);
  if (groups.length > GROUPS_MAX) return undefined;
  const alone = groups.filter((group) => dueWith([group]) !== to);
  const named = alone.length > 0 ? keepMoving(alone, to, dueWith) : leaveOut(groups, dueWith);
  const told: Mover[] = [];
  for (const group of named) {
    const others = alone.length > 0 ? [] : named.filter((each) => each !== group);
    const shutting = findShutting(group, others, sought, rules);
    if (!shutting) return undefined;
    told.push({ ...group, shutting });
  }
  return told;
};

/**
 * The groups that together move the step. A salon that tests only on its holidays has one more before each that is re-opened,
 * and the result stays where it is: the way is looked through farther back until it does not.
 */
const groupsInTheWay = (
  { to, first, last }: Sought,
  dueWith: (days: readonly ShutDays[]) => Instant | null,
  naming: Naming,
  { closings }: Rules,
): readonly ShutDays[] => {
  for (let back = 0; ; back = back * 2 + 7) {
    const groups = closings.between(first - back, last, naming);
    if (groups.length > GROUPS_MAX || back > HORIZON_AHEAD_DAYS || dueWith(groups) !== to) return groups;
  }
};

/** Each of these moves the step; one is left out with which the whole would not. */
const keepMoving = (
  alone: readonly ShutDays[],
  to: Instant,
  dueWith: (days: readonly ShutDays[]) => Instant | null,
): readonly ShutDays[] =>
  alone.reduce<readonly ShutDays[]>(
    (kept, group) => (kept.length === 0 || dueWith([...kept, group]) !== to ? [...kept, group] : kept),
    [],
  );

/** One after the other, those are left out without which the rest does the same. */
const leaveOut = (
  groups: readonly ShutDays[],
  dueWith: (days: readonly ShutDays[]) => Instant | null,
): readonly ShutDays[] => {
  const all = dueWith(groups);
  return groups.reduce((kept, group) => {
    const rest = kept.filter((each) => each !== group);
    return dueWith(rest) === all ? rest : kept;
  }, groups);
};

/** What a group is for a step that `others` are re-opened for; undefined where not all its days are that. */
const findShutting = (
  group: ShutDays,
  others: readonly ShutDays[],
  { to, reckon }: Sought,
  { closings, reopened }: Rules,
): Shutting | undefined => {
  const [without, withIt] = [reopened(others), reopened([...others, group])];
  const before = others.length === 0 ? to : reckon(without);
  const isByPost = reckon({ ...without, post: withIt.post }) !== before;
  const isBySalon = reckon({ ...withIt, post: without.post }) !== before;
  const byPost = isByPost ? shuttingOf(group, "post", closings) : undefined;
  if (byPost) return byPost;
  return isBySalon || !isByPost ? shuttingOf(group, "salon", closings) : undefined;
};
