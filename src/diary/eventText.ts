/**
 * How one VEVENT stands in a block: the content lines that are read, in the file's order, nothing inside its alarms, and a
 * last line that tells whether it was whole. Written by the collector, read by readEvent.ts, by nobody else.
 */

/** What is read of a VEVENT. Stamps are not among it: a feed that renews its DTSTAMP has not changed. */
export const READ_PROPERTIES: ReadonlySet<string> = new Set([
  "UID",
  "SEQUENCE",
  "DTSTART",
  "DTEND",
  "DURATION",
  "RRULE",
  "EXRULE",
  "RDATE",
  "EXDATE",
  "RECURRENCE-ID",
  "STATUS",
  "SUMMARY",
  "DESCRIPTION",
  "LOCATION",
  "ATTENDEE",
]);
/** Text that a careless exporter lets run over several lines without folding it. */
export const TEXT_PROPERTIES: ReadonlySet<string> = new Set(["SUMMARY", "DESCRIPTION", "LOCATION"]);
/** What is read of a zone definition. */
export const ZONE_PROPERTIES: ReadonlySet<string> = new Set([
  "BEGIN",
  "END",
  "TZID",
  "DTSTART",
  "TZOFFSETFROM",
  "TZOFFSETTO",
  "RRULE",
  "RDATE",
]);

export type EventFault = "not-closed" | "too-large";

const FIRST = "BEGIN:VEVENT";
const WHOLE = "END:VEVENT";
/** No content line of a file can look like this one: other properties are not kept. */
const FAULTY = "X-COUNTBACK-FAULT:";

/** The text of an event from its lines. */
export const writeEvent = (lines: readonly string[], fault: EventFault | null): string =>
  [FIRST, ...lines, fault === null ? WHOLE : `${FAULTY}${fault}`].join("\n");

/** The lines of an event and what was wrong with it. */
export const splitEvent = (text: string): { readonly lines: readonly string[]; readonly fault: EventFault | null } => {
  const all = text.split("\n");
  const last = all.at(-1) ?? "";
  return { lines: all.slice(1, -1), fault: last.startsWith(FAULTY) ? (last.slice(FAULTY.length) as EventFault) : null };
};
