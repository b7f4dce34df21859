/**
 * The only door to ical-generator (11.1.2). What the library gets wrong is put right here, line by line:
 * it leaves UID, NAME, X-WR-CALNAME, X-WR-CALDESC and the calendar's URL unescaped, escapes an event's URL as if it were
 * text, gives alarms no UID, reads a Date in a zone by the host's clock, lets control characters through, cannot write RELATED-TO or COLOR, adds properties of one vendor to all-day events, and ends without a line end.
 * Never reads a clock: every stamp is given.
 */
import {
  ICalCalendar,
  ICalEvent,
  ICalEventClass,
  type ICalEventData,
  ICalEventStatus,
  ICalEventTransparency,
} from "ical-generator";
import { SUMMARY_MAX } from "../bounds.ts";
import { DAY_SECONDS, HOUR, type Instant, MINUTE, type Seconds } from "../time/instant.ts";
import { clip } from "./clip.ts";
import { type ContentLine, cleanLine, cleanText, cleanUri, escapeText } from "./contentLine.ts";
import type { AlarmContent, EventContent, EventStamps, FeedHead, FeedZone } from "./types.ts";

/** The order of an event's properties; what the library writes beside them is dropped. */
const EVENT_ORDER = [
  "UID",
  "DTSTAMP",
  "CREATED",
  "LAST-MODIFIED",
  "SEQUENCE",
  "DTSTART",
  "DTEND",
  "SUMMARY",
  "DESCRIPTION",
  "URL",
  "STATUS",
  "TRANSP",
  "CLASS",
  "CATEGORIES",
  "RELATED-TO",
];

/** A CSS3 name (RFC 7986 §5.9) and the same colour for the clients that read only the older property. */
const COLOUR = { name: "teal", hex: "#008080" };

/** The library writes no event without a calendar; this one is empty, so that an event hangs on nothing but itself. */
const empty = new ICalCalendar();

/** The lines of an event between BEGIN and END, in order; UTC where `zone` is null or cannot say the time. */
export const generateEvent = (
  content: EventContent,
  stamps: EventStamps,
  zone: FeedZone | null,
): readonly ContentLine[] => {
  const tzid = zone && !content.time.allDay && canSay(zone, content.time) ? zone : null;
  const revised = dateOf(stamps.lastModified);
  const event = new ICalEvent(
    {
      id: escapeText(cleanLine(content.uid)),
      stamp: revised,
      created: dateOf(stamps.created),
      lastModified: revised,
      sequence: stamps.sequence,
      ...timeOf(content, tzid),
      summary: "",
      status: content.cancelled ? ICalEventStatus.CANCELLED : ICalEventStatus.CONFIRMED,
      transparency: ICalEventTransparency.TRANSPARENT,
      class: ICalEventClass.PRIVATE,
      categories: [{ name: content.kind }],
    },
    empty,
  );
  const lines = new Map(splitLines(event.toString()).map((line) => [line.name, line]));
  for (const name of tzid ? ["DTSTART", "DTEND"] : []) {
    lines.set(name, { name, parameters: `;TZID=${tzid?.tzid}`, value: lines.get(name)?.value ?? "" });
  }
  // Long texts go past the library: it would escape them, and they would be parted from its text again.
  lines.set("SUMMARY", plain("SUMMARY", escapeText(cleanLine(content.summary))));
  const description = escapeText(cleanText(content.description));
  // An empty TEXT says nothing, and libical 3.0 counts it among a feed's errors.
  if (description !== "") lines.set("DESCRIPTION", plain("DESCRIPTION", description));
  if (content.url !== null) lines.set("URL", uri(content.url));
  if (content.before) lines.set("RELATED-TO", relation(content.before));
  return EVENT_ORDER.flatMap((name) => lines.get(name) ?? []);
};

/**
 * The same as a to-do (RFC 5545 §3.6.2): due when the step is, ticked off when it is done. A notice is due on its last day.
 * It takes no time, so it has no TRANSP, and says no moment of completion: the page and the plan hold that.
 */
export const generateTask = (
  content: EventContent,
  stamps: EventStamps,
  zone: FeedZone | null,
): readonly ContentLine[] => {
  const { time, task } = content;
  const span: EventContent["time"] = time.allDay
    ? { ...time, from: time.to - 1 }
    : { ...time, to: task.due ?? time.to };
  const status = content.cancelled ? "CANCELLED" : task.done ? "COMPLETED" : "NEEDS-ACTION";
  return generateEvent({ ...content, time: span }, stamps, zone).flatMap((line): readonly ContentLine[] => {
    switch (line.name) {
      case "DTSTART":
        if (time.allDay) return [{ ...line, name: "DUE" }];
        // A DUE must be later than a DTSTART (RFC 5545 §3.8.2.3).
        return span.to > span.from ? [line] : [];
      case "DTEND":
        return time.allDay ? [] : [{ ...line, name: "DUE" }];
      case "STATUS":
        return task.done ? [plain("STATUS", status), plain("PERCENT-COMPLETE", "100")] : [plain("STATUS", status)];
      case "TRANSP":
        return [];
      default:
        return [line];
    }
  });
};

