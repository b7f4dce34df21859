/** Of a client who is being erased or was: what it waits for, and what is kept and until when. */
import type { FC } from "hono/jsx";
import type { ClientExport } from "../../salon/clientExport.ts";
import type { KeptCase } from "../../salon/erasure.ts";
import type { Mention } from "../../salon/mentions.ts";
import type { Client } from "../../salon/types.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { Their } from "./their.tsx";

interface Props {
  readonly signed: Signed;
  readonly client: Client;
  readonly kept: ClientExport | null;
}

export const ClientErasing: FC<Props> = ({ signed, client, kept }) => {
  if (kept === null) return null;
  const { erasing, erased } = client;
  const ahead = kept.mentions.filter((each) => each.ahead !== null);
  return (
    <section class="card decide">
      <h2>{erased === null ? "She is being erased" : "She was erased"}</h2>
      <p>
        {erased === null
          ? `Asked for ${erasing === null ? "" : minuteIn(erasing.at, deskContext(signed))}. What nothing ahead needs is gone. The rest goes by itself.`
          : `Her address, telephone, answers and links went ${minuteIn(erased, deskContext(signed))}. She is no client any more.`}
      </p>
      {ahead.length === 0 ? null : <Waits signed={signed} ahead={ahead} />}
      <KeptCases signed={signed} cases={kept.kept} />
    </section>
  );
};

/** What stands of her in a diary ahead. */
export const Waits: FC<{ signed: Signed; ahead: readonly Mention[] }> = ({ signed, ahead }) => (
  <>
    <p>It waits for these entries: take them out of the diary, or let them pass.</p>
    <ul class="plainlist">
      {ahead.map(({ diary, ahead: at, says }) => (
        <li>
          {at === null ? "" : `${minuteIn(at, deskContext(signed))}, `}diary <Their words={diary} />:{" "}
          <Their words={says[0]?.summary ?? ""} />
        </li>
      ))}
    </ul>
  </>
);

/** The records that must be kept for legal claims, each case with its end. */
export const KeptCases: FC<{ signed: Signed; cases: readonly KeptCase[] }> = ({ signed, cases }) =>
  cases.length === 0 ? (
    <p>No record of hers has to be kept.</p>
  ) : (
    <>
      <p>
        Kept for legal claims, under her name alone: records of skin tests, of what was seen and of who decided. Each
        goes by itself on its day.
      </p>
      <ul class="plainlist">
        {cases.map(({ records, until }) => (
          <li>
            {records === 1 ? "1 record" : `${records} records`}, until {minuteIn(until, deskContext(signed))}
          </li>
        ))}
      </ul>
    </>
  );
