/** What the salon's words say of a summary, before anybody is looked for. Never decides what an entry is (sortEntry.ts). */
import type { ServiceWords, Sorting } from "./compileSorting.ts";
import { findWord, type Word } from "./compileWords.ts";

/** `both`: a colour and a skin test, which contradict each other. */
export const SAID = ["colour", "test", "both", "not-colour", "nothing"] as const;
export type Said = (typeof SAID)[number];

export interface WordsRead {
  readonly said: Said;
  /** The service whose words stand there; null where none do. */
  readonly service: string | null;
}

/** @param text folded by foldWords */
export const readWords = (text: string, sorting: Sorting): WordsRead => {
  const holds = (words: readonly Word[]): boolean => words.some((word) => findWord(text, word) !== undefined);
  const service = findService(text, sorting.services);
  if (holds(sorting.testWords)) return { said: service === null ? "test" : "both", service };
  if (service !== null) return { said: "colour", service };
  return { said: holds(sorting.notColour) ? "not-colour" : "nothing", service };
};

/** The service whose longest matching word is the longest; of equals the first in the settings' order. */
const findService = (text: string, services: readonly ServiceWords[]): string | null => {
  let best: { readonly name: string; readonly length: number } | null = null;
  for (const { name, words } of services) {
    for (const word of words) {
      if (word.stem.length > (best?.length ?? 0) && findWord(text, word)) best = { name, length: word.stem.length };
    }
  }
  return best?.name ?? null;
};
