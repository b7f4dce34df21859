/**
 * The walk of HOURLY, MINUTELY and SECONDLY rules: from one hour, minute or second to the next that INTERVAL reaches, in one
 * leap over every day, hour and minute that the rule does not mean.
 */
import { DAY_SECONDS, dayOf, HOUR, MINUTE, midnight, type Seconds, type Wall } from "../time/instant.ts";
import type { Walk } from "./expandRule.ts";
import type { NumericPart, Rule } from "./parseRule.ts";
import { pickPlaces } from "./pickPlaces.ts";
import { dayTest } from "./ruleDays.ts";

const UNITS = { HOURLY: HOUR, MINUTELY: MINUTE, SECONDLY: 1 } as const;

interface Limit {
  readonly numbers: readonly number[];
  /** How long one of them lasts, and the stretch they are counted in. */
  readonly size: Seconds;
  readonly of: Seconds;
}

/** What a period must pass, from the largest unit down. */
const limitsOf = ({ by }: Rule, unit: Seconds): Limit[] => {
  const limit = (part: NumericPart, size: Seconds, of: Seconds): Limit[] => {
    const numbers = by.get(part);
    return numbers && size >= unit ? [{ numbers, size, of }] : [];
  };
  return [...limit("BYHOUR", HOUR, DAY_SECONDS), ...limit("BYMINUTE", MINUTE, HOUR), ...limit("BYSECOND", 1, MINUTE)];
};

/** From when on a limit is met: `at` itself where it is. */
const nextMet = ({ numbers, size, of }: Limit, at: Wall): Wall => {
  const begin = Math.floor(at / of) * of;
  const current = Math.floor((at - begin) / size);
  const next = numbers.find((number) => number >= current);
  if (next === current) return at;
  return begin + (next === undefined ? of + (numbers[0] as number) * size : next * size);
};

/** The occurrences of one period, as seconds from its beginning. */
const insideOf = ({ by }: Rule, start: Wall, unit: Seconds): Seconds[] => {
  const minutes =
    unit > MINUTE ? (by.get("BYMINUTE") ?? [Math.floor((start - midnight(dayOf(start))) / MINUTE) % 60]) : [0];
  const seconds = unit > 1 ? (by.get("BYSECOND") ?? [(start - midnight(dayOf(start))) % MINUTE]) : [0];
  const all = minutes.flatMap((minute) => seconds.map((second) => minute * MINUTE + second));
  const places = by.get("BYSETPOS");
  return places ? pickPlaces(places, all.length).map((place) => all[place] as Seconds) : all;
};

/** Ends early, with `steps.left` below zero, where the steps are used up. */
export function* clockWalls({ rule, start, from, end, steps }: Walk): Generator<Wall> {
  const unit = UNITS[rule.freq as keyof typeof UNITS];
  const step = unit * rule.interval;
  const origin = Math.floor(start / unit) * unit;
  const reach = (wall: Wall): Wall => origin + Math.max(0, Math.ceil((wall - origin) / step)) * step;
  const isMeant = dayTest(rule);
  const limits = limitsOf(rule, unit);
  const inside = insideOf(rule, start, unit);
  let testedDay: number | undefined;
  for (let at = rule.count === null ? reach(from - unit) : origin; at < end; ) {
    if (--steps.left < 0) return;
    const day = dayOf(at);
    if (day !== testedDay && !isMeant(day)) {
      at = reach(midnight(day + 1));
      continue;
    }
    testedDay = day;
    let met = at;
    for (const limit of limits) if (met === at) met = nextMet(limit, at);
    if (met !== at) {
      at = reach(met);
      continue;
    }
    for (const seconds of inside) yield at + seconds;
    at += step;
  }
}
