/** Damage of octets and lines as networks, programs and people do it, whatever the text is. */
import type { Change } from "./damageEvents.ts";
import { ODD_LINES } from "./oddLines.ts";
import { EMPTY, put, rewrite, someLine, someMatch } from "./sliceText.ts";

const ODD_CHARACTERS = [
  "\r",
  "\n",
  "\r\n ",
  "\u0000",
  "\u2028",
  "\u0085",
  "\ufeff",
  "\t",
  ";",
  ":",
  '"',
  "\\",
  "=",
  ",",
];
const HUGE = ["0", "-1", "99999999999999999999", "1e9", "4294967296", "2147483648", ""];

const at = (place: number): { readonly from: number; readonly to: number } => ({ from: place, to: place });

export const TEXT_CHANGES: readonly Change[] = [
  (text, dice) => {
    const place = dice.below(text.length + 1);
    return put(text, { from: place, to: place + 1 }, Buffer.from([dice.below(256)]));
  },
  (text, dice) => {
    const place = dice.below(text.length + 1);
    return put(text, { from: place, to: place + dice.below(40) }, EMPTY);
  },
  (text, dice) => put(text, at(dice.below(text.length + 1)), dice.of(ODD_CHARACTERS)),
  (text, dice) => text.subarray(0, dice.below(text.length + 1)),
  (text, dice) => put(text, someLine(text, dice), EMPTY),
  (text, dice) => {
    const { from, to } = someLine(text, dice);
    return put(text, at(someLine(text, dice).from), text.subarray(from, to));
  },
  // Two lines change places.
  (text, dice) => {
    const [one, other] = [someLine(text, dice), someLine(text, dice)];
    if (one.to > other.from) return text;
    const [first, second] = [text.subarray(one.from, one.to), text.subarray(other.from, other.to)];
    return put(put(text, other, first), one, second);
  },
  (text, dice) => put(text, at(someLine(text, dice).from), `${dice.of(ODD_LINES)}${dice.of(["\r\n", "\n", "\r"])}`),
  // Another file begins in the midst of this one, or behind it.
  (text, dice, others) => {
    const other = dice.of(others);
    const from = dice.below(other.length + 1);
    return put(text, at(someLine(text, dice).from), other.subarray(from, from + dice.below(2_000)));
  },
  (text, dice, others) => Buffer.concat([text, dice.of(others).subarray(0, 4_000)]),
  (text, dice) =>
    rewrite(text, dice, /\d+/g, (found) => dice.of([...HUGE, `${found}9`, found.slice(1), `${Number(found) + 1}`])),
  // Names: small, with blanks, foreign.
  (text, dice) =>
    rewrite(text, dice, /^[A-Z-]+/gm, (found) =>
      dice.of([found.toLowerCase(), ` ${found}`, `${found} `, `X-${found}`, `\t${found}`]),
    ),
  // Parameters: emptied, doubled, without a value, with quotes that do not end.
  (text, dice) =>
    rewrite(text, dice, /;[A-Z-]+=[^;:\r\n]*/g, (found) =>
      dice.of([
        ";",
        found + found,
        found.replace(/=.*/, ""),
        found.replace(/=.*/, "="),
        found.replace("=", '="'),
        `${found};;`,
        `;X="a:b;c"${found}`,
      ]),
    ),
  (text, dice) => {
    const colon = someMatch(text, dice, /:/g);
    return colon
      ? put(text, colon, dice.of(["", "::", ";:", " : ", ';X=":', ";TZID=Own/Zone:", ";VALUE=DATE:"]))
      : text;
  },
  // Folds: new ones inside characters and names, old ones without their blank or with an empty line.
  (text, dice) => put(text, at(dice.below(text.length + 1)), dice.of(["\r\n ", "\n\t", "\r ", "\r\n\r\n "])),
  (text, dice) => rewrite(text, dice, /\r?\n[ \t]/g, () => dice.of(["\r\n", "", "\r\n  ", "\r\n\r\n "])),
  (text) => Buffer.from(text.toString("latin1").replaceAll("\r\n", "\n"), "latin1"),
  (text) => Buffer.from(text.toString("latin1").replaceAll("\r\n", "\r"), "latin1"),
  (text) => Buffer.from(text.toString("latin1").toLowerCase(), "latin1"),
  (text, dice) =>
    Buffer.concat([dice.of([Buffer.from([0xff, 0xfe]), EMPTY]), Buffer.from(text.toString("utf8"), "utf16le")]),
  (text, dice) => {
    const big = Buffer.from(text.toString("utf8"), "utf16le").swap16();
    return Buffer.concat([dice.of([Buffer.from([0xfe, 0xff]), EMPTY]), big]);
  },
  (text, dice) =>
    Buffer.concat([Buffer.from(dice.of([[0xef, 0xbb, 0xbf], [0x1f, 0x8b, 0x08], [0x0d, 0x0a], [0]])), text]),
];
