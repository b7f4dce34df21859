/**
 * The account of one block: every VEVENT that came in gives an entry, is said to be skipped, or demonstrably lies elsewhere.
 * What is in none of these at the end was lost by this program, and is said too: never silence.
 */
import { DISPUTES_LISTED_MAX } from "../bounds.ts";
import { dayOf, formatDay, type Instant } from "../time/instant.ts";
import { splitEvent } from "./eventText.ts";
import type { Dispute, Occurrence } from "./expandSeries.ts";
import { liesOutside } from "./liesOutside.ts";
import type { EventTimes } from "./readEvent.ts";
import { SKIP_TEXTS, type SkipCode } from "./skipReasons.ts";
import type { Block, Horizon, Skipped } from "./types.ts";

export class EventAccount {
  readonly #block: Block;
  readonly #events: readonly EventTimes[];
  readonly #horizon: Horizon;
  readonly #told = new Set<EventTimes>();
  readonly #skipped: Skipped[] = [];

  /** @param events all that the block holds */
  constructor(block: Block, events: readonly EventTimes[], horizon: Horizon) {
    this.#block = block;
    this.#events = events;
    this.#horizon = horizon;
  }

  isInside(at: Instant): boolean {
    return at >= this.#horizon.from && at < this.#horizon.to;
  }

  /** An event that gives entries, or whose own time is known to be elsewhere or replaced. */
  told(event: EventTimes): void {
    this.#told.add(event);
  }

  skip(event: EventTimes, code: SkipCode): void {
    this.#told.add(event);
    if (!liesOutside(splitEvent(event.text).lines, this.#horizon)) this.#say(event, code);
  }

  /** What readers of a rule disagree about, with both answers; a row for each up to a bound, which the words tell. */
  dispute({ start, writtenStart }: EventTimes, disputes: readonly Dispute[], idOf: (each: Occurrence) => string): void {
    const ownId = start.kind === "not-certain" ? null : idOf(start);
    for (const { occurrence, answers } of disputes.slice(0, DISPUTES_LISTED_MAX)) {
      const [one, other] = answers.map(describe);
      const id = idOf(occurrence);
      const text = `${SKIP_TEXTS["readers-disagree"]} One reading: ${one}; another: ${other}. Disputed in all: ${disputes.length}.`;
      this.#skipped.push({
        uid: this.#block.uid,
        recurrenceId: id,
        // Of all occurrences the file writes the start's own alone.
        start: id === ownId ? writtenStart : id,
        reason: "readers-disagree",
        text,
      });
    }
  }

  /**
   * The rows to show, after the books are compared.
   * @param due how many entries the events should have given
   * @param given how many they gave
   */
  close(due: number, given: number): readonly Skipped[] {
    for (const event of this.#events) if (!this.#told.has(event)) this.#say(event, "unaccounted");
    if (due !== given || this.#block.count !== this.#events.length) {
      const text = `${SKIP_TEXTS["count-differs"]} Events: ${this.#block.count} came in, ${this.#events.length} were read; appointments: ${due} were found, ${given} are shown.`;
      this.#skipped.push({ uid: this.#block.uid, recurrenceId: null, start: "", reason: "count-differs", text });
    }
    return this.#skipped;
  }

  #say({ writtenStart: start, writtenRecurrenceId: recurrenceId }: EventTimes, code: SkipCode): void {
    this.#skipped.push({ uid: this.#block.uid, recurrenceId, start, reason: code, text: SKIP_TEXTS[code] });
  }
}

const DATES_TOLD = 3;

const describe = (answer: readonly Occurrence[]): string => {
  const days = answer.map((each) => formatDay(each.kind === "date" ? each.day : dayOf(each.wall)));
  if (days.length === 0) return "none";
  const shown = days.slice(0, DATES_TOLD).join(", ");
  return days.length > DATES_TOLD ? `${shown} … (${days.length})` : shown;
};
