/**
 * The diaries of the demo salon, as iCalendar text with dates around a given day. Everyone in them is invented.
 * `before` is what the diaries said at first; `now` has one booking moved, one cancelled and one made late.
 */
import { type Day, formatDay } from "../time/instant.ts";

export type Stage = "before" | "now";
export const CHAIRS = ["ines", "tomas"] as const;
export type Chair = (typeof CHAIRS)[number];

export const DEMO_ZONE = "Europe/London";

interface DemoEntry {
  readonly name: string;
  readonly chair: Chair;
  readonly summary: string;
  /** Days from the anchor. */
  readonly inDays: number;
  readonly at: string;
  readonly minutes: number;
  readonly client?: { readonly name: string; readonly email: string };
  readonly lines?: readonly string[];
  readonly only?: Stage;
}

const mara = { name: "Mara Quillfeather", email: "mara@example.com" };
const odile = { name: "Odile Brandt-Ashe", email: "odile@example.com" };
const petra = { name: "Petra Vantongeren", email: "petra@example.com" };
const suki = { name: "Suki Oakhollow", email: "suki@example.com" };
const wren = { name: "Wren Tallis-Moor", email: "wren@example.com" };
const imke = { name: "Imke Dovecroft", email: "imke@example.com" };

/** The returning client, whose earlier test the demo records. */
export const RETURNING = { client: odile, earlier: "odile-earlier", testedDaysBefore: 7 } as const;

const ENTRIES: readonly DemoEntry[] = [
  { name: "in-time", chair: "ines", summary: "Full head colour", inDays: 16, at: "10:30", minutes: 150, client: mara },
  {
    name: "moved",
    chair: "ines",
    summary: "Balayage",
    inDays: 13,
    at: "13:00",
    minutes: 180,
    client: petra,
    only: "before",
  },
  {
    name: "moved",
    chair: "ines",
    summary: "Balayage",
    inDays: 20,
    at: "11:00",
    minutes: 180,
    client: petra,
    only: "now",
  },
  {
    name: "cancelled",
    chair: "tomas",
    summary: "Highlights - half head",
    inDays: 12,
    at: "09:30",
    minutes: 120,
    client: wren,
    only: "before",
  },
  {
    name: "cancelled",
    chair: "tomas",
    summary: "Highlights - half head",
    inDays: 12,
    at: "09:30",
    minutes: 120,
    client: wren,
    lines: ["STATUS:CANCELLED"],
    only: "now",
  },
  {
    name: "late",
    chair: "tomas",
    summary: "Root tint",
    inDays: 1,
    at: "15:30",
    minutes: 90,
    client: suki,
    only: "now",
  },
  { name: "walk-in", chair: "tomas", summary: "Toner", inDays: 5, at: "12:00", minutes: 60, client: imke },
  { name: "odile-earlier", chair: "ines", summary: "Root tint", inDays: -20, at: "14:00", minutes: 90, client: odile },
  { name: "odile-again", chair: "ines", summary: "Root tint", inDays: 15, at: "14:00", minutes: 90, client: odile },
  {
    name: "recurring",
    chair: "tomas",
    summary: "Root tint - Ludo Pennycross",
    inDays: 9,
    at: "17:00",
    minutes: 75,
    lines: ["DESCRIPTION:Telephone tel:+441632960471", "RRULE:FREQ=WEEKLY;INTERVAL=5;COUNT=6"],
  },
  { name: "cut", chair: "ines", summary: "Cut & blow dry - Mara Quillfeather", inDays: 2, at: "11:00", minutes: 45 },
  { name: "beard", chair: "tomas", summary: "Beard trim - Ludo Pennycross", inDays: 3, at: "09:30", minutes: 30 },
  { name: "lunch", chair: "ines", summary: "Lunch", inDays: 2, at: "13:00", minutes: 30 },
  { name: "test", chair: "tomas", summary: "Skin test - Imke Dovecroft", inDays: 2, at: "11:30", minutes: 15 },
  { name: "unknown", chair: "ines", summary: "The big one - Tansy Ferrow", inDays: 8, at: "16:30", minutes: 60 },
  {
    name: "unreadable",
    chair: "tomas",
    summary: "Colour - Basil Hartnoll",
    inDays: 7,
    at: "10:00",
    minutes: 90,
    lines: ["X-NOTE:no clock anywhere keeps this zone"],
  },
];

/** The salon is open every day, so that a booking made for tomorrow is late on any day of the week. */
export const demoDay = (anchor: Day, inDays: number): Day => anchor + inDays;

const basic = (day: Day, minutes: number): string => {
  const clock = `${String(Math.floor(minutes / 60)).padStart(2, "0")}${String(minutes % 60).padStart(2, "0")}00`;
  return `${formatDay(day).replaceAll("-", "")}T${clock}`;
};

const minutesOf = (at: string): number => Number(at.slice(0, 2)) * 60 + Number(at.slice(3));

/** The UID of a demo entry; one set of entries stands for each anchor. */
export const demoUid = (name: string, anchor: Day): string => `${name}-${formatDay(anchor)}@quillfen.example`;

const eventLines = (entry: DemoEntry, anchor: Day): string[] => {
  const { name, summary, inDays, at, minutes, client, lines = [] } = entry;
  const day = demoDay(anchor, inDays);
  const zone = name === "unreadable" ? "Quillfen/Clocktower" : DEMO_ZONE;
  return [
    "BEGIN:VEVENT",
    `UID:${demoUid(name, anchor)}`,
    `DTSTAMP:${basic(anchor, 0)}Z`,
    `DTSTART;TZID=${zone}:${basic(day, minutesOf(at))}`,
    `DTEND;TZID=${zone}:${basic(day, minutesOf(at) + minutes)}`,
    `SUMMARY:${summary}`,
    ...(client ? [`ATTENDEE;CN="${client.name}":mailto:${client.email}`] : []),
    ...lines,
    "END:VEVENT",
  ];
};

/** One chair's diary with a set of entries for each anchor day. */
export const demoDiary = (chair: Chair, anchors: readonly Day[], stage: Stage): string => {
  const latest = anchors.at(-1);
  const events = anchors.flatMap((anchor) => {
    const shown = anchor === latest ? stage : "now";
    return ENTRIES.filter((entry) => entry.chair === chair && (entry.only ?? shown) === shown).flatMap((entry) =>
      eventLines(entry, anchor),
    );
  });
  const head = [
    "BEGIN:VCALENDAR",
    "VERSION:2.0",
    "PRODID:-//Quillfen Colour Room//Appointment book//EN",
    `X-WR-CALNAME:Quillfen ${chair}`,
  ];
  return `${[...head, ...events, "END:VCALENDAR"].join("\r\n")}\r\n`;
};
