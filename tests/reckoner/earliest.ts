/**
 * Rule 29 by trying: every whole minute the salon is open, from now on, is asked whether a colour then would fit.
 * Never derives the answer from a formula.
 */
import type { Book } from "./book.ts";
import { countsFor, openLooks, type Worn } from "./looks.ts";
import { LOOKING_S, MINUTE_S, type Moment } from "./moments.ts";
import type { Test } from "./protocol.ts";
import type { Choice } from "./routes.ts";
import { applicationOf, untouchedPlan } from "./untouched.ts";

const minuteUp = (moment: Moment): Moment => Math.ceil(moment / MINUTE_S) * MINUTE_S;

/**
 * The first start that `fits`. Where there is no greatest lead, a later start never fits worse (law g), so a stretch
 * whose last minute does not fit is passed over whole.
 */
const firstStart = (
  book: Book,
  now: Moment,
  monotone: boolean,
  fits: (start: Moment) => boolean,
): Moment | undefined => {
  for (const stretch of book.salon) {
    if (stretch.end <= now) continue;
    const last = Math.min(minuteUp(stretch.end) - MINUTE_S, now + LOOKING_S);
    const first = minuteUp(Math.max(stretch.start, now));
    if (first > now + LOOKING_S) return undefined;
    if (monotone && !fits(last)) continue;
    for (let start = first; start <= last; start += MINUTE_S) if (fits(start)) return start;
  }
  return undefined;
};

/** Rule 29: a new test of this kind for a colour at `start`, with the kit where it is now. */
const newTestFits = (book: Book, test: Test, choice: Choice | undefined, now: Moment, start: Moment): boolean => {
  const kit = test.route === "home-kit" ? choice?.kit : undefined;
  if (kit?.posted || kit?.arrived) {
    const application = applicationOf(book, test, start);
    if (!application) return false;
    const inHand = kit.arrived ? now : (kit.expected ?? Number.POSITIVE_INFINITY);
    return application.due >= Math.max(now, inHand);
  }
  const plan = untouchedPlan(book, test, start);
  const until = test.route === "home-kit" ? plan?.lastHandOver : plan?.application.due;
  return until !== undefined && now <= until;
};

/** Rule 27: the start that an application which does not keep this booking's lead would serve. */
const servedBy = (book: Book, test: Test, worn: Worn, now: Moment): Moment | undefined => {
  const holds = openLooks(test, worn).filter(({ look }) => look.holding);
  return firstStart(
    book,
    now,
    test.most === null,
    (start) => countsFor(test, worn, start) && holds.every(({ opens }) => opens <= start),
  );
};

/** The earliest colour start of a test's route; `choice` undefined for a client without records. */
export const earliestOf = (book: Book, test: Test, choice: Choice | undefined, now: Moment): Moment | undefined => {
  const fresh = firstStart(book, now, test.most === null, (start) => newTestFits(book, test, choice, now, start));
  const wasted = (choice?.applications ?? []).filter(
    (each) => each.route === test.route && !choice?.counting.includes(each),
  );
  const starts = [fresh, ...wasted.map((each) => servedBy(book, test, each, now))];
  const found = starts.filter((start) => start !== undefined);
  return found.length > 0 ? Math.min(...found) : undefined;
};
