/** The entries of the diaries by what they were taken for; those that nothing settled are answered here, one press each. */
import type { FC } from "hono/jsx";
import type { EntryAnswer } from "../../diary/answers.ts";
import { ENTRY_STATES, type EntryCursor, type EntryShown, type EntryState } from "../../salon/entries.ts";
import { entryCursor } from "../doors.ts";
import { AnsweredNote } from "./answerWords.tsx";
import { diaryRef } from "./diaryRef.ts";
import type { Signed } from "./desk.ts";
import { EntryItem } from "./entryItem.tsx";
import { DeskPage } from "./frame.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

export interface EntryList {
  readonly state: EntryState;
  /** Of one diary; null: of all. */
  readonly diary: string | null;
  readonly entries: readonly EntryShown[];
  readonly next: EntryCursor | null;
  readonly counts: Readonly<Record<EntryState, number>>;
}

interface Props {
  readonly signed: Signed;
  readonly list: EntryList;
  /** What was answered by the press that led here. */
  readonly answered: EntryAnswer | null;
  /** An answer as it was sent, where it was refused, and of which entry. */
  readonly refused: { readonly id: string; readonly answer: Refused } | null;
}

export const STATE_WORDS: Readonly<Record<EntryState, string>> = {
  unsorted: "To answer",
  booking: "Colour",
  test: "Skin test",
  "not-colour": "Not a colour",
  "not-certain": "Could not be read",
};

/** @param after where the page begins; null: at the first */
export const entriesAddress = (state: EntryState, diary: string | null, after: EntryCursor | null = null): string => {
  const query = new URLSearchParams({ state });
  if (diary !== null) query.set("diary", diaryRef(diary));
  if (after !== null) query.set("after", entryCursor(after));
  return `/desk/entries?${query.toString()}`;
};

export const EntryPage: FC<Props> = ({ signed, list, answered, refused }) => {
  const { state, diary, entries, next, counts } = list;
  return (
    <DeskPage title="Entries" place="diaries" signed={signed}>
      <h1>
        <a href="/desk/diaries">Diaries</a>: entries
        {diary === null ? null : (
          <>
            {" "}
            of <Their words={diary} /> (<a href={entriesAddress(state, null)}>of all</a>)
          </>
        )}
      </h1>
      <nav class="tabs" aria-label="What they were taken for">
        <ul>
          {ENTRY_STATES.map((each) => (
            <li>
              <a href={entriesAddress(each, diary)} aria-current={each === state ? "page" : undefined}>
                {STATE_WORDS[each]} <span class="count">{counts[each]}</span>
              </a>
            </li>
          ))}
        </ul>
      </nav>
      {answered === null ? null : <AnsweredNote signed={signed} answer={answered} back={signed.here} />}
      <Heading state={state} count={counts[state]} />
      <ol class="entries">
        {entries.map((entry) => (
          <EntryItem
            signed={signed}
            entry={entry}
            refused={refused?.id === entry.id ? refused.answer : null}
            isAsked={state === "unsorted"}
          />
        ))}
      </ol>
      {next === null ? null : (
        <p>
          <a class="button" href={entriesAddress(state, diary, next)}>
            More entries
          </a>
        </p>
      )}
      <p>
        <a href="/desk/answers">Every answer that is kept</a>, to look through or take back.
      </p>
    </DeskPage>
  );
};

const Heading: FC<{ state: EntryState; count: number }> = ({ state, count }) => {
  const words: Readonly<Record<EntryState, readonly [some: string, none: string, small: string]>> = {
    unsorted: [
      count === 1 ? "What is this entry?" : `What are these ${count} entries?`,
      "Every entry is understood",
      "Your words did not settle these. Each answer is kept, and entries like it are taken for the same from then on. Until one is answered, nothing is counted back for it.",
    ],
    booking: [
      "Taken for colour appointments",
      "No colour appointment in sight",
      "Deadlines are counted back from each.",
    ],
    test: ["Taken for skin tests", "No skin test in sight", "Each is the planned test of the client it names."],
    "not-colour": ["Taken for something else", "Nothing else in sight", "Nothing is counted back for these."],
    "not-certain": [
      "When these are cannot be read",
      "Every entry could be read",
      "A wrong time is worse than none, so nothing is counted back for these. Mend them in the diary as each line says.",
    ],
  };
  const [some, none, small] = words[state];
  return (
    <>
      <h2>{count === 0 ? none : some}</h2>
      {count === 0 ? null : <p class="small">{small}</p>}
    </>
  );
};
