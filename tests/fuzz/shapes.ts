/**
 * Shapes of calendars that keep some reader busy or fill its memory, most from public advisories on calendar and recurrence
 * libraries (from memory). Each is made as large as asked; reading twice as much may take about twice as long.
 */

export interface Shape {
  readonly name: string;
  /** How many of what it repeats it is measured with at least. */
  readonly size: number;
  readonly make: (size: number) => Uint8Array;
}

const octets = (text: string): Uint8Array => new TextEncoder().encode(text);
const calendar = (body: string): Uint8Array => octets(`BEGIN:VCALENDAR\r\n${body}END:VCALENDAR\r\n`);
const event = (...lines: string[]): string => `BEGIN:VEVENT\r\n${lines.join("\r\n")}\r\nEND:VEVENT\r\n`;
const START = "DTSTART;TZID=Europe/London:20261211T103000";
const one = (...lines: string[]): Uint8Array => calendar(event("UID:a", START, "SUMMARY:Tint - Mara", ...lines));
const times = (count: number, make: (index: number) => string): string => {
  const pieces: string[] = [];
  for (let index = 0; index < count; index++) pieces.push(make(index));
  return pieces.join("");
};
const day = (index: number): string =>
  new Date(Date.UTC(2026, 11, 11) + index * 86_400_000).toISOString().slice(0, 10).replaceAll("-", "");

/** One line of so many octets. */
const longLine = (name: string, before: string, fill: string): Shape => ({
  name: `one line of ${name}`,
  size: 1_250_000,
  make: (size) => one(`${before}${fill.repeat(Math.floor(size / fill.length))}`),
});

