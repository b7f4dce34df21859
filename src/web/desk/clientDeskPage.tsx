/** One client at the desk: who she is, what has to be decided, her appointments, and all that was told, answered and asked. */
import type { FC } from "hono/jsx";
import type { ClientAtDesk } from "../../salon/clientAtDesk.ts";
import type { ClientExport } from "../../salon/clientExport.ts";
import { ClientAnswers } from "./clientAnswers.tsx";
import { ClientAppointments } from "./clientAppointments.tsx";
import { ClientDecisions } from "./clientDecisions.tsx";
import { ClientErasing } from "./clientErasing.tsx";
import { ClientHistory } from "./clientHistory.tsx";
import { type ClientLinks, ClientLinkCard } from "./clientLinkCard.tsx";
import { ClientParting } from "./clientParting.tsx";
import { ClientRequests } from "./clientRequests.tsx";
import type { Signed } from "./desk.ts";
import { Faults } from "./field.tsx";
import { DeskPage } from "./frame.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

export interface ClientPageProps {
  readonly signed: Signed;
  readonly found: ClientAtDesk;
  /** Null of one who was erased. */
  readonly links: ClientLinks | null;
  /** What is kept of her and why, where she is being erased or was; else null. */
  readonly kept: ClientExport | null;
  /** A form of this page as it was sent, where it was refused. */
  readonly refused: Refused | null;
}

export const ClientDeskPage: FC<ClientPageProps> = ({ signed, found, links, kept, refused }) => {
  const { shown } = found;
  const { client } = shown;
  const isClient = client.erased === null;
  return (
    <DeskPage title="A client" place="clients" signed={signed}>
      <div class="one-client">
        <header>
          <p class="small">Client {client.id}</p>
          <h1>
            <Their words={client.name} />
          </h1>
          <Reach found={found} />
        </header>
        <Faults refused={refused} idOf={(at) => `${refused?.fields.get("form") ?? "form"}-${at}`} />
        <div class="columns">
          <div>
            <ClientErasing signed={signed} client={client} kept={kept} />
            {isClient ? <ClientDecisions signed={signed} shown={shown} refused={refused} /> : null}
            <ClientAppointments signed={signed} found={found} />
            <ClientAnswers signed={signed} screenings={found.screenings} consents={found.consents} />
            <ClientHistory signed={signed} found={found} />
          </div>
          <div>
            {links === null ? null : <ClientLinkCard signed={signed} client={client} links={links} use={found.link} />}
            {isClient ? <ClientRequests signed={signed} shown={shown} refused={refused} /> : null}
            {isClient ? <ClientParting signed={signed} shown={shown} refused={refused} /> : null}
            <Keeping id={client.id} isClient={isClient} />
          </div>
        </div>
      </div>
    </DeskPage>
  );
};

/** How to reach her, under every name that turned out to be hers. */
const Reach: FC<{ found: ClientAtDesk }> = ({ found: { shown } }) => {
  const { client, joined } = shown;
  const rows = [client, ...joined];
  const emails = [...new Set(rows.flatMap(({ email }) => email ?? []))];
  const phones = [...new Set(rows.flatMap(({ phone }) => phone ?? []))];
  const names = [...new Set(joined.map(({ name }) => name))].filter((name) => name !== client.name);
  return (
    <>
      {names.length === 0 ? null : (
        <p class="small">Also called {names.map((name, index) => [index > 0 ? ", " : "", <Their words={name} />])}</p>
      )}
      <p class="reach">
        {phones.map((phone) => (
          <a href={`tel:${phone.replaceAll(/[^\d+]/g, "")}`}>
            <Their words={phone} />
          </a>
        ))}
        {emails.map((email) => (
          <a href={`mailto:${encodeURIComponent(email).replace("%40", "@")}`}>
            <Their words={email} />
          </a>
        ))}
        {emails.length + phones.length === 0 ? (
          <span class="small">
            No address and no telephone: all that is known of her is this name. Add them in the diary's entry.
          </span>
        ) : null}
      </p>
    </>
  );
};

const Keeping: FC<{ id: string; isClient: boolean }> = ({ id, isClient }) => (
  <section class="card">
    <h2>All that is kept of her</h2>
    <p class="small">
      What she may ask for: every record, answer, decision and entry of the diary. Read it before you hand it over: a
      note may speak of somebody else.
    </p>
    <div class="actions">
      <a class="button" href={`/desk/clients/${id}/export`}>
        Save as a file (JSON)
      </a>
      <a class="button" href={`/desk/log?client=${id}`}>
        Her records in the log
      </a>
      <a class="button" href={`/desk/clients/${id}/erase`}>
        {isClient ? "Erase her…" : "Erase what is kept…"}
      </a>
    </div>
  </section>
);
