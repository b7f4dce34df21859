/**
 * A second, plain reckoning of counting.md, made from the document alone to check the engine against.
 * Never imports the engine, its zone arithmetic or its settings; nothing here is meant to be fast.
 */
import type { Standing, StepState } from "../../src/plan/types.ts";
import { type Book, openBook } from "./book.ts";
import { earliestOf } from "./earliest.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import { type Moment, momentOf, textOf } from "./moments.ts";
import { type Booking, type Choice, routesOf } from "./routes.ts";
import { choose, isReady, standingOf, statesOf, stopped } from "./standing.ts";
import type { Reckoned, ReckonInput, ReckonRoute } from "./types.ts";

const textOrNull = (moment: Moment | undefined): string | null => (moment === undefined ? null : textOf(moment));

/** Rules 20 and 29 for every route, in the order of rule 21. */
const routeRows = (book: Book, choice: Choice, booking: Booking, now: Moment): ReckonRoute[] =>
  choice.routes.map((each) => {
    const fits = each.until !== undefined && now <= each.until;
    const asksEarliest = !fits && each.test !== undefined && now <= booking.start;
    const dues = each.steps.map((step) => step.due);
    return {
      route: each.route,
      fits,
      until: textOrNull(each.until),
      firstDue: dues.length > 0 ? textOf(Math.min(...dues)) : null,
      earliest: asksEarliest && each.test ? textOrNull(earliestOf(book, each.test, choice, now)) : null,
    };
  });

/** The first of the routes' earliest starts, where no route fits. */
const wholeEarliest = (rows: readonly ReckonRoute[]): Reckoned["earliest"] => {
  if (rows.some((row) => row.fits)) return null;
  let best: Reckoned["earliest"] = null;
  for (const { route, earliest } of rows) {
    if (earliest !== null && (best === null || earliest < best.start)) best = { start: earliest, route };
  }
  return best;
};

/** Rule 23, `past`: what it came to, from all records, whenever they were told. */
const pastCodeOf = (book: Book, known: Evidence, booking: Booking): Reckoned["pastCode"] => {
  if (stopped(known, booking)) return "stop";
  const choice = routesOf(book, known, booking);
  const { route } = choose(book, choice, booking, booking.start);
  return isReady(known, booking, choice, route) ? "ready" : "not-ready";
};

/**
 * Counts back from one booking.
 * `records` of other bookings of the client carry another `booking`; `holidays` close the post and the salon.
 * All instants are RFC 3339 text in UTC. Throws where the settings are such as rule 1, 4 or 8 refuses.
 */
export const reckon = (input: ReckonInput): Reckoned => {
  const now = momentOf(input.now);
  const booking: Booking = { uid: input.booking.uid, start: momentOf(input.booking.start) };
  const book = openBook(input.settings, input.holidays ?? [], booking.start, now);
  const over = now > booking.start;
  const known = evidenceOf(input.records, booking.uid);

  // Rule 23: after B the plan keeps the route and the steps that it had at B. What was done by then stays done, and of all
  // records more may be told since.
  const asOf = Math.min(now, booking.start);
  const then = over ? evidenceOf(input.records, booking.uid, booking.start) : known;
  const choice = routesOf(book, then, booking);
  const chosen = choose(book, choice, booking, asOf);
  const [states, statesThen] = [known, then].map((told) =>
    chosen.route ? statesOf(told, booking, choice, chosen.route, now) : [],
  ) as [StepState[], StepState[]];

  let standing: Standing;
  if (over) standing = "past";
  else if (stopped(known, booking)) standing = "stop";
  else if (isReady(known, booking, choice, chosen.route)) standing = "ready";
  else standing = standingOf(chosen, states, now);

  const routes = routeRows(book, choice, booking, now);
  return {
    route: chosen.route?.route ?? null,
    standing,
    steps: (chosen.route?.steps ?? []).map((step, index) => ({
      kind: step.kind,
      n: step.n,
      opens: textOf(step.opens),
      due: textOf(step.due),
      state: (statesThen[index] === "done" ? "done" : states[index]) ?? "planned",
    })),
    routes,
    earliest: over ? null : wholeEarliest(routes),
    pastCode: over ? pastCodeOf(book, known, booking) : null,
  };
};
