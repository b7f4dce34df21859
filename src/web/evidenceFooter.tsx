/** What stands below the records: the answers, consent, who was taken for whom, sources of the rules, cautions, and lines to sign on. */
import type { FC } from "hono/jsx";
import type { Evidence } from "../salon/evidence.ts";
import type { Answer } from "../plan/types.ts";
import type { ScreeningShown } from "../salon/screenings.ts";
import { decisionWords } from "./decisionWords.ts";
import { ANSWER_WORDS, shortZoned, sourcesOf, wordsShown } from "./evidenceWords.ts";

export const EvidenceFooter: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, until, at } = evidence;
  const { zone } = settings;
  const told = [...evidence.records, ...evidence.earlier].map(({ record }) => record);
  return (
    <>
      {evidence.screenings.map((screening) => (
        <Answers screening={screening} zone={zone} />
      ))}
      <Decisions evidence={evidence} />
      <div class="small run">
        {wordsShown(told).map(([ids, words]) => (
          <p>
            Words shown ({ids}): “{words}”
          </p>
        ))}
        {sourcesOf(told).map(([rule, source]) => (
          <p>
            Rule {rule}: {source}
          </p>
        ))}
      </div>
      <p class="small">
        A clear test does not mean that no reaction will happen. The product's own instructions, the insurer and local
        rules win over any time given here. Made {shortZoned(at, zone)}
        {until === null ? "." : `; these records are kept until ${shortZoned(until, zone)}.`}
      </p>
      <p class="small signing">I have read what is recorded above. Signing agrees to nothing and takes nothing back.</p>
      <div class="signatures">
        {["Client: name, signature, date", "For the salon: name, signature, date"].map((who) => (
          <p>
            <span class="line" />
            {who}
          </p>
        ))}
      </div>
    </>
  );
};

const Answers: FC<{ screening: ScreeningShown; zone: string }> = ({ screening, zone }) => {
  const { id, at, version, answers, withdrawn, questions } = screening;
  return (
    <>
      <h3>
        Answers of {shortZoned(at, zone)}, version {version} of the questions ({id})
      </h3>
      {answers === null ? (
        <p>Not kept any more: consent withdrawn{withdrawn === null ? "" : ` ${shortZoned(withdrawn, zone)}`}.</p>
      ) : (
        <ul class="answers">
          {questions.map((question) => (
            <li>
              {question.text} <strong>{answerOf(answers, question.id)}</strong>
            </li>
          ))}
        </ul>
      )}
    </>
  );
};

const answerOf = (answers: Readonly<Record<string, Answer>>, id: string): string => {
  const answer = answers[id];
  return answer === undefined ? "not asked" : ANSWER_WORDS[answer];
};

const Decisions: FC<{ evidence: Evidence }> = ({ evidence: { client, decisions, consents, settings } }) =>
  decisions.length + consents.length === 0 ? null : (
    <>
      <h3>Consent, and who the client is</h3>
      {consents.map(({ given, at }) => (
        <p>
          {shortZoned(at, settings.zone)}: consent to keeping health answers {given ? "given" : "withdrawn"}
        </p>
      ))}
      {decisions.map((deed) => (
        <p>
          {shortZoned(deed.at, settings.zone)}: {decisionWords(deed, client.id)}
        </p>
      ))}
    </>
  );
