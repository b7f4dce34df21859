/**
 * One test counted back from B as if nothing had been recorded: rules 8 to 16.
 * Never looks at `now`; the only facts it takes are those rule 11 and rule 20 let move a step.
 */
import type { Book } from "./book.ts";
import { firstChance, lastChance, opensOn } from "./hours.ts";
import { dayStart, LOOKING_S, type Moment } from "./moments.ts";
import { lastCollectionFor, lastDelivery } from "./post.ts";
import { type Test, windowOf } from "./protocol.ts";

export interface Dated {
  readonly opens: Moment;
  readonly due: Moment;
}

export interface Untouched {
  readonly screening: Dated;
  readonly shipping: Dated | undefined;
  readonly arrival: Dated | undefined;
  readonly application: Dated;
  /** The application is a recorded one for which the calendar has no moment. */
  readonly offCalendar: boolean;
  /** Home kit: the last hand-over that makes rule 12. */
  readonly lastHandOver: Moment | undefined;
}

/** Rules 9 and 10. */
const chancesOf = (book: Book, test: Test) => (test.route === "in-salon" ? book.walkIns : book.kitTimes);

/** Rules 8 to 11: the application, or undefined where the calendar has no moment for it. */
export const applicationOf = (book: Book, test: Test, start: Moment): Dated | undefined => {
  const chances = chancesOf(book, test);
  const window = windowOf(test, start);
  const last = lastChance(chances, window.to);
  if (!last || last.at < window.from || last.at < start - LOOKING_S) return undefined;
  if (test.most === null) return { opens: opensOn(book.zone, last.stretch, last.at), due: last.at };
  const first = firstChance(chances, window.from);
  if (!first) throw new Error("a last chance without a first one");
  return { opens: Math.max(window.from, first.stretch.start), due: last.at };
};

/** Rule 15: the last moment of handing over for a collection. */
const handOverFor = (book: Book, collection: Moment, start: Moment): Dated | undefined => {
  const last = lastChance(book.handOvers, collection);
  if (!last || last.at < start - LOOKING_S) return undefined;
  return { opens: opensOn(book.zone, last.stretch, last.at), due: last.at };
};

/** Rule 13: when the walk-in that would take over opens, its greatest lead left aside. */
const nextRouteOpens = (book: Book, start: Moment): Moment => {
  const walkIn = book.tests.find((test) => test.route === "in-salon");
  const application = walkIn && applicationOf(book, { ...walkIn, most: null }, start);
  return application ? application.opens : Number.POSITIVE_INFINITY;
};

/** Rules 12, 14 and 15: the delivery to be had by a moment, and the last hand-over for a collection that makes it. */
const postBy = (book: Book, by: Moment, start: Moment) => {
  const delivery = lastDelivery(book.post, by);
  const collection = lastCollectionFor(book.post, by);
  const isLookedAt = delivery !== undefined && delivery.at >= start - LOOKING_S;
  return {
    arrival: isLookedAt ? { opens: dayStart(book.zone, delivery.day), due: delivery.at } : undefined,
    shipping: collection && handOverFor(book, collection.at, start),
  };
};

/**
 * Rules 12 to 15 for a kit whose application opens at `opens`. Where no hand-over keeps the walk-in (rule 13) and one still
 * makes rule 12, the route fits, so its kit must have a day to be posted: rule 12 alone gives it.
 */
const postOf = (book: Book, opens: Moment, start: Moment) => {
  const must = postBy(book, opens, start);
  const keeps = postBy(book, Math.min(opens, nextRouteOpens(book, start)), start);
  return { lastHandOver: must.shipping?.due, ...(must.shipping && !keeps.shipping ? must : keeps) };
};

/** Rule 16: the screening before `first`, the due of the first step that depends on it. */
const screeningBefore = (book: Book, test: Test, first: Moment): Dated => {
  const plain = first - test.screeningMargin;
  const due = test.screeningMargin === 0 ? plain : lastChance(book.kitTimes, plain)?.at;
  if (due === undefined) throw new Error("no client's hours before the screening");
  return { opens: due - test.screeningOpens, due };
};

/**
 * The steps up to the application; undefined where the calendar has no moment.
 * `instead`: a recorded application that counts, taken as opening and due where the calendar has none (rule 20).
 */
export const untouchedPlan = (book: Book, test: Test, start: Moment, instead?: Moment): Untouched | undefined => {
  const planned = applicationOf(book, test, start);
  const recorded = instead === undefined ? undefined : { opens: instead, due: instead };
  const application = planned ?? recorded;
  if (!application) return undefined;
  const offCalendar = planned === undefined;
  if (test.route === "in-salon") {
    const screening = screeningBefore(book, test, application.due);
    return { screening, shipping: undefined, arrival: undefined, application, offCalendar, lastHandOver: undefined };
  }
  const { lastHandOver, arrival, shipping } = postOf(book, application.opens, start);
  const screening = screeningBefore(book, test, shipping?.due ?? application.due);
  return { screening, shipping, arrival, application, offCalendar, lastHandOver };
};

/** Rule 11, last part: `arrived` moves only the opening of the application. */
export const openedByArrival = (test: Test, start: Moment, application: Dated, arrived: Moment | undefined): Dated => {
  const window = windowOf(test, start);
  const inWindow = arrived !== undefined && window.from <= arrived && arrived <= window.to;
  return inWindow && arrived <= application.due ? { opens: arrived, due: application.due } : application;
};
