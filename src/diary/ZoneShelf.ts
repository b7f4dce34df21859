/** The zone definitions of a file, as they are met: each calendar's own, and for others the first of a name. Text only. */
import { ZONE_MAX_BYTES } from "../bounds.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { zoneKey } from "./resolveStart.ts";
import type { FileZone } from "./types.ts";

/** No definition: times that name it are not certain. */
const CONTRADICTED = "";

export class ZoneShelf {
  readonly #byName = new Map<string, { readonly calendar: number; readonly zone: FileZone }[]>();
  #lines: string[] | null = null;
  #length = 0;

  get isOpen(): boolean {
    return this.#lines !== null;
  }

  open(): void {
    this.#lines = [];
    this.#length = 0;
  }

  take(line: string): void {
    this.#length += line.length;
    if (this.#length <= ZONE_MAX_BYTES) this.#lines?.push(line);
  }

  /** Ends the open definition. One that repeats what another calendar of the file defined is stored once. */
  close(calendar: number): void {
    const lines = this.#lines ?? [];
    this.#lines = null;
    const tzid = lines
      .map(parseContentLine)
      .find((line) => line.name === "TZID")
      ?.value.trim();
    if (!tzid || this.#length > ZONE_MAX_BYTES) return;
    const text = lines.join("\n");
    const name = zoneKey(tzid);
    const list = this.#byName.get(name) ?? [];
    this.#byName.set(name, list);
    const last = list.at(-1);
    if (last?.zone.text === text) return;
    // A name may be defined once (RFC 5545 §3.6.5); of two definitions nobody can tell which is meant, so neither is.
    if (last?.calendar === calendar) list[list.length - 1] = { calendar, zone: { tzid, text: CONTRADICTED } };
    else list.push({ calendar, zone: { tzid, text } });
  }

  /** Every TZID defined, as written. */
  names(): readonly string[] {
    return [...this.#byName.values()].flatMap(([first]) => (first ? [first.zone.tzid] : []));
  }

  /** The definition of a name that holds in all these calendars; none where they define it differently. */
  findFor(name: string, calendars: Iterable<number>): FileZone | undefined {
    const [first, ...others] = Array.from(calendars, (calendar) => this.#find(name, calendar));
    return first && others.some((other) => other?.text !== first.text) ? { ...first, text: CONTRADICTED } : first;
  }

  /** The definition of a name that holds in a calendar: the last at or before it, else the file's first. */
  #find(name: string, calendar: number): FileZone | undefined {
    const list = this.#byName.get(name) ?? [];
    // In the order of their calendars, of which a file may have a hundred thousand.
    let [from, to] = [0, list.length];
    while (from < to) {
      const middle = Math.floor((from + to) / 2);
      if ((list[middle]?.calendar ?? 0) <= calendar) from = middle + 1;
      else to = middle;
    }
    return (list[from - 1] ?? list[0])?.zone;
  }
}
