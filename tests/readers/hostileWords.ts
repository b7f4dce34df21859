/**
 * Words as no calendar wants them: line ends of every kind, control characters, the characters that TEXT gives a meaning
 * (RFC 5545 §3.3.11), other writings, what looks like a component, very long ones. Each holds a letter, as a name must.
 */
import type { Dice } from "../fuzz/Dice.ts";

/** Some characters are written as escapes, since an editor would show nothing in their place. */
const HOSTILE: readonly string[] = [
  "Mara\rQuill",
  "Mara\nQuill",
  "Mara\r\nQuill",
  "Mara\u0000Quill\u0007\u001b[31m",
  "Mara\u2028Quill\u2029Feather",
  "Mara\u0085Quill\u0080\u009f",
  "Mara\tQuill\u000b\u000cFeather",
  "\ufeffMara\ufeff Quill",
  "\u{1f469}\u{1f3fd}\u200d\u{1f9b0} Mara \u{1f487}\u200d\u2640\ufe0f\u{1f1ee}\u{1f1ea}",
  "Zo\u0065\u0308 A\u030a\u0323ngstro\u0308m Z\u0351\u036b\u0343\u036a\u0302\u036b\u033d\u034f",
  "\u05de\u05e8\u05d9\u05dd \u05db\u05d4\u05df \u202e\u0645\u0627\u0631\u0627\u202c \u200fMara",
  "\u7f8e\u7d05 \uae40\ud558\ub298 \u092e\u093e\u0930\u093e",
  ";,\\:\"^ Mara \\n \\, \\; \\N ^n ^' ^^",
  'Mara;VALUE=DATE:20270101,;;,,::"Quill"',
  "Mara\\",
  "\\\\nMara\\\\\\;Quill\\,",
  "Mara\r\nBEGIN:VEVENT\r\nUID:injected\r\nDTSTART:20270101T000000Z\r\nSUMMARY:injected\r\nEND:VEVENT",
  "Mara\r\nEND:VEVENT\r\nEND:VCALENDAR",
  "Mara\r\n ATTENDEE;CN=x:mailto:x@example.com",
  "Mara\n\n\nQuill\n",
  "  Mara   Quill  ",
  "Mara \ud83d Quill \udc69",
  "{client} {salon} {at} Mara",
  "%s %d %n Mara &amp; <b>Quill</b> &#10;",
  "Mara = Quill? =0D=0A =?utf-8?Q?x?=",
  "BEGIN:VCALENDAR",
  "\u00a0Mara\u00a0\u00adQuill\u200b\u200e\u2060\ufffc\ufffd\uffff\u{10ffff}",
];

/** A length that neither a line nor a name expects. */
const LONG = 10_000;

/** Hostile words, sometimes two together, sometimes a very long row of them. */
export const hostileWords = (dice: Dice): string => {
  const first = dice.of(HOSTILE);
  switch (dice.below(6)) {
    case 0:
      return first.repeat(Math.ceil(LONG / first.length)).slice(0, LONG);
    case 1:
      return `${first}${dice.of(HOSTILE)}`;
    default:
      return first;
  }
};
