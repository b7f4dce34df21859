/**
 * The steps of one route, with their terms and the rule behind each, before anyone asks what is done.
 * Depends on records of applications, removals and kits, never on now.
 */
import type { Instant, Seconds } from "../time/instant.ts";
import { formatDuration } from "../time/duration.ts";
import { countArrival, countBefore, type Fresh, type Term } from "./fresh.ts";
import { countLook, countResult, lastHoldingOpens, type LookTime, openLooks } from "./looks.ts";
import type { Protocol } from "./protocol.ts";
import type { Rules } from "./rules.ts";
import { applicationTerm, plannedApplication, type Survey, type TestState } from "./survey.ts";
import type { TestRule } from "./testRule.ts";
import type { RouteName, Step, StepKind, StepRule } from "./types.ts";

/** A step without its UID, its owner and its state. */
export type StepDraft = Pick<Step, "kind" | "n" | "opens" | "due" | "rule" | "counted" | "booked">;

const ASKED_FIRST: StepRule = { protocol: null, duration: null, source: "common practice, no source" };
const BY_POST: StepRule = { protocol: null, duration: null, source: "Directive 97/67/EC, Annex II, 1997" };

const ruleOf = (protocol: Protocol, duration: Seconds | null): StepRule => ({
  protocol: protocol.name,
  duration: duration === null ? null : formatDuration(duration),
  source: protocol.source,
});

const draft = (
  kind: StepKind,
  { opens, due }: Term,
  rule: StepRule,
  n: number | null = null,
  counted: StepDraft["counted"] = null,
): StepDraft => ({ kind, n, opens, due, rule, counted, booked: null });

/** The steps of a route of a survey, in the order they are taken; none where the route has no moment. */
export const draftSteps = (found: Survey, route: RouteName, rules: Rules): readonly StepDraft[] => {
  if (route === "on-file") return draftRescreening(found);
  const state = found.tests.find((each) => each.route === route);
  const term = state && applicationTerm(state);
  if (!state || !term) return [];
  const { test, application, appointment } = state;
  const { margin } = test.screening;
  const isBooked = appointment !== null && application === null;
  const counted = appointment === null ? state.fresh : null;
  const before = counted ?? countBefore(test, term, found.booking.start, rules);
  const from = plannedApplication(state) ?? term.due;
  const post = test.route === "home-kit" ? draftPost(state, before, found.booking.start, rules) : [];
  if (!post) return [];
  return [
    draft(
      "screening",
      before.screening,
      margin > 0 ? { ...ASKED_FIRST, duration: formatDuration(margin) } : ASKED_FIRST,
    ),
    ...post,
    {
      ...draft("application", term, ruleOf(test.decided.least, test.least)),
      booked: isBooked ? { until: appointment.until } : null,
    },
    ...draftAfterwards(test, {
      from,
      looks: application?.looks ?? null,
      isRecorded: application !== null,
      start: found.booking.start,
      rules,
    }),
    draftResult(test, state, from, found.booking.start, rules),
  ];
};

/** Removal and looks of a test that went on, or is to go on, at `from`. */
export const draftAfterwards = (
  test: TestRule,
  facts: {
    readonly from: Instant;
    readonly looks: readonly LookTime[] | null;
    readonly isRecorded: boolean;
    readonly start: Instant;
    readonly rules: Rules;
  },
): readonly StepDraft[] => {
  const { from, start, rules, isRecorded } = facts;
  const looks = facts.looks ?? openLooks(test, from, null);
  const resultDue = countResult(lastHoldingOpens(looks), start, rules).due;
  const removal = test.wear === null ? [] : [draftRemoval(test, test.wear, from, start, isRecorded)];
  const readings = looks.map((each) => {
    const { look } = each;
    const counted = { from, after: look.after, recorded: isRecorded };
    return draft("reading", countLook(each, resultDue, rules), ruleOf(look.protocol, look.after), look.n, counted);
  });
  return [...removal, ...readings];
};

/** Rule 17. It may be later than the start only where a test is worn past it: opens never moves, and due is never before. */
const draftRemoval = (test: TestRule, wear: Seconds, from: Instant, start: Instant, isRecorded: boolean): StepDraft => {
  const opens = from + wear;
  const latest = test.from === "removal" ? start - test.least : start;
  const due = Math.max(opens, Math.min(opens + test.removeWithin, latest));
  const rule = ruleOf(test.decided.removal, wear);
  return draft("removal", { opens, due }, rule, null, { from, after: wear, recorded: isRecorded });
};

const draftResult = (test: TestRule, state: TestState, from: Instant, start: Instant, rules: Rules): StepDraft => {
  const looks = state.application?.looks ?? openLooks(test, from, null);
  const result = countResult(lastHoldingOpens(looks), start, rules);
  return draft("result", result, ruleOf(test.lastHolding.protocol, null));
};

/**
 * Shipping and arrival, counted back from the application whatever the records say; what the post has no moment for is
 * left out. Undefined where nothing was posted, arrived or applied either: then the route has no steps.
 */
const draftPost = (
  { kit, application }: TestState,
  before: Omit<Fresh, "windowFrom">,
  start: Instant,
  rules: Rules,
): readonly StepDraft[] | undefined => {
  const { post } = before;
  if (post) return [draft("shipping", post.shipping, BY_POST), draft("arrival", post.arrival, BY_POST)];
  if (!application && !kit?.last) return undefined;
  const arrival = countArrival(before.application.opens, start, rules);
  return arrival ? [draft("arrival", arrival, BY_POST)] : [];
};

/** Rule 26: the latest screening among the tests that could be taken afresh, else the start. */
const draftRescreening = (found: Survey): readonly StepDraft[] => {
  const { earlier, tests, booking } = found;
  if (earlier?.fault !== null) return [];
  let latest: Term | undefined;
  for (const { fresh } of tests) {
    if (!fresh || (fresh.test.route === "home-kit" && !fresh.post)) continue;
    if (!latest || fresh.screening.due > latest.due) latest = fresh.screening;
  }
  const term = latest ?? { opens: booking.start - earlier.test.screening.opens, due: booking.start };
  return [draft("rescreening", term, ASKED_FIRST)];
};
