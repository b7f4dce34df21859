/** One diary at the desk: its last reading, what it gave, what it did not give and why, and the file or the address it comes by. */
import type { FC } from "hono/jsx";
import type { DiaryNews } from "../../salon/diaryNews.ts";
import type { EntryState } from "../../salon/entries.ts";
import type { DiaryReport } from "../../salon/types.ts";
import { parseInstant } from "../../time/instant.ts";
import { minuteIn } from "../minuteIn.ts";
import { diaryRef } from "./diaryRef.ts";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { Fields, Press } from "./press.tsx";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly news: DiaryNews;
  /** With its user and password masked; null: it comes as a file. */
  readonly url: string | null;
}

const STATUS_WORDS: Readonly<Record<DiaryReport["status"], readonly [shape: string, words: string]>> = {
  read: ["✓", "Read"],
  unchanged: ["✓", "Read, nothing new"],
  held: ["?", "Held back until you decide"],
  refused: ["✕", "Not read"],
  "never-read": ["○", "Never read"],
};

export const DiaryCard: FC<Props> = ({ signed, news, url }) => {
  const { report, counts, unread, lastGood, nextPoll, calendarName, producer } = news;
  const { name, status, reason, held } = report;
  const context = deskContext(signed);
  const [shape, words] = STATUS_WORDS[status];
  return (
    <section class="card" id={`d-${diaryRef(name)}`}>
      <h2>
        <Their words={name} />
      </h2>
      <p>
        <strong class={status === "refused" ? "turn is-alarm" : "turn"}>
          <span aria-hidden="true">{shape}</span> {words}
        </strong>
        {status === "never-read" ? null : `, ${minuteIn(report.at, context)}`}
        {lastGood === null || lastGood === report.at ? "" : `. Last read well ${minuteIn(lastGood, context)}`}
        {url === null || nextPoll === null ? "" : `. Read again from ${minuteIn(nextPoll, context)} on`}.
      </p>
      {reason === null || held !== null ? null : <p>{reason.text}</p>}
      {held === null ? null : <Held signed={signed} name={name} held={held} />}
      <Counts name={name} counts={counts} />
      <Source url={url} calendarName={calendarName} producer={producer} />
      <NotRead name={name} unread={unread} count={counts["not-certain"]} />
      <Unclear signed={signed} report={report} />
      {url === null ? <PushForm signed={signed} name={name} /> : null}
      <details>
        <summary>Take this diary away</summary>
        <p>
          Its appointments ahead go with it, and their deadlines are called off in every calendar. What was recorded
          stays.
        </p>
        <Press
          signed={signed}
          to="/desk/diaries/drop"
          fields={{ name }}
          label="Take it away"
          kind="alarm"
          back="/desk/diaries"
        />
      </details>
    </section>
  );
};

const Held: FC<{ signed: Signed; name: string; held: NonNullable<DiaryReport["held"]> }> = ({ signed, name, held }) => (
  <div class="note">
    <p>
      <strong>A reading is held back since {minuteIn(held.since, deskContext(signed))}.</strong> {held.why.text}
    </p>
    <p class="small">
      Nothing was changed by it. Look into the calendar program first: accept it only if the diary really looks so now.
      If it comes again unchanged, it is taken by itself.
    </p>
    <Press
      signed={signed}
      to="/desk/diaries/accept"
      fields={{ name, since: String(held.since) }}
      label="The diary is right: accept this reading"
      back={`/desk/diaries#d-${diaryRef(name)}`}
    />
  </div>
);

/** What the entries were taken for, each with the way to them. */
const COUNTED: readonly (readonly [state: EntryState, one: string, many: string])[] = [
  ["booking", "colour appointment", "colour appointments"],
  ["test", "skin test", "skin tests"],
  ["not-colour", "not a colour", "not a colour"],
  ["unsorted", "to answer", "to answer"],
  ["not-certain", "could not be read", "could not be read"],
];

