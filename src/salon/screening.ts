/**
 * Takes a client's answers to the health questions: the answers, the consent to keep them and the records that come of
 * them are one change, all kept or nothing. Where a person has to decide, no record is made. Answers are never changed.
 */
import { ANSWERS_PER_DAY_MAX } from "../bounds.ts";
import { checkAnswers } from "../plan/checkAnswers.ts";
import { judgeAnswers } from "../plan/questions.ts";
import type { Fact, Ground, Outcome as Told, Why } from "../plan/types.ts";
import type { Instant } from "../time/instant.ts";
import { aheadOf } from "./aheadOf.ts";
import { circumstancesOf } from "./circumstances.ts";
import { fail, type Outcome, succeed } from "./fault.ts";
import { takeId } from "./inTurn.ts";
import type { Keeper } from "./keeper.ts";
import { touch } from "./settle.ts";
import { showQuestions } from "./shownQuestions.ts";
import type { Booking, Client } from "./types.ts";

/** Answers as they come in: their shape is known, what stands under `answers` is not. */
export interface GivenAnswers {
  /** Of the questions that were answered. */
  readonly version: number;
  readonly consent: boolean;
  readonly answers: unknown;
  /** By `booking.uid`; null: the client's next one. */
  readonly booking: string | null;
}

export interface Answered {
  /** Null: a person at the salon decides. */
  readonly outcome: Told | null;
  readonly why: Why;
  readonly booking: string;
  /** Whether that is the client's next appointment. */
  readonly isNext: boolean;
}

/** Answers of a client who came by her link. Errors: another version, no appointment ahead, answers that are not whole. */
export const answerQuestions = (
  keeper: Keeper,
  client: Client,
  given: GivenAnswers,
  now: Instant,
): Outcome<Answered> => {
  const shown = showQuestions(keeper, now);
  if (given.version !== shown.version) {
    return fail({ code: "questions-changed", given: given.version, current: shown.version });
  }
  const ahead = aheadOf(keeper.state, client.id, now);
  const booking = given.booking === null ? ahead[0] : ahead.find(({ uid }) => uid === given.booking);
  if (!booking) return fail({ code: given.booking === null ? "no-appointment-ahead" : "not-an-appointment-ahead" });
  const today = keeper.desk.rules.zone.startOfDay(keeper.desk.rules.zone.dayAt(now));
  const sets = [...keeper.state.screenings.values()].filter((row) => row.client === client.id && row.at >= today);
  if (sets.length >= ANSWERS_PER_DAY_MAX) return fail({ code: "too-many-answers" });
  const checked = checkAnswers(shown.questions, given.answers, given.consent);
  if (!checked.ok) return fail({ code: "answers-refused", refusals: checked.refusals });
  const { answers } = checked;
  const { outcome, grounds, why } = judgeAnswers(shown.questions, answers, keeper.settings.language);
  keeper.change(now, (work) => {
    const reasons = outcome === null ? [] : grounds.length > 0 ? grounds : [null];
    const before = work.nextFact;
    const facts = reasons.map((reason, index) =>
      screenedFact(`r${work.nextFact + index}`, client, booking, outcome, reason, now),
    );
    const said = { questions: shown.version, words: shown.consent };
    for (const fact of facts) {
      const circumstances = circumstancesOf(keeper, fact, said);
      work.facts.set(fact.id, { ...fact, circumstances, reaction: null });
    }
    work.nextFact += facts.length;
    const id = takeId("s", work);
    const row = { id, client: client.id, booking: booking.uid, at: now, version: shown.version, answers };
    const records = facts.map((fact) => fact.id);
    work.screenings.set(id, { ...row, withdrawn: null, outcome, before, records, via: "client-link" });
    const consent = { id: takeId("k", work), client: client.id, given: true, at: now, words: shown.consent };
    work.consents.set(consent.id, { ...consent, via: "client-link" });
    touch(work, client.id);
  });
  return succeed({ outcome, why, booking: booking.uid, isNext: booking.uid === ahead[0]?.uid });
};

/** One record a ground, so that a later correction of one leaves the others standing (counting.md 24). */
const screenedFact = (
  id: string,
  client: Client,
  booking: Booking,
  outcome: Told | null,
  reason: Ground | null,
  at: Instant,
): Fact => ({
  id,
  client: client.id,
  booking: booking.uid,
  kind: "screened",
  at,
  recorded: at,
  outcome,
  route: null,
  by: null,
  via: "client-link",
  product: null,
  shade: null,
  batch: null,
  site: null,
  photo: null,
  reason,
  note: null,
  corrects: null,
});