export const SHAPES: readonly Shape[] = [
  longLine("a summary", "SUMMARY:", "tint "),
  longLine("an attendee", 'ATTENDEE;CN="', "x"),
  longLine("a zone's name", "DTEND;TZID=", "x"),
  longLine("a rule", "RRULE:FREQ=DAILY;BYDAY=", "MO,"),
  longLine("no colon", "SUMMARY", "x"),
  longLine("semicolons", "SUMMARY", ";"),
  longLine("quotes", "SUMMARY;X=", '"'),
  longLine("colons", "SUMMARY", ":"),
  longLine("backslashes", "SUMMARY:", "\\"),
  longLine("equals signs", "SUMMARY;", "="),
  longLine("telephones", "DESCRIPTION:", "tel: +44 "),
  { name: "folds of one octet", size: 300_000, make: (size) => one(`SUMMARY:${"\r\n x".repeat(size)}`) },
  { name: "empty lines", size: 600_000, make: (size) => calendar("\r\n".repeat(size)) },
  {
    name: "parameters on one line",
    size: 25_000,
    make: (size) => one(`ATTENDEE${times(size, (i) => `;X${i}=1`)}:mailto:x@example.com`),
  },
  {
    name: "BEGIN inside BEGIN",
    size: 50_000,
    make: (size) => calendar(`${times(size, () => "BEGIN:X-A\r\n")}${times(size, () => "END:X-A\r\n")}`),
  },
  {
    name: "events never ended",
    size: 25_000,
    make: (size) => calendar(times(size, (i) => `BEGIN:VEVENT\r\nUID:${i}\r\n${START}\r\n`)),
  },
  {
    name: "exclusions on one line",
    size: 4_000,
    make: (size) => one("RRULE:FREQ=DAILY", `EXDATE:${times(size, (i) => `${day(i)}T103000Z,`)}x`),
  },
  {
    name: "exclusions on lines of their own",
    size: 4_000,
    make: (size) => one("RRULE:FREQ=DAILY", ...Array.from({ length: size }, (_, i) => `EXDATE:${day(i)}T103000Z`)),
  },
  {
    name: "added dates",
    size: 4_000,
    make: (size) => one(`RDATE:${times(size, (i) => `${day(i)}T103000Z,`)}20261231T103000Z`),
  },
  {
    name: "rules on one event",
    size: 100,
    make: (size) => one(...Array.from({ length: size }, () => "RRULE:FREQ=WEEKLY;COUNT=3")),
  },
  { name: "starts on one event", size: 5_000, make: (size) => one(...Array.from({ length: size }, () => START)) },
  {
    name: "attendees on one event",
    size: 5_000,
    make: (size) => one(...Array.from({ length: size }, (_, i) => `ATTENDEE;CN=Ann ${i}:mailto:a${i}@example.com`)),
  },
  {
    name: "alarms that repeat for ever",
    size: 10_000,
    make: (size) =>
      one(
        ...Array.from(
          { length: size },
          () => "BEGIN:VALARM\r\nTRIGGER:-PT1H\r\nREPEAT:2147483647\r\nDURATION:PT1S\r\nEND:VALARM",
        ),
      ),
  },
  {
    name: "events of one UID",
    size: 2_500,
    make: (size) =>
      calendar(times(size, (i) => event("UID:same", `DTSTART:${day(i % 400)}T103000Z`, `SUMMARY:Tint ${i}`))),
  },
  {
    name: "events without a UID",
    size: 10_000,
    make: (size) => calendar(times(size, (i) => event(`DTSTART:${day(i % 400)}T103000Z`, `SUMMARY:Tint ${i}`))),
  },
  {
    name: "changes to one series",
    size: 1_000,
    make: (size) =>
      calendar(
        event("UID:a", START, "RRULE:FREQ=DAILY") +
          times(size, (i) =>
            event(
              "UID:a",
              `RECURRENCE-ID;TZID=Europe/London:${day(i)}T103000`,
              `DTSTART;TZID=Europe/London:${day(i)}T110000`,
            ),
          ),
      ),
  },
  {
    name: "changes to all that follow",
    size: 250,
    make: (size) =>
      calendar(
        event("UID:a", START, "RRULE:FREQ=DAILY") +
          times(size, (i) =>
            event(
              "UID:a",
              `RECURRENCE-ID;RANGE=THISANDFUTURE;TZID=Europe/London:${day(i)}T103000`,
              `DTSTART;TZID=Europe/London:${day(i)}T110000`,
            ),
          ),
      ),
  },
  {
    name: "zones of one name",
    size: 5_000,
    make: (size) =>
      calendar(times(size, () => zone("Own/Zone")) + event("UID:a", "DTSTART;TZID=Own/Zone:20261211T103000")),
  },
  {
    name: "zones of many names",
    size: 5_000,
    make: (size) =>
      calendar(times(size, (i) => zone(`Own/${i}`)) + event("UID:a", "DTSTART;TZID=Own/7:20261211T103000")),
  },
  {
    name: "observances in one zone",
    size: 500,
    make: (size) => calendar(zone("Own/Zone", size) + event("UID:a", "DTSTART;TZID=Own/Zone:20261211T103000")),
  },
  {
    name: "rules that count to four thousand million",
    size: 100,
    make: (size) =>
      calendar(times(size, (i) => event(`UID:${i}`, "DTSTART:19000101T103000Z", "RRULE:FREQ=DAILY;COUNT=4000000000"))),
  },
  {
    name: "rules that never hit",
    size: 100,
    make: (size) => calendar(times(size, (i) => event(`UID:${i}`, START, "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"))),
  },
  {
    name: "ordinary weekly series",
    size: 500,
    make: (size) =>
      calendar(
        times(size, (i) =>
          event(
            `UID:${i}`,
            "DTSTART;TZID=Europe/London:20200106T103000",
            "RRULE:FREQ=WEEKLY;BYDAY=MO",
            "SUMMARY:Tint - Mara",
          ),
        ),
      ),
  },
  {
    name: "nothing that is a calendar",
    size: 1_000_000,
    make: (size) => octets("<html>".repeat(Math.floor(size / 6))),
  },
];

function zone(tzid: string, observances = 1): string {
  const observance = (index: number): string =>
    `BEGIN:STANDARD\r\nDTSTART:${1971 + (index % 60)}0101T000000\r\nTZOFFSETFROM:+0330\r\nTZOFFSETTO:+0330\r\nEND:STANDARD\r\n`;
  return `BEGIN:VTIMEZONE\r\nTZID:${tzid}\r\n${times(observances, observance)}END:VTIMEZONE\r\n`;
}
