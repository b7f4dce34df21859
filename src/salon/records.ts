/** Takes a record into a salon: checked against what is known, appended, and never changed afterwards. */
import { reportWords } from "../feed/reportWords.ts";
import { checkFact } from "../plan/factCheck.ts";
import { isReaction, targetOf, withoutCorrected } from "../plan/ledger.ts";
import { refusal } from "../plan/refusal.ts";
import type { Fact, Refusal } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { byStart } from "./byStart.ts";
import { circumstancesOf } from "./circumstances.ts";
import { factsByClient, isStop } from "./factsByClient.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import type { Keeper } from "./keeper.ts";
import { personOf } from "./owners.ts";
import { touch } from "./settle.ts";
import type { Booking, Recorded, ReactionReport } from "./types.ts";

/** A record as it comes in: the salon gives it its number and the moment it was told. */
export interface FactDraft extends Omit<Fact, "id" | "recorded"> {
  /** What was read by who tells it; null: nothing of ours. */
  readonly words: string | null;
  /** The version of the health questions that was answered, of a `screened`; null: not said. */
  readonly questions: number | null;
  /** Where a reaction is described. */
  readonly reaction: ReactionReport | null;
}

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

/** A reaction is described where one is told, or in a note that adds to what was told. */
export const checkReaction = (fact: Fact, reaction: ReactionReport | null): readonly Refusal[] =>
  reaction === null || isReaction(fact) || fact.kind === "note"
    ? []
    : [
        refusal({
          code: "reaction-misplaced",
          at: "reaction",
          value: null,
          limit: "absent, unless the record is a reacted, a read of a reaction, or a note",
          reason: "it describes a reaction that showed",
          remedy: "record the reaction as reacted, or add what is known of it in a note",
        }),
      ];

export const checkQuestions = ({ state }: Keeper, version: number | null): readonly Refusal[] =>
  version === null || state.questions.has(String(version))
    ? []
    : [
        refusal({
          code: "questions-unknown",
          at: "questions",
          value: String(version),
          limit: `a version of the questions that was shown, at most ${state.questions.size}`,
          reason: "an answer is read beside the words that were answered",
          remedy: "write the version that was asked, or leave it out",
        }),
      ];

/**
 * The client's next booking, or her last where none is ahead: a reaction may show after the colour. Of one who was joined with
 * another first of all one under her own name.
 */
const usualBooking = (keeper: Keeper, named: string, at: Instant): string | undefined => {
  const client = personOf(keeper.state.clients, named);
  const all = [...keeper.state.bookings.values()].filter((each) => each.client === client && each.cancelledAt === null);
  const own = all.filter(({ under }) => under === named);
  const mine = own.length > 0 ? own : all;
  const inOrder = mine.toSorted(byStart);
  return (inOrder.find(({ start }) => start >= at) ?? inOrder.at(-1))?.uid;
};

/**
 * A correction that names no record means the one it finds now: kept with its name, so that no later telling turns it. A
 * reaction is kept whatever else is written beside it, and sets nothing aside.
 */
export const named = (fact: Fact, known: readonly Fact[]): Fact => {
  if (fact.kind === "reacted") return { ...fact, corrects: null };
  if (fact.kind !== "correction" || fact.corrects !== null) return fact;
  return { ...fact, corrects: targetOf(fact, withoutCorrected(known))?.id ?? null };
};

/** Whether an appointment of hers still stands under this client's own name. */
const hasOwn = ({ state }: Keeper, client: string): boolean =>
  [...state.bookings.values()].some(({ under }) => under === client);

/**
 * Whom a record was told of: of an appointment, whom the diary names there. One who was joined with her and has no appointment
 * of her own is told of herself. Whose it is follows from that.
 */
const toldOf = (keeper: Keeper, client: string | null, booking: Booking | undefined): string | null =>
  booking && (client === null || client === booking.under || hasOwn(keeper, client)) ? booking.under : client;

/**
 * Appends a record. Where only the booking is named, the client is that booking's. What stops somebody known is kept without an
 * appointment that is not hers, or not there any more.
 */
export const addRecord = (keeper: Keeper, draft: FactDraft, at: Instant): Outcome<Recorded> => {
  const { clients } = keeper.state;
  const booking = draft.booking === null ? undefined : keeper.state.bookings.get(draft.booking);
  const client = draft.client === null ? (booking?.client ?? null) : personOf(clients, draft.client);
  if (draft.booking !== null && booking?.client !== client) {
    if (isStop(draft) && clients.get(client ?? "")) return addRecord(keeper, { ...draft, booking: null }, at);
    return fail({ code: "no-such-booking" });
  }
  const told = toldOf(keeper, draft.client, booking);
  if (client === null) return fail({ code: "record-refused", refusals: [OF_NOBODY] });
  if (draft.booking === null && OF_A_BOOKING.has(draft.kind)) {
    const usual = usualBooking(keeper, draft.client ?? client, at);
    if (usual) return addRecord(keeper, { ...draft, booking: usual }, at);
  }
  // Of one who was erased and of whom an appointment is kept, that something shows is still told.
  const isLate = draft.kind === "reacted" && booking !== undefined && clients.has(client);
  if (clients.get(client)?.erased !== null && !isLate) return fail({ code: "no-such-client" });
  const { words, questions, reaction, ...said } = draft;
  const bare: Fact = { ...said, client: told ?? client, id: `r${keeper.state.nextFact}`, recorded: at };
  const known = factsByClient(keeper.state).get(client) ?? [];
  const fact = named(bare, known);
  const refusals = [
    ...checkFact(fact, known, at),
    ...checkReaction(fact, reaction),
    ...checkQuestions(keeper, questions),
  ];
  if (refusals.length > 0) return fail({ code: "record-refused", refusals });
  const circumstances = circumstancesOf(keeper, fact, { questions, words });
  const recorded: Recorded = { ...fact, circumstances, reaction };
  keeper.change(at, (work) => {
    work.facts.set(fact.id, recorded);
    work.nextFact++;
    touch(work, client);
  });
  return succeed(recorded);
};

/**
 * Appends what a client tells through her link; without a booking it is of her next one. That something shows is never
 * lost for a time that cannot be: it is then of now.
 * @param isPressed she pressed what her page offers, and read its words
 */
export const addClientRecord = (
  keeper: Keeper,
  client: string,
  draft: FactDraft,
  isPressed: boolean,
  at: Instant,
): Outcome<Recorded> => {
  const words = isPressed ? reportWords(draft, keeper.settings.language) : null;
  const booking = draft.booking ?? usualBooking(keeper, client, at) ?? null;
  const happened = draft.kind === "reacted" ? Math.min(draft.at, at) : draft.at;
  return addRecord(keeper, { ...draft, client, booking, at: happened, via: "client-link", words }, at);
};
