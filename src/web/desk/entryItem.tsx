/** One entry in the list, with its answer in one press. */
import type { FC } from "hono/jsx";
import { TEXT_MAX } from "../../bounds.ts";
import type { EntryShown } from "../../salon/entries.ts";
import { clip } from "../../feed/clip.ts";
import { minuteIn } from "../minuteIn.ts";
import { dayIn } from "./dayIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { Faults, Field } from "./field.tsx";
import { Fields, Press } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly entry: EntryShown;
  readonly refused: Refused | null;
  /** It stands among those that are to be answered; else it can be answered otherwise. */
  readonly isAsked: boolean;
}

export const ANSWER_LABELS = {
  as: "What it is",
  service: "Colour service",
  "client.name": "Client's name",
  "client.email": "E-mail address",
  "client.phone": "Telephone",
} as const;

export const EntryItem: FC<Props> = ({ signed, entry, refused, isAsked }) => {
  const { id, diary, summary, state, why, service, client, cancelled, named } = entry;
  return (
    <li class="card" id={`e-${id}`} tabindex={-1}>
      <p class="small">
        <Start signed={signed} entry={entry} /> · <Their words={diary} />
      </p>
      <h3>{summary === "" ? "(no words)" : <Their words={clip(summary, TITLE_SHOWN)} />}</h3>
      {service === null && client === null ? null : (
        <p>
          {service === null ? "Skin test" : <Their words={service} />}
          {client === null ? null : (
            <>
              {" "}
              of <Their words={client} />
            </>
          )}
        </p>
      )}
      {named?.isCertain === true ? (
        <p>
          Of <Their words={named.name} />
        </p>
      ) : null}
      {why === null ? null : <p class={isAsked ? undefined : "small"}>{why.text}</p>}
      {why?.code === "answered" ? (
        <Press signed={signed} to={`/desk/entries/${id}/forget`} fields={{}} label="Take the answer back" />
      ) : null}
      {why?.code === "answered-alike" ? (
        <p class="small">
          <a href="/desk/answers">The answers that are kept</a>
        </p>
      ) : null}
      {state === "not-certain" || cancelled ? (
        cancelled ? (
          <p class="small">The diary calls it cancelled.</p>
        ) : null
      ) : isAsked ? (
        <AnswerForm signed={signed} entry={entry} refused={refused} />
      ) : (
        <details open={refused !== null}>
          <summary>It is something else</summary>
          <AnswerForm signed={signed} entry={entry} refused={refused} />
        </details>
      )}
    </li>
  );
};

/** Characters of an entry's title: enough to tell what it is; all of it stands in the diary. */
const TITLE_SHOWN = 240;

const Start: FC<{ signed: Signed; entry: EntryShown }> = ({ signed, entry: { start, date, written } }) => {
  const context = deskContext(signed);
  if (start !== null) return <>{minuteIn(start, context)}</>;
  if (date !== null) return <>{dayIn(date, context)}, all day</>;
  if (written === null || written === "") return <>no start</>;
  return (
    <>
      start “<Their words={written} />”
    </>
  );
};

const AnswerForm: FC<Omit<Props, "isAsked">> = ({ signed, entry, refused }) => {
  const { id, why, nearest, date, named } = entry;
  const isNameless =
    (entry.state === "unsorted" && named?.isCertain !== true) ||
    [...(refused?.faults.keys() ?? [])].some((at) => at.startsWith("client"));
  const guess = named !== null && !named.isCertain ? named.name : null;
  const isTestLikely = why?.code === "test-no-name";
  const colour = (
    <button type="submit" name="as" value="booking" class={isTestLikely ? undefined : "first"}>
      Colour
    </button>
  );
  const test = (
    <button type="submit" name="as" value="test" class={isTestLikely ? "first" : undefined}>
      Skin test
    </button>
  );
  const whose = date === null ? <Whose id={id} isNameless={isNameless} guess={guess} refused={refused} /> : null;
  return (
    <form method="post" action={`/desk/entries/${id}`} class="answer">
      <Fields signed={signed} />
      <Faults refused={refused} idOf={(at) => `${id}-${at}`} />
      {isNameless ? whose : null}
      <div class="answering">
        {date !== null ? (
          <p class="small">
            An entry of a whole day can only be something else; for a colour, give it a time in the diary.
          </p>
        ) : (
          <p class="field">
            <label for={`${id}-service`}>{ANSWER_LABELS.service}</label>
            <Services
              id={`${id}-service`}
              signed={signed}
              chosen={refused?.fields.get("service") ?? nearest ?? entry.service}
            />
          </p>
        )}
        <div class="actions">
          {date !== null ? null : isTestLikely ? [test, colour] : [colour, test]}
          <button type="submit" name="as" value="not-colour" class="plain">
            Neither
          </button>
        </div>
      </div>
      {isNameless ? null : whose}
    </form>
  );
};

const Whose: FC<{ id: string; isNameless: boolean; guess: string | null; refused: Refused | null }> = ({
  id,
  isNameless,
  guess,
  refused,
}) => (
  <details open={isNameless}>
    <summary>
      {guess !== null
        ? "Whose it is: look whether this is the name"
        : isNameless
          ? "Whose it is"
          : "Another client than stands in the entry"}
    </summary>
    <div class="whose">
      <Field
        id={`${id}-client.name`}
        name="client.name"
        value={guess}
        label={ANSWER_LABELS["client.name"]}
        refused={refused}
        maxlength={TEXT_MAX}
      />
      <Field
        id={`${id}-client.email`}
        name="client.email"
        label={ANSWER_LABELS["client.email"]}
        type="email"
        refused={refused}
        maxlength={TEXT_MAX}
      />
      <Field
        id={`${id}-client.phone`}
        name="client.phone"
        label={ANSWER_LABELS["client.phone"]}
        type="tel"
        refused={refused}
        maxlength={TEXT_MAX}
      />
    </div>
  </details>
);

const Services: FC<{ id: string; signed: Signed; chosen: string | null }> = ({ id, signed, chosen }) => {
  const names = signed.head.settings.services.map(({ name }) => name);
  const isKnown = chosen !== null && names.includes(chosen);
  return (
    <select id={id} name="service">
      {isKnown || names.length === 1 ? null : <option value="">Choose, if it is a colour</option>}
      {names.map((name) => (
        <option value={name} selected={name === chosen}>
          {name}
        </option>
      ))}
    </select>
  );
};
