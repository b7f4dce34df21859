/**
 * Calendar files damaged as networks, programs and people damage them, and as those do who mean harm. One seed makes one
 * mutant.
 */
import type { Dice } from "./Dice.ts";

/** Lines that have made some reader of calendars throw, hang, lose entries or read a wrong start. */
const LINES: readonly string[] = [
  "BEGIN:VEVENT",
  "END:VEVENT",
  "BEGIN:VCALENDAR",
  "END:VCALENDAR",
  "BEGIN:VALARM",
  "END:VALARM",
  "BEGIN:VTIMEZONE",
  "END:VTIMEZONE",
  "BEGIN:STANDARD",
  "END:STANDARD",
  "END:VCALENDARD",
  "begin:vevent",
  "BEGIN:VEVENT ",
  "TZID:Own/Zone",
  "TZOFFSETFROM:+9999",
  "TZOFFSETTO:-0530",
  "UID:__proto__",
  "UID:constructor",
  "UID:toString",
  "UID:vcalendar",
  "UID:version",
  "UID;X-A=1:same",
  "UID:",
  "DTSTART:20261211T103000Z",
  "DTSTART:20261211",
  "DTSTART;TZID=Europe/London:20270328T013000",
  "DTSTART;TZID=Europe/London:20261025T013000",
  "DTSTART;TZID=Own/Zone:20261211T103000",
  'DTSTART;TZID="(UTC-05:00) Eastern Time (US & Canada)":20261211T103000',
  "DTSTART;TZID=:20261211T103000",
  "DTSTART;VALUE=DATE:20261211T103000",
  "DTSTART:00000000T000000",
  "DTSTART:99991231T235960Z",
  "DTSTART:20261211T240000",
  "DTSTART:2026-12-11T10:30",
  "DTEND:00000101T000000",
  "DURATION:P99999999999W",
  "DURATION:-PT1H",
  "RECURRENCE-ID:20261211T103000Z",
  "RECURRENCE-ID;RANGE=THISANDFUTURE:20261211T103000Z",
  "RECURRENCE-ID;VALUE=DATE:20261211",
  "EXDATE:20261211T103000Z,20261212",
  "EXDATE;TZID=Europe/London:20261211T103000",
  "RDATE;VALUE=PERIOD:20261211T103000Z/PT1H,20261212T103000Z/20261212T113000Z",
  "RDATE:,,x",
  "EXRULE:FREQ=WEEKLY",
  "SEQUENCE:99999999999999999999",
  "SEQUENCE:-1",
  "STATUS:CANCELLED",
  "STATUS:'",
  "REPEAT:2147483647",
  "SUMMARY:\\",
  "SUMMARY:Tint - \u2028Mara\u0000",
  'ATTENDEE;CN="a:b;mailto:x@example.com',
  "ATTENDEE:mailto:%E0%A4",
  "DESCRIPTION:tel: +44 (0)20 7946 0000 tel:tel:tel:",
  " a fold of nothing",
  "a line that is none",
  ";;;:::",
];

/** Rules that have kept some engine of recurrence busy, or are merely odd. */
const RULES: readonly string[] = [
  "FREQ=DAILY;COUNT=4000000000",
  "FREQ=DAILY;BYMONTHDAY=-1,-2;COUNT=5",
  "FREQ=SECONDLY",
  "FREQ=MINUTELY;INTERVAL=1440",
  "FREQ=HOURLY;BYMINUTE=0,1,2,3,4,5,6,7,8,9",
  "FREQ=YEARLY;INTERVAL=999999999",
  "FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30",
  "FREQ=YEARLY;BYWEEKNO=53;BYDAY=MO",
  "FREQ=YEARLY;BYYEARDAY=366,-366",
  "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-1",
  "FREQ=MONTHLY;BYMONTHDAY=31",
  "FREQ=WEEKLY;WKST=SU;BYDAY=-1SU",
  "FREQ=WEEKLY;UNTIL=99991231",
  "FREQ=WEEKLY;UNTIL=x",
  "FREQ=;COUNT=",
  "BYDAY= TU",
  "FREQ=DAILY;BYSETPOS=0",
  "RSCALE=HEBREW;FREQ=YEARLY;SKIP=FORWARD",
];

type Change = (text: Buffer, dice: Dice, others: readonly Buffer[]) => Buffer;

const splice = (text: Buffer, at: number, gone: number, put: Buffer): Buffer =>
  Buffer.concat([text.subarray(0, at), put, text.subarray(Math.min(text.length, at + gone))]);
