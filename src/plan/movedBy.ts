/**
 * Which shut day moved which step: the same booking counted back once more as if no day were shut. For words alone;
 * nothing is decided here.
 */
import type { Instant } from "../time/instant.ts";
import { type ClosedDays, type Closings, closedDays } from "./closings.ts";
import { countFresh, type Fresh } from "./fresh.ts";
import { countResult } from "./looks.ts";
import type { Rules } from "./rules.ts";

export interface Moved {
  readonly step: "application" | "shipping" | "result";
  /** When it would be due if those days were not shut. */
  readonly from: Instant;
  readonly to: Instant;
  /** Shut for the salon, or without post. */
  readonly whose: "salon" | "post";
  readonly days: readonly ClosedDays[];
}

const between = (nameOn: Closings["salonOn"], from: Instant, to: Instant, rules: Rules): readonly ClosedDays[] =>
  closedDays(nameOn, rules.zone.dayAt(from), rules.zone.dayAt(to));

/** What shut days moved of a new test; empty where none lies in its way. */
export const movedSteps = (fresh: Fresh, start: Instant, rules: Rules): readonly Moved[] => {
  const { closings, unclosed } = rules;
  const first = fresh.post?.shipping.due ?? fresh.application.due;
  const isInTheWay = [closings.salonOn, closings.postOn].map(
    (nameOn) => between(nameOn, first, start, rules).length > 0,
  );
  if (!isInTheWay.includes(true)) return [];
  const openSalon = { ...rules, walkIn: unclosed.walkIn, handOver: unclosed.handOver };
  const bySalon = countFresh(fresh.test, start, openSalon);
  const byPost = fresh.post && countFresh(fresh.test, start, { ...rules, post: unclosed.post });
  const walkIn = rules.tests.find(({ route }) => route === "in-salon");
  const lastWalkIn = walkIn ? start - walkIn.reach : fresh.application.opens;
  const moved: Moved[] = [];
  const say = (
    step: Moved["step"],
    from: Instant | undefined,
    to: Instant | undefined,
    whose: Moved["whose"],
  ): void => {
    if (from === undefined || to === undefined || from === to) return;
    // A parcel is on its way until the test opens, and keeps room for the walk-in: every day up to there counts.
    const until = step === "shipping" ? Math.max(whose === "post" ? fresh.application.opens : lastWalkIn, from) : from;
    const days = between(whose === "post" ? closings.postOn : closings.salonOn, Math.min(from, to), until, rules);
    if (days.length > 0) moved.push({ step, from, to, whose, days });
  };
  if (fresh.test.route === "in-salon") say("application", bySalon?.application.due, fresh.application.due, "salon");
  say("shipping", byPost?.post?.shipping.due, fresh.post?.shipping.due, "post");
  say("shipping", bySalon?.post?.shipping.due, fresh.post?.shipping.due, "salon");
  return moved;
};

/** What shut days moved of a result's due. */
export const movedResult = (
  result: { readonly opens: Instant; readonly due: Instant },
  start: Instant,
  rules: Rules,
): Moved | undefined => {
  const { closings, unclosed } = rules;
  const from = countResult(result.opens, start, { ...rules, handOver: unclosed.handOver }).due;
  if (from === result.due) return undefined;
  const [earlier, later] = [Math.min(from, result.due), Math.max(from, result.due)];
  const days = between(closings.salonOn, earlier, later, rules);
  return days.length === 0 ? undefined : { step: "result", from, to: result.due, whose: "salon", days };
};
