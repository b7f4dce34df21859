/**
 * Ids of what is appended in one salon: a letter and a number of fixed width, so that rows come back from storage, which
 * sorts ids as text, in the order they were told. No number is given twice, whatever has been erased since.
 */

/** Digits of the number: a salon that is answered a thousand times a day would need 270 years to fill them. */
const DIGITS = 8;

/** Sets of answers, statements of consent, decisions. */
export const LETTERS = ["s", "k", "d"] as const;
export type Letter = (typeof LETTERS)[number];
/** The number that the next of each gets. */
export type NextNumbers = Readonly<Record<Letter, number>>;

export const FIRST_NUMBERS: NextNumbers = { s: 1, k: 1, d: 1 };

export const numberOfId = (id: string): number => Number(id.slice(1));

/** The next id, which is then taken. */
export const takeId = (letter: Letter, work: { next: NextNumbers }): string => {
  const number = work.next[letter];
  work.next = { ...work.next, [letter]: number + 1 };
  return `${letter}${String(number).padStart(DIGITS, "0")}`;
};
