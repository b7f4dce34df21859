/**
 * Content lines of RFC 5545 §3.1: cleaning and escaping of values, folding, CRLF. The only place where a line of a feed is
 * made, so that no value, whatever stands in it, can become a second line. Knows nothing of what the lines mean.
 */

/** A property: its name, its parameters as written (`;TZID=Europe/London`, or nothing) and its value, already encoded. */
export interface ContentLine {
  readonly name: string;
  readonly parameters: string;
  readonly value: string;
}

/** Octets of a line without its CRLF (RFC 5545 §3.1). */
const LINE_OCTETS = 75;

const LINE_ENDS = /\r\n|[\r\n\u0085\u2028\u2029]/g;
/** What no TEXT may hold (RFC 5545 §3.1, CONTROL), and the byte order mark, at which strict readers fail. */
const UNWRITABLE = /[\p{Cc}\ufeff]/gu;
// oxlint-disable-next-line no-control-regex -- control characters are what is looked for
const PLAIN = /^[\x20-\x7e]*$/;
// oxlint-disable-next-line no-control-regex -- the one control character that a text of several lines keeps
const PLAIN_LINES = /^[\n\x20-\x7e]*$/;

/** Text of several lines, ended by `\n` alone, without control characters or halves of a surrogate pair. */
export const cleanText = (text: string): string => (PLAIN_LINES.test(text) ? text : cleanLines(text));

const cleanLines = (text: string): string =>
  text
    .replace(LINE_ENDS, "\n")
    .split("\n")
    .map((line) => cleanLine(line))
    .join("\n");

/** Text of one line: what would end it becomes a space. */
export const cleanLine = (text: string): string =>
  PLAIN.test(text) ? text : text.replace(LINE_ENDS, " ").replaceAll("\t", " ").replace(UNWRITABLE, "").toWellFormed();

/** Encodes cleaned text as a TEXT value (RFC 5545 §3.3.11). */
export const escapeText = (clean: string): string => clean.replace(/[\\;,]/g, "\\$&").replaceAll("\n", "\\n");

/**
 * Cleans an address for a URI value, which is not escaped (RFC 5545 §3.3.13): what no URI may hold is percent-encoded.
 */
export const cleanUri = (address: string): string =>
  address.toWellFormed().replace(/[^\x21-\x7e]|["<>\\^`{|}]/gu, (character) => encodeURIComponent(character));

/** The line with its folds and its CRLF; a fold never stands inside a UTF-8 sequence. */
export const writeLine = ({ name, parameters, value }: ContentLine): string => {
  const line = `${name}${parameters}:${value}`;
  if (!PLAIN.test(line)) return `${fold(line)}\r\n`;
  return line.length <= LINE_OCTETS ? `${line}\r\n` : `${foldPlain(line)}\r\n`;
};

/** Where every character is an octet, a fold stands after the same number of them each time. */
const foldPlain = (line: string): string => {
  let folded = line.slice(0, LINE_OCTETS);
  for (let at = LINE_OCTETS; at < line.length; at += LINE_OCTETS - 1) {
    folded += `\r\n ${line.slice(at, at + LINE_OCTETS - 1)}`;
  }
  return folded;
};

const octetsOf = (codePoint: number): number =>
  codePoint < 0x80 ? 1 : codePoint < 0x8_00 ? 2 : codePoint < 0x1_00_00 ? 3 : 4;

const fold = (line: string): string => {
  let folded = "";
  let from = 0;
  let octets = 0;
  for (let at = 0; at < line.length; ) {
    const codePoint = line.codePointAt(at) as number;
    const size = octetsOf(codePoint);
    if (octets + size > LINE_OCTETS) {
      folded += `${line.slice(from, at)}\r\n `;
      from = at;
      // The space that marks the fold counts as well.
      octets = 1;
    }
    octets += size;
    at += codePoint > 0xff_ff ? 2 : 1;
  }
  return folded + line.slice(from);
};
