/**
 * Unfolded lines in octets → blocks, one a UID. Keeps of each VEVENT only the octets that are read, so that ten years of a
 * busy salon fit into memory, and decodes next to nothing; follows BEGIN and END, and knows at the end what was left open.
 * Never judges a date or a rule.
 */
import { BLOCK_MAX_BYTES, NESTING_MAX } from "../bounds.ts";
import { DAY_SECONDS, type Day } from "../time/instant.ts";
import { decodeLine } from "./decodeLine.ts";
import { type EventFault, READ_PROPERTIES, TEXT_PROPERTIES, ZONE_PROPERTIES } from "./eventText.ts";
import { findZone } from "./findZone.ts";
import { hashOctets, hashText } from "./hashText.ts";
import { lineName } from "./lineName.ts";
import { OctetShelf } from "./OctetShelf.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { linesOfOctets, RawBlock, type RawEvent } from "./RawBlock.ts";
import { zoneKey } from "./resolveStart.ts";
import { EVERYWHERE, isBefore, joinSpans, roughSpan, SPAN_PROPERTIES } from "./roughSpan.ts";
import type { FileZone, Horizon } from "./types.ts";
import { ZoneShelf } from "./ZoneShelf.ts";

/** The event that is open, and the last one before it: one at a time, so its room is used again. */
interface OpenEvent {
  uid: string;
  /** Whether a UID has been seen; only the first counts. */
  hasUid: boolean;
  octets: number;
  length: number;
  readonly spanLines: [name: string, line: string][];
}
interface Gathered {
  readonly events: RawEvent[];
  readonly calendar: number;
  octets: number;
}

const CALENDAR_COMPONENTS = new Set(["VCALENDAR", "VEVENT", "VTODO", "VJOURNAL", "VFREEBUSY", "VTIMEZONE"]);
const BEGIN_SHOWN = 60;
const LF = 10;

export class BlockCollector {
  raw = 0;
  calendarName: string | null = null;
  producer: string | null = null;
  /** How the text begins, for a refusal. */
  begins = "";
  readonly #firstDay: Day;
  readonly #stack: string[] = [];
  readonly #blocks = new Map<string, Gathered>();
  /** Events that are past, in short: something of the same UID may lie ahead. */
  readonly #past = new Map<string, RawEvent[]>();
  readonly #zones = new ZoneShelf();
  readonly #shelf = new OctetShelf();
  /** Kept lines of the open event. */
  #room = new Uint8Array(4_096);
  #event: OpenEvent | null = null;
  #calendars = 0;
  #sawCalendar = false;
  #beganElsewhere = false;
  #runsOn = false;

