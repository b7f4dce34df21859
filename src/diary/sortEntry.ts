/**
 * What an entry is for the salon: a colour booking, a skin test, not a colour, or a question for the desk. Words match the
 * summary; colour beats not-colour; what nothing matches is asked, never taken for "not a colour". What a person has said of
 * an entry, or of one like it, answers the question as long as the words do not.
 */
import { type Answers, type EntryAnswer, isSameTitle, NO_ANSWERS } from "./answers.ts";
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import { findClient } from "./findClient.ts";
import { saysSomething } from "./hidingWords.ts";
import { findLikeAnswer } from "./likeAnswer.ts";
import { nearestService } from "./nearestService.ts";
import { clientByAnswer, findOwnAnswer } from "./ownAnswer.ts";
import { readWords, type WordsRead } from "./readWords.ts";
import type { AnsweredBy, Entry, Person, Sorted } from "./types.ts";

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

const ask = (code: UnsortedCode, nearest: string | null): Sorted => ({
  kind: "unsorted",
  why: { code, text: TEXTS[code] },
  nearest,
});

/**
 * Sorts one entry. A cancelled one is never a booking: it is given as not a colour.
 * @param answers of the entry's diary
 */
export const sortEntry = (entry: Entry, sorting: Sorting, answers: Answers = NO_ANSWERS): Sorted => {
  if (entry.cancelled) return { kind: "not-colour" };
  const text = foldWords(entry.summary);
  const words = readWords(text, sorting);
  const own = findOwnAnswer(entry, text, words, sorting, answers);
  if (own) {
    const client = own.as === "not-colour" ? null : clientByAnswer(own, entry, sorting);
    const service = isSameTitle(own, text) ? own.service : words.service;
    return byAnswer(entry, own, service, client, { answer: own.id, isLike: false });
  }
  const byItsWords = sortByWords(entry, text, words, sorting);
  if (byItsWords.kind !== "unsorted") return byItsWords;
  const like = findLikeAnswer(entry, text, words.said, sorting, answers);
  if (!like) return byItsWords;
  return byAnswer(entry, like.answer, like.answer.service, like.client, { answer: like.answer.id, isLike: true });
};

const byAnswer = (
  entry: Entry,
  { as }: EntryAnswer,
  service: string | null,
  client: Person | null,
  answered: AnsweredBy,
): Sorted => {
  if (as === "not-colour") return { kind: "not-colour", answered };
  if (entry.start === null) return ask("all-day", service);
  if (as === "test") return client ? { kind: "test", client, answered } : ask("test-no-name", null);
  return client && service !== null ? { kind: "booking", service, client, answered } : ask("no-name", service);
};

const sortByWords = (entry: Entry, text: string, { said, service }: WordsRead, sorting: Sorting): Sorted => {
  if (entry.start === null) return ask("all-day", service);
  if (said === "both") return ask("test-and-colour", service);
  if (said === "test") {
    const client = findClient(entry, sorting);
    return client ? { kind: "test", client } : ask("test-no-name", null);
  }
  if (service !== null) {
    const client = findClient(entry, sorting);
    return client ? { kind: "booking", service, client } : ask("no-name", service);
  }
  if (said === "not-colour") return { kind: "not-colour" };
  const isNamed = entry.attendees.length > 0 && findClient(entry, sorting) !== null;
  return saysSomething(text) || isNamed
    ? ask("no-match", nearestService(text, sorting.nearWords))
    : ask("no-words", null);
};
