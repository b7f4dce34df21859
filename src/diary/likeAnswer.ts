/**
 * What a person said of another entry with the same phrase. Asked only where the salon's words leave an entry unsorted; it
 * never gives an entry a client whom the entry does not name, and never hides one whose title says more than the phrase.
 */
import type { Answers, EntryAnswer } from "./answers.ts";
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import { describeClient, findGuest, guestsOf, mayBeClient } from "./findClient.ts";
import { nearestService } from "./nearestService.ts";
import type { Said } from "./readWords.ts";
import { splitTitle, type TitleSplit, withoutName } from "./splitTitle.ts";
import type { Entry, Person } from "./types.ts";

export interface Likeness {
  readonly answer: EntryAnswer;
  /** Whom the entry names; null: nobody. */
  readonly client: Person | null;
}

/** Words of a name beside a phrase that is no colour: more is prose, and prose may say more than the phrase. */
const NAME_WORDS_MAX = 4;

/** @param text the summary, folded by foldWords */
export const findLikeAnswer = (
  entry: Entry,
  text: string,
  said: Said,
  sorting: Sorting,
  answers: Answers,
): Likeness | undefined => {
  if (answers.byPhrase.size === 0) return undefined;
  const answerTo = (phrase: string): EntryAnswer | undefined => {
    const answer = phrase === "" ? undefined : answers.byPhrase.get(phrase);
    return answer && applies(answer, entry, said, sorting) ? answer : undefined;
  };
  const guests = guestsOf(entry, sorting).map(({ name }) => foldWords(name));
  const whole = answerTo(guests.reduce(withoutName, text));
  if (whole) return { answer: whole, client: findGuest(entry, sorting) };
  for (const split of splitTitle(entry.summary, sorting)) {
    const answer = answerTo(split.phrase);
    if (!answer || !mayBeClient(split.client, sorting)) continue;
    if (answer.as === "not-colour" && !isSurelyName(split, sorting)) continue;
    return { answer, client: describeClient(split.client, entry, sorting) };
  }
  return undefined;
};

const applies = (answer: EntryAnswer, { start }: Entry, said: Said, { services }: Sorting): boolean => {
  if (answer.as === "not-colour") return said === "nothing";
  if (start === null || (said !== "nothing" && said !== "both")) return false;
  return answer.as === "test" || services.some(({ name }) => name === answer.service);
};

/** Whether what stands beside the phrase can hardly be more of the service: a short name, far from every colour word. */
const isSurelyName = ({ template, client }: TitleSplit, sorting: Sorting): boolean => {
  const folded = foldWords(client);
  return (
    template.between.trim() !== "" &&
    folded.split(" ").length <= NAME_WORDS_MAX &&
    !/\p{N}/u.test(folded) &&
    nearestService(folded, sorting.nearWords) === null
  );
};