/**
 * The lines of an alarm between BEGIN and END (RFC 5545 §3.6.6, RFC 9074 §4): relative to the event's start, since an
 * alarm of its own time would have to be moved with every event. A reader that finds no DESCRIPTION may refuse the feed.
 * @param words the event's SUMMARY
 */
export const generateAlarm = ({ uid, before }: AlarmContent, words: string): readonly ContentLine[] => [
  plain("UID", escapeText(cleanLine(uid))),
  plain("ACTION", "DISPLAY"),
  plain("DESCRIPTION", escapeText(cleanLine(words))),
  plain("TRIGGER", `${before > 0 ? "-" : ""}${exactLength(Math.abs(before))}`),
];

/** A length in exact hours (RFC 5545 §3.3.6): a day of a DURATION is nominal, 24 hours are 24 hours. */
const exactLength = (seconds: Seconds): string => {
  const [hours, minutes, rest] = [Math.floor(seconds / HOUR), Math.floor((seconds % HOUR) / MINUTE), seconds % MINUTE];
  const parts = [hours ? `${hours}H` : "", minutes || (hours && rest) ? `${minutes}M` : "", rest ? `${rest}S` : ""];
  return `PT${parts.join("") || "0S"}`;
};

/** The lines of a calendar's head between BEGIN and the first component, in order. */
export const generateHead = (head: FeedHead): readonly ContentLine[] => {
  const name = escapeText(clip(cleanLine(head.name), SUMMARY_MAX));
  const description = escapeText(cleanText(head.description));
  const calendar = new ICalCalendar({
    prodId: `//Countback//Skin-test deadlines//${head.language.slice(0, 2).toUpperCase()}`,
    name,
    description,
    ttl: head.refreshMinutes === null ? null : Math.max(1, head.refreshMinutes) * MINUTE,
    color: COLOUR.hex,
  });
  const lines = splitLines(calendar.toString());
  const written = (wanted: string): ContentLine[] => lines.filter((line) => line.name === wanted);
  return [
    ...written("VERSION"),
    ...written("PRODID"),
    ...written("NAME"),
    ...written("X-WR-CALNAME"),
    ...(description === "" ? [] : [plain("DESCRIPTION", description)]),
    ...written("X-WR-CALDESC"),
    ...(head.url === null ? [] : [uri(head.url)]),
    ...written("REFRESH-INTERVAL"),
    ...written("X-PUBLISHED-TTL"),
    plain("COLOR", COLOUR.name),
    ...written("X-APPLE-CALENDAR-COLOR"),
  ];
};

const plain = (name: string, value: string): ContentLine => ({ name, parameters: "", value });

const dateOf = (seconds: Instant): Date => new Date(seconds * 1000);

/**
 * Whether both ends can be written as wall times that every reader turns back into them. RFC 5545 §3.3.5 reads a repeated
 * time as its first pass, so the second pass has no name; ical.js 2.2.1 reads the first as the second, and ts-ics 2.4.6
 * changes its clocks up to 36 hours early and 22 late, as the host's zone has it. Around a change of the clocks UTC says it
 * to all of them.
 */
const canSay = (zone: FeedZone, { from, to }: { readonly from: Instant; readonly to: Instant }): boolean =>
  [from, to].every(
    (at) =>
      at >= zone.from &&
      at < zone.to &&
      zone.zone.offsetAt(at - AROUND_CHANGE) === zone.zone.offsetAt(at + AROUND_CHANGE),
  );

const AROUND_CHANGE: Seconds = 37 * HOUR;

const timeOf = ({ time }: EventContent, zone: FeedZone | null): ICalEventData => {
  const scale = time.allDay ? DAY_SECONDS : 1;
  const shown = (seconds: number): Date => dateOf(zone ? zone.zone.wallAt(seconds) : seconds * scale);
  // As floating time the library writes a Date's UTC fields, whatever the host's zone; the TZID is added afterwards.
  return { start: shown(time.from), end: shown(time.to), allDay: time.allDay, floating: zone !== null };
};

const uri = (address: string): ContentLine => plain("URL", cleanUri(address));

/** RFC 9253 §4: the step must finish before the colour starts, by `GAP`. UID is the default type; VALUE=UID breaks readers. */
const relation = ({ uid, gap }: { readonly uid: string; readonly gap: string | null }): ContentLine => ({
  name: "RELATED-TO",
  parameters: `;RELTYPE=FINISHTOSTART;GAP=${gap ?? "PT0H"}`,
  value: escapeText(cleanLine(uid)),
});

/** The library's text as lines, its folds undone. */
const splitLines = (text: string): ContentLine[] =>
  text
    .replaceAll("\r\n ", "")
    .split("\r\n")
    .flatMap((line) => {
      const parts = /^([A-Z-]+)((?:;[^:]*)?):(.*)$/.exec(line);
      return parts ? [{ name: parts[1] ?? "", parameters: parts[2] ?? "", value: parts[3] ?? "" }] : [];
    });
