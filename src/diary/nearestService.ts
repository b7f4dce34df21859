/** The service whose words come closest to a summary that matches none: a hint for the desk, never an answer. */

import type { ServiceWords } from "./compileSorting.ts";

/** Words of a summary that are compared; longer summaries are prose. */
const WORDS_COMPARED = 12;
/** Letters that may differ for each three of the word. */
const LETTERS_PER_SLIP = 3;

/** Different words that are compared: of a salon with more, the first ones. */
const NEAR_WORDS_MAX = 2_000;

/** One word of a service's words, as it is compared with what was written. */
export interface NearWord {
  readonly service: string;
  readonly stem: string;
  /** Slips up to which another word is near. */
  readonly allowed: number;
  readonly letters: number;
}

/** The single words of all services, each once, in the settings' order. */
export const nearWordsOf = (services: readonly ServiceWords[]): readonly NearWord[] => {
  const near = new Map<string, NearWord>();
  for (const { name: service, words } of services) {
    for (const stem of words.flatMap((word) => word.stem.split(" "))) {
      if (near.has(stem)) continue;
      const allowed = Math.floor(stem.length / LETTERS_PER_SLIP);
      near.set(stem, { service, stem, allowed, letters: lettersOf(stem) });
    }
  }
  return [...near.values()].slice(0, NEAR_WORDS_MAX);
};

/**
 * The name of the nearest service, or null where nothing is near.
 * @param text folded by foldWords
 */
export const nearestService = (text: string, words: readonly NearWord[]): string | null => {
  const heard = text
    .split(" ", WORDS_COMPARED)
    .map((word) => ({ word, letters: lettersOf(word) }))
    .filter(({ word }) => word !== "");
  let best: { readonly service: string; readonly share: number } | null = null;
  for (const { service, stem, allowed, letters } of words) {
    for (const { word, letters: its } of heard) {
      // Each letter that only one of the two has costs a slip of its own: most words are told apart by that alone.
      if (Math.abs(word.length - stem.length) > allowed || countOf(letters & ~its) > allowed) continue;
      const slips = countSlips(word, stem, allowed);
      if (slips > allowed) continue;
      const share = slips / stem.length;
      if (!best || share < best.share) best = { service, share };
    }
  }
  return best?.service ?? null;
};

/** Which letters a word has, a bit for each of 32 kinds. */
const lettersOf = (word: string): number => {
  let letters = 0;
  for (let index = 0; index < word.length; index++) letters |= 1 << (word.charCodeAt(index) & 31);
  return letters;
};

const countOf = (bits: number): number => {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count++;
  return count;
};

/** Letters to change, add, leave out or swap with a neighbour, counted no further than one past `most`. */
const countSlips = (first: string, second: string, most: number): number => {
  if (Math.abs(first.length - second.length) > most) return most + 1;
  let [beforeLast, last]: [number[], number[]] = [[], Array.from({ length: second.length + 1 }, (_, index) => index)];
  for (let row = 1; row <= first.length; row++) {
    const current = [row];
    for (let column = 1; column <= second.length; column++) {
      const same = first[row - 1] === second[column - 1];
      let slips = Math.min(
        (last[column] as number) + 1,
        (current[column - 1] as number) + 1,
        (last[column - 1] as number) + (same ? 0 : 1),
      );
      const swapped =
        row > 1 && column > 1 && first[row - 1] === second[column - 2] && first[row - 2] === second[column - 1];
      if (swapped) slips = Math.min(slips, (beforeLast[column - 2] as number) + 1);
      current.push(slips);
    }
    [beforeLast, last] = [last, current];
  }
  return last[second.length] as number;
};
