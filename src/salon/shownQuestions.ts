/**
 * The health questions as they stand now, under a version. Old versions are kept for ever, since answers are read beside
 * the words that were answered. A version is stored when the questions are first asked for after they have changed.
 */
import { consentWords, questionsOf } from "../plan/questions.ts";
import type { Instant } from "../time/instant.ts";
import type { Keeper } from "./keeper.ts";
import type { QuestionsShown, State } from "./types.ts";

type Words = Pick<QuestionsShown, "language" | "consent" | "questions">;

const textOf = ({ language, consent, questions }: Words): string =>
  JSON.stringify([
    language,
    consent,
    questions.map(({ id, text, yes, ground, source }) => [id, text, yes, ground, source]),
  ]);

/** The version last stored; undefined where the questions were never asked for. */
const newestShown = ({ questions }: Pick<State, "questions">): QuestionsShown | undefined =>
  questions.get(String(questions.size));

/** The questions to show at `at`: those stored last, or where settings or code have changed them a new version. */
export const showQuestions = (keeper: Keeper, at: Instant): QuestionsShown => {
  const { settings, state } = keeper;
  const words = {
    language: settings.language,
    consent: consentWords(settings),
    questions: questionsOf(settings),
  };
  const newest = newestShown(state);
  if (newest && textOf(newest) === textOf(words)) return newest;
  const shown: QuestionsShown = { version: (newest?.version ?? 0) + 1, from: at, ...words };
  keeper.change(at, (work) => work.questions.set(String(shown.version), shown));
  return shown;
};
