/**
 * The bytes of a feed: head, zone, events. Holds no stamp of its own, so that a change of one event changes no line but
 * that event's. Never orders the events: whoever keeps them hands them over sorted by start, then UID.
 */
import { writeLine } from "./contentLine.ts";
import { generateHead } from "./generator.ts";
import { UTC_DEFINITION } from "./feedZone.ts";
import type { FeedHead, FeedZone } from "./types.ts";

/**
 * The whole calendar (RFC 5545 §3.4), for `text/calendar; charset=utf-8`. A calendar must hold a component (§3.6): the
 * zone's definition is that component where there are no events.
 * @param events texts of `writeEvent`, in the order they shall stand in
 */
export const writeFeed = (head: FeedHead, zone: FeedZone | null, events: readonly string[]): string =>
  `BEGIN:VCALENDAR\r\n${generateHead(head).map(writeLine).join("")}${zone?.text ?? UTC_DEFINITION}${events.join("")}END:VCALENDAR\r\n`;
