/** Two clients who are one person, or one who is two: said by a person, where nothing has asked. */
import type { FC } from "hono/jsx";
import type { ClientShown } from "../../salon/clientList.ts";
import { minuteIn } from "../minuteIn.ts";
import { only, Reason } from "./clientDecisions.tsx";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { Field } from "./field.tsx";
import { Fields } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly shown: ClientShown;
  readonly refused: Refused | null;
}

export const ClientParting: FC<Props> = ({ signed, shown: { client, bookings }, refused }) => (
  <details class="card" open={refused?.fields.get("form") === "join" || refused?.fields.get("form") === "split"}>
    <summary>Two clients are one, or one is two</summary>
    <form method="post" action={`/desk/clients/${client.id}/join`} class="stack">
      <Fields signed={signed} />
      <input type="hidden" name="form" value="join" />
      <p class="small">
        Another client of this list is the same person: write the number from the top of that page. She goes on under{" "}
        {client.id}; what was told of either counts for her, stops first of all.
      </p>
      <Field
        id="join-with"
        name="with"
        label="The other's number, such as c12"
        refused={only(refused, "join")}
        maxlength={14}
        required
      />
      <Reason id="join-reason" refused={only(refused, "join")} />
      <button type="submit">Join: they are one person</button>
    </form>
    {bookings.length === 0 ? null : (
      <form method="post" action={`/desk/clients/${client.id}/split`} class="stack split">
        <Fields signed={signed} />
        <input type="hidden" name="form" value="split" />
        <fieldset>
          <legend>These appointments are another person's</legend>
          <p class="small">Tick them. What was told of them goes with them.</p>
          {bookings.map(({ uid, start, service, cancelledAt }) => (
            <label class="check">
              <input
                type="checkbox"
                name="booking"
                value={refOf(signed, uid)}
                checked={only(refused, "split")?.fields.getAll("booking").includes(refOf(signed, uid)) === true}
              />
              <span>
                {minuteIn(start, deskContext(signed))}, <Their words={service} />
                {cancelledAt === null ? null : " (cancelled)"}
              </span>
            </label>
          ))}
        </fieldset>
        {only(refused, "split")?.faults.has("booking") ? (
          <p class="mark" id="split-booking">
            {refused?.faults.get("booking")}
          </p>
        ) : null}
        <Reason id="split-reason" refused={only(refused, "split")} />
        <button type="submit">Split the ticked ones off</button>
      </form>
    )}
  </details>
);
