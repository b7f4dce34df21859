/** Which property or component line some octets are, told without decoding them: most lines of a diary are none we read. */
import { READ_PROPERTIES, ZONE_PROPERTIES } from "./eventText.ts";

const [TAB, SPACE, COLON, SEMICOLON, HYPHEN] = [9, 32, 58, 59, 45];
const NAME_MAX = 64;

/** A name that nobody here reads. */
export const OTHER = "OTHER";

const KNOWN = ["BEGIN", "END", "PRODID", "X-WR-CALNAME", "NAME", ...READ_PROPERTIES, ...ZONE_PROPERTIES];

const encoder = new TextEncoder();
const addUnit = (sum: number, unit: number): number => (Math.imul(sum, 31) + unit) | 0;
const sumOf = (name: string): number => encoder.encode(name).reduce(addUnit, 0);
const bySum = new Map(KNOWN.map((name) => [sumOf(name), name]));

/**
 * The name in capitals of the line in [from, to), `OTHER` where it is none that is read, "" where the octets are no
 * content line at all.
 */
export const lineName = (octets: Uint8Array, from: number, to: number): string => {
  // A byte order mark may stand before a name: at the head of the file, and of a file joined to another.
  let at = octets[from] === 0xef && octets[from + 1] === 0xbb && octets[from + 2] === 0xbf ? from + 3 : from;
  while (at < to && (octets[at] === SPACE || octets[at] === TAB)) at++;
  const begin = at;
  const limit = Math.min(to, begin + NAME_MAX + 1);
  let sum = 0;
  let end = begin;
  for (; at < limit; at++) {
    const octet = octets[at] as number;
    if (octet === COLON || octet === SEMICOLON) return end === begin ? "" : named(octets, begin, end, sum);
    if (octet === SPACE || octet === TAB) continue;
    const capital = octet >= 97 && octet <= 122 ? octet - 32 : octet;
    const isPart = (capital >= 65 && capital <= 90) || (octet >= 48 && octet <= 57) || octet === HYPHEN;
    if (!isPart) return "";
    sum = addUnit(sum, capital);
    end = at + 1;
  }
  return "";
};

const named = (octets: Uint8Array, begin: number, end: number, sum: number): string => {
  const name = bySum.get(sum);
  if (name === undefined || name.length !== end - begin) return OTHER;
  for (let at = 0; at < name.length; at++) {
    const octet = octets[begin + at] as number;
    if ((octet >= 97 && octet <= 122 ? octet - 32 : octet) !== name.charCodeAt(at)) return OTHER;
  }
  return name;
};
