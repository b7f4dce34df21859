/** A client's times in a calendar of her own: what each kind of calendar does with an address, and the file for those that take none. */
import type { FC } from "hono/jsx";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Settings } from "../settings.ts";
import { QrCode } from "./qr.tsx";

/**
 * @param feedUrl https address of her feed
 * @param pageUrl of her page
 */
export const ClientCalendar: FC<{ feedUrl: string; pageUrl: string; language: Settings["language"] }> = ({
  feedUrl,
  pageUrl,
  language,
}) => {
  const { calendar } = catalogueOf(language);
  return (
    <section>
      <h3>{calendar.heading}</h3>
      <p>{calendar.surest}</p>
      <div class="buttons">
        <a class="button" href={feedUrl.replace(/^https?:/, "webcal:")}>
          {calendar.add}
        </a>
        <a class="button" href={feedUrl}>
          {calendar.address}
        </a>
      </div>
      <p>
        <code class="address">{feedUrl}</code>
      </p>
      <p class="small">{calendar.keep}</p>
      {calendar.ways.map(({ name, how }) => (
        <details>
          <summary>{name}</summary>
          <p>{how}</p>
        </details>
      ))}
      <details>
        <summary>{calendar.code}</summary>
        <QrCode address={pageUrl} label={calendar.code} />
        <p>{calendar.codeHow}</p>
      </details>
      <p>
        <a href={`${feedUrl}?once`}>{calendar.once}</a>. {calendar.onceHow}
      </p>
    </section>
  );
};
