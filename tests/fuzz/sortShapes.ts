/** Shapes of what is read of words: entries that are hard to sort, clients that are hard to tell apart, blocks that share much. */
import { calendar, day, event, list, second, type Shape, times, zone } from "./shapeText.ts";

/** So many short entries in sight, a minute and a second after each other. */
const entries = (size: number, lines: (index: number) => readonly string[]): Uint8Array =>
  calendar(
    times(size, (index) =>
      event(`UID:${index}`, `DTSTART:${day(index % 300)}${second(Math.floor(index / 300) * 61)}Z`, ...lines(index)),
    ),
  );
/** Bookings of one day, each beginning as the one before it ends. */
const backToBack = (size: number, name: (index: number) => string): Uint8Array =>
  calendar(
    times(size, (index) =>
      event(
        `UID:${index}`,
        `DTSTART:${day(0)}${second(index)}Z`,
        `DTEND:${day(0)}${second(index + 1)}Z`,
        `SUMMARY:Tint - ${name(index)}`,
      ),
    ),
  );
const ZONES = 20;
/** Lines of a definition that make it nearly as long as one may be. */
const OBSERVANCES = 450;

export const SORT_SHAPES: readonly Shape[] = [
  { name: "bookings of one client, back to back", size: 3_500, make: (size) => backToBack(size, () => "Mara Quill") },
  {
    name: "bookings of two clients in turn",
    size: 3_500,
    make: (size) => backToBack(size, (index) => (index % 2 === 0 ? "Mara Quill" : "Ann Pell")),
  },
  {
    name: "bookings of clients with one address",
    size: 3_500,
    make: (size) => entries(size, (index) => ["SUMMARY:Tint", `ATTENDEE;CN=Ann ${index}:mailto:same@example.com`]),
  },
  {
    name: "bookings of one name with many addresses",
    size: 3_500,
    make: (size) => entries(size, (index) => ["SUMMARY:Tint", `ATTENDEE;CN=Ann Pell:mailto:a${index}@example.com`]),
  },
  {
    name: "titles that nearly name a service",
    size: 3_500,
    make: (size) => entries(size, (index) => [`SUMMARY:${"Tnit balayge colur ".repeat(50)}${index}`]),
  },
  {
    name: "titles of words never seen before",
    size: 3_500,
    make: (size) => entries(size, (index) => [`SUMMARY:${list(100, (word) => `w${index}x${word}`).join(" ")}`]),
  },
  {
    name: "entries that each name twenty long zones",
    size: 100,
    make: (size) =>
      calendar(
        times(ZONES, (index) => zone(`Own/${index}`, OBSERVANCES)) +
          times(size, (index) =>
            event(
              `UID:${index}`,
              "DTSTART;TZID=Own/0:20261211T103000",
              ...list(ZONES, (name) => `EXDATE;TZID=Own/${name}:20261211T103000`),
            ),
          ),
      ),
  },
];
