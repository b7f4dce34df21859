/** The front door: what this is, a count-back for one appointment, and where to begin; its stylesheet. */
import { Hono } from "hono";
import type { FC } from "hono/jsx";
import { KNOWN_COUNTRIES } from "../feed/emergency.ts";
import { Zone } from "../time/zone.ts";
import { EmergencyNote } from "./emergencyNote.tsx";
import type { Env, Service } from "./env.ts";
import { FrontAnswer } from "./frontAnswer.tsx";
import { FrontFields } from "./frontFields.tsx";
import { type FrontForm, readFrontForm } from "./frontForm.ts";
import { Page, PAGE_HEADERS } from "./layout.tsx";
import { countFor, type OnePlan } from "./onePlan.ts";
import { PAGE_STYLES } from "./pageStyles.ts";
import { problem } from "./problems.ts";

export const frontDoor = new Hono<Service>();

frontDoor.get("/countback.css", (c) =>
  c.body(PAGE_STYLES, 200, {
    "content-type": "text/css; charset=utf-8",
    "cache-control": "public, max-age=31536000, immutable",
  }),
);

frontDoor.get("/", async (c) => {
  const now = Math.floor(Date.now() / 1000);
  const form = readFrontForm(c.req.query(), placeOf(c.req.raw, c.env), now);
  const counted = form.asked && (await countFor(form.asked, now));
  if (counted && !counted.ok) return problem(counted.fault);
  const page = <FrontDoor form={form} counted={counted?.value ?? null} />;
  return c.html(page, form.errors.size > 0 ? 422 : 200, PAGE_HEADERS);
});

/** Where whoever asks seems to be, by the network; a first offer that can be changed. */
const placeOf = (request: Request, env: Env): { readonly zone: string; readonly country: string } => {
  // On one's own machine the runtime makes up a place.
  const isLocal = env.ALLOW_LOCAL_DIARIES === "true";
  const { timezone, country } =
    (isLocal ? undefined : (request as { cf?: { timezone?: unknown; country?: unknown } }).cf) ?? {};
  const zone = typeof timezone === "string" ? Zone.named(timezone) : undefined;
  const isKnown = zone && typeof country === "string" && KNOWN_COUNTRIES.includes(country);
  return { zone: zone?.name ?? "Europe/London", country: isKnown ? country : "" };
};

const FrontDoor: FC<{ form: FrontForm; counted: OnePlan | null }> = ({ form, counted }) => (
  <Page title="Countback" language="en-GB">
    <h1>Countback</h1>
    <EmergencyNote country={form.asked?.country ?? null} />
    {form.asked && counted ? (
      <>
        <FrontAnswer asked={form.asked} counted={counted} />
        <FrontFields form={form} heading="Count back from another" />
        <About />
      </>
    ) : (
      <>
        {form.errors.size > 0 ? null : <About />}
        <FrontFields form={form} heading="Count back from one appointment" />
        {form.errors.size > 0 ? <About /> : null}
      </>
    )}
    <Ways />
    <p class="small">
      It informs; a person decides. The product's or kit's own instructions, the insurer, local rules and medical advice
      win over any time it gives. A clear test does not mean that no reaction will happen.{" "}
      <a href="/privacy">What is stored about whom, and why</a>.
    </p>
  </Page>
);

const About: FC = () => (
  <section>
    <h2>Every skin test before every colour, in time</h2>
    <p>
      Countback reads a salon's colour bookings from its ordinary calendar feed. It counts back from each one to every
      skin-test deadline: the health questions, the kit's post, when the test goes on, comes off and is looked at. It
      publishes them as calendars, one for each client and one for the salon.
    </p>
  </section>
);

const Ways: FC = () => (
  <section>
    <h3>Has your salon given you a link?</h3>
    <p>Open that one: it knows your appointment, follows it when it moves, and takes what you have to tell.</p>
    <h3>For a salon</h3>
    <p>
      A salon needs a name, a time zone, the test it does and the address of its diary. Whoever runs this service sets
      it up at <a href="/desk/new">the first visit</a>; after that the salon <a href="/desk">signs in at its desk</a>.
    </p>
    <h3>For software</h3>
    <p>
      <code>POST /api/count-back</code> gives the same count-back as JSON, with settings and records of your own.
    </p>
  </section>
);
