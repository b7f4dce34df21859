/** The salon's calendar and its key: what they are for, and how to replace them. */
import type { FC } from "hono/jsx";
import { QrCode } from "../../qr.tsx";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { Press } from "../press.tsx";

/** An address to subscribe to: to copy, to scan, to open. */
export const FeedAddress: FC<{ feed: string }> = ({ feed }) => (
  <div class="feed-address">
    <QrCode address={feed} label="The salon's calendar as a QR code" />
    <div>
      <p>
        <code>{feed}</code>
      </p>
      <p class="buttons">
        <button type="button" data-copy={feed} data-script hidden>
          <span data-copied>Copy the address</span>
        </button>
        <a class="button" href={feed.replace(/^https?:/, "webcal:")}>
          Subscribe on this device
        </a>
      </p>
      <p class="rule-hint">
        In a calendar program: “subscribe”, “from URL” or “add by address”. Whoever has the address sees the deadlines.
      </p>
    </div>
  </div>
);

export const Keys: FC<{ signed: Signed; feed: string }> = ({ signed, feed }) => (
  <section class="card keys" aria-labelledby="keys">
    <h2 id="keys">Calendar and key</h2>
    <h3>The salon's calendar</h3>
    <FeedAddress feed={feed} />
    <details>
      <summary>Give it another address</summary>
      <p>The present address shows nothing from then on. Every calendar that subscribed to it has to subscribe anew.</p>
      <Press signed={signed} to="/desk/rules/feed" fields={{}} label="Make a new address" kind="alarm" />
    </details>
    <h3>The salon's key</h3>
    <p>
      It opens this desk and the interface for other programs. It cannot be shown again; a new one can take its place.
    </p>
    <details>
      <summary>Replace the key</summary>
      <p>
        The new key is shown first, and holds once you say that you have kept it. Then the present one opens nothing any
        more: every other screen is signed out, and programs that use the key need the new one.
      </p>
      <Press signed={signed} to="/desk/rules/key" fields={{}} label="Make a new key" kind="alarm" />
    </details>
    <p class="rule-hint">
      Deleting the salon with all it keeps is not done here: <code>DELETE /api/salon</code> with the key.
    </p>
  </section>
);

/** A key to keep: shown on this page and never again. */
export const KeyShown: FC<{ value: string }> = ({ value }) => (
  <div class="key-shown">
    <p>
      <code>{value}</code>
    </p>
    <p class="buttons">
      <button type="button" data-copy={value} data-script hidden>
        <span data-copied>Copy the key</span>
      </button>
      <button type="button" data-print data-script hidden class="plain">
        Print this page
      </button>
    </p>
  </div>
);

/** The key that would hold: it does nothing until it is said to be kept, so that nobody is locked out by a lost page. */
export const NewKeyPage: FC<{ signed: Signed; value: string }> = ({ signed, value }) => (
  <DeskPage title="New key" place="rules" signed={signed}>
    <h1>Rules</h1>
    <section class="card">
      <h2>Keep this key, then let it hold</h2>
      <p>Write it down or put it into a password store. It is not shown again, and until you press it opens nothing.</p>
      <KeyShown value={value} />
      <div class="buttons">
        <Press
          signed={signed}
          to="/desk/rules/key/use"
          fields={{ key: value }}
          label="I have kept it: use this key from now on"
          kind="first"
          back="/desk/rules"
        />
        <a class="button" href="/desk/rules">
          Leave the key as it is
        </a>
      </div>
    </section>
  </DeskPage>
);
