/**
 * Unfolded lines in octets → blocks, one a UID. Keeps of each VEVENT only the octets that are read, so that ten years of a
 * busy salon fit into memory, and decodes next to nothing; follows BEGIN and END, and knows at the end what was left open.
 * Never judges a date or a rule.
 */
import { BLOCK_MAX_BYTES, BLOCK_ZONES_MAX, LINE_MAX_BYTES, NESTING_MAX, UID_MAX } from "../bounds.ts";
import type { Day } from "../time/instant.ts";
import { decodeLine } from "./decodeLine.ts";
import { EventShelf } from "./EventShelf.ts";
import { type EventFault, READ_PROPERTIES, TEXT_PROPERTIES, ZONE_PROPERTIES } from "./eventText.ts";
import { findZone } from "./findZone.ts";
import { hashText } from "./hashText.ts";
import { lineName } from "./lineName.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { LineRoom } from "./LineRoom.ts";
import { linesOfOctets, RawBlock } from "./RawBlock.ts";
import { zoneKey } from "./resolveStart.ts";
import { EVERYWHERE, firstDayIn, isBefore, plainDay, roughSpan, SPAN_PROPERTIES } from "./roughSpan.ts";
import type { FileZone, Horizon } from "./types.ts";
import { ZoneShelf } from "./ZoneShelf.ts";

/** The event that is open. */
interface OpenEvent {
  uid: string;
  /** Whether a UID has been seen; only the first counts. */
  hasUid: boolean;
  /** Of its lines as they came, those that are not kept included. */
  octets: number;
  /** Of a plain DTSTART, read without decoding it. */
  startDay: Day | undefined;
  readonly spanLines: [name: string, line: string][];
}

const CALENDAR_COMPONENTS = new Set(["VCALENDAR", "VEVENT", "VTODO", "VJOURNAL", "VFREEBUSY", "VTIMEZONE"]);
const BEGIN_SHOWN = 60;

export class BlockCollector {
  raw = 0;
  calendarName: string | null = null;
  producer: string | null = null;
  /** How the text begins, for a refusal. */
  begins = "";
  readonly #firstDay: Day;
  readonly #stack: string[] = [];
  readonly #kept = new EventShelf();
  /** Events that are past, in short: something of the same UID may lie ahead. */
  readonly #past = new EventShelf();
  readonly #zones = new ZoneShelf();
  /** Kept lines of the open event. */
  readonly #room = new LineRoom();
  #event: OpenEvent | null = null;
  #calendars = 0;
  #sawCalendar = false;
  #beganElsewhere = false;
  #runsOn = false;

  /** @param horizon where given, events that lie wholly before it are counted and let go */
  constructor(horizon: Horizon | undefined) {
    this.#firstDay = horizon ? firstDayIn(horizon) : EVERYWHERE.first;
  }

  /** False for a page, a JSON answer, an empty body. */
  get isCalendar(): boolean {
    return this.#sawCalendar && !this.#beganElsewhere;
  }

  /** What was begun and never ended, innermost first; null where all is closed. */
  get open(): string | null {
    return this.#stack.length > 0 ? this.#stack.toReversed().slice(0, 3).join(" in ") : null;
  }

  /** Takes the line in [from, to) of the octets. */
  take(octets: Uint8Array, from: number, to: number): void {
    if (this.begins === "") this.#noteBeginning(octets.subarray(from, to));
    const name = lineName(octets, from, to);
    if (name === "") {
      this.#runOn(octets, from, to);
      return;
    }
    this.#runsOn = false;
    if (name === "BEGIN" || name === "END") {
      const component = componentOf(octets, from, to, name);
      if (name === "BEGIN") this.#begin(component);
      else this.#end(component);
      return;
    }
    const inside = this.#stack.at(-1);
    if (this.#event) {
      if (inside === "VEVENT" && READ_PROPERTIES.has(name)) this.#keep(name, octets, from, to);
    } else if (this.#zones.isOpen) {
      if (ZONE_PROPERTIES.has(name)) this.#zones.take(decodeLine(octets.subarray(from, to)));
    } else if (inside === "VCALENDAR") this.#noteCalendar(name, octets.subarray(from, to));
  }

