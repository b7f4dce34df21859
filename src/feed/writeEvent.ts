/**
 * The bytes of one event. They depend on nothing but the event, its stamps and the zone, so that an event is written once
 * and kept. Never reads a clock.
 */
import { writeLine } from "./contentLine.ts";
import { generateEvent } from "./generator.ts";
import type { EventContent, EventStamps, FeedZone } from "./types.ts";

/** `BEGIN:VEVENT` … `END:VEVENT`, every line ended by CRLF; times in UTC where `zone` is null (RFC 5545 §3.6.1). */
export const writeEvent = (content: EventContent, stamps: EventStamps, zone: FeedZone | null): string =>
  `BEGIN:VEVENT\r\n${generateEvent(content, stamps, zone).map(writeLine).join("")}END:VEVENT\r\n`;
