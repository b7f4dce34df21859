/** Takes a record into a salon: checked against what is known, appended, and never changed afterwards. */
import { checkFact } from "../plan/factCheck.ts";
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { touch } from "./settle.ts";

/** A record as it comes in: the salon gives it its number and the moment it was told. */
export type FactDraft = Omit<Fact, "id" | "recorded">;

/** Appends a record. Where only the booking is named, the client is that booking's. */
export const addRecord = (keeper: Keeper, draft: FactDraft, at: Instant): Outcome<Fact> => {
  const booking = draft.booking === null ? undefined : keeper.state.bookings.get(draft.booking);
  if (draft.booking !== null && !booking) return fail({ code: "no-such-booking" });
  const client = draft.client ?? booking?.client ?? null;
  if (client === null || !keeper.state.clients.has(client)) return fail({ code: "no-such-client" });
  if (booking && booking.client !== client) return fail({ code: "no-such-booking" });
  const fact: Fact = { ...draft, client, id: `r${keeper.state.nextFact}`, recorded: at };
  const known = [...keeper.state.facts.values()].filter((each) => each.client === client);
  const refusals = checkFact(fact, known, at);
  if (refusals.length > 0) return fail({ code: "record-refused", refusals });
  keeper.change(at, (work) => {
    work.facts.set(fact.id, fact);
    work.nextFact++;
    touch(work, client);
  });
  return succeed(fact);
};

/**
 * Appends what a client tells through her link. Without a booking it is of her next one, or of her last where none is
 * ahead: a reaction may show after the colour.
 */
export const addClientRecord = (keeper: Keeper, client: string, draft: FactDraft, at: Instant): Outcome<Fact> => {
  const mine = [...keeper.state.bookings.values()].filter(
    (booking) => booking.client === client && booking.cancelledAt === null,
  );
  const inOrder = mine.toSorted((a, b) => a.start - b.start);
  const usual = inOrder.find(({ start }) => start >= at) ?? inOrder.at(-1);
  return addRecord(keeper, { ...draft, client, booking: draft.booking ?? usual?.uid ?? null, via: "client-link" }, at);
};
