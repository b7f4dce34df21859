/** How to reach a salon, on every page of a client. Shows nothing that its settings do not. */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Settings } from "../settings.ts";

/** The way to the salon's telephone; nothing where its settings have none. */
export const Telephone: FC<{ settings: Pick<Settings, "contact" | "language">; isFirst?: boolean }> = ({
  settings: { contact, language },
  isFirst = false,
}) =>
  contact.phone === null ? null : (
    <a class={isFirst ? "button first" : "button"} href={`tel:${contact.phone.replaceAll(/[^\d+]/g, "")}`}>
      {fill(catalogueOf(language).reach.telephone, { phone: contact.phone })}
    </a>
  );

export const Contact: FC<{ settings: Settings }> = ({ settings: { contact, name, language } }) => {
  const { reach } = catalogueOf(language);
  const { phone, email, address } = contact;
  return (
    <section>
      <h3>{fill(reach.heading, { salon: name })}</h3>
      {phone === null && email === null ? null : (
        <div class="buttons">
          <Telephone settings={{ contact, language }} />
          {email === null ? null : (
            <a class="button" href={`mailto:${email}`}>
              {fill(reach.email, { email })}
            </a>
          )}
        </div>
      )}
      {address === null ? null : <p>{address}</p>}
      {phone === null && email === null && address === null ? <p>{reach.none}</p> : null}
    </section>
  );
};
