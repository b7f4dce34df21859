/** The service whose words come closest to a summary that matches none: a hint for the desk, never an answer. */

import type { ServiceWords } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";

/** Words of a summary that are compared; longer summaries are prose. */
const WORDS_COMPARED = 12;
/** Letters that may differ for each three of the word. */
const LETTERS_PER_SLIP = 3;

/** The name of the nearest service, or null where nothing is near. */
export const nearestService = (summary: string, services: readonly ServiceWords[]): string | null => {
  const heard = foldWords(summary).split(" ").slice(0, WORDS_COMPARED);
  let best: { readonly name: string; readonly share: number } | null = null;
  for (const { name, words } of services) {
    for (const stem of words.flatMap((word) => word.stem.split(" "))) {
      const allowed = Math.floor(stem.length / LETTERS_PER_SLIP);
      for (const word of heard) {
        const slips = countSlips(word, stem, allowed);
        if (slips > allowed) continue;
        const share = slips / stem.length;
        if (!best || share < best.share) best = { name, share };
      }
    }
  }
  return best?.name ?? null;
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
