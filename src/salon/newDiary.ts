/** A diary of which nothing is known yet. */
import type { Instant } from "../time/instant.ts";
import type { Diary } from "./types.ts";

/** @param at when the salon begins to keep it; a pulled one is asked at once */
export const newDiary = (name: string, at: Instant): Diary => ({
  name,
  added: at,
  begun: 0,
  appliedReading: 0,
  lastGood: null,
  report: null,
  trouble: null,
  held: null,
  calendarName: null,
  producer: null,
  renewals: 0,
  unreadSince: null,
  etag: null,
  lastModified: null,
  nextPoll: at,
  restUntil: null,
  failures: 0,
  horizonDay: null,
});
