/** The health questions of one appointment: what she answered, and what a person decides where that is left to one. */
import type { FC } from "hono/jsx";
import { isOfQuestions, isUndecided } from "../../feed/openSteps.ts";
import type { DeskBookingShown } from "../../salon/deskBooking.ts";
import { ClientAnswers } from "./clientAnswers.tsx";
import { refOf, type Signed } from "./desk.ts";
import { RecordForm, type RecordChoice } from "./recordForm.tsx";

const DECISIONS: readonly RecordChoice[] = [
  { kind: "screened", outcome: "pass", label: "Nothing against it" },
  { kind: "screened", outcome: "test-needed", label: "A new test is needed" },
  {
    kind: "screened",
    outcome: "do-not-colour",
    ground: "past-reaction",
    label: "Do not colour: a past reaction",
    isAlarm: true,
  },
  { kind: "screened", outcome: "do-not-colour", ground: "under-16", label: "Do not colour: under 16", isAlarm: true },
  {
    kind: "screened",
    outcome: "do-not-colour",
    ground: "other",
    label: "Do not colour: another ground",
    isAlarm: true,
  },
];

export const BookingQuestions: FC<{
  signed: Signed;
  shown: DeskBookingShown;
  questions: string;
  isFromToday: boolean;
}> = ({ signed, shown: { plan, screenings, client }, questions, isFromToday }) => {
  const waits = isUndecided(plan);
  const isOpen = plan.steps.some((step) => isOfQuestions(step) && step.state === "planned");
  return (
    <section class="panel" aria-labelledby="questions">
      <h2 id="questions">Health questions</h2>
      {waits ? (
        <p class="mark">She answered “not sure”: a person decides before anything goes on.</p>
      ) : isOpen ? (
        <p>Not answered yet.</p>
      ) : null}
      <ClientAnswers signed={signed} screenings={screenings} consents={[]} />
      <p>
        <a class="button" href={questions}>
          {screenings.length === 0 ? "Ask her here, on this screen" : "Ask again, on this screen"}
        </a>
      </p>
      <p class="small">She reads and answers for herself. The desk changes no answer; it can only ask again.</p>
      <details open={waits}>
        <summary>Record what came of asking</summary>
        {/* A browser opens what an address points into. */}
        <div id="asked">
          <RecordForm
            signed={signed}
            booking={refOf(signed, plan.booking.uid)}
            choices={DECISIONS}
            about={client.name}
            details={["note"]}
            first={false}
            back={isFromToday ? `/desk#due-${waits ? "decide" : "questions"}` : `${signed.here}#questions`}
          />
        </div>
      </details>
    </section>
  );
};
