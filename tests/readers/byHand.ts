/**
 * Two calendars written by hand from RFC 5545 (§3.6.2 tasks, §3.6.6 alarms), RFC 9074 (an alarm's UID) and RFC 9253
 * (several RELATED-TO), with what a reader should say of them: whoever reads reminders and tasks wrongly is found out here,
 * whatever the salons' feeds hold.
 */
import type { ReadEvent } from "./types.ts";

export interface HandWritten {
  readonly name: string;
  readonly text: string;
  readonly events: readonly ReadEvent[];
}

const calendarOf = (lines: readonly string[]): string =>
  ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//By hand//EN", ...lines, "END:VCALENDAR", ""].join("\r\n");

const secondsOf = (text: string): number => Date.parse(text) / 1000;

/** New York, as RFC 5545 §3.6.5 writes its rules since 2007. */
const NEW_YORK = [
  "BEGIN:VTIMEZONE",
  "TZID:America/New_York",
  "BEGIN:STANDARD",
  "DTSTART:20071104T020000",
  "RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU",
  "TZOFFSETFROM:-0400",
  "TZOFFSETTO:-0500",
  "END:STANDARD",
  "BEGIN:DAYLIGHT",
  "DTSTART:20070311T020000",
  "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU",
  "TZOFFSETFROM:-0500",
  "TZOFFSETTO:-0400",
  "END:DAYLIGHT",
  "END:VTIMEZONE",
];

/** The later reminder lies before the change of 1 November 2026: an hour and a day are exact lengths, not wall times. */
const EVENT = [
  "BEGIN:VEVENT",
  "UID:by-hand-event",
  "DTSTAMP:20261001T080000Z",
  "SEQUENCE:3",
  "DTSTART;TZID=America/New_York:20261102T093000",
  "DTEND;TZID=America/New_York:20261102T094500",
  "SUMMARY:Take the skin test off",
  "DESCRIPTION:One\\; two\\, three.\\n\\nFour.",
  "STATUS:CONFIRMED",
  "RELATED-TO;RELTYPE=FINISHTOSTART;GAP=PT48H:by-hand-colour",
  "RELATED-TO;RELTYPE=STARTTOSTART;GAP=PT0H:by-hand-other",
  "RELATED-TO:by-hand-third",
  "BEGIN:VALARM",
  "UID:by-hand-alarm-1",
  "ACTION:DISPLAY",
  "DESCRIPTION:Take it off\\, now",
  "TRIGGER:PT0S",
  "END:VALARM",
  "BEGIN:VALARM",
  "UID:by-hand-alarm-2",
  "ACTION:DISPLAY",
  "DESCRIPTION:Tomorrow",
  "TRIGGER:-PT48H30M",
  "END:VALARM",
  "END:VEVENT",
];

const taskOf = (uid: string, alarm: readonly string[]): readonly string[] => [
  "BEGIN:VTODO",
  `UID:${uid}`,
  "DTSTAMP:20261001T080000Z",
  "SEQUENCE:0",
  "DUE:20261104T140000Z",
  "SUMMARY:Post the kit",
  "DESCRIPTION:To M.Q.",
  "STATUS:NEEDS-ACTION",
  "RELATED-TO;RELTYPE=FINISHTOSTART;GAP=PT120H:by-hand-colour",
  ...alarm,
  "END:VTODO",
];

const task = (uid: string, alarms: ReadEvent["alarms"]): ReadEvent => ({
  uid,
  start: null,
  end: secondsOf("2026-11-04T14:00:00Z"),
  summary: "Post the kit",
  description: "To M.Q.",
  status: "NEEDS-ACTION",
  sequence: 0,
  stamp: secondsOf("2026-10-01T08:00:00Z"),
  alarms,
});

export const eventByHand: HandWritten = {
  name: "by-hand",
  text: calendarOf([...NEW_YORK, ...EVENT, ...taskOf("by-hand-task", [])]),
  events: [
    {
      uid: "by-hand-event",
      start: secondsOf("2026-11-02T14:30:00Z"),
      end: secondsOf("2026-11-02T14:45:00Z"),
      summary: "Take the skin test off",
      description: "One; two, three.\n\nFour.",
      status: "CONFIRMED",
      sequence: 3,
      stamp: secondsOf("2026-10-01T08:00:00Z"),
      alarms: [
        { uid: "by-hand-alarm-2", at: secondsOf("2026-10-31T14:00:00Z"), words: "Tomorrow" },
        { uid: "by-hand-alarm-1", at: secondsOf("2026-11-02T14:30:00Z"), words: "Take it off, now" },
      ],
    },
    task("by-hand-task", []),
  ],
};

const ALARM = [
  "BEGIN:VALARM",
  "UID:by-hand-alarm-3",
  "ACTION:DISPLAY",
  "DESCRIPTION:The last collection is soon",
  "TRIGGER;RELATED=END:-PT2H",
  "END:VALARM",
];
/** A task's reminder, which ts-ics 2.4.6 takes for the task itself: it knows alarms in events alone. */
export const taskByHand: HandWritten = {
  name: "by-hand-alarmed-task",
  text: calendarOf(taskOf("by-hand-alarmed-task", ALARM)),
  events: [
    task("by-hand-alarmed-task", [
      { uid: "by-hand-alarm-3", at: secondsOf("2026-11-04T12:00:00Z"), words: "The last collection is soon" },
    ]),
  ],
};
