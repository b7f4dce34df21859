/**
 * The bytes of one event. They depend on nothing but the event, its stamps and the zone, so that an event is written once
 * and kept. Never reads a clock.
 */
import { type ContentLine, writeLine } from "./contentLine.ts";
import { generateAlarm, generateEvent } from "./generator.ts";
import type { EventContent, EventStamps, FeedZone } from "./types.ts";

/** `BEGIN:VEVENT` … `END:VEVENT`, every line ended by CRLF; times in UTC where `zone` is null (RFC 5545 §3.6.1). */
export const writeEvent = (content: EventContent, stamps: EventStamps, zone: FeedZone | null): string => {
  const alarms = content.alarms.map((alarm) => component("VALARM", generateAlarm(alarm, content.summary)));
  return component("VEVENT", generateEvent(content, stamps, zone), alarms);
};

const component = (name: string, lines: readonly ContentLine[], inner: readonly string[] = []): string =>
  `BEGIN:${name}\r\n${lines.map(writeLine).join("")}${inner.join("")}END:${name}\r\n`;
