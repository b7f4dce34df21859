/** What a hostile shape is, and the words its text is put together from. */

export interface Shape {
  readonly name: string;
  /** How many of what it repeats it is measured with at least; the names of advisories mean four times as many. */
  readonly size: number;
  readonly make: (size: number) => Uint8Array;
}

export const octets = (text: string): Uint8Array => new TextEncoder().encode(text);
export const calendarText = (body: string): string => `BEGIN:VCALENDAR\r\n${body}END:VCALENDAR\r\n`;
export const calendar = (body: string): Uint8Array => octets(calendarText(body));
export const event = (...lines: string[]): string => `BEGIN:VEVENT\r\n${lines.join("\r\n")}\r\nEND:VEVENT\r\n`;

export const START = "DTSTART;TZID=Europe/London:20261211T103000";
/** A calendar of one appointment with more lines. */
export const one = (...lines: string[]): Uint8Array => calendar(event("UID:a", START, "SUMMARY:Tint - Mara", ...lines));

export const times = (count: number, make: (index: number) => string): string => {
  const pieces: string[] = [];
  for (let index = 0; index < count; index++) pieces.push(make(index));
  return pieces.join("");
};
export const list = (count: number, make: (index: number) => string): string[] =>
  Array.from({ length: count }, (_, index) => make(index));

/** `20261211` and so many days on. */
export const day = (index: number): string =>
  new Date(Date.UTC(2026, 11, 11) + index * 86_400_000).toISOString().slice(0, 10).replaceAll("-", "");

const two = (number: number): string => String(number).padStart(2, "0");
/** A time of its own for each index below 86,400: `T000000` and so many seconds on. */
export const second = (index: number): string =>
  `T${two(Math.floor(index / 3_600) % 24)}${two(Math.floor(index / 60) % 60)}${two(index % 60)}`;

/** A definition with no summer time, of so many observances that say the same. */
export const zone = (tzid: string, observances = 1, offset = "+0330"): string => {
  const observance = (index: number): string =>
    `BEGIN:STANDARD\r\nDTSTART:${1971 + (index % 60)}0101T000000\r\nTZOFFSETFROM:${offset}\r\nTZOFFSETTO:${offset}\r\nEND:STANDARD\r\n`;
  return `BEGIN:VTIMEZONE\r\nTZID:${tzid}\r\n${times(observances, observance)}END:VTIMEZONE\r\n`;
};
/** A definition of so many observances that each change once a year for ever. */
export const yearlyZone = (tzid: string, observances: number): string => {
  const observance = (index: number): string =>
    `BEGIN:STANDARD\r\nDTSTART:1900${two((index % 12) + 1)}${two((index % 28) + 1)}T000000\r\nTZOFFSETTO:+01${two(index % 60)}\r\nRRULE:FREQ=YEARLY\r\nEND:STANDARD\r\n`;
  return `BEGIN:VTIMEZONE\r\nTZID:${tzid}\r\n${times(observances, observance)}END:VTIMEZONE\r\n`;
};
