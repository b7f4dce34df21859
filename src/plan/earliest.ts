/**
 * The earliest start that the rules still allow (counting.md 29). Goes from one possible moment to the next, never
 * minute by minute, and says nothing about a free chair.
 */
import type { Instant } from "../time/instant.ts";
import type { Application, Kit } from "./applications.ts";
import { applicationMoments, LOOKING } from "./fresh.ts";
import { firstOpenMinute } from "./hours.ts";
import { firstMoment, lastMoment, rangesFrom } from "./moments.ts";
import type { Rules } from "./rules.ts";
import type { TestRule } from "./testRule.ts";
import type { TestRoute, Why } from "./types.ts";
import { inWords, lengthInWords } from "./words.ts";

/** From when a new test can go on, and (with a greatest lead) from when its window may begin. */
interface Opening {
  readonly application: Instant;
  readonly window: Instant;
}

export interface EarliestStart {
  readonly route: TestRoute;
  /** Null where none lies within 400 days. */
  readonly start: Instant | null;
  readonly why: Why;
}

/** The earliest start for a new client, by each of the salon's tests. Source: counting.md 29. */
export const earliestStarts = (rules: Rules, now: Instant): readonly EarliestStart[] =>
  rules.tests.map((test) => {
    const start = earliestByTest(test, null, [], rules, now);
    return { route: test.route, start, why: explain(test, start, rules) };
  });

/**
 * The earliest start at or after `now` that a test fits: a new one, one with the kit already in hand or on its way, or
 * one that an application already on would serve.
 */
export const earliestByTest = (
  test: TestRule,
  kit: Kit | null,
  applications: readonly Application[],
  rules: Rules,
  now: Instant,
): Instant | null => {
  const limit = now + LOOKING;
  const opening = openingFor(test, kit, rules, now);
  const starts = [
    opening && firstStart(test, opening, rules, now),
    ...applications.map(({ serves, test: own }) =>
      serves && own === test
        ? firstOpenMinute(rules.walkIn.hours, Math.max(serves.from, now), Math.min(serves.to ?? limit, limit))
        : undefined,
    ),
  ].filter((start) => start !== undefined);
  return starts.length === 0 ? null : Math.min(...starts);
};

const openingFor = (test: TestRule, kit: Kit | null, rules: Rules, now: Instant): Opening | undefined => {
  if (test.route === "in-salon" || kit?.arrived) return { application: now, window: -Infinity };
  if (kit?.posted) {
    return kit.expected === null ? undefined : { application: Math.max(now, kit.expected), window: -Infinity };
  }
  const handOver = firstMoment(rules.handOver, now, now + LOOKING);
  const collection = handOver && rules.post.collectionAfter(handOver.at);
  const day = collection === undefined ? undefined : rules.post.arrivalOf(collection);
  if (day === undefined) return undefined;
  return kitOpening(test, rules.post.deliveredOn(day), rules, now);
};

/** A kit must be there when the application opens: at the start of a stretch, or of the window (counting.md 11, 12). */
const kitOpening = (test: TestRule, arrival: Instant, rules: Rules, now: Instant): Opening | undefined => {
  const isWindowed = test.farthest !== null;
  const moments = applicationMoments(test, rules);
  for (const { first, piece } of rangesFrom(moments, arrival, now + LOOKING)) {
    if ((isWindowed ? piece.stretchFrom : piece.from) < arrival) continue;
    if (!isWindowed) return { application: first, window: -Infinity };
    const before = lastMoment(moments, first - 1, first - LOOKING);
    const window = Math.min(arrival, before ? before.at + 1 : arrival);
    return { application: window, window };
  }
  return isWindowed ? { application: arrival, window: arrival } : undefined;
};

/** The first whole minute in opening hours whose window holds a moment at or after the opening. */
const firstStart = (test: TestRule, opening: Opening, rules: Rules, now: Instant): Instant | undefined => {
  const { reach, farthest } = test;
  const limit = now + LOOKING;
  for (const { first, last } of rangesFrom(applicationMoments(test, rules), opening.application, limit)) {
    const from = Math.max(Math.max(first, opening.application) + reach, opening.window + (farthest ?? 0), now);
    const to = Math.min(farthest === null ? limit : last + farthest, limit);
    const start = firstOpenMinute(rules.walkIn.hours, from, to);
    if (start !== undefined || farthest === null) return start;
  }
  return undefined;
};

const explain = (test: TestRule, start: Instant | null, rules: Rules): Why => {
  const thing = test.route === "in-salon" ? "walk-in skin test" : "home kit, its post included,";
  if (start === null) return { code: "no-moment", text: `No ${thing} fits within 400 days.` };
  const lead = `${lengthInWords(test.least)} from ${test.from}, ${test.decided.least.name}`;
  return {
    code: "earliest",
    text: `A ${thing} fits from ${inWords(start, null, rules)} on (${lead}). This is no free chair, only what the rules allow.`,
  };
};
