/**
 * What may be left of foreign words in a calendar, said a second time and on purpose not by the product's own cleaner:
 * RFC 5545 §3.1 lets no CONTROL into a TEXT, a SUMMARY is one line, half a surrogate pair has no UTF-8 (Unicode 15, 3.9).
 */

/** Whatever any reader may take for the end of a line (Unicode 15, 5.8), the tab and other controls apart. */
const ENDS = new Set([0x0a, 0x0d, 0x85, 0x20_28, 0x20_29]);
const BYTE_ORDER_MARK = 0xfe_ff;

const isControl = (code: number): boolean => code < 0x20 || (code >= 0x7f && code < 0xa0);
const isHalfPair = (code: number): boolean => code >= 0xd8_00 && code < 0xe0_00;

/** @param end what a line's end becomes: a space in words of one line */
export const cleanWords = (text: string, end: "\n" | " "): string => {
  let clean = "";
  let previous = 0;
  for (const character of text) {
    const code = character.codePointAt(0) as number;
    if (ENDS.has(code)) clean += previous === 0x0d && code === 0x0a ? "" : end;
    else if (code === 0x09) clean += " ";
    else if (isHalfPair(code)) clean += "\ufffd";
    else if (!isControl(code) && code !== BYTE_ORDER_MARK) clean += character;
    previous = code;
  }
  return clean;
};
