/** Words with which calendars show a time as taken when they hide everything else. */
import { type Word, withoutWords } from "./compileWords.ts";

const HIDING_WORDS: readonly Word[] = [
  "busy",
  "booked",
  "private",
  "reserved",
  "unavailable",
  "blocked",
  "appointment",
  "event",
  "tentative",
  "free",
  "no title",
].map((stem) => ({ stem, anyEnding: false }));

/**
 * Whether a text says anything beside such words: numbers and signs alone do not.
 * @param text folded by foldWords
 */
export const saysSomething = (text: string): boolean => /\p{L}/u.test(withoutWords(text, HIDING_WORDS));
