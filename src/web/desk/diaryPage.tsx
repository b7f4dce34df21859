/** The diaries of the salon: what was read of each, what was not and why, and what a person can do about it. */
import type { FC } from "hono/jsx";
import { DIARIES_MAX, DIARY_URL_MAX, TEXT_MAX } from "../../bounds.ts";
import type { DiaryNews } from "../../salon/diaryNews.ts";
import { DiaryCard } from "./diaryCard.tsx";
import type { Signed } from "./desk.ts";
import { Faults, Field } from "./field.tsx";
import { DeskPage } from "./frame.tsx";
import { Fields, Press } from "./press.tsx";
import type { Refused } from "./readFields.ts";

interface Props {
  readonly signed: Signed;
  readonly news: readonly DiaryNews[];
  /** The form for one more diary as it was sent, where it was refused. */
  readonly refused: Refused | null;
}

export const DiaryPage: FC<Props> = ({ signed, news, refused }) => {
  const urls = new Map(signed.head.settings.diaries.map(({ name, url }) => [name, url]));
  const toAnswer = news.reduce((sum, { counts }) => sum + counts.unsorted, 0);
  const isPulled = news.some(({ report }) => urls.get(report.name));
  return (
    <DeskPage title="Diaries" place="diaries" signed={signed}>
      <h1>Diaries</h1>
      <div class="diaries">
        <div class="actions">
          {isPulled ? (
            <Press signed={signed} to="/desk/diaries/refresh" fields={{}} label="Read them all now" kind="first" />
          ) : null}
          <a class="button" href={`/desk/entries?state=${toAnswer === 0 ? "booking" : "unsorted"}`}>
            {toAnswer === 0 ? "All entries" : `Entries to answer: ${toAnswer}`}
          </a>
          <a class="button" href="/desk/answers">
            Your answers so far
          </a>
        </div>
        {news.map((each) => (
          <DiaryCard signed={signed} news={each} url={urls.get(each.report.name) ?? null} />
        ))}
        <AddForm signed={signed} isFull={news.length >= DIARIES_MAX} refused={refused} />
      </div>
    </DeskPage>
  );
};

export const DIARY_LABELS = { name: "Name", url: "Address of its iCalendar feed" } as const;

const AddForm: FC<{ signed: Signed; isFull: boolean; refused: Refused | null }> = ({ signed, isFull, refused }) =>
  isFull ? (
    <p class="small">A salon keeps at most {DIARIES_MAX} diaries. Take one away before you add another.</p>
  ) : (
    <details class="card" open={refused !== null} id="add">
      <summary>Add a diary</summary>
      <p class="small">
        One for each calendar: a stylist's, or a chair's. The address is found in the calendar program, where it offers
        the calendar as iCal, ICS or a secret address. Without an address it is a diary that you bring as a file.
      </p>
      <Faults refused={refused} idOf={(at) => `diary-${at}`} />
      <form method="post" action="/desk/diaries" class="stack">
        <Fields signed={signed} back="/desk/diaries" />
        <Field id="diary-name" name="name" label={DIARY_LABELS.name} refused={refused} maxlength={TEXT_MAX} required />
        <Field
          id="diary-url"
          name="url"
          label={`${DIARY_LABELS.url} (if it has one)`}
          refused={refused}
          maxlength={DIARY_URL_MAX}
        />
        <button type="submit" class="first">
          Add the diary
        </button>
      </form>
    </details>
  );
