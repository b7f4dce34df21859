/** Rows of pages that were made, as long as they are still what would be said. Within one isolate, and bounded. */
import { ROWS_KEPT_BYTES } from "../../bounds.ts";
import type { Instant } from "../../time/instant.ts";
import type { WeeksMade } from "./weekRows.ts";

interface Kept {
  /** By which the salon knows what the rows were made from. */
  readonly tag: string;
  readonly made: WeeksMade;
}

export class RowShelf {
  readonly #kept = new Map<string, Kept>();
  #room = ROWS_KEPT_BYTES;

  /** Undefined where nothing is kept, or time alone has made it old. */
  find(name: string, now: Instant): Kept | undefined {
    const kept = this.#kept.get(name);
    if (!kept || (kept.made.weeks.until !== null && now >= kept.made.weeks.until)) return undefined;
    return kept;
  }

  put(name: string, kept: Kept): void {
    this.#room += this.#kept.get(name)?.made.rows.length ?? 0;
    this.#kept.delete(name);
    if (kept.made.rows.length > this.#room) {
      this.#kept.clear();
      this.#room = ROWS_KEPT_BYTES;
    }
    this.#kept.set(name, kept);
    this.#room -= kept.made.rows.length;
  }
}
