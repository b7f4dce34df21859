/**
 * The health questions, and what their answers mean for a booking (counting.md 23). The first four are the published
 * label's warnings put as questions, and are always asked. No answer decides that a colour may be done: a `pass` only
 * says that no ground against it was told.
 */
import type { Settings } from "../settings.ts";
import type { Answer, Ground, Outcome, Question, Why } from "./types.ts";

/** What a set of answers comes to. */
export interface AnswersJudged {
  /** Null: at least one "not sure", and a person at the salon decides. */
  readonly outcome: Extract<Outcome, "pass" | "test-needed" | "do-not-colour"> | null;
  /** The grounds of a `do-not-colour`, the one that reaches farthest last. */
  readonly grounds: readonly Ground[];
  readonly why: Why;
}

const LABEL =
  "the published label's warning: Regulation (EC) No 1223/2009, Annex III, as amended by Regulation (EU) No 344/2013";
const PRACTICE = "common practice, no source";

/** Asked whatever a salon sets, in these words: other words could turn a yes into a no. */
const OF_THE_LABEL: readonly Question[] = [
  {
    id: "under-16",
    text: "Are you under 16 today?",
    yes: "do-not-colour",
    ground: "under-16",
    source: `${LABEL}; NHBF, "Allergy alert testing": no colour and no test under 16`,
  },
  {
    id: "scalp",
    text: "Do you have a rash on your face, or a sensitive, irritated or damaged scalp?",
    yes: "do-not-colour",
    ground: "other",
    source: LABEL,
  },
  {
    id: "past-reaction",
    text: "Have you ever had any reaction after colouring your hair?",
    yes: "do-not-colour",
    ground: "past-reaction",
    source: LABEL,
  },
  {
    id: "tattoo-reaction",
    text: "Have you ever had a reaction to a temporary black tattoo (“black henna”)?",
    yes: "do-not-colour",
    ground: "past-reaction",
    source: LABEL,
  },
];

/** Asked besides, where a salon sets no questions of its own. */
const OF_CHANGES: readonly Question[] = [
  {
    id: "tattoo",
    text: "Have you had a temporary black tattoo since your last skin test, even without a reaction?",
    yes: "test-needed",
    ground: null,
    source: 'NHBF, "Allergy alert testing"',
  },
  {
    id: "elsewhere",
    text: "Has your hair been coloured anywhere else, at home too, since your last skin test?",
    yes: "test-needed",
    ground: null,
    source: PRACTICE,
  },
  {
    id: "product",
    text: "Is your colour to be done with another product than your last skin test?",
    yes: "test-needed",
    ground: null,
    source: 'NHBF, "Allergy alert testing"; Freelance Hair Association, skin test protocol',
  },
  {
    id: "health",
    text: "Have you been ill, or started a new medicine, since your last skin test?",
    yes: "test-needed",
    ground: null,
    source: PRACTICE,
  },
];

const CONSENT =
  "I agree that {salon} keeps these answers about my health, to decide about skin tests and colour and to be able to show later what was asked. I can withdraw this at any time on my page.";

const spell = (text: string, language: Settings["language"]): string =>
  language === "en-US" ? text.replaceAll("olour", "olor") : text;

/** The questions of a salon, in the order they are asked: the label's four, then its own or the usual four. */
export const questionsOf = ({ questions: own, language }: Settings): readonly Question[] => {
  const inLanguage = (question: Question): Question => ({ ...question, text: spell(question.text, language) });
  const label = OF_THE_LABEL.map(inLanguage);
  if (own === null) return [...label, ...OF_CHANGES.map(inLanguage)];
  return [
    ...label,
    ...own.map(({ id, text, yes, ground, source }) => ({
      id,
      text,
      yes,
      ground: yes === "do-not-colour" ? (ground ?? "other") : null,
      source: source ?? "the salon's own question, no source",
    })),
  ];
};

/** Whether an id is one of the label's questions, which are asked as they stand. */
export const isOfLabel = (id: string): boolean => OF_THE_LABEL.some((each) => each.id === id);

/** The statement that keeping the answers rests on; a client agrees to it on its own, and may withdraw. */
export const consentWords = ({ name, language }: Settings): string =>
  spell(CONSENT, language).replace("{salon}", () => name);

/** The one that reaches farthest last: a past reaction stops every booking, an under-16 and another ground this one. */
const REACH: readonly Ground[] = ["other", "under-16", "past-reaction"];

const TEXTS = {
  pass: "Thank you. Your answers are with the salon. A person there still decides on the day.",
  "test-needed":
    "Thank you. By your answers a new skin test is needed before this appointment: an earlier clear result does not count.",
  "do-not-colour":
    "Thank you. Because of what you answered, please do not colour your hair and do not put a skin test on. A person at the salon will look at it and speak to you.",
  "person-decides":
    "Thank you. You were not sure of an answer, so a person at the salon looks at it first and decides.",
} as const;

/**
 * What a whole set of answers comes to. One `yes` to a ground against colouring stops, whatever else is not sure; short
 * of that a single "not sure" leaves it to a person. Errors: none, but every question must have its answer.
 */
export const judgeAnswers = (
  questions: readonly Question[],
  answers: Readonly<Record<string, Answer>>,
  language: Settings["language"],
): AnswersJudged => {
  const told = new Set(questions.filter(({ id }) => answers[id] === "yes").map(({ yes, ground }) => ground ?? yes));
  const grounds = REACH.filter((ground) => told.has(ground));
  const isUnsure = questions.some(({ id }) => answers[id] !== "yes" && answers[id] !== "no");
  const outcome =
    grounds.length > 0 ? "do-not-colour" : isUnsure ? null : told.has("test-needed") ? "test-needed" : "pass";
  const code = outcome ?? "person-decides";
  return { outcome, grounds, why: { code, text: spell(TEXTS[code], language) } };
};
