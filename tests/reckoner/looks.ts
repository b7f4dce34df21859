/**
 * What follows an application: removal, looks and result, rules 17 to 19, and whether a recorded one counts.
 * Never asks what `now` is.
 */
import type { Book } from "./book.ts";
import { DAY_S, localDay, type Moment, QUARTER_S } from "./moments.ts";
import { type Look, type Test, windowOf } from "./protocol.ts";
import type { Dated } from "./untouched.ts";
import { clientSpan } from "./hours.ts";

/** An application, recorded or planned, and its recorded removal. */
export interface Worn {
  readonly at: Moment;
  readonly removed: Moment | undefined;
  /** Of several removals the first: what came off early did not stay on because it was said twice. */
  readonly firstRemoved?: Moment | undefined;
}

export interface OpenLook {
  readonly look: Look;
  readonly opens: Moment;
}

/** Rule 18: when each look opens; a late removal moves those that wait for it. */
export const openLooks = (test: Test, worn: Worn): OpenLook[] => {
  const { wear } = test;
  const planned = test.looks.map((look) => ({ look, opens: worn.at + look.after }));
  if (wear === null || worn.removed === undefined) return planned;
  const waiting = test.looks.filter((look) => look.after >= wear).map((look) => look.after);
  const notBefore = worn.removed + Math.min(...waiting) - wear;
  return planned.map(({ look, opens }) => ({ look, opens: look.after >= wear ? Math.max(opens, notBefore) : opens }));
};

/** Rule 17: taken off more than a quarter of an hour before its wear is over. */
export const removedEarly = (test: Test, worn: Worn): boolean =>
  test.wear !== null && worn.firstRemoved !== undefined && worn.firstRemoved < worn.at + test.wear - QUARTER_S;

/** Rules 8, 17 and 18: whether a recorded application counts for a colour at `start`. */
export const countsFor = (test: Test, worn: Worn, start: Moment): boolean => {
  const window = windowOf(test, start);
  if (worn.at < window.from || worn.at > window.to) return false;
  if (removedEarly(test, worn)) return false;
  if (test.from === "removal" && worn.removed !== undefined && worn.removed > start - test.least) return false;
  return openLooks(test, worn).every(({ look, opens }) => !look.holding || opens <= start);
};

/** Rule 17. */
export const removalOf = (test: Test, worn: Worn, start: Moment): Dated | undefined => {
  if (test.wear === null) return undefined;
  const opens = worn.at + test.wear;
  const latest = test.from === "removal" ? start - test.least : start;
  return { opens, due: Math.min(opens + test.removeWithin, latest) };
};

/** Rule 19: the doors stay shut after `end` for the rest of the local day of its last second. */
const closes = (book: Book, end: Moment): boolean => {
  const lastDay = localDay(book.zone, end - 1);
  return !book.salon.some((stretch) => stretch.start > end && localDay(book.zone, stretch.start) === lastDay);
};

/** Rule 19. */
export const resultOf = (book: Book, looks: readonly OpenLook[], start: Moment): Dated => {
  const opens = Math.max(...looks.filter(({ look }) => look.holding).map((each) => each.opens));
  const ends = book.hasClosing ? book.salon.map((stretch) => stretch.end) : [];
  const closing = ends.findLast((end) => end < start && end >= opens && closes(book, end));
  return { opens, due: closing ?? start };
};

/** Rule 18: a look's due, from the first moment in the client's hours with a quarter of an hour of that day left. */
export const lookDue = (book: Book, { look, opens }: OpenLook, result: Dated): Moment => {
  for (let day = localDay(book.zone, opens - DAY_S); ; day += 1) {
    const span = clientSpan(book.settings, day);
    const from = Math.max(opens, span.start);
    if (from + QUARTER_S > span.end) continue;
    const due = Math.min(from + look.within, span.end);
    return look.holding ? Math.min(due, result.due) : due;
  }
};
