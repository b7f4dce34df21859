/**
 * The page of the health questions: for which appointment they are, what was answered before, the form, and what happens
 * with the answers. Works without script. Never preselects an answer, and shows none that was kept.
 */
import type { FC } from "hono/jsx";
import { fill } from "../feed/fill.ts";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { Catalogue } from "../feed/language/catalogue.ts";
import { asksQuestions } from "../feed/nextToDo.ts";
import { isStopped, isUndecided } from "../feed/openSteps.ts";
import { longTime } from "../feed/timeInWords.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Plan } from "../plan/types.ts";
import type { QuestionsAsked } from "../salon/askQuestions.ts";
import { EmergencyNote } from "./emergencyNote.tsx";
import { Contact } from "./contact.tsx";
import { Page } from "./layout.tsx";
import { minuteIn } from "./minuteIn.ts";
import { QuestionsForm, type Tried } from "./questionsForm.tsx";

/** @param tried what was sent and not kept; null where the page is only opened */
export const ScreeningPage: FC<{ asked: QuestionsAsked; context: FeedContext; tried: Tried | null }> = ({
  asked,
  context,
  tried,
}) => {
  const { settings, plan } = asked;
  const { questions } = catalogueOf(settings.language);
  const phone = settings.contact.phone ?? catalogueOf(settings.language).missing.phone;
  return (
    <Page title={fill(questions.title, { salon: settings.name })} language={settings.language}>
      <h1>{settings.name}</h1>
      <EmergencyNote country={settings.country} />
      <section class="card">
        {plan === null ? (
          <>
            <h2>{questions.none}</h2>
            {tried === null ? null : <p class="now">{questions.faults.notAhead}</p>}
            <p>{questions.noneDetail}</p>
          </>
        ) : (
          <Asked asked={asked} plan={plan} context={context} tried={tried} />
        )}
      </section>
      <p>
        <a href={context.pageUrl ?? ""}>{questions.back}</a>
      </p>
      <section>
        <h3>{questions.afterHeading}</h3>
        <p>{questions.after}</p>
        <p>{questions.afterWithdrawal}</p>
        <p>{fill(questions.instead, { phone })}</p>
      </section>
      <Contact settings={settings} />
    </Page>
  );
};

const Asked: FC<{ asked: QuestionsAsked; plan: Plan; context: FeedContext; tried: Tried | null }> = ({
  asked,
  plan,
  context,
  tried,
}) => {
  const catalogue = catalogueOf(context.settings.language);
  const { questions, colour } = catalogue;
  const form = <QuestionsForm asked={asked} plan={plan} context={context} tried={tried} />;
  const isAsked = tried !== null || asksQuestions(plan) || (plan.steps.length === 0 && asked.answered === null);
  const isShownAtOnce = isAsked && !(isStopped(plan) && tried === null);
  return (
    <>
      <h2>{fill(questions.heading, { at: longTime(plan.booking.start, context.zone, catalogue.time) })}</h2>
      {isStopped(plan) ? (
        <p class="now">
          {fill(colour.stop, { salon: context.settings.name })}. {colour.stopHow}
        </p>
      ) : null}
      {answeredWords(asked, plan, context, catalogue).map((sentence) => (
        <p>{sentence}</p>
      ))}
      {isShownAtOnce ? (
        form
      ) : (
        <details>
          <summary>{isStopped(plan) ? questions.stopAgain : questions.changeHeading}</summary>
          {form}
        </details>
      )}
    </>
  );
};

/** What came of answers, by the words that say it. */
const WORDS_OF: ReadonlyMap<string, "pass" | "testNeeded" | "doNotColour"> = new Map([
  ["pass", "pass"],
  ["test-needed", "testNeeded"],
  ["do-not-colour", "doNotColour"],
]);

/** When she answered for this appointment and what came of it, and whether the salon has decided otherwise since. */
const answeredWords = (
  { answered }: QuestionsAsked,
  plan: Plan,
  context: FeedContext,
  { questions }: Catalogue,
): readonly string[] => {
  const isRecorded = plan.steps.some(
    ({ kind, state }) => (kind === "screening" || kind === "rescreening") && state === "done",
  );
  if (answered === null) return isRecorded ? [questions.answeredAtSalon] : [];
  const when = fill(questions.answered, { when: minuteIn(answered.at, context) });
  const { cameOf } = questions;
  if (isUndecided(plan)) return [`${when} ${cameOf.personDecides}`];
  if (asksQuestions(plan)) return [`${when} ${questions.askedAgain}`];
  const words = WORDS_OF.get(answered.outcome ?? "");
  return [`${when} ${words ? cameOf[words] : questions.answeredAtSalon}`];
};
