/** Which zones a calendar names for its starts and how each was understood, and how many starts name none. Counts only. */
import type { ListedEvent } from "../diary/listEvents.ts";

/** How the zone of a start was understood; null where its start names none. */
const understoodAs = ({ writtenZone, zone, certain, reason }: ListedEvent): string | null => {
  if (!writtenZone) return null;
  if (zone === writtenZone) return zone;
  const named = `"${writtenZone}"`;
  if (zone !== null) return `${named}, read as ${zone}`;
  if (certain) return `${named}, as the file itself defines it`;
  if (reason?.code === "zone-unknown") return `${named}, NOT UNDERSTOOD`;
  return reason?.code === "zone-not-reaching" ? `${named}, which the file defines, but NOT FOR THESE DATES` : null;
};

export class ZonesSeen {
  floating = 0;
  dates = 0;
  readonly #counts = new Map<string, number>();
  readonly #iana = new Set<string>();

  add(event: ListedEvent): void {
    if (event.date !== null) {
      this.dates++;
      return;
    }
    const how = understoodAs(event);
    if (how !== null) this.#counts.set(how, (this.#counts.get(how) ?? 0) + 1);
    else if (event.certain) this.floating++;
    if (event.zone !== null && event.zone !== "UTC") this.#iana.add(event.zone);
  }

  /** The one zone that all starts with a zone are in, UTC aside; null where there are several, or none. */
  get only(): string | null {
    const [first = null, ...others] = this.#iana;
    return others.length === 0 ? first : null;
  }

  /** How zones were understood, the most frequent first. */
  byCount(): readonly (readonly [how: string, count: number])[] {
    return [...this.#counts].sort(([, one], [, other]) => other - one);
  }
}
