/** The first visit's last page: the calendar to subscribe to, and where it goes on. */
import type { FC } from "hono/jsx";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { FeedAddress } from "../rules/keys.tsx";
import { Steps } from "./steps.tsx";

export const FirstFeedPage: FC<{ signed: Signed; feed: string }> = ({ signed, feed }) => (
  <DeskPage title="First visit" place={null} signed={signed}>
    <h1>A new salon</h1>
    <Steps now="feed" />
    <section class="card first-visit">
      <h2>The salon's calendar</h2>
      <p>Subscribe to it where the salon already looks. It holds every deadline and follows the diary by itself.</p>
      <FeedAddress feed={feed} />
      <p class="buttons">
        <button type="button" data-print data-script hidden class="plain">
          Print this page
        </button>
      </p>
    </section>
    <section class="card first-visit">
      <h2>And now</h2>
      <ul>
        <li>
          The desk's <a href="/desk">first page</a> says every day what is due and whom to telephone.
        </li>
        <li>
          Under <a href="/desk/clients">Clients</a> each has a page and a calendar of her own: give her its link.
        </li>
        <li>
          The key was shown when the salon was made. If nobody kept it, make a new one under{" "}
          <a href="/desk/rules#keys">Rules</a> while this screen is signed in.
        </li>
      </ul>
      <p class="buttons">
        <a class="button first" href="/desk">
          To the desk
        </a>
      </p>
    </section>
  </DeskPage>
);
