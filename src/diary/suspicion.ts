/**
 * Whether a reading looks as if the diary had been emptied by mistake, came from another calendar or went wrong in all its
 * dates; and whether a later reading shows no more of that than one that is held. Decides only.
 */
import { JUMPED_LEAST, SUSPICIOUS_JUMP, SUSPICIOUS_LOSS } from "../bounds.ts";
import { foldName } from "./foldName.ts";

/** The gravest first. */
export type SuspicionCode = "diary-emptied" | "diary-shrunk" | "calendar-renamed" | "producer-changed" | "dates-jumped";

export interface Suspicion {
  /** The gravest reason. */
  readonly code: SuspicionCode;
  /** The others, the graver first. */
  readonly also: readonly SuspicionCode[];
  /** Bookings ahead that the last applied reading had. */
  readonly before: number;
  /** How many of them are still there, and how many of those at another time. */
  readonly left: number;
  readonly moved: number;
}

/** What one reading would change, and where it says it comes from. */
export interface ReadingChange {
  readonly before: number;
  /** Of those, the ones that it has no more; entries that it calls cancelled itself are no loss. */
  readonly lost: number;
  readonly moved: number;
  /** Entries still there, a series being one, and how many of them went to another time: a moved series is one move. */
  readonly entries: number;
  readonly entriesMoved: number;
  /** VEVENTs in the text. */
  readonly raw: number;
  readonly was: CalendarSource;
  readonly is: CalendarSource;
}

/** Null: the file does not say. */
export interface CalendarSource {
  readonly calendarName: string | null;
  readonly producer: string | null;
}

/** Null where nothing lay ahead that could be lost, or all looks well. */
export const suspect = (change: ReadingChange): Suspicion | null => {
  const { before, lost, moved, entries, entriesMoved, raw, was, is } = change;
  if (before <= 0) return null;
  const codes: SuspicionCode[] = [];
  if (raw === 0 && lost > 0) codes.push("diary-emptied");
  else if (lost / before > SUSPICIOUS_LOSS) codes.push("diary-shrunk");
  if (differs(was.calendarName, is.calendarName, foldName)) codes.push("calendar-renamed");
  if (differs(was.producer, is.producer, foldProducer)) codes.push("producer-changed");
  if (entriesMoved >= JUMPED_LEAST && entriesMoved / entries > SUSPICIOUS_JUMP) codes.push("dates-jumped");
  const [code, ...also] = codes;
  return code === undefined ? null : { code, also, before, left: before - lost, moved };
};

const differs = (was: string | null, is: string | null, fold: (text: string) => string): boolean =>
  was !== null && is !== null && fold(was) !== fold(is);

/** A PRODID without its version numbers, case, blanks and, at its end, language. */
const foldProducer = (producer: string): string =>
  producer
    .toLowerCase()
    .replace(/\/\/[a-z]{2}(?:-[a-z]{2})?$/, "")
    .replace(/[^\p{L}]/gu, "");

/**
 * Whether all that looks wrong in a reading looked wrong in the held one too: what it loses, what it moves and where to, and
 * the reasons. One that loses more is another one, and waits anew.
 * @param held marks of what the held reading would change
 */
export const isSameHolding = (held: readonly string[], marks: readonly string[]): boolean => {
  const seen = new Set(held);
  return marks.every((mark) => seen.has(mark));
};
