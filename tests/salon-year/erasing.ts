/** What an erasure leaves, by the contract: what stands in a diary ahead waits, what a claim may need stays under her name. */
import type { Seconds } from "./calendar.ts";
import type { Entry } from "./diaries.ts";
import { casesOf, endOfCase, forgetContact, strikeCase } from "./keeping.ts";
import type { SalonLog } from "./log.ts";

export interface KeptSaid {
  readonly booking: string | null;
  readonly records: number;
  readonly until: Seconds;
}

/** Strikes out all that nothing ahead needs; gives what is kept. @param ahead her entries in the diaries from now on */
export const eraseFromLog = (
  log: SalonLog,
  person: string,
  ahead: readonly Entry[],
  now: Seconds,
): readonly KeptSaid[] => {
  const holder = log.holder(person);
  const evidence = holder.erasing?.evidence ?? false;
  const isWhole = ahead.length === 0;
  for (const each of casesOf(log, person)) {
    const isAhead = each.booking !== null && each.booking.cancelled === null && each.booking.start > now;
    if (isAhead && !isWhole) continue;
    for (const row of each.screenings) row.gone = true;
    if ((!each.isEvidence || evidence) && !(each.isStop && !isWhole)) strikeCase(each);
  }
  if (isWhole) {
    forgetContact(log, person);
    for (const row of log.rowsOf(person)) row.erased ??= now;
    log.forgetReasons(person);
    const isLeft = log.bookingsOf(person).length > 0 || log.recordsOf(person).length > 0;
    if (evidence || !isLeft) {
      for (const consent of log.consentsOf(person)) consent.gone = true;
      log.forgetPerson(person);
    }
  }
  return casesOf(log, person)
    .filter(({ records }) => records.length > 0)
    .map((each) => ({
      booking: each.booking?.uid ?? each.records[0]?.booking ?? null,
      records: each.records.length,
      until: endOfCase(log, each),
    }));
};
