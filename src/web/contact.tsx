/** How to reach a salon, on every page of a client. Shows nothing that its settings do not. */
import type { FC } from "hono/jsx";
import type { Settings } from "../settings.ts";

export const Contact: FC<{ settings: Settings }> = ({ settings: { contact, name } }) => (
  <section>
    <h3>To reach {name}</h3>
    {contact.phone === null ? null : (
      <p>
        Telephone <a href={`tel:${contact.phone.replaceAll(/[^\d+]/g, "")}`}>{contact.phone}</a>
      </p>
    )}
    {contact.email === null ? null : (
      <p>
        E-mail <a href={`mailto:${contact.email}`}>{contact.email}</a>
      </p>
    )}
    {contact.address === null ? null : <p>{contact.address}</p>}
    {contact.phone === null && contact.email === null && contact.address === null ? (
      <p>Ask at the salon: it has left no telephone number here.</p>
    ) : null}
  </section>
);
