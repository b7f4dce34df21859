/**
 * A list of words as it is looked for in a summary: case and accents folded, whole words unless a star stands at the end.
 * Plain text search, no regular expressions from settings.
 */
import { foldName } from "./foldName.ts";

export interface Word {
  /** The folded word, one blank between its parts. */
  readonly stem: string;
  readonly anyEnding: boolean;
}

/** A word found, and where. */
export interface Found {
  readonly from: number;
  readonly to: number;
}

/** Text as words are looked for: every mark that is no letter and no digit is a blank, so that "half-head" is "half head". */
export const foldWords = (text: string): string =>
  foldName(text)
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

/** Words that fold to nothing are left out. */
export const compileWords = (words: readonly string[]): readonly Word[] =>
  words
    .map((word) => ({ stem: foldWords(word), anyEnding: word.trimEnd().endsWith("*") }))
    .filter(({ stem }) => stem !== "");

const isEdge = (text: string, at: number): boolean => at < 0 || at >= text.length || text[at] === " ";

/**
 * Where a word stands in a text, all of it and its free ending; undefined where it does not.
 * @param text folded by foldWords
 */
export const findWord = (text: string, word: Word): Found | undefined => {
  for (let at = text.indexOf(word.stem); at >= 0; at = text.indexOf(word.stem, at + 1)) {
    const end = at + word.stem.length;
    if (!isEdge(text, at - 1) || (!word.anyEnding && !isEdge(text, end))) continue;
    const blank = text.indexOf(" ", end);
    return { from: at, to: blank < 0 ? text.length : blank };
  }
  return undefined;
};

/** The text without the words of a list: what is left may be a name. */
export const withoutWords = (text: string, words: readonly Word[]): string => {
  let rest = text;
  for (const word of words) {
    for (let found = findWord(rest, word); found; found = findWord(rest, word)) {
      rest = `${rest.slice(0, found.from)} ${rest.slice(found.to)}`;
    }
  }
  return rest.replace(/ +/g, " ").trim();
};
