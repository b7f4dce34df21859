/**
 * What of an answered entry makes other entries like it: its title without the client's name. Where it is not certain which
 * part is the name there is no phrase, and the answer is of that one entry: a name taken for a phrase would hide the next
 * appointment of that very client.
 */
import type { AnsweredAs } from "./answers.ts";
import type { Sorting } from "./compileSorting.ts";
import { foldWords } from "./compileWords.ts";
import { guestsOf } from "./findClient.ts";
import { saysWhat } from "./hidingWords.ts";
import { namesBoth } from "./matchTemplate.ts";
import type { NameHabits } from "./nameHabits.ts";
import type { Said } from "./readWords.ts";
import { splitTitle, withoutName } from "./splitTitle.ts";
import type { Entry } from "./types.ts";

/** Characters of a phrase: what is longer is prose, and no two entries have it. */
const PHRASE_MAX = 200;

/**
 * @param named whom the entry or the person names
 * @param known names of the salon's clients, folded by foldWords
 * @returns folded; empty where the answer is of this entry alone
 */
export const phraseOf = (
  entry: Entry,
  said: Said,
  as: AnsweredAs,
  named: readonly string[],
  habits: NameHabits,
  known: ReadonlySet<string>,
  sorting: Sorting,
): string => {
  // An answer against the salon's own words is an exception, and stands for nothing else.
  if (said !== "nothing" && said !== "both") return "";
  const guests = guestsOf(entry, sorting).map(({ name }) => name);
  const names = [...named, ...guests].map(foldWords).filter((name) => name !== "");
  const phrase = withoutNames(entry.summary, as, names, habits, known, sorting);
  if (phrase.length > PHRASE_MAX || !saysWhat(phrase, sorting.ourNames)) return "";
  const isPartOf = (name: string): boolean => ` ${name} `.includes(` ${phrase} `);
  const isOfAName = sharesWord(phrase, names) || [...known].some(isPartOf) || [...habits.names].some(isPartOf);
  return isOfAName ? "" : phrase;
};

const isKnown = (name: string, { names }: NameHabits, known: ReadonlySet<string>): boolean =>
  names.has(name) || known.has(name);

/** Whether a part of a title is a name, or some of its words, the others left out or as initials: "Ann B". */
const isMadeOf = (part: string, name: string): boolean => {
  const words = name.split(" ");
  const isOf = (word: string): boolean =>
    words.some((each) => (word.length === 1 ? each.startsWith(word) : each === word));
  return words.some((word) => ` ${part} `.includes(` ${word} `)) && part.split(" ").every(isOf);
};

const withoutNames = (
  summary: string,
  as: AnsweredAs,
  names: readonly string[],
  habits: NameHabits,
  known: ReadonlySet<string>,
  sorting: Sorting,
): string => {
  const text = foldWords(summary);
  const splits = splitTitle(summary, sorting);
  const isTold = (client: string): boolean => names.some((name) => isMadeOf(client, name));
  const told = splits.find(({ client }) => isTold(foldWords(client)));
  if (told) return told.phrase;
  const rest = names.reduce(withoutName, text);
  if (rest !== text) return rest;
  const itsOwn = splits.filter(({ client }) => isKnown(foldWords(client), habits, known));
  if (itsOwn.length > 0) return itsOwn.length === 1 ? (itsOwn[0]?.phrase ?? "") : "";
  const both = splits.filter(({ template }) => namesBoth(template));
  const only = sorting.clientFrom.filter((template) => template !== "attendee" && namesBoth(template)).length === 1;
  const usual = both.filter(({ template }) => only || template === habits.template);
  if (names.length === 0 && usual.length > 0) return usual.length === 1 ? (usual[0]?.phrase ?? "") : "";
  if (as !== "not-colour") return text;
  // The title names nobody, and so it may be a name itself: then it hides nothing.
  const isElsewhere = names.length > 0 || (habits.areNamed && !isWrittenAsName(summary));
  return isElsewhere && !sharesWord(text, [...known, ...habits.names]) ? text : "";
};

/** Words of a title that may be a name: more are prose. */
const NAME_WORDS_MAX = 4;

/** Few words, each with a capital or in a script that has none. */
const isWrittenAsName = (summary: string): boolean => {
  const words = summary.trim().split(/\s+/);
  return words.length <= NAME_WORDS_MAX && words.every((word) => /^\P{Ll}/u.test(word)) && !/\p{N}/u.test(summary);
};

const sharesWord = (text: string, names: readonly string[]): boolean => {
  const words = new Set(text.split(" "));
  return names.some((name) => name.split(" ").some((word) => words.has(word)));
};
