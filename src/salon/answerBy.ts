/**
 * By when a client's request about her data must be answered: one month from the day it was received, on the day of that
 * number or the month's last one; where that is a Saturday, a Sunday or a public holiday, the next day that is none.
 * Source: the United Kingdom Information Commissioner's Office, on the time limit for responding; may be made longer by two
 * months where a request is complex.
 */
import { addMonths } from "../time/calendar.ts";
import { type Day, weekdayOf } from "../time/instant.ts";

const FRIDAY = 5;

const workingDayFrom = (day: Day, isHoliday: (day: Day) => boolean): Day => {
  let found = day;
  while (weekdayOf(found) > FRIDAY || isHoliday(found)) found++;
  return found;
};

/** @param months one; three where the answer may take longer */
export const answerBy = (received: Day, isHoliday: (day: Day) => boolean, months = 1): Day =>
  workingDayFrom(addMonths(received, months), isHoliday);
