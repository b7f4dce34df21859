/**
 * The form of the health questions, and what was wrong with one that was sent: each question without an answer is marked
 * and named at the top. What was chosen stays chosen, unless the questions have changed meanwhile.
 */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import type { Catalogue } from "../feed/language/catalogue.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { FeedContext } from "../feed/types.ts";
import { answerAt } from "../plan/checkAnswers.ts";
import type { Plan, Question } from "../plan/types.ts";
import type { QuestionsAsked } from "../salon/askQuestions.ts";
import type { AnyFault } from "./problems.ts";

/** A form that was sent and not kept. */
export interface Tried {
  readonly fault: AnyFault;
  /** What was chosen, by the question's id. */
  readonly chosen: ReadonlyMap<string, string>;
  readonly agreed: boolean;
}

type Words = Catalogue["questions"];

const refusedAt = (tried: Tried | null, at: string): boolean =>
  tried?.fault.code === "answers-refused" && tried.fault.refusals.some((refusal) => refusal.at === at);

const fieldOf = (id: string, answer: string): string => `q-${id}-${answer}`;
const CONSENT = "consent";

export const QuestionsForm: FC<{ asked: QuestionsAsked; plan: Plan; context: FeedContext; tried: Tried | null }> = ({
  asked: { shown },
  plan,
  context,
  tried,
}) => {
  const { settings } = context;
  const { questions: words, missing } = catalogueOf(settings.language);
  const phone = settings.contact.phone ?? missing.phone;
  const kept = tried && tried.fault.code !== "questions-changed" ? tried : null;
  return (
    <form method="post" action={`${context.pageUrl ?? ""}/screening`} autocomplete="off" class="questions">
      {tried ? <Faults tried={tried} questions={shown.questions} words={words} phone={phone} /> : null}
      <p>{words.answerAll}</p>
      <input type="hidden" name="version" value={String(shown.version)} />
      <input type="hidden" name="booking" value={plan.booking.uid} />
      {shown.questions.map((question, index) => (
        <Fieldset
          question={question}
          number={index + 1}
          chosen={kept?.chosen.get(question.id)}
          isRefused={refusedAt(tried, answerAt(question.id))}
          words={words}
        />
      ))}
      <details class="small">
        <summary>{words.sources}</summary>
        <ol>
          {shown.questions.map(({ text, source }) => (
            <li>
              {text} <em>{source}</em>
            </li>
          ))}
        </ol>
      </details>
      <h3>{words.agreeHeading}</h3>
      <label class={refusedAt(tried, CONSENT) ? "choice wide refused" : "choice wide"} for={CONSENT}>
        <input
          type="checkbox"
          name="consent"
          value="true"
          id={CONSENT}
          checked={kept?.agreed === true}
          aria-invalid={refusedAt(tried, CONSENT) ? "true" : undefined}
        />
        <span>{shown.consent}</span>
      </label>
      <p class="small">
        <a href="/privacy">{words.privacy}</a>
      </p>
      <button type="submit" class="button first">
        {words.send}
      </button>
    </form>
  );
};

const Fieldset: FC<{
  question: Question;
  number: number;
  chosen: string | undefined;
  isRefused: boolean;
  words: Words;
}> = ({ question: { id, text }, number, chosen, isRefused, words }) => (
  <fieldset
    role="radiogroup"
    class={isRefused ? "refused" : undefined}
    aria-invalid={isRefused ? "true" : undefined}
    aria-describedby={isRefused ? fieldOf(id, "mark") : undefined}
  >
    <legend>
      {number}. {text}
    </legend>
    {isRefused ? (
      <p class="mark" id={fieldOf(id, "mark")}>
        {words.faults.mark}
      </p>
    ) : null}
    <div class="choices">
      {(
        [
          ["yes", words.answers.yes],
          ["no", words.answers.no],
          ["not-sure", words.answers.notSure],
        ] as const
      ).map(([answer, label]) => (
        <label class="choice" for={fieldOf(id, answer)}>
          <input type="radio" name={answerAt(id)} value={answer} id={fieldOf(id, answer)} checked={chosen === answer} />
          <span>{label}</span>
        </label>
      ))}
    </div>
  </fieldset>
);

/** What was wrong, above all else in the form, each with a link to where it is mended. */
const Faults: FC<{ tried: Tried; questions: readonly Question[]; words: Words; phone: string }> = ({
  tried,
  questions,
  words,
  phone,
}) => {
  const { faults } = words;
  const unanswered = questions.flatMap(({ id }, index) =>
    refusedAt(tried, answerAt(id)) ? [{ id, number: String(index + 1) }] : [],
  );
  const isConsent = refusedAt(tried, CONSENT);
  return (
    <div class="faults" role="alert">
      <h3>{faults.heading}</h3>
      {unanswered.length + Number(isConsent) > 0 ? (
        <ul>
          {unanswered.map(({ id, number }) => (
            <li>
              <a href={`#${fieldOf(id, "yes")}`}>{fill(faults.unanswered, { number })}</a>
            </li>
          ))}
          {isConsent ? (
            <li>
              <a href={`#${CONSENT}`}>{fill(faults.consent, { phone })}</a>
            </li>
          ) : null}
        </ul>
      ) : (
        <p>{fill(wholeFault(tried.fault, faults), { phone })}</p>
      )}
    </div>
  );
};

const wholeFault = ({ code }: AnyFault, faults: Words["faults"]): string => {
  if (code === "questions-changed") return faults.changed;
  return code === "not-an-appointment-ahead" ? faults.notAhead : faults.other;
};
