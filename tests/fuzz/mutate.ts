/**
 * Calendar files damaged as networks, programs and people damage them, and as those do who mean harm. One seed makes one
 * mutant, of the same sources.
 */
import { EVENT_CHANGES } from "./damageEvents.ts";
import { TEXT_CHANGES } from "./damageText.ts";
import type { Dice } from "./Dice.ts";
import { makeDiary } from "./producers.ts";

/** Sources larger than this are cut, so that a million mutants are a matter of hours. */
const SOURCE_MAX_BYTES = 8_000;
/** One mutant in so many begins as a diary in the style of some producer. */
const MADE_SHARE = 8;

/** One change, as a person, a program or a network makes it between two readings. */
export const changeOnce = (text: Buffer, sources: readonly Buffer[], dice: Dice): Buffer =>
  dice.of(dice.below(2) === 0 ? EVENT_CHANGES : TEXT_CHANGES)(text, dice, sources);

/** One mutant: a source with one to six changes. */
export const mutate = (sources: readonly Buffer[], dice: Dice): Buffer => {
  let text = dice.below(MADE_SHARE) === 0 ? makeDiary(dice) : dice.of(sources).subarray(0, SOURCE_MAX_BYTES);
  for (let change = dice.below(6); change >= 0; change--) text = changeOnce(text, sources, dice);
  return text;
};
