/**
 * What an entry is for the salon: a colour booking, a skin test, not a colour, or a question for the desk. Words match the
 * summary; colour beats not-colour; what nothing matches is asked, never taken for "not a colour".
 */
import type { ServiceWords, Sorting } from "./compileSorting.ts";
import { findWord, foldWords, type Word, withoutWords } from "./compileWords.ts";
import { findClient } from "./findClient.ts";
import { nearestService } from "./nearestService.ts";
import type { Entry, Sorted } from "./types.ts";

export { compileSorting, type Sorting } from "./compileSorting.ts";

/** Why an entry is unsorted. `no-name`, `test-no-name` and `no-words` are what an export that hides names gives. */
export type UnsortedCode = "all-day" | "test-and-colour" | "no-name" | "test-no-name" | "no-words" | "no-match";

const TEXTS: Readonly<Record<UnsortedCode, string>> = {
  "all-day": "The entry has a date and no time. Give it a time in the diary.",
  "test-and-colour": "The entry speaks of a colour and of a skin test. Say which of the two it is.",
  "no-name": "The entry is a colour appointment without a client's name. Say whose it is.",
  "test-no-name": "The entry is a skin test without a client's name. Say whose it is.",
  "no-words": "The entry does not say what it is, nor whose. Say whether it is a colour appointment.",
  "no-match": "None of your words matches this entry. Say whether it is a colour appointment.",
};

/** Words with which calendars show a time as taken when they hide everything else. */
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

const ask = (code: UnsortedCode, nearest: string | null): Sorted => ({
  kind: "unsorted",
  why: { code, text: TEXTS[code] },
  nearest,
});

/** Sorts one entry. A cancelled one is never a booking: it is given as not a colour. */
export const sortEntry = (entry: Entry, sorting: Sorting): Sorted => {
  if (entry.cancelled) return { kind: "not-colour" };
  const text = foldWords(entry.summary);
  const holds = (words: readonly Word[]): boolean => words.some((word) => findWord(text, word) !== undefined);
  const service = findService(text, sorting.services);
  if (entry.start === null) return ask("all-day", service);
  const isTest = holds(sorting.testWords);
  if (service !== null && isTest) return ask("test-and-colour", service);
  if (isTest) {
    const client = findClient(entry, sorting);
    return client ? { kind: "test", client } : ask("test-no-name", null);
  }
  if (service !== null) {
    const client = findClient(entry, sorting);
    return client ? { kind: "booking", service, client } : ask("no-name", service);
  }
  if (holds(sorting.notColour)) return { kind: "not-colour" };
  const saysNothing = !/\p{L}/u.test(withoutWords(text, HIDING_WORDS));
  const isNamed = entry.attendees.length > 0 && findClient(entry, sorting) !== null;
  return saysNothing && !isNamed
    ? ask("no-words", null)
    : ask("no-match", nearestService(entry.summary, sorting.services));
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
