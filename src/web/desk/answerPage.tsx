/** Every answer to an entry that is kept, the newest first: what it means for entries to come, and how to take it back. */
import type { FC } from "hono/jsx";
import type { EntryAnswer } from "../../diary/answers.ts";
import { minuteIn } from "../minuteIn.ts";
import { AnswerWords, TakeBack } from "./answerWords.tsx";
import { deskContext, type Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { Their } from "./their.tsx";

/** @param from how many newer ones stand on the pages before */
export const AnswerPage: FC<{
  signed: Signed;
  answers: readonly EntryAnswer[];
  from: number;
  size: number;
}> = ({ signed, answers, from, size }) => (
  <DeskPage title="Answers" place="diaries" signed={signed}>
    <h1>
      <a href="/desk/diaries">Diaries</a>: your answers
    </h1>
    <h2>{answers.length === 0 ? "No answer is kept yet" : "What you have said of entries"}</h2>
    <p class="small">
      Each holds for its entry, and for those like it, as long as your words do not settle them. What comes often is
      better written into the <a href="/desk/rules">rules</a> as a word.
    </p>
    {answers.length === 0 ? null : (
      <ul class="roll card">
        {answers.slice(from, from + size).map((answer) => (
          <li>
            <p class="kept-answer">
              <AnswerWords answer={answer} />{" "}
              <span class="small">
                {minuteIn(answer.at, deskContext(signed))}, diary <Their words={answer.diary} />
              </span>
            </p>
            <TakeBack signed={signed} answer={answer} back={signed.here} />
          </li>
        ))}
      </ul>
    )}
    {from + size < answers.length ? (
      <p>
        <a class="button" href={`/desk/answers?from=${from + size}`}>
          Older answers
        </a>
      </p>
    ) : null}
  </DeskPage>
);
