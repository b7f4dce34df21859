/** What a client can tell of an appointment by one press; a plain form, so that it works without script. */
import type { FC } from "hono/jsx";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import type { FeedContext } from "../feed/types.ts";
import type { Plan } from "../plan/types.ts";
import { reportsFor } from "./clientReports.ts";
import { pressValue } from "./pressed.ts";

/** A press that was not kept. */
export interface NotSaved {
  /** Of which appointment; null: it is not on the page. */
  readonly booking: string | null;
  /** The time as it was typed. */
  readonly when: string;
  /** Why, in a sentence. */
  readonly words: string;
}

export const ClientTell: FC<{ plan: Plan; context: FeedContext; notSaved: NotSaved | null }> = ({
  plan,
  context,
  notSaved,
}) => {
  const { language } = context.settings;
  const { report: words, says } = catalogueOf(language);
  const reports = reportsFor(plan, language);
  const note = notSaved ? <NotSavedNote words={notSaved.words} heading={words.notSaved.heading} /> : null;
  if (reports.length === 0) return note;
  // Of a test that is late it is asked since when it is on: a press for now would say that it went on too late.
  const isOver = plan.standing === "late" || plan.standing === "no-time";
  const isLate = isOver && reports.some(({ kind }) => kind === "applied");
  const firstLook = reports.find(({ kind }) => kind === "read");
  const id = `when-${context.uidOf(plan.booking.uid, "colour", null)}`;
  const time = (
    <details open={isLate || notSaved !== null}>
      <summary>{words.earlier}</summary>
      <label for={id}>{words.when}</label>
      <input type="datetime-local" name="when" id={id} value={notSaved?.when} />
    </details>
  );
  return (
    <form method="post" action={`${context.pageUrl ?? ""}/records`} class="tell">
      <h3>{words.heading}</h3>
      {note}
      {/* Enter in the time presses the first button of a form: this one tells nothing, and the page says so. */}
      <button type="submit" name="press" value="" class="unpressed" tabindex={-1} aria-hidden="true" />
      <input type="hidden" name="booking" value={plan.booking.uid} />
      {isLate ? time : null}
      {reports.map((report) => (
        <>
          {report === firstLook ? <p>{says.lookFor}</p> : null}
          <button type="submit" name="press" value={pressValue(report)} class={report.isAlarm ? "alarm" : undefined}>
            {report.label}
          </button>
        </>
      ))}
      {isLate ? null : time}
    </form>
  );
};

export const NotSavedNote: FC<{ heading: string; words: string }> = ({ heading, words }) => (
  <p class="faults" role="alert">
    <strong>{heading}.</strong> {words}
  </p>
);
