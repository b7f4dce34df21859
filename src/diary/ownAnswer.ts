/**
 * Whether a person's answer to an entry still holds for that entry: it may have moved, been described anew or become a
 * series, but it must be what the person saw. Words that have come since, in its title or in the settings, beat the answer.
 */
import type { Answers, EntryAnswer } from "./answers.ts";
import { isSameTitle } from "./answers.ts";
import type { Sorting } from "./compileSorting.ts";
import { describeClient, findClient, withoutSalonWords } from "./findClient.ts";
import { foldName } from "./foldName.ts";
import type { WordsRead } from "./readWords.ts";
import type { Entry, Person } from "./types.ts";

/**
 * The answer that holds for an entry: its own, else the first that was given within its series, so that a later answer to
 * one appointment of a series stays with that one.
 * @param text the summary, folded by foldWords
 */
export const findOwnAnswer = (
  entry: Entry,
  text: string,
  words: WordsRead,
  sorting: Sorting,
  answers: Answers,
): EntryAnswer | undefined => {
  const known = answers.byUid.get(entry.uid);
  if (!known) return undefined;
  const holding = known.filter((answer) => isOf(answer, entry) && holds(answer, text, words, sorting));
  return holding.find(({ key }) => key === entry.key) ?? holding[0];
};

/** Where an entry stands, for telling it from others of its name. */
export const placeOf = ({ start, date }: Pick<Entry, "start" | "date">): number => start ?? date ?? 0;

const isOf = ({ key, recurrenceId, pinned }: EntryAnswer, entry: Entry): boolean =>
  pinned === null
    ? key === entry.key || recurrenceId !== null || entry.recurrenceId !== null
    : pinned === placeOf(entry);

const holds = (answer: EntryAnswer, text: string, { said }: WordsRead, sorting: Sorting): boolean => {
  if (answer.as === "booking" && !sorting.services.some(({ name }) => name === answer.service)) return false;
  const agreeing = answer.as === "booking" ? "colour" : answer.as;
  if (isSameTitle(answer, text)) {
    return said === answer.said || said === "nothing" || said === "not-colour" || said === agreeing;
  }
  // Another title of the same kind: words of the salon's took the place of others, and nothing else can be a name in it.
  const restOf = (title: string): string => withoutSalonWords(title, sorting);
  return answer.as !== "not-colour" && said === agreeing && restOf(text) === restOf(answer.title);
};

/**
 * Whose an answered entry is: the one whom the person named, unless the entry now names somebody whom it did not then.
 * Null where nobody is named.
 */
export const clientByAnswer = (answer: EntryAnswer, entry: Entry, sorting: Sorting): Person | null => {
  const found = findClient(entry, sorting);
  const told = answer.client;
  if (told === null || (found !== null && foldName(found.name) !== (answer.carried ?? foldName(told.name))))
    return found;
  const { email, phone } = describeClient(told.name, entry, sorting);
  return { name: told.name, email: told.email ?? email, phone: told.phone ?? phone };
};
