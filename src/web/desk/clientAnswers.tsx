/** The health questions a client has answered, with her answers and her consent to their being kept. */
import type { FC } from "hono/jsx";
import type { Consent } from "../../salon/types.ts";
import type { ScreeningShown } from "../../salon/screenings.ts";
import { ANSWER_WORDS, OUTCOME_WORDS } from "../evidenceWords.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly screenings: readonly ScreeningShown[];
  readonly consents: readonly Consent[];
}

export const ClientAnswers: FC<Props> = ({ signed, screenings, consents }) => {
  const context = deskContext(signed);
  if (screenings.length + consents.length === 0) return null;
  return (
    <section class="card">
      <h2>Answers to the health questions</h2>
      {screenings.toReversed().map(({ at, outcome, questions, answers, withdrawn, version }, index) => (
        <details open={index === 0 && outcome === null}>
          <summary>
            {minuteIn(at, context)}: {outcome === null ? "a person has to decide" : (OUTCOME_WORDS[outcome] ?? outcome)}
          </summary>
          {answers === null ? (
            <p class="small">
              Not kept any more: she took her consent back{withdrawn === null ? "" : ` ${minuteIn(withdrawn, context)}`}
              .
            </p>
          ) : (
            <dl class="answered">
              {questions.map(({ id, text }) => {
                const answer = answers[id];
                return (
                  <div>
                    <dt>
                      <Their words={text} />
                    </dt>
                    <dd class={answer === "no" ? undefined : "told"}>
                      {answer === undefined ? "not asked" : ANSWER_WORDS[answer]}
                    </dd>
                  </div>
                );
              })}
            </dl>
          )}
          <p class="small">Version {version} of the questions. The desk changes no answer; it can only ask again.</p>
        </details>
      ))}
      {consents.length === 0 ? null : (
        <p class="small">
          Consent to keeping health answers:{" "}
          {consents.map(({ given, at }) => `${given ? "given" : "taken back"} ${minuteIn(at, context)}`).join("; ")}.
        </p>
      )}
    </section>
  );
};
