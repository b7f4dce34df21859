/** Damage and mischief that knows what a VEVENT and a VTIMEZONE are: what is put in has to do with what stands there. */
import type { Dice } from "./Dice.ts";
import { ODD_LINES, oddRule } from "./oddLines.ts";
import { EMPTY, put, rewrite, someLine, someMatch } from "./sliceText.ts";

export type Change = (text: Buffer, dice: Dice, others: readonly Buffer[]) => Buffer;

const EVENT = /BEGIN:VEVENT[\s\S]*?END:VEVENT\r?\n?/g;
const ZONE = /BEGIN:VTIMEZONE[\s\S]*?END:VTIMEZONE\r?\n?/g;
const START = /^DTSTART[^\r\n]*/gm;
const UIDS = ["same", "", "__proto__", "constructor", "vcalendar", "version", " x", "a#2", "a/2026-12-11T10:30:00Z"];
const TZIDS = ["", "Own/Zone", "/x.example/Europe/London", "CST", "GMT", '"a:b"', "Pacific Standard Time", "\u00e9"];
const MORE_TZIDS = [
  "EUROPE/LONDON",
  "Pacific/Apia",
  "Africa/Casablanca",
  "America/New_York",
  "Etc/GMT+12",
  "Nowhere/Land",
];

/** Times that the clocks repeat or skip, or nearly. */
const AT_CHANGES = [
  ";TZID=Europe/London:20261025T013000",
  ";TZID=Europe/London:20270328T013000",
  ";TZID=America/New_York:20261101T013000",
  ";TZID=America/New_York:20270314T023000",
  ";TZID=Pacific/Auckland:20270404T023000",
  ";TZID=Pacific/Auckland:20270926T023000",
  ";TZID=Australia/Lord_Howe:20270404T014500",
  ";TZID=Africa/Casablanca:20270207T023000",
  ":20261025T013000",
  ":20261101T013000",
];

/** The start line of an event under another name, perhaps with a parameter more and its digits moved. */
const likeStart = (start: string, name: string, dice: Dice): string => {
  const line = start.replace(/^DTSTART/, name + dice.of(["", "", ";RANGE=THISANDFUTURE", ";VALUE=DATE", ";X=1"]));
  return dice.below(3) === 0 ? line.replace(/\d(?=\D*$)/, String(dice.below(10))) : line;
};

/** Lines put before the end of an event, or anywhere. */
const putInto = (text: Buffer, dice: Dice, lines: string): Buffer => {
  const end = someMatch(text, dice, /^(?:END:VEVENT|DTSTART)/gm);
  const from = end?.from ?? someLine(text, dice).from;
  return put(text, { from, to: from }, `${lines}\r\n`);
};

export const EVENT_CHANGES: readonly Change[] = [
  (text, dice) => putInto(text, dice, dice.of(ODD_LINES)),
  (text, dice) => putInto(text, dice, `${dice.of(["RRULE", "RRULE", "EXRULE"])}:${oddRule(dice)}`),
  (text, dice) => rewrite(text, dice, /RRULE:[^\r\n]*/g, () => `RRULE:${oddRule(dice)}`),
  // An event again: as it is, as a change to itself, as another version.
  (text, dice) => {
    const event = someMatch(text, dice, EVENT);
    if (!event) return text;
    const again = dice.of<(found: string) => string>([
      (found) => found,
      (found) => found.replace(START, (start) => `${start}\r\n${likeStart(start, "RECURRENCE-ID", dice)}`),
      (found) => found.replace(/END:VEVENT/, `SEQUENCE:${dice.below(4)}\r\nSUMMARY:Tint - Mara\r\nEND:VEVENT`),
      (found) => found.replace(/^UID[^\r\n]*\r?\n/m, ""),
      (found) => found.replace(/END:VEVENT/, ""),
    ])(event.found);
    return put(text, { from: event.to, to: event.to }, Buffer.from(again, "latin1"));
  },
  // Its own start taken out, added, named, doubled.
  (text, dice) => {
    const start = someMatch(text, dice, START);
    if (!start) return text;
    const line = likeStart(start.found, dice.of(["EXDATE", "RDATE", "RECURRENCE-ID", "DTEND", "DTSTART"]), dice);
    return put(text, { from: start.to, to: start.to }, Buffer.from(`\r\n${line}`, "latin1"));
  },
  // Years at the ends of the calendar, days at the changes of the clocks.
  (text, dice) =>
    rewrite(text, dice, /\d{8}(?=T\d{6})/g, () =>
      dice.of(["00000101", "00010101", "99991231", "19000101", "20270229", "20111230"]),
    ),
  (text, dice) => rewrite(text, dice, START, () => `DTSTART${dice.of(AT_CHANGES)}`),
  (text, dice) => rewrite(text, dice, /TZID=[^:;\r\n]*/g, () => `TZID=${dice.of([...TZIDS, ...MORE_TZIDS])}`),
  (text, dice) => rewrite(text, dice, /UID:[^\r\n]*/g, () => `UID:${dice.of([...UIDS, "a".repeat(3_000)])}`),
  (text, dice) =>
    putInto(
      text,
      dice,
      `BEGIN:VALARM\r\nTRIGGER:-PT1H\r\nREPEAT:${dice.of(["2147483647", "-1"])}\r\nDURATION:PT1S\r\nSUMMARY:alarm\r\nEND:VALARM`,
    ),
  // Many of one kind.
  (text, dice) => {
    const count = 2 + dice.below(300);
    const line = dice.of([
      "EXDATE:20261211T103000Z",
      "RDATE:20261211T103000Z",
      "ATTENDEE;CN=Ann:mailto:a@example.com",
      "X:1",
      "SUMMARY:Tint",
    ]);
    return putInto(text, dice, Array.from({ length: count }, () => line).join("\r\n"));
  },
  (text, dice) => {
    const { from } = someLine(text, dice);
    return put(
      text,
      { from, to: from },
      `BEGIN:${dice.of(["X", "VCALENDAR", "VALARM"])}\r\n`.repeat(dice.of([1, 3, 99, 100, 101, 300])),
    );
  },
  // The definition of a zone: gone, doubled, at the end, with a line less, with another offset.
  (text, dice) => {
    const zone = someMatch(text, dice, ZONE);
    if (!zone) return text;
    const rest = put(text, zone, EMPTY);
    const definition = Buffer.from(zone.found, "latin1");
    switch (dice.below(5)) {
      case 0:
        return rest;
      case 1:
        return put(text, { from: zone.from, to: zone.from }, definition);
      case 2:
        return put(
          rest,
          { from: rest.lastIndexOf("END:VCALENDAR"), to: rest.lastIndexOf("END:VCALENDAR") },
          definition,
        );
      case 3:
        return put(text, zone, put(definition, someLine(definition, dice), EMPTY));
      default:
        return put(
          text,
          zone,
          rewrite(definition, dice, /[+-]\d{4}/g, () => dice.of(["+0000", "-1200", "+1400", "+9999", "-0001"])),
        );
    }
  },
];