const Counts: FC<{ name: string; counts: DiaryNews["counts"] }> = ({ name, counts }) => (
  <ul class="counts">
    {COUNTED.filter(([state]) => state === "booking" || counts[state] > 0).map(([state, one, many]) => (
      <li>
        <a href={`/desk/entries?state=${state}&diary=${diaryRef(name)}`}>
          <strong>{counts[state]}</strong> {counts[state] === 1 ? one : many}
        </a>
      </li>
    ))}
  </ul>
);

const Source: FC<Pick<DiaryNews, "calendarName" | "producer"> & { url: string | null }> = ({
  url,
  calendarName,
  producer,
}) => (
  <details>
    <summary>Where it comes from</summary>
    <dl class="facts">
      <div class="whole">
        <dt>Address</dt>
        <dd>{url === null ? "none: it is brought as a file" : <Their words={url} />}</dd>
      </div>
      {calendarName === null ? null : (
        <div class="whole">
          <dt>It calls itself</dt>
          <dd>
            <Their words={calendarName} />
          </dd>
        </div>
      )}
      {producer === null ? null : (
        <div class="whole">
          <dt>Written by</dt>
          <dd>
            <Their words={producer} />
          </dd>
        </div>
      )}
    </dl>
    {url === null ? null : (
      <p class="small">
        Keep it to yourself: whoever has the address reads the diary. A user and password are not shown.
      </p>
    )}
  </details>
);

const NotRead: FC<Pick<DiaryNews, "unread"> & { name: string; count: number }> = ({ name, unread, count }) =>
  count === 0 ? null : (
    <details open>
      <summary>{count === 1 ? "1 entry could not be read" : `${count} entries could not be read`}</summary>
      <ul class="plainlist">
        {unread.map(({ uid, written, why }) => (
          <li>
            {written === null || written === "" ? (
              "No start"
            ) : (
              <>
                Start “<Their words={written} />”
              </>
            )}{" "}
            <span class="small">
              (<Their words={uid} />)
            </span>
            : {why?.text ?? ""}
          </li>
        ))}
      </ul>
      {count > unread.length ? (
        <p>
          <a href={`/desk/entries?state=not-certain&diary=${diaryRef(name)}`}>All {count} of them</a>
        </p>
      ) : null}
    </details>
  );

/** A start as the diary wrote it, or, where it is certain, as the salon's clock shows it. */
const startWords = (start: string, signed: Signed): string => {
  const at = parseInstant(start);
  if (at !== undefined) return minuteIn(at, deskContext(signed));
  return start === "" ? "no start" : `start “${start}”`;
};

const Unclear: FC<{ signed: Signed; report: DiaryReport }> = ({ signed, report: { unclear } }) =>
  unclear.length === 0 ? null : (
    <details open>
      <summary>
        {unclear.length === 1 ? "1 appointment has gone" : `${unclear.length} appointments have gone`}, and several new
        ones could be it
      </summary>
      <ul class="plainlist">
        {unclear.map(({ booking, start, text, candidates }) => (
          <li>
            <a href={`/desk/booking/${refOf(signed, booking)}`}>{startWords(start, signed)}</a>: {text} The new ones:{" "}
            {candidates.map((each, index) => [
              index > 0 ? "; " : "",
              <a href={`/desk/booking/${refOf(signed, each.uid)}`}>{startWords(each.start, signed)}</a>,
            ])}
          </li>
        ))}
      </ul>
    </details>
  );

const PushForm: FC<{ signed: Signed; name: string }> = ({ signed, name }) => {
  const id = `file-${diaryRef(name)}`;
  return (
    <form method="post" action="/desk/diaries/push" enctype="multipart/form-data" class="push">
      <Fields signed={signed} back={`/desk/diaries#d-${diaryRef(name)}`} />
      <input type="hidden" name="name" value={name} />
      <label for={id}>A new file of this diary (.ics)</label>
      <input id={id} name="file" type="file" accept=".ics,text/calendar" required />
      <button type="submit">Read the file</button>
    </form>
  );
};
