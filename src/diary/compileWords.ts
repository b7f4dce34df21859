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

/** What stands inside a word and is not seen: soft hyphens, joiners. A blank in its place would part the word. */
const UNSEEN = /\u00ad|\u200c|\u200d|\u2060|\ufeff/g;

/** Text as words are looked for: every mark that is no letter and no digit is a blank, so that "half-head" is "half head". */
export const foldWords = (text: string): string =>
  foldName(text.replace(UNSEEN, ""))
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

/** Words that fold to nothing are left out. */
export const compileWords = (words: readonly string[]): readonly Word[] =>
  words
    .map((word) => ({ stem: foldWords(word), anyEnding: word.trimEnd().endsWith("*") }))
    .filter(({ stem }) => stem !== "");

/** Whether a word may begin behind, or end before, a place of a folded text. */
export const isEdge = (text: string, at: number): boolean => at < 0 || at >= text.length || text[at] === " ";

/**
 * Where a word stands in a text, all of it and its free ending; undefined where it does not.
 * @param text folded by foldWords
 * @param after where the search begins
 */
export const findWord = (text: string, word: Word, after = 0): Found | undefined => {
  for (let at = text.indexOf(word.stem, after); at >= 0; at = text.indexOf(word.stem, at + 1)) {
    const end = at + word.stem.length;
    if (!isEdge(text, at - 1) || (!word.anyEnding && !isEdge(text, end))) continue;
    const blank = text.indexOf(" ", end);
    return { from: at, to: blank < 0 ? text.length : blank };
  }
  return undefined;
};

/** The text without the words of a list: what is left may be a name. One pass a word, however often it stands there. */
export const withoutWords = (text: string, words: readonly Word[]): string => {
  let rest = text;
  for (const word of words) {
    let kept = "";
    let from = 0;
    for (let found = findWord(rest, word); found; found = findWord(rest, word, found.to)) {
      kept += `${rest.slice(from, found.from)} `;
      from = found.to;
    }
    if (from > 0) rest = kept + rest.slice(from);
  }
  return rest.replace(/ +/g, " ").trim();
};
