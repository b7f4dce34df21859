/** What a client has asked about her data: those that wait, with the last day for an answer, and one more to write down. */
import type { FC } from "hono/jsx";
import { NOTE_MAX } from "../../bounds.ts";
import type { ClientShown } from "../../salon/clientList.ts";
import type { ClientDeed, RequestKind } from "../../salon/types.ts";
import { formatDay } from "../../time/instant.ts";
import { deskContext, type Signed } from "./desk.ts";
import { Field } from "./field.tsx";
import { Fields, Press } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";
import { dayIn } from "./dayIn.ts";

export const REQUEST_WORDS: Readonly<Record<RequestKind, string>> = {
  access: "a copy of all that is kept of her",
  erasure: "to be erased",
  correction: "something to be put right",
};

interface Props {
  readonly signed: Signed;
  readonly shown: ClientShown;
  readonly refused: Refused | null;
}

export const ClientRequests: FC<Props> = ({ signed, shown, refused: anyRefused }) => {
  const { client, deeds } = shown;
  const refused = anyRefused?.fields.get("form") === "request" ? anyRefused : null;
  const answered = new Map(deeds.flatMap((deed) => (deed.kind === "answered" ? [[deed.other, deed] as const] : [])));
  const requests = deeds.filter(({ kind }) => kind === "request");
  const chosen = refused?.fields.get("what");
  const today = formatDay(deskContext(signed).zone.dayAt(signed.head.now));
  return (
    <section class="card">
      <h2>What she has asked for</h2>
      {requests.length === 0 ? <p class="small">Nothing about her data.</p> : null}
      <ul class="plainlist">
        {requests.map((deed) => (
          <li>
            <Request signed={signed} id={client.id} deed={deed} answer={answered.get(deed.id)} />
          </li>
        ))}
      </ul>
      <details open={refused !== null}>
        <summary>Write down a request</summary>
        <form method="post" action={`/desk/clients/${client.id}/requests`} class="stack">
          <Fields signed={signed} />
          <input type="hidden" name="form" value="request" />
          <p class="field">
            <label for="request-what">She asks for</label>
            <select id="request-what" name="what">
              {Object.entries(REQUEST_WORDS).map(([what, words]) => (
                <option value={what} selected={what === chosen}>
                  {words}
                </option>
              ))}
            </select>
          </p>
          <Field
            id="request-received"
            name="received"
            label="Received on"
            type="date"
            refused={refused}
            value={today}
            max={today}
          />
          <Field
            id="request-reason"
            name="reason"
            label="What to remember of it"
            refused={refused}
            maxlength={NOTE_MAX}
          />
          <button type="submit">Keep the request</button>
        </form>
      </details>
    </section>
  );
};

const Request: FC<{ signed: Signed; id: string; deed: ClientDeed; answer: ClientDeed | undefined }> = ({
  signed,
  id,
  deed,
  answer,
}) => {
  const context = deskContext(signed);
  const { request } = deed;
  if (request === null) return null;
  const isLate = answer === undefined && request.due < context.zone.dayAt(signed.head.now);
  return (
    <>
      <p>
        {dayIn(request.received, context)}: {REQUEST_WORDS[request.what]}
        {deed.reason === null ? null : (
          <>
            {" "}
            (<Their words={deed.reason} />)
          </>
        )}
        .{" "}
        {answer === undefined ? (
          <strong class={isLate ? "turn is-alarm" : undefined}>
            {isLate ? <span aria-hidden="true">▲ </span> : null}Answer by {dayIn(request.due, context)}.
          </strong>
        ) : (
          `Answered ${dayIn(context.zone.dayAt(answer.at), context)}.`
        )}
      </p>
      {answer === undefined ? (
        <Press
          signed={signed}
          to={`/desk/clients/${id}/answered`}
          fields={{ request: deed.id }}
          label="It is answered"
          about={`(${REQUEST_WORDS[request.what]})`}
        />
      ) : null}
    </>
  );
};
