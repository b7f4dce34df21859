/**
 * Unfolded lines in octets → blocks, one a UID. Keeps of each VEVENT only what is read, so that ten years of a busy salon
 * fit into memory; follows BEGIN and END, and knows at the end what was left open. Never judges a date or a rule.
 */
import { BLOCK_MAX_BYTES, NESTING_MAX } from "../bounds.ts";
import { decodeLine } from "./decodeLine.ts";
import { type EventFault, READ_PROPERTIES, TEXT_PROPERTIES, writeEvent, ZONE_PROPERTIES } from "./eventText.ts";
import { findZone } from "./findZone.ts";
import { hashText } from "./hashText.ts";
import { liesOutside } from "./liesOutside.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { zoneKey } from "./resolveStart.ts";
import type { Block, FileZone, Horizon } from "./types.ts";
import { ZoneShelf } from "./ZoneShelf.ts";

interface OpenEvent {
  readonly lines: string[];
  octets: number;
}
interface Gathered {
  readonly events: string[];
  readonly zoneNames: Set<string>;
  readonly calendar: number;
  octets: number;
}

const CALENDAR_COMPONENTS = new Set(["VCALENDAR", "VEVENT", "VTODO", "VJOURNAL", "VFREEBUSY", "VTIMEZONE"]);
const BEGIN_SHOWN = 60;

export class BlockCollector {
  raw = 0;
  calendarName: string | null = null;
  producer: string | null = null;
  /** How the text begins, for a refusal. */
  begins = "";
  readonly #horizon: Horizon | undefined;
  readonly #stack: string[] = [];
  readonly #blocks = new Map<string, Gathered>();
  /** Events outside the horizon, kept only as long as something of the same UID may lie inside. */
  readonly #outside = new Map<string, string[]>();
  readonly #zones = new ZoneShelf();
  #event: OpenEvent | null = null;
  #calendars = 0;
  #sawCalendar = false;
  #beganElsewhere = false;
  #runsOn = false;

  constructor(horizon: Horizon | undefined) {
    this.#horizon = horizon;
  }

  /** False for a page, a JSON answer, an empty body. */
  get isCalendar(): boolean {
    return this.#sawCalendar && !this.#beganElsewhere;
  }

  /** What was begun and never ended, innermost first; null where all is closed. */
  get open(): string | null {
    return this.#stack.length > 0 ? this.#stack.toReversed().slice(0, 3).join(" in ") : null;
  }

  take(line: Uint8Array): void {
    if (this.begins === "") this.#noteBeginning(line);
    const name = nameOf(line);
    if (name === "") {
      this.#runOn(line);
      return;
    }
    this.#runsOn = false;
    if (name === "BEGIN") return this.#begin(valueOf(line).toUpperCase(), line);
    if (name === "END") return this.#end(valueOf(line).toUpperCase(), line);
    const inside = this.#stack.at(-1);
    if (this.#event) {
      if (inside === "VEVENT" && READ_PROPERTIES.has(name)) this.#keep(name, line);
    } else if (this.#zones.isOpen) {
      if (ZONE_PROPERTIES.has(name)) this.#zones.take(decodeLine(line));
    } else if (inside === "VCALENDAR") this.#noteCalendar(name, line);
  }

