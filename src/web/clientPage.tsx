/** A client's page: the next thing to do, what she can tell, every time, where to reach the salon, and her calendar. */
import type { FC } from "hono/jsx";
import { hasShown } from "../feed/descriptions.ts";
import { somethingShowsWords } from "../feed/emergency.ts";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { appointmentWords, asksQuestions, nextToDo, stepLines } from "../feed/nextToDo.ts";
import { isUndecided, needsNewTest } from "../feed/openSteps.ts";
import { reportWords } from "../feed/reportWords.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Shade } from "../plan/shades.ts";
import type { Plan, Standing } from "../plan/types.ts";
import type { ClientPage as Opened } from "../salon/salon.ts";
import { type Instant, MINUTE } from "../time/instant.ts";
import { EmergencyNote } from "./emergencyNote.tsx";
import { chainOf } from "./chain.ts";
import { ChainPicture } from "./chainPicture.tsx";
import { ChainSymbols } from "./chainSymbols.tsx";
import { ClientCalendar } from "./clientCalendar.tsx";
import { ClientTell, type NotSaved, NotSavedNote } from "./clientTell.tsx";
import { Contact, Telephone } from "./contact.tsx";
import { KeptAnswers } from "./keptAnswers.tsx";
import { Page } from "./layout.tsx";
import { minuteIn } from "./minuteIn.ts";
import { questionsAddress } from "./questionsAddress.ts";
import { StepList } from "./stepList.tsx";

interface Shown {
  readonly opened: Opened;
  /** Those that are still of interest to her. */
  readonly plans: readonly Plan[];
  readonly context: FeedContext;
  /** https address of her feed. */
  readonly feedUrl: string;
  /** The press that led here, where it was not kept. */
  readonly notSaved: NotSaved | null;
}

export const ClientPage: FC<Shown> = ({ opened, plans, context, feedUrl, notSaved }) => {
  const { settings, consent, shades } = opened;
  const { page, report } = catalogueOf(settings.language);
  const near = plans.filter((plan, index) => index < SHOWN_WHOLE || plan.standing !== "on-track");
  const isOfNone = notSaved !== null && near.every(({ booking }) => booking.uid !== notSaved.booking);
  return (
    <Page title={fill(page.title, { salon: settings.name })} language={settings.language}>
      <h1>{settings.name}</h1>
      {/* Always first, and always in sight. */}
      <EmergencyNote country={settings.country} />
      {isOfNone ? <NotSavedNote words={notSaved.words} heading={report.notSaved.heading} /> : null}
      <JustSaved opened={opened} context={context} />
      <ChainSymbols />
      {plans.length === 0 ? (
        <section class="card">
          <h2>{page.none}</h2>
          <p>{page.noneDetail}</p>
        </section>
      ) : (
        near.map((plan) => (
          <Appointment
            plan={plan}
            context={context}
            shades={shades}
            movedFrom={opened.movedFrom.get(plan.booking.uid) ?? null}
            notSaved={notSaved?.booking === plan.booking.uid ? notSaved : null}
          />
        ))
      )}
      <Later plans={plans.filter((plan) => !near.includes(plan))} context={context} />
      <LastTold opened={opened} context={context} />
      <KeptAnswers consent={consent} context={context} />
      <Contact settings={settings} />
      <ClientCalendar feedUrl={feedUrl} pageUrl={context.pageUrl ?? ""} language={settings.language} />
      <p class="small">
        {page.cautions} <a href="/privacy">{page.privacy}</a>.
      </p>
    </Page>
  );
};

/** Appointments that are shown with all their steps, if nothing is to be done for them yet: a page is read on the way. */
const SHOWN_WHOLE = 6;

const Later: FC<{ plans: readonly Plan[]; context: FeedContext }> = ({ plans, context }) => {
  const { page } = catalogueOf(context.settings.language);
  return plans.length === 0 ? null : (
    <section>
      <h3>{page.later}</h3>
      <p>{page.laterDetail}</p>
      <ul>
        {plans.map((plan) => (
          <li>{appointmentWords(plan, context)}</li>
        ))}
      </ul>
    </section>
  );
};

