/** Reads a served feed strictly, as plain iCalendar or as jCal, and says what is half about it. */
import ICAL from "ical.js";
import type { Answered } from "./Caller.ts";

export interface EventSeen {
  readonly uid: string;
  readonly sequence: number;
  /** Both as iCalendar writes them in UTC, so that they compare as text. */
  readonly modified: string;
  readonly stamp: string;
  /** All that it says. */
  readonly content: string;
}

export interface FeedSeen {
  readonly name: string;
  /** It has no room for all its events, and says so. */
  readonly isCut: boolean;
  readonly events: readonly EventSeen[];
}

export type FeedRead = { readonly feed: FeedSeen } | { readonly half: string };

export const readFeed = ({ body, headers }: Answered, isJcal: boolean): FeedRead => {
  const length = headers["content-length"];
  if (Number(length) !== body.length)
    return { half: `content-length is ${length}, the body has ${body.length} octets` };
  const text = body.toString("utf8");
  if (!Buffer.from(text, "utf8").equals(body)) return { half: "it is not UTF-8" };
  const half = isJcal ? null : unbalanced(text);
  if (half !== null) return { half };
  try {
    const parsed = isJcal ? JSON.parse(text) : ICAL.parse(text);
    const calendar = new ICAL.Component(parsed as [string, unknown[], unknown[]]);
    if (calendar.name !== "vcalendar") return { half: `it is a ${calendar.name}` };
    return { feed: seen(calendar) };
  } catch (error) {
    return { half: `ical.js does not read it: ${error instanceof Error ? error.message.slice(0, 100) : "no reason"}` };
  }
};

/** RFC 5545 §3.1, §3.4 and §3.6: one calendar, every line ended, every component closed inside the one it began in. */
const unbalanced = (text: string): string | null => {
  if (!text.startsWith("BEGIN:VCALENDAR\r\n")) return "it does not begin as a calendar";
  if (!text.endsWith("\r\nEND:VCALENDAR\r\n")) return "it does not end as a calendar";
  const open: string[] = [];
  let components = 0;
  for (const line of text.split("\r\n")) {
    const [, word, name = ""] = /^(BEGIN|END):(.*)$/.exec(line) ?? [];
    if (word === undefined) continue;
    if (word === "BEGIN") {
      if (open.length === 0 && components > 0) return "there are two calendars in it";
      open.push(name);
      components++;
    } else if (open.pop() !== name) return `END:${name} closes another component`;
  }
  if (open.length > 0) return `${open.join(" in ")} is not closed`;
  return components > 1 ? null : "there is nothing in it";
};

const seen = (calendar: ICAL.Component): FeedSeen => ({
  name: String(calendar.getFirstPropertyValue("x-wr-calname") ?? ""),
  isCut: String(calendar.getFirstPropertyValue("description")).includes("Left out before or after:"),
  events: [...calendar.getAllSubcomponents("vevent"), ...calendar.getAllSubcomponents("vtodo")].map((event) => ({
    uid: String(event.getFirstPropertyValue("uid")),
    sequence: Number(event.getFirstPropertyValue("sequence")),
    modified: String(event.getFirstPropertyValue("last-modified")),
    stamp: String(event.getFirstPropertyValue("dtstamp")),
    content: JSON.stringify(event.toJSON()),
  })),
});
