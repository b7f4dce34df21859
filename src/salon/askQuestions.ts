/** The health questions as one client is asked them: for which appointment, and what she has answered for it already. */
import type { Plan } from "../plan/types.ts";
import { eventUid } from "../plan/uid.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { aheadOf } from "./aheadOf.ts";
import type { Keeper } from "./keeper.ts";
import { EVERY_PLAN, plansOf } from "./plans.ts";
import { showQuestions } from "./shownQuestions.ts";
import type { Client, QuestionsShown, Screening } from "./types.ts";

export interface QuestionsAsked {
  readonly settings: Settings;
  readonly shown: QuestionsShown;
  /** Of the appointment they are asked for; null: none is ahead. */
  readonly plan: Plan | null;
  /** Whether that is her next one. */
  readonly isNext: boolean;
  /** What she answered for it last; null: nothing yet. */
  readonly answered: Pick<Screening, "at" | "outcome"> | null;
}

/** @param appointment the UID of an appointment's `colour` event; null, or of none that is ahead: her next one is meant */
export const askQuestions = (
  keeper: Keeper,
  client: Client,
  appointment: string | null,
  now: Instant,
): QuestionsAsked => {
  const shown = showQuestions(keeper, now);
  const { state, settings, desk } = keeper;
  const { namespace } = desk.rules;
  const ahead = aheadOf(state, client.id, now);
  const booking = ahead.find(({ uid }) => eventUid(namespace, uid, "colour", null) === appointment) ?? ahead[0];
  const last = [...state.screenings.values()].findLast(
    (row) => row.client === client.id && row.booking === booking?.uid,
  );
  const { plans } = plansOf(state, desk.rules, { ...EVERY_PLAN, client: client.id }, now);
  return {
    settings,
    shown,
    plan: plans.find((plan) => plan.booking.uid === booking?.uid) ?? null,
    isNext: booking?.uid === ahead[0]?.uid,
    answered: last ? { at: last.at, outcome: last.outcome } : null,
  };
};