  /** Everything gathered; call once, at the end. */
  blocks(): Block[] {
    return [...this.#blocks].map(([uid, gathered]) => this.#finish(uid, gathered));
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

  #begin(component: string, line: Uint8Array): void {
    if (CALENDAR_COMPONENTS.has(component)) this.#sawCalendar = true;
    if (component === "VEVENT") this.raw++;
    if (this.#event && (component === "VEVENT" || component === "VCALENDAR")) this.#leaveOpenEvent();
    if (component === "VCALENDAR") this.#calendars++;
    if (this.#stack.length < NESTING_MAX) this.#stack.push(component);
    if (this.#event) return;
    if (component === "VEVENT") this.#event = { lines: [], octets: 0 };
    else if (component === "VTIMEZONE") this.#zones.open();
    if (this.#zones.isOpen) this.#zones.take(decodeLine(line).trim());
  }

  #end(component: string, line: Uint8Array): void {
    const at = this.#stack.lastIndexOf(component);
    if (at < 0) return;
    if (this.#event && component === "VEVENT") this.#closeEvent(null);
    else if (this.#event && this.#stack.indexOf("VEVENT", at) >= 0) this.#closeEvent("not-closed");
    if (this.#zones.isOpen) {
      this.#zones.take(decodeLine(line).trim());
      if (component === "VTIMEZONE" || component === "VCALENDAR") this.#zones.close(this.#calendars);
    }
    this.#stack.length = at;
  }

  /** A second event or calendar begins inside one: the first was never ended. */
  #leaveOpenEvent(): void {
    this.#closeEvent("not-closed");
    this.#stack.length = this.#stack.lastIndexOf("VEVENT");
  }

  #keep(name: string, line: Uint8Array): void {
    const event = this.#event as OpenEvent;
    event.octets += line.length;
    if (event.octets > BLOCK_MAX_BYTES) return;
    const text = decodeLine(line);
    event.lines.push(name + text.slice(text.search(/[;:]/)));
    this.#runsOn = TEXT_PROPERTIES.has(name);
  }

  /** A line that is none: the rest of a text whose line break was not escaped. */
  #runOn(line: Uint8Array): void {
    const event = this.#event;
    if (!event || !this.#runsOn) return;
    event.octets += line.length;
    if (event.octets > BLOCK_MAX_BYTES) return;
    event.lines.push(`${event.lines.pop() ?? ""}\\n${decodeLine(line)}`);
  }

  #closeEvent(fault: EventFault | null): void {
    const event = this.#event as OpenEvent;
    this.#event = null;
    const uidLine = event.lines.find((line) => /^UID[;:]/.test(line));
    const written = uidLine === undefined ? "" : parseContentLine(uidLine).value.trim();
    const uid = written === "" ? `content-${hashText(event.lines.join("\n"))}` : written;
    if (this.#horizon && fault === null && liesOutside(event.lines, this.#horizon)) {
      const short = event.lines.filter((line) => /^(?:UID|SEQUENCE|DTSTART|RECURRENCE-ID|RRULE)[;:]/.test(line));
      addTo(this.#outside, uid, writeEvent(short, null));
      return;
    }
    const gathered = this.#blocks.get(uid) ?? {
      events: [],
      zoneNames: new Set(),
      calendar: this.#calendars,
      octets: 0,
    };
    this.#blocks.set(uid, gathered);
    if (gathered.octets + event.octets > BLOCK_MAX_BYTES) {
      const start = event.lines.filter((line) => /^(?:UID|DTSTART|RECURRENCE-ID)[;:]/.test(line));
      gathered.events.push(writeEvent(start, "too-large"));
      return;
    }
    gathered.octets += event.octets;
    gathered.events.push(writeEvent(event.lines, fault));
    for (const line of event.lines) {
      const tzid = /;\s*TZID\s*=/i.test(line) ? parseContentLine(line).params.get("TZID") : undefined;
      if (tzid !== undefined && !findZone(tzid)) gathered.zoneNames.add(zoneKey(tzid));
    }
  }

  #finish(uid: string, gathered: Gathered): Block {
    // Sorted, so that a file which only changes its order has not changed.
    const events = [...gathered.events, ...(this.#outside.get(uid) ?? [])].toSorted();
    const zones = [...gathered.zoneNames]
      .toSorted()
      .map((name) => this.#zones.find(name, gathered.calendar))
      .filter((zone): zone is FileZone => zone !== undefined);
    const hash = hashText([...events, ...zones.map((zone) => zone.text)].join("\n\n"));
    return { uid, hash, events, zones };
  }
}

const addTo = (lists: Map<string, string[]>, key: string, item: string): void => {
  const list = lists.get(key);
  if (list) list.push(item);
  else lists.set(key, [item]);
};

const [COLON, SEMICOLON, NAME_MAX] = [58, 59, 64];

/** The name of a content line in capitals, or "" where the octets are no such line. */
const nameOf = (line: Uint8Array): string => {
  let name = "";
  // A byte order mark may stand before a name: at the head of the file, and of a file joined to another.
  for (let at = line[0] === 0xef && line[1] === 0xbb && line[2] === 0xbf ? 3 : 0; at < line.length; at++) {
    const octet = line[at] as number;
    if (octet === COLON || octet === SEMICOLON) return name.trimEnd().toUpperCase();
    const isBlank = octet === 32 || octet === 9;
    const isPart =
      (octet >= 48 && octet <= 57) || (octet >= 65 && octet <= 90) || (octet >= 97 && octet <= 122) || octet === 45;
    if ((!isPart && !isBlank) || name.length > NAME_MAX) return "";
    if (isPart || name !== "") name += String.fromCharCode(octet);
  }
  return "";
};

const valueOf = (line: Uint8Array): string => parseContentLine(decodeLine(line)).value.trim();
