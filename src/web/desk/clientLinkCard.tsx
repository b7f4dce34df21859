/** A client's link: her page, her calendar, how to give it to her, and a new one in its place. */
import type { FC } from "hono/jsx";
import type { LinkUse } from "../../salon/LinkTable.ts";
import type { Client } from "../../salon/types.ts";
import { minuteIn } from "../minuteIn.ts";
import { QrCode } from "../qr.tsx";
import { deskContext, type Signed } from "./desk.ts";
import { Press } from "./press.tsx";

export interface ClientLinks {
  /** Absolute addresses. */
  readonly page: string;
  readonly feed: string;
}

interface Props {
  readonly signed: Signed;
  readonly client: Client;
  readonly links: ClientLinks;
  readonly use: LinkUse | null;
}

export const ClientLinkCard: FC<Props> = ({ signed, client, links, use }) => {
  const { settings } = signed.head;
  const message = `${settings.name}: your own page with what to do before your colour appointment, and by when: ${links.page} Please keep the address to yourself: who has it sees your times.`;
  const subject = `What to do before your colour appointment at ${settings.name}`;
  return (
    <section class="card link-card">
      <h2>Her link</h2>
      <p>{useWords(signed, use)}</p>
      <QrCode address={links.page} label="QR code of her page" />
      <Address id="page-address" label="Her page" address={links.page} />
      <Address id="feed-address" label="Her calendar (to subscribe)" address={links.feed} />
      <div class="actions">
        {client.phone === null ? null : (
          <a class="button" href={`sms:${client.phone.replaceAll(/[^\d+]/g, "")}?body=${encodeURIComponent(message)}`}>
            Write a text message
          </a>
        )}
        {client.email === null ? null : (
          <a
            class="button"
            href={`mailto:${encodeURIComponent(client.email).replace("%40", "@")}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(message)}`}
          >
            Write an e-mail
          </a>
        )}
        <a class="button" href={`/desk/clients/${client.id}/card`}>
          A card to print
        </a>
      </div>
      <p class="small">Nothing is sent from here: the message opens in your own program, and you send it.</p>
      <div class="actions">
        <Press
          signed={signed}
          to={`/desk/clients/${client.id}/link`}
          fields={{ what: "given" }}
          label="I gave it to her"
        />
      </div>
      <details>
        <summary>Make a new link</summary>
        <p>
          If somebody else has hers. The one she has now stops at once: her page, and the calendar on her phone, which
          then falls silent. Give her the new one the same day.
        </p>
        <Press
          signed={signed}
          to={`/desk/clients/${client.id}/link`}
          fields={{ what: "renew" }}
          label="Make a new link and end the old one"
          kind="alarm"
        />
      </details>
    </section>
  );
};

const useWords = (signed: Signed, use: LinkUse | null): string => {
  const context = deskContext(signed);
  const given = use?.given ?? null;
  const opened = use?.opened ?? null;
  const first = given === null ? "Nobody has noted that she was given it." : `Given ${minuteIn(given, context)}.`;
  return `${first} ${opened === null ? "It has not been opened yet." : `First opened ${minuteIn(opened, context)}.`}`;
};

const Address: FC<{ id: string; label: string; address: string }> = ({ id, label, address }) => (
  <div class="address">
    <label for={id}>{label}</label>
    <input id={id} value={address} readonly />
    <button type="button" class="plain" data-copy={address} data-script hidden>
      <span data-copied>Copy</span>
      <span class="unseen"> {label}</span>
    </button>
  </div>
);
