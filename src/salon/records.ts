/** Takes a record into a salon: checked against what is known, appended, and never changed afterwards. */
import { checkFact } from "../plan/factCheck.ts";
import { targetOf, withoutCorrected } from "../plan/ledger.ts";
import { refusal } from "../plan/refusal.ts";
import type { Fact } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { factsByClient } from "./factsByClient.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { touch } from "./settle.ts";

/** A record as it comes in: the salon gives it its number and the moment it was told. */
export type FactDraft = Omit<Fact, "id" | "recorded">;

/** Kinds that mean nothing without a booking: where none is named, the client's next one is meant. */
const OF_A_BOOKING: ReadonlySet<Fact["kind"]> = new Set([
  "screened",
  "posted",
  "arrived",
  "applied",
  "removed",
  "confirmed",
  "route",
]);

const OF_NOBODY = refusal({
  code: "record-of-nobody",
  at: "client",
  value: null,
  limit: "given, or booking",
  reason: "a record is of one person",
  remedy: "write the client's id, or the uid of a booking of hers",
});

/** The client's next booking, or her last where none is ahead: a reaction may show after the colour. */
const usualBooking = (keeper: Keeper, client: string, at: Instant): string | undefined => {
  const mine = [...keeper.state.bookings.values()].filter(
    (each) => each.client === client && each.cancelledAt === null,
  );
  const inOrder = mine.toSorted((a, b) => a.start - b.start);
  return (inOrder.find(({ start }) => start >= at) ?? inOrder.at(-1))?.uid;
};

/** A correction that names no record means the one it finds now: kept with its name, so that no later telling turns it. */
const named = (fact: Fact, known: readonly Fact[]): Fact => {
  if (fact.kind !== "correction" || fact.corrects !== null) return fact;
  return { ...fact, corrects: targetOf(fact, withoutCorrected(known))?.id ?? null };
};

/** Appends a record. Where only the booking is named, the client is that booking's. */
export const addRecord = (keeper: Keeper, draft: FactDraft, at: Instant): Outcome<Fact> => {
  const booking = draft.booking === null ? undefined : keeper.state.bookings.get(draft.booking);
  if (draft.booking !== null && !booking) return fail({ code: "no-such-booking" });
  const client = draft.client ?? booking?.client ?? null;
  if (client === null) return fail({ code: "record-refused", refusals: [OF_NOBODY] });
  if (draft.booking === null && OF_A_BOOKING.has(draft.kind)) {
    const usual = usualBooking(keeper, client, at);
    if (usual) return addRecord(keeper, { ...draft, client, booking: usual }, at);
  }
  if (!keeper.state.clients.has(client)) return fail({ code: "no-such-client" });
  if (booking && booking.client !== client) return fail({ code: "no-such-booking" });
  const told: Fact = { ...draft, client, id: `r${keeper.state.nextFact}`, recorded: at };
  const known = factsByClient(keeper.state.facts, keeper.state.bookings).get(client) ?? [];
  const fact = named(told, known);
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
 * Appends what a client tells through her link; without a booking it is of her next one. That something shows is never
 * lost for a time that cannot be: it is then of now.
 */
export const addClientRecord = (keeper: Keeper, client: string, draft: FactDraft, at: Instant): Outcome<Fact> => {
  const booking = draft.booking ?? usualBooking(keeper, client, at) ?? null;
  const happened = draft.kind === "reacted" ? Math.min(draft.at, at) : draft.at;
  return addRecord(keeper, { ...draft, client, booking, at: happened, via: "client-link" }, at);
};
