/** Rows of pages that were made, as long as they are still what would be said. Within one isolate, and bounded. */
import { ROWS_KEPT_BYTES, ROWS_KEPT_LEAST_BYTES } from "../../bounds.ts";
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
    const before = this.#kept.get(name);
    this.#room += before ? sizeOf(before) : 0;
    this.#kept.delete(name);
    if (sizeOf(kept) > this.#room) {
      this.#kept.clear();
      this.#room = ROWS_KEPT_BYTES;
    }
    this.#kept.set(name, kept);
    this.#room -= sizeOf(kept);
  }
}

/** What is kept beside the rows takes room too: there are as many weeks without any row as there are days to begin them. */
const sizeOf = ({ made }: Kept): number => made.rows.length + ROWS_KEPT_LEAST_BYTES;
