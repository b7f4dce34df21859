/** Erasures that wait for an appointment ahead, and when each is gone on with. */
import type { Instant } from "../time/instant.ts";
import { finishErasure } from "./erasure.ts";
import type { Keeper } from "./keeper.ts";

/** Goes on with the erasures that wait, whenever a diary has been read, a day has passed or what they wait for has begun. */
export class WaitingErasures {
  #seen = "";
  /** When the first of what they wait for begins. */
  #begins = Number.POSITIVE_INFINITY;

  goOn(keeper: Keeper, at: Instant): void {
    const waiting = [...keeper.state.clients.values()].filter(
      ({ erasing, erased, joined }) => erasing && erased === null && joined === null,
    );
    if (waiting.length === 0) return;
    const diaries = [...keeper.state.diaries.values()];
    const seen = JSON.stringify([
      waiting.map(({ id }) => id),
      keeper.desk.rules.zone.dayAt(at),
      diaries.map(({ name, appliedReading, horizonDay, held }) => [name, appliedReading, horizonDay, held?.number]),
    ]);
    if (seen === this.#seen && at <= this.#begins) return;
    this.#seen = seen;
    const ahead = waiting.flatMap(({ id }) => finishErasure(keeper, id, at));
    this.#begins = Math.min(...ahead.flatMap((each) => (each.ahead !== null && each.ahead > at ? each.ahead : [])));
  }
}
