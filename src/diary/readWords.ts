/** What the salon's words say of a summary, before anybody is looked for. Never decides what an entry is (sortEntry.ts). */
import type { SalonWord, Sorting } from "./compileSorting.ts";
import { wordsIn } from "./wordIndex.ts";

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
  const words = wordsIn(text, sorting.words);
  const speaksOf = (what: SalonWord["says"]): boolean => words.some(({ says }) => says === what);
  const service = findService(words);
  if (speaksOf("test")) return { said: service === null ? "test" : "both", service };
  if (service !== null) return { said: "colour", service };
  return { said: speaksOf("not-colour") ? "not-colour" : "nothing", service };
};

/** The service whose matching word is the longest; of equals the first in the settings' order. */
const findService = (words: readonly SalonWord[]): string | null => {
  let best: { readonly name: string; readonly length: number } | null = null;
  for (const { service, stem } of words) {
    if (service !== null && stem.length > (best?.length ?? 0)) best = { name: service, length: stem.length };
  }
  return best?.name ?? null;
};
