/**
 * When looks open and are due, and which recorded look belongs to which (counting.md 18 and 19).
 * Knows a test and when it went on; never whether that test counts.
 */
import { LOOK_ROOM_MINUTES } from "../bounds.ts";
import { type Instant, MINUTE, type Seconds } from "../time/instant.ts";
import { LOOKING, type Term } from "./fresh.ts";
import { searchEnd } from "./hours.ts";
import { isReaction, type Ledger } from "./ledger.ts";
import type { Rules } from "./rules.ts";
import type { Look, TestRule } from "./testRule.ts";
import type { Fact } from "./types.ts";

export interface LookTime {
  readonly look: Look;
  readonly opens: Instant;
}

/** When each look opens; a removal recorded late moves those that follow it. */
export const openLooks = (test: TestRule, application: Instant, removed: Instant | null): readonly LookTime[] => {
  const { wear } = test;
  const afterWear = wear === null ? [] : test.looks.filter((look) => look.after >= wear);
  const gap = afterWear[0] && wear !== null ? afterWear[0].after - wear : 0;
  return test.looks.map((look) => {
    const planned = application + look.after;
    const moved = removed !== null && afterWear.includes(look) ? removed + gap : planned;
    return { look, opens: Math.max(planned, moved) };
  });
};

/** When the last look that holds the colour opens. */
export const lastHoldingOpens = (looks: readonly LookTime[]): Instant =>
  Math.max(...looks.filter(({ look }) => look.holds).map(({ opens }) => opens));

/** Rule 19: the last closing before the start at which the last holding look has opened; else the start. */
export const countResult = (lookOpens: Instant, start: Instant, rules: Rules): Term => {
  const result = { opens: lookOpens, due: start };
  if (!rules.hasOpening) return result;
  const { zone, onDay } = rules.handOver.hours;
  for (let day = zone.dayAt(start) + 1; day >= zone.dayAt(lookOpens) - 1; day--) {
    const last = onDay(day).at(-1);
    // A stretch that goes on past midnight does not close on this day.
    if (last && last.stretchTo === last.to && last.to < start && last.to >= lookOpens)
      return { ...result, due: last.to };
  }
  return result;
};

/** Rule 18: `within` after the first moment of the client's day that leaves time to look, inside that day. */
export const countLook = ({ look, opens }: LookTime, resultDue: Instant, rules: Rules): Term => {
  const due = dueInClientDay(opens, look.within, rules) ?? opens + look.within;
  return { opens, due: look.holds ? Math.max(opens, Math.min(due, resultDue)) : due };
};

const dueInClientDay = (opens: Instant, within: Seconds, rules: Rules): Instant | undefined => {
  const { zone, onDay } = rules.client.hours;
  const room = LOOK_ROOM_MINUTES * MINUTE;
  const lastDay = searchEnd(opens + LOOKING, 1);
  for (let day = zone.dayAt(opens) - 1; day <= lastDay; day++) {
    for (const piece of onDay(day)) {
      const first = Math.max(opens, piece.from);
      if (first + room <= piece.to) return Math.min(first + within, piece.to);
    }
  }
  return undefined;
};

/** The newest recorded look of each look, by its number; a look without one is not read. */
export const readLooks = (
  looks: readonly LookTime[],
  reads: readonly Fact[],
  ledger: Ledger,
): ReadonlyMap<number, Fact> => {
  const openedAt = (at: Instant): Instant | undefined =>
    looks.reduce<Instant | undefined>(
      (last, { opens }) => (opens <= at && opens >= (last ?? opens) ? opens : last),
      undefined,
    );
  const found = new Map<number, Fact>();
  for (const read of reads) {
    const opens = openedAt(read.at);
    if (opens === undefined || isVoid(read, opens, openedAt, ledger)) continue;
    for (const each of looks) if (each.opens === opens) found.set(each.look.n, read);
  }
  return found;
};

/** Rule 24: after a corrected reaction, only a look recorded later than the correction reads that look. */
const isVoid = (read: Fact, opens: Instant, openedAt: (at: Instant) => Instant | undefined, ledger: Ledger): boolean =>
  ledger.corrected.some(
    ({ fact, correction }) => isReaction(fact) && openedAt(fact.at) === opens && read.at <= correction.at,
  );
