/**
 * Ids of what is appended in one salon: a letter and a number of fixed width, so that rows come back from storage, which
 * sorts ids as text, in the order they were told.
 */

/** Digits of the number: a salon that is answered a thousand times a day would need 270 years to fill them. */
const DIGITS = 8;

/** The id after the highest of `rows`. */
export const nextId = (letter: string, rows: ReadonlyMap<string, unknown>): string => {
  let last = 0;
  for (const id of rows.keys()) last = Math.max(last, Number(id.slice(letter.length)));
  return `${letter}${String(last + 1).padStart(DIGITS, "0")}`;
};
