/** Diaries that once broke a law of judge.ts, made as small as they go. Each is named after what went wrong. */
import { calendarText, event } from "./shapeText.ts";

const deep = "BEGIN:X-A\r\n".repeat(100);

export const BROKEN_ONCE: ReadonlyMap<string, string> = new Map([
  [
    "an event begun a hundred components deep, in which another begins",
    calendarText(`${deep}BEGIN:VEVENT\r\nUID:a\r\n${event("UID:b", "DTSTART:20261211T103000Z")}`),
  ],
  [
    "an added period without a zone in a series with one",
    calendarText(
      event(
        "UID:a",
        "DTSTART;TZID=Europe/Vienna:20160101T130000",
        "RDATE;VALUE=PERIOD:20110304T160000/20110304T170000,20261204T160000/20261204T170000",
      ),
    ),
  ],
  [
    "a change to all that follow, beside one of the same occurrence, and no series",
    calendarText(
      event(
        "UID:a",
        "DTSTART;VALUE=DATE:20261211",
        "RECURRENCE-ID;RANGE=THISANDFUTURE;VALUE=DATE:20261211",
        "RRULE:FREQ=WEEKLY;COUNT=5;BYDAY=FR",
      ) + event("UID:a", "DTSTART;VALUE=DATE:20261212", "RECURRENCE-ID;VALUE=DATE:20261211", "SEQUENCE:1"),
    ),
  ],
  [
    "a change to all that follow, beside one of the same occurrence, and a series that breaks off before its start",
    calendarText(
      event("UID:a", "DTSTART:20270320T103000Z", "RECURRENCE-ID:20270320T103000Z") +
        "BEGIN:VEVENT\r\nUID:a\r\n" +
        event("UID:a", "DTSTART:20270321T140000Z", "RECURRENCE-ID;RANGE=THISANDFUTURE:20270320T103000Z"),
    ),
  ],
  [
    "an occurrence that a series long past takes out, and a change to it that lies ahead",
    calendarText(
      event("UID:a", "DTSTART;VALUE=DATE:20240701", "RRULE:FREQ=WEEKLY;UNTIL=20240801", "EXDATE;VALUE=DATE:20240715") +
        event("UID:a", "RECURRENCE-ID;VALUE=DATE:20240715", "DTSTART:20270207T023000Z"),
    ),
  ],
  [
    "a UID that is the name of another's second entry",
    calendarText(
      ["a", "a", "a#2"]
        .map((uid, index) =>
          event(`UID:${uid}`, `DTSTART:20261211T1${index}3000Z`, `SUMMARY:Root tint - Mara Quill ${index}`),
        )
        .join(""),
    ),
  ],
]);
