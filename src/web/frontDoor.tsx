/** The front door: what this is, in three sentences, and its stylesheet. */
import { Hono } from "hono";
import { emergencyWords } from "../feed/emergency.ts";
import type { Service } from "./env.ts";
import { Page, PAGE_HEADERS } from "./layout.tsx";
import { PAGE_STYLES } from "./pageStyles.ts";

export const frontDoor = new Hono<Service>();

frontDoor.get("/countback.css", (c) =>
  c.body(PAGE_STYLES, 200, {
    "content-type": "text/css; charset=utf-8",
    "cache-control": "public, max-age=31536000, immutable",
  }),
);

frontDoor.get("/", (c) =>
  c.html(
    <Page title="Countback" language="en-GB">
      <h1>Countback</h1>
      <p class="emergency" role="note">
        {emergencyWords(null)}
      </p>
      <section class="card">
        <h2>Every skin test before every colour, in time</h2>
        <p>
          Countback reads a salon's colour bookings from its ordinary calendar feed. It counts back from each one to
          every skin-test deadline: the health questions, the kit's post, when the test goes on, comes off and is looked
          at. It publishes them as calendars, one for each client and one for the salon.
        </p>
        <p>
          If the salon gave you a link, open that one. For one appointment on its own, send its time to{" "}
          <code>POST /api/count-back</code>.
        </p>
      </section>
      <p class="small">
        It informs; a person decides. The product's own instructions, the insurer, local rules and medical advice win
        over any time it gives. A clear test does not mean that no reaction will happen.
      </p>
    </Page>,
    200,
    PAGE_HEADERS,
  ),
);
