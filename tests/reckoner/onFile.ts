/**
 * Whether an earlier clear result still counts: rule 25 as a count-back sees it, where only recorded results cover.
 * Never looks at another booking's plan.
 */
import type { Book } from "./book.ts";
import { applicationsOf, type Evidence, holdClear, isReaction, readLooks, type Told } from "./evidence.ts";
import { localDay, type Moment, monthsLater } from "./moments.ts";
import { removedEarly } from "./looks.ts";
import { type Test, windowOf } from "./protocol.ts";
import type { ReckonOnFile } from "./types.ts";

/** The earlier test that covers a booking. */
export interface Cover {
  readonly test: Test;
  readonly at: Moment;
  /** When its last holding look was read. */
  readonly readAt: Moment;
}

/** Product, shade and months of rule 25; unknown is never the same and never "not darker". */
const meets = (book: Book, rule: ReckonOnFile, record: Told, start: Moment): boolean => {
  const service = book.settings.services?.[0];
  if (rule.months) {
    const lastDay = monthsLater(localDay(book.zone, record.at), rule.months);
    if (localDay(book.zone, start) > lastDay) return false;
  }
  if (rule.product === "same" && (!record.product || record.product !== service?.product)) return false;
  if (rule.shade === "not-darker") {
    const [tested, planned] = [record.shade ?? null, service?.shade ?? null];
    if (tested === null || planned === null || planned < tested) return false;
  }
  return true;
};

/** No reaction and no `test-needed` screening after the record, whichever booking. */
const undisturbed = (evidence: Evidence, record: Told): boolean =>
  !evidence.told.some(
    (other) =>
      other.at > record.at && (isReaction(other) || (other.kind === "screened" && other.outcome === "test-needed")),
  );

const coversOfBooking = (book: Book, evidence: Evidence, test: Test, booking: string) => {
  const reads = evidence.told.filter((record) => record.booking === booking && record.kind === "read");
  const applied = applicationsOf(evidence.told, book.tests, booking);
  if (applied.length === 0) {
    return reads
      .filter((read) => read.outcome === "clear" && read.route === test.route)
      .map((read) => ({ record: read, at: read.at, readAt: read.at }));
  }
  return applied.flatMap((each, index) => {
    if (each.route !== test.route) return [];
    const next = applied[index + 1]?.at ?? Number.POSITIVE_INFINITY;
    const own = reads.filter((read) => read.at >= each.at && read.at < next);
    const looks = readLooks(evidence, test, each, own);
    if (!holdClear(looks) || removedEarly(test, each)) return [];
    const readAt = Math.max(...looks.flatMap(({ open, read }) => (open.look.holding && read ? [read.at] : [])));
    return [{ record: each.record, at: each.at, readAt }];
  });
};

/**
 * The newest earlier test that covers the booking `uid` at `start`, or undefined. A lead that is too short and a wear
 * that was not kept are not overridden by being another booking's (rules 17 and 24).
 */
export const coverOf = (book: Book, evidence: Evidence, uid: string, start: Moment): Cover | undefined => {
  const others = new Set(evidence.told.map((record) => record.booking).filter((booking) => booking !== uid));
  const covers: Cover[] = [];
  for (const test of book.tests) {
    const rule = test.onFile;
    if (rule === null) continue;
    for (const booking of others) {
      const found = coversOfBooking(book, evidence, test, booking).filter(
        ({ record }) =>
          record.at <= windowOf(test, start).to && meets(book, rule, record, start) && undisturbed(evidence, record),
      );
      covers.push(...found.map(({ at, readAt }) => ({ test, at, readAt })));
    }
  }
  return covers.toSorted((left, right) => left.at - right.at).at(-1);
};
