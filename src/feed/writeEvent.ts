/**
 * The bytes of one event, or of the same as a to-do. They depend on nothing but the event, its stamps and the zone, so that an event is written once
 * and kept. Never reads a clock.
 */
import { type ContentLine, writeLine } from "./contentLine.ts";
import { generateAlarm, generateEvent, generateTask } from "./generator.ts";
import type { EventContent, EventStamps, FeedZone } from "./types.ts";

/** `BEGIN:VEVENT` … `END:VEVENT`, every line ended by CRLF; times in UTC where `zone` is null (RFC 5545 §3.6.1). */
export const writeEvent = (content: EventContent, stamps: EventStamps, zone: FeedZone | null): string =>
  component("VEVENT", generateEvent(content, stamps, zone), alarmsOf(content));

/** The same as `BEGIN:VTODO` … `END:VTODO` (RFC 5545 §3.6.2). */
export const writeTask = (content: EventContent, stamps: EventStamps, zone: FeedZone | null): string =>
  component("VTODO", generateTask(content, stamps, zone), alarmsOf(content));

const alarmsOf = ({ alarms, summary }: EventContent): readonly string[] =>
  alarms.map((alarm) => component("VALARM", generateAlarm(alarm, summary)));

const component = (name: string, lines: readonly ContentLine[], inner: readonly string[] = []): string =>
  `BEGIN:${name}\r\n${lines.map(writeLine).join("")}${inner.join("")}END:${name}\r\n`;