const EMPTY = Buffer.alloc(0);

/** Where a line begins, anywhere in the text. */
const lineAt = (text: Buffer, dice: Dice): { readonly from: number; readonly to: number } => {
  const somewhere = dice.below(text.length + 1);
  const from = text.lastIndexOf(10, somewhere - 1) + 1;
  const end = text.indexOf(10, from);
  return { from, to: end < 0 ? text.length : end + 1 };
};

/** Changes the first match of some places, chosen by chance. */
const rewrite = (text: Buffer, dice: Dice, pattern: RegExp, put: (found: string) => string): Buffer => {
  const written = text.toString("latin1");
  const places = [...written.matchAll(pattern)];
  if (places.length === 0) return text;
  const place = dice.of(places);
  const put1 = Buffer.from(put(place[0]), "utf8");
  return splice(text, place.index, place[0].length, put1);
};

const CHANGES: readonly Change[] = [
  (text, dice) => splice(text, dice.below(text.length + 1), 1, Buffer.from([dice.below(256)])),
  (text, dice) => splice(text, dice.below(text.length + 1), dice.below(40), EMPTY),
  (text, dice) =>
    splice(
      text,
      dice.below(text.length + 1),
      0,
      Buffer.from(dice.of(["\r", "\n", "\r\n ", "\u0000", "\u2028", "\ufeff", "\t", ";", ":", '"', "\\", "="])),
    ),
  (text, dice) => text.subarray(0, dice.below(text.length + 1)),
  (text, dice) => {
    const { from, to } = lineAt(text, dice);
    return splice(text, from, to - from, EMPTY);
  },
  (text, dice) => {
    const { from, to } = lineAt(text, dice);
    return splice(text, lineAt(text, dice).from, 0, text.subarray(from, to));
  },
  (text, dice) => splice(text, lineAt(text, dice).from, 0, Buffer.from(`${dice.of(LINES)}${dice.of(["\r\n", "\n"])}`)),
  (text, dice) => splice(text, lineAt(text, dice).from, 0, Buffer.from(`RRULE:${dice.of(RULES)}\r\n`)),
  (text, dice, others) => {
    const other = dice.of(others);
    const from = dice.below(other.length + 1);
    return splice(text, lineAt(text, dice).from, 0, other.subarray(from, from + dice.below(2_000)));
  },
  (text, dice, others) => Buffer.concat([text, dice.of(others)]),
  (text, dice) =>
    rewrite(text, dice, /\d+/g, (found) =>
      dice.of(["0", "-1", `${found}9`, found.slice(1), "99999999999999999999", `${Number(found) + 1}`]),
    ),
  (text, dice) =>
    rewrite(
      text,
      dice,
      /TZID=[^:;\r\n]*/g,
      () =>
        `TZID=${dice.of(["", "Own/Zone", "/x.example/Europe/London", "CST", "GMT", '"a:b"', "Pacific Standard Time", "\u00e9"])}`,
    ),
  (text, dice) => rewrite(text, dice, /RRULE:[^\r\n]*/g, () => `RRULE:${dice.of(RULES)}`),
  (text, dice) =>
    rewrite(
      text,
      dice,
      /UID:[^\r\n]*/g,
      () => `UID:${dice.of(["same", "", "__proto__", "vcalendar", " x", "a".repeat(3_000)])}`,
    ),
  (text, dice) =>
    rewrite(text, dice, /^[A-Z-]+/gm, (found) =>
      dice.of([found.toLowerCase(), ` ${found}`, `${found} `, `X-${found}`]),
    ),
  (text) => Buffer.from(text.toString("latin1").replaceAll("\r\n", "\n"), "latin1"),
  (text) => Buffer.from(text.toString("latin1").replaceAll("\r\n", "\r"), "latin1"),
  (text, dice) =>
    Buffer.concat([dice.of([Buffer.from([0xff, 0xfe]), EMPTY]), Buffer.from(text.toString("utf8"), "utf16le")]),
  (text) => Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), text]),
];

/** Sources larger than this are cut, so that a million mutants are a matter of hours. */
const SOURCE_MAX_BYTES = 8_000;

/** One mutant: a source with one to six changes. */
export const mutate = (sources: readonly Buffer[], dice: Dice): Buffer => {
  let text = dice.of(sources).subarray(0, SOURCE_MAX_BYTES);
  for (let change = dice.below(6); change >= 0; change--) text = dice.of(CHANGES)(text, dice, sources);
  return text;
};
