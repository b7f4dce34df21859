/** The words of a long list that stand in a text, found without trying each: by the letters they begin with. */
import { isEdge, type Word } from "./compileWords.ts";

export interface WordIndex<Kind extends Word = Word> {
  /** In the list's order. */
  readonly words: readonly Kind[];
  /** Places in the list, by the first letters of the stem. */
  readonly byHead: ReadonlyMap<string, readonly number[]>;
}

/** Letters that words are looked up by; a shorter word by all of its own. */
const HEAD_LETTERS = 3;

export const indexWords = <Kind extends Word>(words: readonly Kind[]): WordIndex<Kind> => {
  const byHead = new Map<string, number[]>();
  for (const [place, { stem }] of words.entries()) {
    const head = stem.slice(0, HEAD_LETTERS);
    const places = byHead.get(head);
    if (places) places.push(place);
    else byHead.set(head, [place]);
  }
  return { words, byHead };
};

/**
 * The words that `findWord` would find, in the list's order.
 * @param text folded by foldWords
 */
export const wordsIn = <Kind extends Word>(text: string, { words, byHead }: WordIndex<Kind>): readonly Kind[] => {
  const found = new Set<number>();
  for (let from = 0; from < text.length; from = nextStart(text, from)) {
    for (let letters = 1; letters <= HEAD_LETTERS; letters++) {
      for (const place of byHead.get(text.slice(from, from + letters)) ?? NONE) {
        const { stem, anyEnding } = words[place] as Kind;
        if (text.startsWith(stem, from) && (anyEnding || isEdge(text, from + stem.length))) found.add(place);
      }
    }
  }
  return found.size === 0 ? NONE : [...found].sort((one, other) => one - other).map((place) => words[place] as Kind);
};

const NONE: readonly never[] = [];

const nextStart = (text: string, from: number): number => {
  const blank = text.indexOf(" ", from);
  return blank < 0 ? text.length : blank + 1;
};
