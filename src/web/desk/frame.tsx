/** The frame of every page of the desk: where one is, who is at the screen, and what the last press did. */
import type { Child, FC } from "hono/jsx";
import { emergencyWords } from "../../feed/emergency.ts";
import { Page } from "../layout.tsx";
import { DESK_SCRIPT_ADDRESS } from "./deskScript.ts";
import { DESK_STYLES_ADDRESS } from "./deskStyles.ts";
import type { Signed } from "./desk.ts";
import { Fields } from "./press.tsx";
import { saidWords } from "./saidWords.ts";

/** Of the words, what is left out on a narrow screen: before the word and after it. */
const PLACES = [
  ["today", "/desk", "", "Today", ""],
  ["weeks", "/desk/weeks", "Coming ", "weeks", ""],
  ["clients", "/desk/clients", "", "Clients", ""],
  ["earliest", "/desk/earliest", "", "Earliest", " starts"],
  ["diaries", "/desk/diaries", "", "Diaries", ""],
  ["rules", "/desk/rules", "", "Rules", ""],
] as const;
export type Place = (typeof PLACES)[number][0];

/**
 * @param title of the page, without anybody's name: it stands in histories and on screens that are shared
 * @param place which of the ways above it is on; null: none
 */
export const DeskPage: FC<{ title: string; place: Place | null; signed: Signed; children: Child }> = ({
  title,
  place,
  signed,
  children,
}) => (
  <Page
    title={`${title} – desk`}
    language={signed.head.settings.language}
    styles={[DESK_STYLES_ADDRESS]}
    script={DESK_SCRIPT_ADDRESS}
    top={<Top place={place} signed={signed} />}
    isWide
  >
    {saidWords(signed.said) === null ? null : (
      <p class="said" role="status">
        {saidWords(signed.said)}
      </p>
    )}
    {children}
    <footer class="cautions">
      <p>{emergencyWords(signed.head.settings.country)}</p>
      <p>
        A clear test does not mean that no reaction will happen. The product's or kit's own instructions, your insurer,
        local rules and medical advice win over any time given here. Countback informs; a person decides.
      </p>
    </footer>
  </Page>
);

const Top: FC<{ place: Place | null; signed: Signed }> = ({ place, signed }) => (
  <header class="top">
    <a class="skip" href="#main">
      Skip to the page
    </a>
    <p class="salon">{signed.head.settings.name}</p>
    {/* Folded: it is pressed twice a day, and stands on every page. */}
    <details class="who">
      <summary>
        <span class="unseen">At this screen: </span>
        {signed.who ?? "Nobody named"}
      </summary>
      <div class="who-open">
        <Who signed={signed} />
        <form method="post" action="/desk/sign-out">
          <Fields signed={signed} />
          <button type="submit" class="plain">
            Sign out
          </button>
        </form>
      </div>
    </details>
    <nav aria-label="Desk">
      <ul>
        {PLACES.map(([name, address, before, word, after]) => (
          <li>
            <a href={address} aria-current={name === place ? "page" : undefined}>
              <span class="longer">{before}</span>
              {word}
              <span class="longer">{after}</span>
            </a>
          </li>
        ))}
      </ul>
    </nav>
  </header>
);

/** Who works here now: stands beside every record that is made at this screen. */
const Who: FC<{ signed: Signed }> = ({ signed }) => {
  const { staff } = signed.head.settings;
  return (
    <form method="post" action="/desk/who">
      <Fields signed={signed} />
      <label for="who">Who is here</label>
      {staff.length === 0 ? (
        <input id="who" name="who" value={signed.who ?? ""} maxlength={100} autocomplete="off" />
      ) : (
        <select id="who" name="who" data-submit>
          <option value="">Nobody named</option>
          {staff.map((name) => (
            <option value={name} selected={name === signed.who}>
              {name}
            </option>
          ))}
        </select>
      )}
      <button type="submit" class="plain">
        Set
      </button>
    </form>
  );
};
