/** The titles that no word matches, commonest first: what each means is said once, and becomes a word of the salon's. */
import type { FC } from "hono/jsx";
import type { CommonTitle } from "../../../diary/commonTitles.ts";
import type { Settings } from "../../../settings.ts";
import type { Signed } from "../desk.ts";
import { Fields } from "../press.tsx";

/** Titles asked about at once. */
export const TITLES_MAX = 10;

/** What an answer is sent as: `service-0`, by the service's place in the settings. */
export const AS_SERVICE = /^service-(\d{1,3})$/;

export const TitlesForm: FC<{ signed: Signed; titles: readonly CommonTitle[] }> = ({ signed, titles }) => {
  const { settings, version } = signed.head;
  return (
    <form method="post" action="/desk/new/words" class="card first-visit" aria-labelledby="titles">
      <h2 id="titles">What do these titles mean?</h2>
      <p>
        No word of yours matches them yet. What you say here becomes a word of the salon's rules, so that the next like
        it is understood. Leave what you are not sure about.
      </p>
      <Fields signed={signed} />
      <input type="hidden" name="version" value={String(version)} />
      {titles.map((title, index) => (
        <div class="title-asked">
          <input type="hidden" name="phrase" value={title.phrase} />
          <label for={`as-${index}`}>
            <strong>{title.phrase}</strong>{" "}
            <span class="rule-hint">
              {title.count} times, as in “{title.example}”
            </span>
          </label>
          <select id={`as-${index}`} name="as">
            <option value="">Leave it</option>
            {servicesOf(settings).map(([value, name]) => (
              <option value={value}>Colour: {name}</option>
            ))}
            <option value="test">Skin test</option>
            {title.mayBeName ? null : <option value="not-colour">Not a colour</option>}
          </select>
          {title.nearest === null ? null : <p class="rule-hint">Nearest to your words for {title.nearest}.</p>}
          {title.mayBeName ? (
            <p class="rule-hint">
              This may be a client's name. As a word of no colour it would hide her appointments, so that is asked of
              each entry alone.
            </p>
          ) : null}
        </div>
      ))}
      <button type="submit" class="first">
        Save these answers and read again
      </button>
    </form>
  );
};

const servicesOf = ({ services }: Settings): readonly (readonly [string, string])[] =>
  services.map(({ name }, index) => [`service-${index}`, name]);
