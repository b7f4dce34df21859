/**
 * Lengths, periods, times and dates as a person writes them in a form, and as settings have them. What is not understood is
 * passed on as it stands, so that the settings' own refusal names it.
 */

interface Unit {
  readonly letter: string;
  readonly one: string;
  readonly written: string;
}

const CLOCK: readonly Unit[] = [
  { letter: "H", one: "hour", written: "h|hrs?|hours?" },
  { letter: "M", one: "minute", written: "m|mins?|minutes?" },
  { letter: "S", one: "second", written: "s|secs?|seconds?" },
];
const CALENDAR: readonly Unit[] = [
  { letter: "Y", one: "year", written: "y|yrs?|years?" },
  { letter: "M", one: "month", written: "months?" },
  { letter: "W", one: "week", written: "w|wks?|weeks?" },
  { letter: "D", one: "day", written: "d|days?" },
];

const inOrder = (units: readonly Unit[], part: (unit: Unit) => string): string =>
  units.map((unit) => `(?:${part(unit)})?`).join("\\s*");

const isoOf = (prefix: string, units: readonly Unit[]): RegExp =>
  new RegExp(`^${prefix}${units.map(({ letter }) => `(?:(\\d+)${letter})?`).join("")}$`);
const writtenAs = (units: readonly Unit[]): RegExp =>
  new RegExp(`^${inOrder(units, ({ written }) => `(\\d+)\\s*(?:${written})\\b[, ]*(?:and)?`)}$`, "i");

const speak = (iso: string, pattern: RegExp, units: readonly Unit[]): string | undefined => {
  const counts = pattern.exec(iso)?.slice(1);
  const parts = (counts ?? []).flatMap((count, index) =>
    count === undefined ? [] : [`${count} ${units[index]?.one}${Number(count) === 1 ? "" : "s"}`],
  );
  return parts.length === 0 ? undefined : parts.join(" ");
};

/** Longer texts are no length: they are not looked through. */
const LENGTH_WRITTEN_MAX = 60;

const write = (text: string, pattern: RegExp, prefix: string, units: readonly Unit[]): string | undefined => {
  const counts = pattern.exec(text)?.slice(1);
  const parts = (counts ?? []).flatMap((count, index) => (count === undefined ? [] : [count + units[index]?.letter]));
  return parts.length === 0 ? undefined : prefix + parts.join("");
};

const [ISO_CLOCK, ISO_CALENDAR] = [isoOf("PT", CLOCK), isoOf("P", CALENDAR)];
const [WRITTEN_CLOCK, WRITTEN_CALENDAR] = [writtenAs(CLOCK), writtenAs(CALENDAR)];

/** `PT48H30M` is `48 hours 30 minutes`, `P6Y` is `6 years`; what is neither stays as it is. */
export const inWords = (iso: string): string =>
  speak(iso, ISO_CLOCK, CLOCK) ?? speak(iso, ISO_CALENDAR, CALENDAR) ?? iso;

/** The same back. Days are never made hours of: which they are, hangs on the clocks (RFC 5545 §3.3.6), and a person says it. */
export const fromWords = (written: string): string => {
  const text = written.trim();
  if (text.length > LENGTH_WRITTEN_MAX) return text;
  return write(text, WRITTEN_CLOCK, "PT", CLOCK) ?? write(text, WRITTEN_CALENDAR, "P", CALENDAR) ?? text;
};

/** A sentence in which lengths stand as settings have them, for a person. */
export const spoken = (sentence: string): string => sentence.replace(/\bP(?:T?\d+[YMWDHS])+\b/g, inWords);

const CLOCK_TIME = /^(\d{1,2})(?:[:.](\d{2}))?\s*(am|pm)?$/i;

/** `9`, `9.30` and `5 pm` are `09:00`, `09:30` and `17:00`. */
export const clockTime = (written: string): string => {
  const text = written.trim();
  const [, hour, minute = "00", half] = CLOCK_TIME.exec(text) ?? [];
  if (hour === undefined) return text;
  if (half === undefined) return `${hour.padStart(2, "0")}:${minute}`;
  if (Number(hour) < 1 || Number(hour) > 12) return text;
  const past = (Number(hour) % 12) + (half.toLowerCase() === "pm" ? 12 : 0);
  return `${String(past).padStart(2, "0")}:${minute}`;
};

/** `9 to 5.30 pm`, with any dash, is `09:00-17:30`. */
export const clockSpan = (written: string): string => {
  if (written.length > LENGTH_WRITTEN_MAX) return written.trim();
  const ends = written.split(/\s*(?:-|–|—|\bto\b)\s*/i);
  return ends.length === 2 ? ends.map(clockTime).join("-") : written.trim();
};

/** Two dates stand with `to` between them. */
export const datesInWords = (dates: string): string => dates.replace("/", " to ");
export const datesFromWords = (written: string): string =>
  written.length > LENGTH_WRITTEN_MAX ? written.trim() : written.trim().replace(/\s+(?:to|until|–|—|-)\s+/i, "/");
