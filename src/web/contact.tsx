/** How to reach a salon, on every page of a client. Shows nothing that its settings do not. */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Settings } from "../settings.ts";

export const Contact: FC<{ settings: Settings }> = ({ settings: { contact, name, language } }) => {
  const { reach } = catalogueOf(language);
  const { phone, email, address } = contact;
  return (
    <section>
      <h3>{fill(reach.heading, { salon: name })}</h3>
      {phone === null && email === null ? null : (
        <div class="buttons">
          {phone === null ? null : (
            <a class="button" href={`tel:${phone.replaceAll(/[^\d+]/g, "")}`}>
              {fill(reach.telephone, { phone })}
            </a>
          )}
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
