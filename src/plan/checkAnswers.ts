/**
 * Whether a set of answers is whole: one known answer to every question, none to a question that was not asked, and the
 * consent to keep them. What is wrong is named by the question's id; an answer is never quoted, being about a person's health.
 */
import { ERRORS_MAX } from "../bounds.ts";
import { refusal } from "./refusal.ts";
import { type Answer, ANSWERS, type Question, type Refusal } from "./types.ts";

export type CheckedAnswers =
  | { readonly ok: true; readonly answers: Readonly<Record<string, Answer>> }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

/** Where the answer to a question stands in a request, and in what is said of it. */
export const answerAt = (id: string): string => `answers.${id}`;

const isAnswer = (value: unknown): value is Answer => ANSWERS.some((answer) => answer === value);

const CHOICE = "yes, no or not-sure";
/** What an id of a question looks like. */
const ID = /^[a-z0-9][a-z0-9-]{0,39}$/;

const consentMissing = (): Refusal =>
  refusal({
    code: "consent-missing",
    at: "consent",
    value: null,
    limit: "true",
    reason: "without your agreement the answers may not be kept, and nothing of them was",
    remedy: "agree, or telephone the salon: it then asks you in person",
  });

/**
 * The answers in the order of the questions.
 * @param given what stood under `answers`, of any shape
 */
export const checkAnswers = (questions: readonly Question[], given: unknown, hasConsent: boolean): CheckedAnswers => {
  const told = new Map(typeof given === "object" && given !== null ? Object.entries(given) : []);
  const unanswered = questions.filter(({ id }) => !isAnswer(told.get(id)));
  const unknown = [...told.keys()].filter((name) => !questions.some(({ id }) => id === name));
  const refusals = [
    ...(hasConsent ? [] : [consentMissing()]),
    ...unanswered.map(({ id }) =>
      refusal({
        code: told.has(id) ? "answer-unknown" : "answer-missing",
        at: answerAt(id),
        value: null,
        limit: CHOICE,
        reason: told.has(id) ? "it is something else" : "it is not answered, and no answer is not a no",
        remedy: "answer it; not-sure is an answer too, and a person at the salon then decides",
      }),
    ),
    ...unknown.slice(0, ERRORS_MAX).map((name) =>
      refusal({
        code: "question-unknown",
        // What is no id may be a sentence about her health, and is not said back.
        at: ID.test(name) ? answerAt(name) : "answers",
        value: null,
        limit: "left out",
        reason: "no question of that id is asked",
        remedy: "GET the questions again and answer those",
      }),
    ),
  ];
  if (refusals.length > 0) return { ok: false, refusals };
  return { ok: true, answers: Object.fromEntries(questions.map(({ id }) => [id, told.get(id) as Answer])) };
};
