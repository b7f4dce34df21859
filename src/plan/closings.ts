/** Which local days are shut, and under which name: for the words that say what a day moved. Moves nothing itself. */
import type { Day } from "../time/instant.ts";

/** The name of a day that the settings close. */
export const DAYS_OFF = "days off";

export interface Closings {
  /** Why the salon does not keep its weekday's hours on a day; null where it does. */
  readonly salonOn: (day: Day) => string | null;
  /** Why there is no post on a day on which there would be some; null where there is, or never would be. */
  readonly postOn: (day: Day) => string | null;
}

/** Days that follow one another under one name. */
export interface ClosedDays {
  readonly from: Day;
  readonly to: Day;
  readonly name: string;
}

/** The shut days from one to another, both included, those of one name in a row joined. */
export const closedDays = (nameOn: Closings["salonOn"], from: Day, to: Day): readonly ClosedDays[] => {
  const found: ClosedDays[] = [];
  for (let day = from; day <= to; day++) {
    const name = nameOn(day);
    const last = found.at(-1);
    if (name === null) continue;
    if (last && last.to === day - 1 && last.name === name) found[found.length - 1] = { ...last, to: day };
    else found.push({ from: day, to: day, name });
  }
  return found;
};
