/** The way into the desk: the salon's key, once for each screen. */
import type { FC } from "hono/jsx";
import { Page } from "../layout.tsx";
import { DESK_STYLES_ADDRESS } from "./deskStyles.ts";

/**
 * @param to where to go on
 * @param fault why the last try failed; null: none was made
 */
export const SignInPage: FC<{ to: string; fault: string | null }> = ({ to, fault }) => (
  <Page title="Sign in – desk" language="en-GB" styles={[DESK_STYLES_ADDRESS]}>
    <h1>Countback desk</h1>
    <form method="post" action="/desk/sign-in" class="card stack">
      <h2>Sign in</h2>
      {fault === null ? null : (
        <p class="mark" role="alert">
          {fault}
        </p>
      )}
      <input type="hidden" name="to" value={to} />
      <label for="key">The salon's key</label>
      <input id="key" name="key" type="password" autocomplete="current-password" required maxlength={500} autofocus />
      <label class="check">
        <input type="checkbox" name="keep" value="yes" />
        Keep this screen signed in for 30 days. Leave it unticked on a screen that others use: then it ends when the
        browser is closed, and after 12 hours at the latest.
      </label>
      <button type="submit" class="first">
        Sign in
      </button>
      <p class="small">
        The key was shown once when the salon was set up. Whoever runs this service sets up a new salon at{" "}
        <a href="/desk/new">the first visit</a>.
      </p>
    </form>
  </Page>
);
