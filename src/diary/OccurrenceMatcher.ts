/** Something that names occurrences of a series: an instant, a wall time of its own clock, or a date. */
import { type Day, dayOf, type Instant, type Wall } from "../time/instant.ts";
import type { CertainStart, Occurrence } from "./expandSeries.ts";

export class OccurrenceMatcher {
  readonly #instants = new Set<Instant>();
  readonly #walls = new Set<Wall>();
  readonly #days = new Set<Day>();

  add(reading: CertainStart): void {
    if (reading.kind === "date") this.#days.add(reading.day);
    else {
      this.#instants.add(reading.at);
      // Written without a zone it means the series' own clock, whatever the salon's is.
      if (reading.floating) this.#walls.add(reading.wall);
    }
  }

  /** Whether it names nothing. */
  get isEmpty(): boolean {
    return this.#instants.size === 0 && this.#days.size === 0;
  }

  matches(occurrence: Occurrence): boolean {
    if (occurrence.kind === "date") return this.#days.has(occurrence.day);
    return (
      this.#instants.has(occurrence.at) || this.#walls.has(occurrence.wall) || this.#days.has(dayOf(occurrence.wall))
    );
  }
}
