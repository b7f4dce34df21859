/**
 * The octets of one unfolded line as text: UTF-8, or Windows-1252 where they are no UTF-8, as old exporters write.
 * What could be taken for a line break or hides from readers becomes a space.
 */
const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
const western = new TextDecoder("windows-1252");

/** Control characters but the tab, the Unicode line breaks, and a byte order mark inside the text. */
// oxlint-disable-next-line no-control-regex -- these are the characters to take out
const UNWANTED = /[\u0000-\u0008\u000A-\u001F\u007F-\u009F\u2028\u2029\uFEFF]/g;

/** Decodes a line that is already unfolded: a fold may stand inside one character (RFC 5545 §3.1). */
export const decodeLine = (octets: Uint8Array): string => {
  let text: string;
  try {
    text = utf8.decode(octets);
  } catch {
    text = western.decode(octets);
  }
  return UNWANTED.test(text) ? text.replace(UNWANTED, " ") : text;
};
