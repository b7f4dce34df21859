/** What a feed is made of: events in words, first without their stamps, then with them. */
import type { StepKind, Why } from "../plan/types.ts";
import type { Day, Instant } from "../time/instant.ts";

export type EventKind = StepKind | "colour" | "notice";

/** An event's time: from an instant to an instant, or whole local days, `to` exclusive. */
export type EventTime =
  | { readonly allDay: false; readonly from: Instant; readonly to: Instant }
  | { readonly allDay: true; readonly from: Day; readonly to: Day };

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
  /** UID of the calendar. */
  readonly uid: string;
  readonly name: string;
  readonly description: string;
  /** The human page of this feed, or null. */
  readonly url: string | null;
  readonly language: string;
  readonly refreshMinutes: number;
}

export type { Why };
