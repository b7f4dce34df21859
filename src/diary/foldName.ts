/** Names as they are compared: case, accents, kinds of apostrophe and hyphen, and spaces folded. Never shown to anyone. */

/** Letters that Unicode does not take apart into a base letter and an accent. */
const WHOLE_LETTERS: ReadonlyMap<string, string> = new Map([
  ["ø", "o"],
  ["ł", "l"],
  ["đ", "d"],
  ["æ", "ae"],
  ["œ", "oe"],
  ["þ", "th"],
]);

/** `"  Zoë   O’Brien "` → `"zoe o'brien"`. */
export const foldName = (name: string): string =>
  PLAIN.test(name) && !LOOSE_BLANK.test(name) ? name.toLowerCase() : foldAny(name);

/** ASCII in which nothing but case is to be folded, as most names are. */
const PLAIN = /^[A-Za-z0-9 .'-]*$/;
const LOOSE_BLANK = /^ | $| {2}/;

const foldAny = (name: string): string =>
  name
    .normalize("NFKD")
    .replace(/\p{M}+/gu, "")
    // Upwards first: ß and SS are one, and so are the final and the other sigma.
    .toUpperCase()
    .toLowerCase()
    .replace(/[øłđæœþ]/g, (letter) => WHOLE_LETTERS.get(letter) ?? letter)
    .replace(/[‘’ʼ`´]/g, "'")
    .replace(/[‐-―−]/g, "-")
    .replace(/\s+/g, " ")
    .trim();
