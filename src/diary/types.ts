/** What reading a diary gives, stage by stage: bytes → blocks → entries → sorted entries → bookings. */
import type { Why } from "../plan/types.ts";
import type { Day, Instant } from "../time/instant.ts";

/** A time zone the file defines itself, as its own unfolded lines (BEGIN:VTIMEZONE … END:VTIMEZONE). */
export interface FileZone {
  readonly tzid: string;
  readonly text: string;
}

/**
 * Between which days something can have anything to say, both counted, told from digits alone: true days may be two days
 * away. A whole number even where it reaches for ever.
 */
export interface RoughSpan {
  readonly first: Day;
  readonly last: Day;
}

/** All that one diary says under one UID: its VEVENTs, unfolded, one content line a line, names in capitals. */
export interface Block {
  /** The UID as written; for an entry without one, a name derived from its content. */
  readonly uid: string;
  /** Changes where, and only where, the entries may: hashed over the VEVENTs and the file's zones they name. */
  readonly hash: string;
  readonly span: RoughSpan;
  /** VEVENTs in it. */
  readonly count: number;
  /** Only the properties that are read (eventText.ts), sorted: stamps, alarms and the file's order change nothing. */
  readonly events: readonly string[];
  /** The definitions in the file of those TZIDs that these events name and that no IANA or Windows name covers. */
  readonly zones: readonly FileZone[];
}

/** Why a whole file is refused; web/ has one exhaustive table from code to words and status. */
export type FileRefusal =
  | { readonly code: "diary-not-calendar"; readonly begins: string }
  | { readonly code: "diary-cut-off"; readonly open: string }
  | { readonly code: "diary-too-large"; readonly bytes: number; readonly max: number };

export interface IndexedDiary {
  readonly blocks: readonly Block[];
  /** VEVENTs in the text, masters and overrides one each. */
  readonly raw: number;
  readonly calendarName: string | null;
  readonly producer: string | null;
}

export interface Person {
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
}

/** One VEVENT, or one occurrence of a recurring one, inside the horizon. */
export interface Entry {
  /**
   * Stable within the salon: `uid`, or for an occurrence uid + "/" + original start in UTC. Where a file gives one UID to
   * several entries, the second and further ones end in "#2", "#3" ….
   */
  readonly key: string;
  readonly uid: string;
  /** The original start of an occurrence, `2026-12-11T10:30:00Z` or a date; null for a single entry. */
  readonly recurrenceId: string | null;
  /** Null for an all-day entry. */
  readonly start: Instant | null;
  /** The date of an all-day entry, else null. */
  readonly date: Day | null;
  readonly end: Instant | null;
  readonly summary: string;
  readonly description: string;
  readonly location: string;
  /** The attendees that are people with a name or an address, in the file's order. */
  readonly attendees: readonly Person[];
  readonly cancelled: boolean;
}

/** A VEVENT that gave no entry although it should: shown at the desk with its reason. */
export interface Skipped {
  readonly uid: string;
  readonly recurrenceId: string | null;
  /** The start as the file wrote it. */
  readonly start: string;
  readonly reason: string;
  readonly text: string;
}

export interface BlockReading {
  readonly entries: readonly Entry[];
  readonly skipped: readonly Skipped[];
}

/** Half-open in instants: what starts in it is read. */
export interface Horizon {
  readonly from: Instant;
  readonly to: Instant;
}

/** A person's answer that an entry is sorted by, where the words did not do it. */
export interface AnsweredBy {
  /** The entry that was answered, as `/api/salon/entries` names it. */
  readonly answer: string;
  /** It was another entry, with the same phrase. */
  readonly isLike: boolean;
}

/** What an entry is, for the salon. */
export type Sorted =
  | {
      readonly kind: "booking";
      readonly service: string;
      readonly client: Person;
      readonly answered?: AnsweredBy | undefined;
    }
  | { readonly kind: "test"; readonly client: Person; readonly answered?: AnsweredBy | undefined }
  | { readonly kind: "not-colour"; readonly answered?: AnsweredBy | undefined }
  | { readonly kind: "unsorted"; readonly why: Why; readonly nearest: string | null };

/** A booking as one reading found it, before it is matched with those known. */
export interface FoundBooking {
  /** The key of the first entry of it. */
  readonly key: string;
  /** Keys of the entries that follow it back to back. */
  readonly parts?: readonly string[];
  readonly uid: string;
  readonly recurrenceId: string | null;
  readonly diary: string;
  readonly start: Instant;
  readonly end: Instant | null;
  readonly summary: string;
  readonly service: string;
  readonly client: Person;
}
