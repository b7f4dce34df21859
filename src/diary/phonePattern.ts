/** A telephone as people write it, found in a text by the digits that telephones are compared by. Pure. */

/** Between two digits of one number. */
const BETWEEN = "[\\s().\\/-]{0,3}";
/** Before the last nine digits: a country's number, a nought, up to three more digits; whole, and no part of another number. */
const BEFORE = `(?<![\\d+])(?:(?:\\+|00)${BETWEEN}\\d{1,3}${BETWEEN})?(?:\\(?0\\)?${BETWEEN})?(?:\\d${BETWEEN}){0,3}`;
/** Digits by which telephones are compared: a shorter number is written whole. */
const COMPARED = 9;

/** @param digits as `foldPhone` gives them */
export const phonePattern = (digits: string): RegExp =>
  new RegExp(`${digits.length < COMPARED ? "(?<![\\d+])" : BEFORE}${digits.split("").join(BETWEEN)}(?!\\d)`, "g");
