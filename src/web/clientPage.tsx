/** A client's page: the next thing to do, every time, where to reach the salon, and how to subscribe. */
import type { FC } from "hono/jsx";
import { emergencyWords, somethingShowsWords } from "../feed/emergency.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { appointmentWords, asksQuestions, nextToDo, stepLines } from "../feed/nextToDo.ts";
import { isUndecided } from "../feed/openSteps.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Plan } from "../plan/types.ts";
import type { Settings } from "../settings.ts";
import type { ConsentHeld } from "../salon/consent.ts";
import { reportsFor } from "./clientReports.ts";
import { Contact } from "./contact.tsx";
import { KeptAnswers } from "./keptAnswers.tsx";
import { Page } from "./layout.tsx";
import { questionsAddress } from "./questionsAddress.ts";

interface Shown {
  readonly settings: Settings;
  readonly plans: readonly Plan[];
  readonly consent: ConsentHeld | null;
  readonly context: FeedContext;
  /** https address of her feed. */
  readonly feedUrl: string;
}

export const ClientPage: FC<Shown> = ({ settings, plans, consent, context, feedUrl }) => (
  <Page title={`Skin test, ${settings.name}`} language={settings.language}>
    <h1>{settings.name}</h1>
    {/* Always first, so that it is in sight on a phone without a touch. */}
    <p class="emergency" role="note">
      {emergencyWords(settings.country)}
    </p>
    {plans.length === 0 ? (
      <section class="card">
        <h2>Nothing to do at present</h2>
        <p>When you have an appointment for colour, what to do before it stands here.</p>
      </section>
    ) : (
      plans.map((plan) => <Appointment plan={plan} context={context} phone={settings.contact.phone} />)
    )}
    <KeptAnswers consent={consent} context={context} />
    <Contact settings={settings} />
    <Subscribe feedUrl={feedUrl} />
    <p class="small">
      The product's or kit's own instructions, the salon's insurer and local rules win over any time given here. A clear
      test does not mean that no reaction will happen. <a href="/privacy">What is stored about you, and why</a>.
    </p>
  </Page>
);

const Appointment: FC<{ plan: Plan; context: FeedContext; phone: string | null }> = ({ plan, context, phone }) => {
  const { headline, detail, isQuestions } = nextToDo(plan, context);
  const lines = stepLines(plan, context);
  return (
    <section class="card">
      <h2>{headline}</h2>
      {plan.asOf <= plan.booking.start && plan.standing !== "cancelled" ? (
        <p class="small">{appointmentWords(plan, context)}</p>
      ) : null}
      {isQuestions ? <Questions plan={plan} context={context} isFirst /> : null}
      {plan.why.some(({ code }) => code === "stop-reaction") ? <p>{somethingShowsWords(phone)}</p> : null}
      {detail.split("\n\n").map((paragraph) => (
        <p>{paragraph}</p>
      ))}
      {isQuestions ? null : <Questions plan={plan} context={context} isFirst={false} />}
      <Reports plan={plan} context={context} />
      {lines.length === 0 ? null : (
        <>
          <h3>Every step</h3>
          <ol class="steps">
            {lines.map((line) => (
              <li class={line.state}>
                <span>{line.text}</span>
                <span class="state">{line.stateWords}</span>
                {line.when === null ? null : <span class="when">{line.when}</span>}
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
};

/**
 * The way to the salon's questions, where they are to be answered or were answered and wait for a person. Not pressed upon
 * her before their time: answers are to be recent.
 */
const Questions: FC<{ plan: Plan; context: FeedContext; isFirst: boolean }> = ({ plan, context, isFirst }) => {
  const words = catalogueOf(context.settings.language).questions;
  const waits = isUndecided(plan) && plan.standing !== "stop";
  if (!waits && !asksQuestions(plan)) return null;
  return (
    <p>
      <a class={isFirst ? "button first" : waits ? "button" : undefined} href={questionsAddress(plan, context)}>
        {waits ? words.openAgain : words.open}
      </a>
    </p>
  );
};

/** What she can tell by one press; a plain form, so that it works without script. */
const Reports: FC<{ plan: Plan; context: FeedContext }> = ({ plan, context }) => {
  const { language } = context.settings;
  const reports = reportsFor(plan, language);
  const words = catalogueOf(language).report;
  if (reports.length === 0) return null;
  const id = `when-${plan.steps[0]?.uid ?? plan.booking.start}`;
  return (
    <>
      <h3>{words.heading}</h3>
      {reports.map(({ kind, outcome, route, label, isAlarm }, index) => (
        <form method="post" action={`${context.pageUrl ?? ""}/records`} class="report">
          <input type="hidden" name="kind" value={kind} />
          <input type="hidden" name="outcome" value={outcome ?? ""} />
          <input type="hidden" name="route" value={route ?? ""} />
          <input type="hidden" name="booking" value={plan.booking.uid} />
          <button type="submit" class={isAlarm ? "button alarm" : "button"}>
            {label}
          </button>
          <label class="small" for={`${id}-${index}`}>
            {words.when}
          </label>
          <input type="datetime-local" name="when" id={`${id}-${index}`} />
        </form>
      ))}
    </>
  );
};

const Subscribe: FC<{ feedUrl: string }> = ({ feedUrl }) => (
  <section>
    <h3>In your calendar</h3>
    <div class="buttons">
      <a class="button" href={feedUrl.replace(/^https?:/, "webcal:")}>
        Add to my calendar
      </a>
      <a class="button" href={feedUrl}>
        Calendar address
      </a>
    </div>
    <p class="small">
      On an iPhone, leave “Remove Alerts” switched off when it asks: the alerts are your reminders. Calendars look again
      at their own pace, some only once a day, so this page is always the surest. Keep the address to yourself: who has
      it sees your times.
    </p>
    <p>
      <code>{feedUrl}</code>
    </p>
    <p class="small">
      If your calendar cannot follow an address, <a href={`${feedUrl}?once`}>save the times once as a file</a>. They
      will not follow if your appointment moves.
    </p>
  </section>
);