  /** @param horizon where given, events that lie wholly before it are counted and let go */
  constructor(horizon: Horizon | undefined) {
    this.#firstDay = horizon ? Math.floor(horizon.from / DAY_SECONDS) : EVERYWHERE.first;
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
      const line = decodeLine(octets.subarray(from, to)).trim();
      const component = parseContentLine(line).value.trim().toUpperCase();
      if (name === "BEGIN") this.#begin(component, line);
      else this.#end(component, line);
      return;
    }
    const inside = this.#stack.at(-1);
    if (this.#event) {
      if (inside === "VEVENT" && READ_PROPERTIES.has(name)) this.#keep(name, octets, from, to);
    } else if (this.#zones.isOpen) {
      if (ZONE_PROPERTIES.has(name)) this.#zones.take(decodeLine(octets.subarray(from, to)));
    } else if (inside === "VCALENDAR") this.#noteCalendar(name, octets.subarray(from, to));
  }

  /** Everything gathered; call once, at the end. */
  blocks(): RawBlock[] {
    const hasOwnZones = this.#zones.names().some((name) => !findZone(name));
    return [...this.#blocks].map(([uid, gathered]) => this.#finish(uid, gathered, hasOwnZones));
  }

  #noteBeginning(line: Uint8Array): void {
    this.begins = decodeLine(line).trim().slice(0, BEGIN_SHOWN);
    this.#beganElsewhere = /^[<{[]/.test(this.begins);
  }

  #noteCalendar(name: string, line: Uint8Array): void {
    if (name === "PRODID") this.producer ??= parseContentLine(decodeLine(line)).value.trim();
    if (name === "X-WR-CALNAME" || name === "NAME") {
      this.calendarName ??= parseContentLine(decodeLine(line))
        .value.replace(/\\([\\;,])/g, "$1")
        .trim();
    }
  }

  #begin(component: string, line: string): void {
    if (CALENDAR_COMPONENTS.has(component)) this.#sawCalendar = true;
    if (component === "VEVENT") this.raw++;
    if (this.#event && (component === "VEVENT" || component === "VCALENDAR")) this.#leaveOpenEvent();
    if (component === "VCALENDAR") this.#calendars++;
    if (this.#stack.length < NESTING_MAX) this.#stack.push(component);
    if (this.#event) return;
    if (component === "VEVENT") this.#event = { uid: "", hasUid: false, octets: 0, length: 0, spanLines: [] };
    else if (component === "VTIMEZONE") this.#zones.open();
    if (this.#zones.isOpen) this.#zones.take(line);
  }

  #end(component: string, line: string): void {
    const at = this.#stack.lastIndexOf(component);
    if (at < 0) return;
    if (this.#event && component === "VEVENT") this.#closeEvent(null);
    else if (this.#event && this.#stack.indexOf("VEVENT", at) >= 0) this.#closeEvent("not-closed");
    if (this.#zones.isOpen) {
      this.#zones.take(line);
      if (component === "VTIMEZONE" || component === "VCALENDAR") this.#zones.close(this.#calendars);
    }
    this.#stack.length = at;
  }

  /** A second event or calendar begins inside one: the first was never ended. */
  #leaveOpenEvent(): void {
    this.#closeEvent("not-closed");
    this.#stack.length = this.#stack.lastIndexOf("VEVENT");
  }

  #keep(name: string, octets: Uint8Array, from: number, to: number): void {
    const event = this.#event as OpenEvent;
    event.octets += to - from;
    if (event.octets > BLOCK_MAX_BYTES) return;
    if (name === "UID" && !event.hasUid) {
      event.hasUid = true;
      event.uid = parseContentLine(decodeLine(octets.subarray(from, to))).value.trim();
    }
    if (SPAN_PROPERTIES.has(name)) event.spanLines.push([name, decodeLine(octets.subarray(from, to))]);
    this.#write(octets, from, to);
    this.#runsOn = TEXT_PROPERTIES.has(name);
  }

  /** A line that is none: the rest of a text whose line break was not escaped. */
  #runOn(octets: Uint8Array, from: number, to: number): void {
    const event = this.#event;
    if (!event || !this.#runsOn) return;
    event.octets += to - from;
    if (event.octets > BLOCK_MAX_BYTES) return;
    event.length--;
    this.#write(ESCAPED_BREAK, 0, ESCAPED_BREAK.length);
    event.length--;
    this.#write(octets, from, to);
  }

  /** Adds a line and its LF to the room of the open event. */
  #write(octets: Uint8Array, from: number, to: number): void {
    const event = this.#event as OpenEvent;
    const end = event.length + to - from;
    if (end + 1 > this.#room.length) {
      const grown = new Uint8Array(Math.max(end + 1, this.#room.length * 2));
      grown.set(this.#room.subarray(0, event.length));
      this.#room = grown;
    }
    for (let at = event.length, source = from; source < to; at++, source++) this.#room[at] = octets[source] as number;
    this.#room[end] = LF;
    event.length = end + 1;
  }

  #closeEvent(fault: EventFault | null): void {
    const event = this.#event as OpenEvent;
    this.#event = null;
    const uid = event.uid === "" ? `content-${hashText(this.#linesOf(event).join("\n"))}` : event.uid;
    const span = roughSpan(event.spanLines);
    if (fault === null && isBefore(span, this.#firstDay)) {
      addTo(this.#past, uid, this.#short(event, /^(?:UID|SEQUENCE|DTSTART|RECURRENCE-ID|RRULE)[;:]/, null));
      return;
    }
    const gathered = this.#blocks.get(uid) ?? { events: [], calendar: this.#calendars, octets: 0 };
    this.#blocks.set(uid, gathered);
    if (gathered.octets + event.octets > BLOCK_MAX_BYTES) {
      gathered.events.push(this.#short(event, /^(?:UID|DTSTART|RECURRENCE-ID)[;:]/, "too-large"));
      return;
    }
    gathered.octets += event.octets;
    const octets = this.#shelf.keep(this.#room, event.length);
    gathered.events.push({ octets, hash: hashOctets(octets) + (fault ?? ""), fault, span });
  }

  /** An event of which only the lines of some names are kept. */
  #short(event: OpenEvent, names: RegExp, fault: EventFault | null): RawEvent {
    const lines = this.#linesOf(event).filter((line) => names.test(line));
    const written = encoder.encode(lines.map((line) => `${line}\n`).join(""));
    const octets = this.#shelf.keep(written, written.length);
    return { octets, hash: hashOctets(octets) + (fault ?? ""), fault, span: roughSpan(event.spanLines) };
  }

  #linesOf(event: OpenEvent): string[] {
    return linesOfOctets(this.#room.subarray(0, event.length));
  }

  #finish(uid: string, { events: kept, calendar }: Gathered, hasOwnZones: boolean): RawBlock {
    const events = [...kept, ...(this.#past.get(uid) ?? [])];
    const zones = hasOwnZones ? this.#zonesOf(events, calendar) : [];
    const [only] = events;
    const isPlain = events.length === 1 && zones.length === 0 && only !== undefined;
    const parts = isPlain ? [only.hash] : [...events.map(({ hash }) => hash).sort(), ...zones.map(({ text }) => text)];
    const hash = isPlain ? only.hash : hashText(parts.join("\n\n"));
    return new RawBlock(uid, hash, joinSpans(events.map(({ span }) => span)), events, zones);
  }

  /** The file's own definitions of the zones that these events name, where no IANA or Windows name covers them. */
  #zonesOf(events: readonly RawEvent[], calendar: number): FileZone[] {
    const names = new Set<string>();
    for (const line of events.flatMap(({ octets }) => linesOfOctets(octets))) {
      const tzid = /;\s*TZID\s*=/i.test(line) ? parseContentLine(line).params.get("TZID") : undefined;
      if (tzid !== undefined && !findZone(tzid)) names.add(zoneKey(tzid));
    }
    return [...names]
      .sort()
      .map((name) => this.#zones.find(name, calendar))
      .filter((zone): zone is FileZone => zone !== undefined);
  }
}

const encoder = new TextEncoder();
const ESCAPED_BREAK = encoder.encode("\\n");

const addTo = (lists: Map<string, RawEvent[]>, key: string, item: RawEvent): void => {
  const list = lists.get(key);
  if (list) list.push(item);
  else lists.set(key, [item]);
};
