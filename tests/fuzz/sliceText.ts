/** Where in some octets something stands, and one piece put for another. */
import type { Dice } from "./Dice.ts";

export interface Piece {
  readonly from: number;
  readonly to: number;
}

export const EMPTY = Buffer.alloc(0);

/** The text with another piece in the place of [from, to). */
export const put = (text: Buffer, { from, to }: Piece, piece: Buffer | string): Buffer =>
  Buffer.concat([
    text.subarray(0, from),
    typeof piece === "string" ? Buffer.from(piece) : piece,
    text.subarray(Math.min(text.length, to)),
  ]);

/** A line somewhere, its LF with it. */
export const someLine = (text: Buffer, dice: Dice): Piece => {
  const somewhere = dice.below(text.length + 1);
  const from = somewhere === 0 ? 0 : text.lastIndexOf(10, somewhere - 1) + 1;
  const end = text.indexOf(10, from);
  return { from, to: end < 0 ? text.length : end + 1 };
};

/** One of the matches of a pattern, or undefined; the octets are looked at as Latin-1. */
export const someMatch = (text: Buffer, dice: Dice, pattern: RegExp): (Piece & { found: string }) | undefined => {
  const places = [...text.toString("latin1").matchAll(pattern)];
  if (places.length === 0) return undefined;
  const place = dice.of(places);
  return { from: place.index, to: place.index + place[0].length, found: place[0] };
};

/** A match of a pattern rewritten; the text as it is where nothing matches. */
export const rewrite = (text: Buffer, dice: Dice, pattern: RegExp, by: (found: string) => string): Buffer => {
  const match = someMatch(text, dice, pattern);
  return match ? put(text, match, by(match.found)) : text;
};
