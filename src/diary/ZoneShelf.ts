/** The zone definitions of a file, as they are met: each calendar's own, and for others the first of a name. Text only. */
import { ZONE_MAX_BYTES } from "../bounds.ts";
import { parseContentLine } from "./parseContentLine.ts";
import { zoneKey } from "./resolveStart.ts";
import type { FileZone } from "./types.ts";

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
    if (list.at(-1)?.zone.text !== text) list.push({ calendar, zone: { tzid, text } });
  }

  /** Every TZID defined, as written. */
  names(): readonly string[] {
    return [...this.#byName.values()].flatMap(([first]) => (first ? [first.zone.tzid] : []));
  }

  /** The definition of a name that holds in a calendar: the last at or before it, else the file's first. */
  find(name: string, calendar: number): FileZone | undefined {
    const list = this.#byName.get(name) ?? [];
    return (list.findLast((each) => each.calendar <= calendar) ?? list[0])?.zone;
  }
}
