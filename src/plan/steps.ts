/** Drafts made steps: what is done, who does it, under which UID (counting.md 23). Never moves a term. */
import type { Instant } from "../time/instant.ts";
import { type Application, removalOf } from "./applications.ts";
import { draftAfterwards, type StepDraft } from "./drafts.ts";
import { type LookTime, openLooks, readLooks } from "./looks.ts";
import type { Rules } from "./rules.ts";
import type { Survey, TestState } from "./survey.ts";
import type { Fact, RouteName, Step, StepKind, StepState } from "./types.ts";
import { eventUid } from "./uid.ts";

/**
 * Removal and looks of a kit left behind stay the events they were. Only where the plan's own test has a step of that kind
 * and number do they get UIDs by numbers from here on, which its looks never reach: the two then stand side by side.
 */
const LEFT_BEHIND_NUMBERS = 50;

/** What is known of a route's test. */
export interface Progress {
  readonly looks: ReadonlyMap<number, Fact>;
  readonly isDone: (draft: StepDraft) => boolean;
}

/** How far a route has come, by all records of `found`; `planned` is when its test is to go on. */
export const readProgress = (found: Survey, route: RouteName, planned: Instant | null): Progress => {
  const { own, ledger } = found;
  const state = found.tests.find((each) => each.route === route);
  const application = state?.application ?? null;
  const reads = own.filter((fact) => fact.kind === "read" && fact.at >= (application?.fact.at ?? fact.at));
  const looks = state ? readLooks(lookTimes(state, planned), reads, ledger) : new Map<number, Fact>();
  const has = (kind: Fact["kind"]): boolean => own.some((fact) => fact.kind === kind);
  const isDone = (draft: StepDraft): boolean => {
    switch (draft.kind) {
      case "screening":
      case "rescreening":
        return has("screened") && found.undecidedAt === null;
      case "shipping":
        return !!application || !!state?.kit?.posted || !!state?.kit?.arrived;
      case "arrival":
        return !!application || !!state?.kit?.arrived;
      case "application":
        return !!application;
      case "removal":
        return isRemoved(found, state) || reads.some((read) => read.at >= draft.opens);
      case "reading":
        return looks.has(draft.n ?? 0);
      case "result":
        return !!state?.test.looks.every((look) => !look.holds || looks.has(look.n));
      default:
        return draft.kind satisfies never;
    }
  };
  return { looks, isDone };
};

/** When a test's looks open: the recorded application says it best, the planned one else. */
const lookTimes = (state: TestState, planned: Instant | null): readonly LookTime[] =>
  state.application?.looks ?? (planned === null ? [] : openLooks(state.test, planned, null));

const isRemoved = (found: Survey, state: TestState | undefined): boolean => {
  if (state?.application) return removalOf(state.application.fact, found.own) !== null;
  const firstApplied = found.own.find((fact) => fact.kind === "applied")?.at ?? Infinity;
  return found.own.some((fact) => fact.kind === "removed" && fact.at < firstApplied);
};

const ownerOf = (kind: StepKind): Step["who"] => (kind === "shipping" || kind === "result" ? "salon" : "client");

/** Steps in their order; `open` is the state of one that is not done. */
export const makeSteps = (
  drafts: readonly StepDraft[],
  facts: {
    readonly bookingUid: string;
    readonly isDone: (draft: StepDraft) => boolean;
    readonly open: StepState;
    /** Steps whose UIDs are taken. */
    readonly beside?: readonly Step[];
    readonly rules: Rules;
  },
): readonly Step[] =>
  drafts.map((draft) => {
    const isTaken = facts.beside?.some(({ kind, n }) => kind === draft.kind && n === draft.n);
    const number = isTaken ? LEFT_BEHIND_NUMBERS + (draft.n ?? 0) : draft.n;
    return {
      uid: eventUid(facts.rules.namespace, facts.bookingUid, draft.kind, number),
      ...draft,
      who: ownerOf(draft.kind),
      state: facts.open === "cancelled" || !facts.isDone(draft) ? facts.open : "done",
    };
  });

/**
 * The newest test that went on though the plan does not count on it: an earlier result covers the booking, or the test does
 * not keep its rule. It is on the skin all the same.
 */
export const wornBeside = (found: Survey, route: RouteName | null): Application | null => {
  const worn = found.applications.at(-1);
  return worn && (route === "on-file" || worn.fault !== null) ? worn : null;
};

/**
 * Removal and looks of a test that is not the plan's and may be on the skin all the same: of one that went on beside the
 * plan (wornBeside); of a kit that went out, until another application or the start.
 */
export const leftBehindSteps = (
  found: Survey,
  route: RouteName | null,
  planned: readonly Step[],
  now: Instant,
  rules: Rules,
): readonly Step[] => {
  const { booking, own } = found;
  const worn = wornBeside(found, route);
  if (worn && now <= booking.start) return wornSteps(found, worn, planned, rules);
  const state = found.tests.find((each) => each.route === "home-kit");
  if (!state?.kit?.last || !state.fresh || route === "home-kit" || now > booking.start) return [];
  const { last } = state.kit;
  if (own.some((fact) => fact.kind === "applied" && fact.at >= last.at)) return [];
  const from = state.fresh.application.due;
  const drafts = draftAfterwards(state.test, { from, looks: null, isRecorded: false, start: booking.start, rules });
  const { isDone } = readProgress(found, "home-kit", from);
  return makeSteps(drafts, { bookingUid: booking.uid, isDone, open: "planned", beside: planned, rules });
};

const wornSteps = (
  found: Survey,
  application: Application,
  planned: readonly Step[],
  rules: Rules,
): readonly Step[] => {
  const { uid, start } = found.booking;
  const { fact, test, looks } = application;
  const drafts = draftAfterwards(test, { from: fact.at, looks, isRecorded: true, start, rules });
  const isWorn = (state: TestState): TestState => (state.test === test ? { ...state, application } : state);
  const { isDone } = readProgress({ ...found, tests: found.tests.map(isWorn) }, test.route, null);
  return makeSteps(drafts, { bookingUid: uid, isDone, open: "planned", beside: planned, rules });
};
