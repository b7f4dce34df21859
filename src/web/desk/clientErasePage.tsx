/** Asks before a client is erased: what goes, what is kept and until when, and what it waits for. */
import type { FC } from "hono/jsx";
import { NOTE_MAX } from "../../bounds.ts";
import type { ClientExport } from "../../salon/clientExport.ts";
import { KeptCases, Waits } from "./clientErasing.tsx";
import type { Signed } from "./desk.ts";
import { Faults, Field } from "./field.tsx";
import { DeskPage } from "./frame.tsx";
import { Fields } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

export const ClientErasePage: FC<{ signed: Signed; kept: ClientExport; refused: Refused | null }> = ({
  signed,
  kept,
  refused,
}) => {
  const { client } = kept.client;
  const ahead = kept.mentions.filter((each) => each.ahead !== null);
  const isClient = client.erased === null;
  const isChoice = kept.kept.length > 0;
  const chosen = refused?.fields.get("evidence") ?? (isClient ? "keep" : "erase");
  return (
    <DeskPage title="Erase a client" place="clients" signed={signed}>
      <div class="one-client">
        <p class="small">Client {client.id}</p>
        <h1>
          {isClient ? "Erase" : "Erase what is kept of"} <Their words={client.name} />?
        </h1>
        <Faults refused={refused} idOf={(at) => `erase-${at}`} />
        <form method="post" action={`/desk/clients/${client.id}/erase`} class="card stack">
          <Fields signed={signed} back={`/desk/clients/${client.id}`} />
          {isClient ? (
            <p>
              Her address, telephone, health answers, consents and links go, and entries of the diary that speak of her
              are not read any more. This cannot be taken back. A copy can be saved before:{" "}
              <a href={`/desk/clients/${client.id}/export`}>all that is kept of her</a>.
            </p>
          ) : null}
          {isClient && ahead.length > 0 ? <Waits signed={signed} ahead={ahead} /> : null}
          <fieldset class="either">
            <legend>Records of skin tests</legend>
            <KeptCases signed={signed} cases={kept.kept} />
            {isClient && isChoice ? (
              <label class="choice wide">
                <input type="radio" name="evidence" value="keep" checked={chosen === "keep"} />
                Keep them to their day: a claim may still come, and they are the proof of what was done.
              </label>
            ) : null}
            {isChoice ? (
              <label class="choice wide">
                <input type="radio" name="evidence" value="erase" checked={chosen === "erase"} />
                Erase them too. Ask your insurer first: without them nobody can show that a test was made.
              </label>
            ) : null}
          </fieldset>
          <Field
            id="erase-reason"
            name="reason"
            label="Why (if you want to keep it)"
            refused={refused}
            maxlength={NOTE_MAX}
          />
          <div class="actions">
            <button type="submit" class="alarm">
              {isClient ? "Erase her" : "Erase what is kept"}
            </button>
            <a class="button" href={`/desk/clients/${client.id}`}>
              Leave her as she is
            </a>
          </div>
        </form>
      </div>
    </DeskPage>
  );
};