/** When it is, where the headline does not say so, and when it was before it moved. */
const Booked: FC<{ plan: Plan; headline: string; movedFrom: Instant | null; context: FeedContext }> = ({
  plan,
  headline,
  movedFrom,
  context,
}) => {
  const isSaid = headline.includes(minuteIn(plan.booking.start, context));
  const moved = catalogueOf(context.settings.language).page.moved;
  if (isSaid && movedFrom === null) return null;
  return (
    <p class="small">
      {isSaid ? null : `${appointmentWords(plan, context)} `}
      {movedFrom === null ? null : <strong>{fill(moved, { at: minuteIn(movedFrom, context) })}</strong>}
    </p>
  );
};

/** Under these the steps lead somewhere: a picture that ends in the colour would say too much under any other. */
const LEADS_ON: readonly Standing[] = ["on-track", "due", "late", "ready"];

const Appointment: FC<{
  plan: Plan;
  context: FeedContext;
  shades: readonly Shade[];
  movedFrom: Instant | null;
  notSaved: NotSaved | null;
}> = ({ plan, context, shades, movedFrom, notSaved }) => {
  const { settings, zone } = context;
  const { page } = catalogueOf(settings.language);
  const { headline, detail, isQuestions } = nextToDo(plan, context);
  const [how, ...more] = detail.split("\n\n");
  const lines = stepLines(plan, context);
  const shown = chainOf(plan, shades, context);
  return (
    <section class="card">
      <h2>{headline}</h2>
      {plan.asOf <= plan.booking.start && plan.standing !== "cancelled" ? (
        <Booked plan={plan} headline={headline} movedFrom={movedFrom} context={context} />
      ) : null}
      {isQuestions ? <Questions plan={plan} context={context} isFirst /> : null}
      {hasShown(plan) ? <p class="shows">{somethingShowsWords(settings.contact.phone)}</p> : null}
      {/* Who is asked to telephone has the telephone under her thumb. */}
      {hasShown(plan) || plan.standing === "stop" || plan.standing === "no-time" || needsNewTest(plan) ? (
        <p>
          <Telephone settings={settings} isFirst />
        </p>
      ) : null}
      {/* What she can press stands in sight on a phone: the rest of what is to be said comes after it. */}
      <p>{how}</p>
      <ClientTell plan={plan} context={context} notSaved={notSaved} />
      {more.map((paragraph) => (
        <p>{paragraph}</p>
      ))}
      {isQuestions ? null : <Questions plan={plan} context={context} isFirst={false} />}
      {lines.length === 0 ? null : (
        <>
          <h3>{page.everyStep}</h3>
          {LEADS_ON.includes(plan.standing) ? (
            <ChainPicture shown={shown} zone={zone} language={settings.language} />
          ) : null}
          <StepList lines={lines} howWords={page.how} />
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

/** Since a press: so long it is said first that it was kept. */
const JUST_NOW = 2 * MINUTE;

const toldWords = ({ told }: Opened, pattern: string, context: FeedContext): string | null => {
  const words = told && reportWords(told, context.settings.language);
  return told && words ? fill(pattern, { told: words, when: minuteIn(told.at, context) }) : null;
};

const isJustSaved = ({ told, now }: Opened): boolean => told !== null && told.recorded >= now - JUST_NOW;

const JustSaved: FC<{ opened: Opened; context: FeedContext }> = ({ opened, context }) => {
  const { report } = catalogueOf(context.settings.language);
  const words = isJustSaved(opened) ? toldWords(opened, report.saved, context) : null;
  return words === null ? null : (
    <p class="kept" role="status">
      {words}
    </p>
  );
};

const LastTold: FC<{ opened: Opened; context: FeedContext }> = ({ opened, context }) => {
  const { report, missing } = catalogueOf(context.settings.language);
  const words = toldWords(opened, report.last, context);
  return words === null ? null : (
    <p class="small">
      {words} {fill(report.mistake, { phone: context.settings.contact.phone ?? missing.phone })}
    </p>
  );
};
