/** Why an entry of the diary gave nothing, in words for the desk. One table; a new reason does not compile without words. */

import type { EventFault } from "./eventText.ts";
import type { ExpandFault } from "./expandRule.ts";
import type { RuleFault } from "./parseRule.ts";
import type { TimeFault } from "./resolveStart.ts";

export type SkipCode =
  | TimeFault
  | EventFault
  | RuleFault
  | ExpandFault
  | "time-missing"
  | "time-twice"
  | "recurrence-id-not-certain"
  | "exclusion-not-read"
  | "addition-not-read"
  | "shift-not-followed"
  | "taken-out"
  | "called-off"
  | "superseded"
  | "repeated"
  | "range-not-supported"
  | "readers-disagree"
  | "text-not-read"
  | "unaccounted"
  | "count-differs";

/** The sentence for each reason: what is wrong, and what to do about it. */
export const SKIP_TEXTS: Readonly<Record<SkipCode, string>> = {
  "time-missing": "time not certain: the entry has no start. Give it a time in the diary.",
  "time-twice": "time not certain: the entry has two different starts. Save it again in the diary.",
  "time-not-read": "time not certain: its start is no date or time. Save it again in the diary.",
  "zone-unknown":
    "time not certain: nothing says which clock its time zone means. Export it in UTC or in a named zone.",
  "zone-not-reaching":
    "time not certain: the file's own time zone does not reach to this date. Export it in UTC or in a named zone.",
  "not-closed": "the entry breaks off before its end. Export the diary again.",
  "too-large": "the entry, with the others of its UID, is larger than can be kept. Shorten its text in the diary.",
  "rule-not-read":
    "its repetition cannot be read; only the first appointment is kept. Enter the others one by one in the diary.",
  "rule-too-dense":
    "it repeats more often than any appointment does; only the first is kept. Enter the others one by one in the diary.",
  "rule-not-supported":
    "it repeats in a way that is not supported; only the first appointment is kept. Enter the others one by one.",
  "rule-runs-away":
    "its repetition could not be worked out in bounded time; only the first appointment is kept. Enter the others one by one.",
  "too-many-occurrences":
    "it repeats more often than any appointment does; only the first is kept. Enter the others one by one in the diary.",
  "recurrence-id-not-certain":
    "which appointment of the series this changes is not certain, so neither is its old time. Save it again in the diary.",
  "exclusion-not-read":
    "an appointment taken out of the series cannot be told from the others; it may still be shown. Look at the series.",
  "addition-not-read": "an appointment added to the series has no certain time. Enter it by itself in the diary.",
  "shift-not-followed":
    "this changes all later appointments of its series in a way that cannot be followed. Look at the series.",
  "taken-out": "the series both changes this appointment and takes it out; it is taken out.",
  "called-off": "the diary calls this appointment off; it has no certain time, and needs none.",
  superseded: "the file holds a newer version of this entry.",
  repeated: "the file holds this very entry twice.",
  "range-not-supported":
    "this changes an appointment and all before it, which is not supported; only the one it names is changed. Look at the series.",
  "readers-disagree":
    "time not certain: calendars read this repetition in two ways. Enter this appointment by itself in the diary.",
  "text-not-read": "its text cannot be read. Save it again in the diary.",
  unaccounted: "it came in and gave nothing, and no reason is known. Look at it in the diary, and report this.",
  "count-differs": "not every event of this entry was read. Look at it in the diary, and report this.",
};
