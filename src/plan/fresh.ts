/**
 * One whole new test counted back from a booking's start: application, post and screening (counting.md 8 to 16).
 * Knows no record and no present moment: every due here is the same whenever it is asked for.
 */
import { HORIZON_AHEAD_DAYS } from "../bounds.ts";
import { DAY_SECONDS, type Instant, type Seconds } from "../time/instant.ts";
import { firstMoment, lastMoment, type Moments } from "./moments.ts";
import type { Rules } from "./rules.ts";
import type { TestRule } from "./testRule.ts";

/** How far rules look, back from a start and ahead from now (counting.md 7). */
export const LOOKING: Seconds = HORIZON_AHEAD_DAYS * DAY_SECONDS;

/** Something to do between two instants. */
export interface Term {
  readonly opens: Instant;
  readonly due: Instant;
}

export interface FreshPost {
  readonly shipping: Term;
  readonly arrival: Term;
  /** The last hand-over whose kit is still in hand when the application opens (counting.md 12). */
  readonly lastHandOver: Instant;
}

export interface Fresh {
  readonly test: TestRule;
  readonly application: Term;
  /** The first instant at which an application counts; null where there is no greatest lead. */
  readonly windowFrom: Instant | null;
  /** Only for a home kit; null where the post has no moment left. */
  readonly post: FreshPost | null;
  readonly screening: Term;
}

/** Where a test's application is possible: at the salon, or in the client's hours. */
export const applicationMoments = (test: TestRule, rules: Rules): Moments =>
  test.route === "in-salon" ? rules.walkIn : rules.client;

/** A new test for a colour at `start`; undefined where its application has no moment. */
export const countFresh = (test: TestRule, start: Instant, rules: Rules): Fresh | undefined => {
  const floor = start - LOOKING;
  const moments = applicationMoments(test, rules);
  const windowFrom = test.farthest === null ? null : start - test.farthest;
  const last = lastMoment(moments, start - test.reach, Math.max(floor, windowFrom ?? floor));
  if (!last) return undefined;
  const application = { opens: openingOf(moments, windowFrom, last.at, last.piece.from), due: last.at };
  return { ...countBefore(test, application, start, rules), windowFrom };
};

/** What comes before an application, whether the calendar gives its moment or a record does (counting.md 12 to 16, 20). */
export const countBefore = (
  test: TestRule,
  application: Term,
  start: Instant,
  rules: Rules,
): Omit<Fresh, "windowFrom"> => {
  const post = test.route === "home-kit" ? countPost(application.opens, start, rules) : null;
  const first = post ? post.shipping.due : application.due;
  return { test, application, post, screening: countScreening(test, first, rules) };
};

/** Rule 11: a piece of a stretch begins no sooner than its local day does. */
const openingOf = (moments: Moments, windowFrom: Instant | null, due: Instant, pieceFrom: Instant): Instant => {
  if (windowFrom === null) return pieceFrom;
  const first = firstMoment(moments, windowFrom, due);
  return first ? Math.max(windowFrom, first.piece.stretchFrom) : due;
};

/** The arrival alone, where the post brings but no collection is left that would make it. */
export const countArrival = (applicationOpens: Instant, start: Instant, rules: Rules): Term | undefined => {
  const by = Math.min(applicationOpens, walkInOpening(start, rules) ?? applicationOpens);
  const day = rules.post.deliveryBefore(by, start - LOOKING);
  return day === undefined ? undefined : { opens: rules.zone.startOfDay(day), due: rules.post.deliveredOn(day) };
};

const countPost = (applicationOpens: Instant, start: Instant, rules: Rules): FreshPost | null => {
  const floor = start - LOOKING;
  const { post } = rules;
  const handOverFor = (by: Instant) => {
    const collection = post.collectionFor(by, floor);
    return collection === undefined ? undefined : lastMoment(rules.handOver, post.collectionOn(collection), floor);
  };
  const lastHandOver = handOverFor(applicationOpens);
  if (!lastHandOver) return null;
  const by = Math.min(applicationOpens, walkInOpening(start, rules) ?? applicationOpens);
  const [kept, keptDay] = [handOverFor(by), post.deliveryBefore(by, floor)];
  const handOver = kept ?? lastHandOver;
  const day = kept && keptDay !== undefined ? keptDay : post.deliveryBefore(applicationOpens, floor);
  if (day === undefined) return null;
  return {
    shipping: { opens: handOver.piece.from, due: handOver.at },
    arrival: { opens: rules.zone.startOfDay(day), due: post.deliveredOn(day) },
    lastHandOver: lastHandOver.at,
  };
};

/** Rule 13: when the walk-in that would catch a lost kit opens, without its greatest lead. */
const walkInOpening = (start: Instant, rules: Rules): Instant | undefined => {
  const walkIn = rules.tests.find((test) => test.route === "in-salon");
  if (!walkIn) return undefined;
  return lastMoment(rules.walkIn, start - walkIn.reach, start - LOOKING)?.piece.from;
};

/**
 * Rule 16: put back into the client's hours where a margin is taken off. The 400 days of rule 7 end the search for a test,
 * not this: the margin closes no route, and law b puts every such screening inside those hours.
 */
const countScreening = (test: TestRule, before: Instant, rules: Rules): Term => {
  const { margin, opens } = test.screening;
  const exact = before - margin;
  const due = margin === 0 ? exact : (lastMoment(rules.client, exact, exact - LOOKING)?.at ?? exact);
  return { opens: due - opens, due };
};
