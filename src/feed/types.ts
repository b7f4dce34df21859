/** What a feed is made of: events in words, first without their stamps, then with them. */
import type { StepKind, Why } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { Day, Instant, Seconds } from "../time/instant.ts";
import type { Zone } from "../time/zone.ts";

export const EVENT_KINDS = [
  "screening",
  "shipping",
  "arrival",
  "application",
  "removal",
  "reading",
  "result",
  "rescreening",
  "colour",
  "notice",
] as const satisfies readonly (StepKind | "colour" | "notice")[];
export type EventKind = (typeof EVENT_KINDS)[number];

/** An event's time: from an instant to an instant, or whole local days, `to` exclusive. */
export type EventTime =
  | { readonly allDay: false; readonly from: Instant; readonly to: Instant }
  | { readonly allDay: true; readonly from: Day; readonly to: Day };

/** A reminder of an event (RFC 5545 §3.6.6), shown by the clients that show any. */
export interface AlarmContent {
  /** Derived from the event's and from which of its reminders this is, never from a time (RFC 9074 §4). */
  readonly uid: string;
  /** Seconds from the reminder to the event's start; below nought where it comes after. */
  readonly before: Seconds;
}

/** What an event says; equal content keeps its stamps. */
export interface EventContent {
  readonly uid: string;
  readonly kind: EventKind;
  readonly time: EventTime;
  readonly summary: string;
  readonly description: string;
  /** The page to open, absolute; null where there is none. */
  readonly url: string | null;
  /** The `colour` event this step must be finished before, and by how much (RFC 9253): `PT48H`, or null for no length. */
  readonly before: { readonly uid: string; readonly gap: string | null } | null;
  /** Each says the summary; in order of time. */
  readonly alarms: readonly AlarmContent[];
  /** What a list of tasks needs beside the event: by when, where that is not the event's end, and whether it is done. */
  readonly task: { readonly due: Instant | null; readonly done: boolean };
  readonly cancelled: boolean;
}

/** When and how often its content changed. */
export interface EventStamps {
  readonly created: Instant;
  /** Also DTSTAMP. */
  readonly lastModified: Instant;
  readonly sequence: number;
}

export interface FeedHead {
  readonly name: string;
  readonly description: string;
  /** The human page of this feed, or null. */
  readonly url: string | null;
  readonly language: string;
  /** Null for a file that nobody looks at again. */
  readonly refreshMinutes: number | null;
}

/** What the words and events of one feed need beside the plan. */
export interface FeedContext {
  readonly settings: Settings;
  /** The zone of `settings.zone`. */
  readonly zone: Zone;
  /** The page that "here" means: the client's in her feed, the desk's in the salon's; absolute, or null where there is none. */
  readonly pageUrl: string | null;
  /** How a client's SUMMARYs are worded: plainly, or so that who looks over her shoulder learns little. */
  readonly wording: "plain" | "discreet";
  /** The UID of an event that is no step: `eventUid` of the salon's namespace. */
  readonly uidOf: (bookingUid: string, kind: EventKind, n: number | null) => string;
}

/** A VTIMEZONE and what it holds for. */
export interface FeedZone {
  readonly zone: Zone;
  readonly tzid: string;
  /** `BEGIN:VTIMEZONE` … `END:VTIMEZONE`, every line ended by CRLF. */
  readonly text: string;
  /** The definition gives IANA's offsets in [from, to); times outside are written in UTC. */
  readonly from: Instant;
  readonly to: Instant;
}

export type { Why };