  /** The text has ended; an event that is open breaks off here. */
  end(): void {
    if (this.#event) this.#closeEvent("not-closed");
  }

  /** Everything gathered; call once, after the end. */
  blocks(): RawBlock[] {
    const hasOwnZones = this.#zones.names().some((name) => !findZone(name));
    const zonesFor = hasOwnZones ? (block: RawBlock) => this.#zonesOf(block) : () => [];
    return Array.from(this.#kept.uids(), (uid) => new RawBlock(uid, [this.#kept, this.#past], zonesFor));
  }

  #noteBeginning(line: Uint8Array): void {
    this.begins = decodeLine(line).trim().slice(0, BEGIN_SHOWN);
    this.#beganElsewhere = /^[<{[]/.test(this.begins);
  }

  #noteCalendar(name: string, line: Uint8Array): void {
    if (name === "PRODID") this.producer ??= textIn(line);
    if (name === "X-WR-CALNAME" || name === "NAME") {
      this.calendarName ??= textIn(line);
    }
  }

  #begin(component: string): void {
    if (CALENDAR_COMPONENTS.has(component)) this.#sawCalendar = true;
    if (component === "VEVENT") this.raw++;
    if (this.#event && (component === "VEVENT" || component === "VCALENDAR")) this.#leaveOpenEvent();
    if (component === "VCALENDAR") this.#calendars++;
    // An event is followed at any depth: at most one is open, since a second one ends the first.
    if (this.#stack.length < NESTING_MAX || component === "VEVENT") this.#stack.push(component);
    if (this.#event) return;
    if (component === "VEVENT") this.#event = newEvent();
    else if (component === "VTIMEZONE") this.#zones.open();
    if (this.#zones.isOpen) this.#zones.take(`BEGIN:${component}`);
  }

  #end(component: string): void {
    const at = this.#stack.lastIndexOf(component);
    if (at < 0) return;
    if (this.#event && component === "VEVENT") this.#closeEvent(null);
    else if (this.#event && this.#stack.indexOf("VEVENT", at) >= 0) this.#closeEvent("not-closed");
    if (this.#zones.isOpen) {
      this.#zones.take(`END:${component}`);
      if (component === "VTIMEZONE" || component === "VCALENDAR") this.#zones.close(this.#calendars);
    }
    this.#stack.length = at;
  }

  /** A second event or calendar begins inside one: the first was never ended. */
  #leaveOpenEvent(): void {
    this.#closeEvent("not-closed");
    this.#stack.length = Math.max(0, this.#stack.lastIndexOf("VEVENT"));
  }

  #keep(name: string, octets: Uint8Array, from: number, to: number): void {
    const event = this.#event as OpenEvent;
    // A text that was cut is still one; times that were cut would bring back what the diary takes out.
    const isCut = to - from >= LINE_MAX_BYTES && !TEXT_PROPERTIES.has(name);
    event.octets += isCut ? BLOCK_MAX_BYTES : to - from;
    // What tells which entry it is, and which version, is kept of one that is too large as well.
    const isWanted = event.octets <= BLOCK_MAX_BYTES || (TOO_LARGE_NAMES.has(name) && !isCut);
    if (!isWanted || this.#room.length > 2 * BLOCK_MAX_BYTES) return;
    if (name === "UID" && !event.hasUid) {
      event.hasUid = true;
      event.uid = shortUid(parseContentLine(decodeLine(octets.subarray(from, to))).value.trim());
    }
    if (SPAN_PROPERTIES.has(name)) this.#noteSpan(event, name, octets, from, to);
    this.#room.write(octets, from, to);
    this.#runsOn = TEXT_PROPERTIES.has(name);
  }

  #noteSpan(event: OpenEvent, name: string, octets: Uint8Array, from: number, to: number): void {
    const day = name === "DTSTART" && event.startDay === undefined ? plainDay(octets, from, to) : undefined;
    if (day !== undefined) event.startDay = day;
    else event.spanLines.push([name, decodeLine(octets.subarray(from, to))]);
  }

  /** A line that is none: the rest of a text whose line break was not escaped. */
  #runOn(octets: Uint8Array, from: number, to: number): void {
    const event = this.#event;
    if (!event || !this.#runsOn) return;
    event.octets += to - from;
    if (event.octets > BLOCK_MAX_BYTES) return;
    this.#room.append(ESCAPED_BREAK, 0, ESCAPED_BREAK.length);
    this.#room.append(octets, from, to);
  }

  #closeEvent(fault: EventFault | null): void {
    const event = this.#event as OpenEvent;
    this.#event = null;
    const room = this.#room;
    const uid = event.uid === "" ? `content-${hashText(room.lines().join("\n"))}` : event.uid;
    const span = roughSpan(event.spanLines, event.startDay);
    const isPast = fault === null && isBefore(span, this.#firstDay);
    const isTooLarge = !isPast && this.#kept.octetsOf(uid) + event.octets > BLOCK_MAX_BYTES;
    if (isPast || isTooLarge) room.shorten(isPast ? PAST_NAMES : TOO_LARGE_NAMES);
    const about = { span, fault: isTooLarge ? "too-large" : fault, calendar: this.#calendars } as const;
    (isPast ? this.#past : this.#kept).add(uid, room.octets, room.length, about);
    room.clear();
  }

  /** The file's own definitions of the zones that these events name, where no IANA or Windows name covers them. */
  #zonesOf(block: RawBlock): FileZone[] {
    const [ofStarts, ofOthers] = [new Set<string>(), new Set<string>()];
    /** By name, the calendars in which it is used: events of one UID may stand in several. */
    const usedIn = new Map<string, Set<number>>();
    for (const { octets, calendar } of block.shelved()) {
      for (const line of linesOfOctets(octets)) {
        const tzid = /;\s*TZID\s*=/i.test(line) ? parseContentLine(line).params.get("TZID") : undefined;
        if (tzid === undefined || findZone(tzid)) continue;
        const name = zoneKey(tzid);
        (line.startsWith("DTSTART") ? ofStarts : ofOthers).add(name);
        usedIn.set(name, (usedIn.get(name) ?? new Set()).add(calendar));
      }
    }
    return [...new Set([...[...ofStarts].sort(), ...[...ofOthers].sort()])]
      .slice(0, BLOCK_ZONES_MAX)
      .map((name) => this.#zones.findFor(name, usedIn.get(name) ?? []))
      .filter((zone): zone is FileZone => zone !== undefined);
  }
}

/** What others of the UID may hang on. */
const PAST_NAMES: ReadonlySet<string> = new Set("UID SEQUENCE DTSTART RECURRENCE-ID RRULE EXDATE EXRULE".split(" "));
const TOO_LARGE_NAMES: ReadonlySet<string> = new Set(["UID", "SEQUENCE", "DTSTART", "RECURRENCE-ID"]);

/** A UID as it was written; of one that nobody would write, its beginning and a print of the whole. */
const shortUid = (uid: string): string => (uid.length <= UID_MAX ? uid : `${uid.slice(0, UID_SHOWN)}-${hashText(uid)}`);
const UID_SHOWN = 200;

const newEvent = (): OpenEvent => ({
  uid: "",
  hasUid: false,
  octets: 0,
  startDay: undefined,
  spanLines: [],
});

/** The TEXT value of a line, its escapes undone (RFC 5545 §3.3.11). */
const textIn = (line: Uint8Array): string =>
  parseContentLine(decodeLine(line))
    .value.replace(/\\([\\;,])/g, "$1")
    .trim();

const encoder = new TextEncoder();
/** As nearly every one of these lines is written. */
const PLAIN_LINES = [encoder.encode("BEGIN:VEVENT"), encoder.encode("END:VEVENT")];

/** What a BEGIN or END line begins or ends, in capitals. */
const componentOf = (octets: Uint8Array, from: number, to: number, name: string): string => {
  const plain = PLAIN_LINES[name === "BEGIN" ? 0 : 1] as Uint8Array;
  let at = to - from === plain.length ? 0 : -1;
  while (at >= 0 && at < plain.length) at = plain[at] === octets[from + at] ? at + 1 : -1;
  if (at === plain.length) return "VEVENT";
  return parseContentLine(decodeLine(octets.subarray(from, to)))
    .value.trim()
    .toUpperCase();
};

const ESCAPED_BREAK = encoder.encode("\\n");
