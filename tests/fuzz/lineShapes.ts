/** Shapes of single lines, of folds, of nesting and of encodings. */
import { gzipSync } from "node:zlib";
import { calendar, calendarText, event, list, octets, one, type Shape, START, times } from "./shapeText.ts";

/** One line of so many octets; at four times the size just below LINE_MAX_BYTES, past which the rest is let go. */
const longLine = (name: string, before: string, fill: string, least = 240_000): Shape => ({
  name: `one line of ${name}`,
  size: least,
  // The first of several counts, so nothing of its kind may stand before it.
  make: (wanted) => calendar(event(`${before}${fill.repeat(Math.floor(wanted / fill.length))}`, "UID:a", START)),
});

/** One text of a daily series, read again for every occurrence unless somebody thinks of it. */
const seriesText = (name: string, before: string, fill: string): Shape => ({
  name: `a daily series with ${name}`,
  size: 25_000,
  make: (size) =>
    calendar(event(`${before}${fill.repeat(Math.floor(size / fill.length))}`, "UID:a", START, "RRULE:FREQ=DAILY")),
});

export const LINE_SHAPES: readonly Shape[] = [
  longLine("a summary", "SUMMARY:", "tint "),
  longLine("a summary of no word", "SUMMARY:", "abc{}-"),
  longLine("an attendee", 'ATTENDEE;CN="', "x"),
  longLine("a zone's name", "DTEND;TZID=", "x"),
  longLine("a zone's name of slashes", "DTEND;TZID=", "a/"),
  longLine("a zone's name of colons", "DTEND;TZID=", "a:"),
  longLine("a rule", "RRULE:FREQ=DAILY;BYDAY=", "MO,"),
  longLine("a rule of parts", "RRULE:FREQ=DAILY", ";X-A=1"),
  longLine("blanks before UNTIL", "RRULE:FREQ=DAILY;", " "),
  longLine("no colon", "SUMMARY", "x"),
  longLine("semicolons", "SUMMARY", ";"),
  longLine("quotes", "SUMMARY;X=", '"'),
  longLine("quotes that do not end", "SUMMARY", ';X="a'),
  longLine("colons", "SUMMARY", ":"),
  longLine("backslashes", "SUMMARY:", "\\"),
  longLine("equals signs", "SUMMARY;", "="),
  longLine("telephones", "DESCRIPTION:", "tel: +44 "),
  longLine("digits after a telephone", "DESCRIPTION:tel:", "(1) "),
  longLine("per cent signs", "ATTENDEE:mailto:", "%E0%A4"),
  longLine("commas in an exclusion", "EXDATE:", ","),
  longLine("a sequence", "SEQUENCE:", "9"),
  longLine("a duration", "DURATION:P", "9"),
  longLine("too long a summary", "SUMMARY:", "tint ", 1_250_000),
  longLine("too long a name", "SUMMARY", "x", 1_250_000),
  longLine("too many exclusions", "EXDATE:", "20261211T103000Z,", 1_250_000),
  seriesText("a long summary", "SUMMARY:", "tint "),
  seriesText("a long summary of no word", "SUMMARY:", "a - "),
  seriesText("a long description", "DESCRIPTION:", "tel: +44 "),
  seriesText("a long UID", "UID:", "u"),
  {
    name: "folds of one octet",
    size: 300_000,
    make: (size) => calendar(event(`SUMMARY:${"\r\n x".repeat(size)}`, "UID:a", START)),
  },
  {
    name: "folds of nothing",
    size: 400_000,
    make: (size) => calendar(event(`SUMMARY:${"\r\n ".repeat(size)}`, "UID:a", START)),
  },
  { name: "empty lines", size: 600_000, make: (size) => calendar("\r\n".repeat(size)) },
  {
    name: "lines that are none",
    size: 150_000,
    make: (size) => calendar(event("UID:a", START, `SUMMARY:Tint${"\r\nand on".repeat(size)}`)),
  },
  {
    name: "parameters on one line",
    size: 25_000,
    make: (size) => one(`ATTENDEE${times(size, (index) => `;X${index}=1`)}:mailto:x@example.com`),
  },
  {
    name: "BEGIN inside BEGIN",
    size: 25_000,
    make: (size) => calendar(`${"BEGIN:X-A\r\n".repeat(size)}${"END:X-A\r\n".repeat(size)}`),
  },
  {
    name: "events begun in the depths",
    size: 10_000,
    make: (size) => calendar(`${"BEGIN:X-A\r\n".repeat(200)}${times(size, (index) => event(`UID:${index}`, START))}`),
  },
  {
    name: "events never ended",
    size: 25_000,
    make: (size) => calendar(times(size, (index) => `BEGIN:VEVENT\r\nUID:${index}\r\n${START}\r\n`)),
  },
  {
    name: "alarms that repeat for ever",
    size: 10_000,
    make: (size) =>
      one(...list(size, () => "BEGIN:VALARM\r\nTRIGGER:-PT1H\r\nREPEAT:2147483647\r\nDURATION:PT1S\r\nEND:VALARM")),
  },
  {
    name: "events in UTF-16",
    size: 2_500,
    make: (size) =>
      Buffer.from(`\ufeff${calendarText(times(size, (index) => event(`UID:${index}`, START)))}`, "utf16le"),
  },
  {
    name: "a page of brackets",
    size: 1_000_000,
    make: (size) => octets("<html>".repeat(Math.floor(size / 6))),
  },
  {
    name: "a packed calendar",
    size: 25_000,
    make: (size) => gzipSync(calendar(times(size, (index) => event(`UID:${index}`, START)))),
  },
];
