/** What is due, by kind, each with the presses that record it. */
import type { FC } from "hono/jsx";
import { isDoneFrom, stepTime } from "../../feed/eventTime.ts";
import type { FeedContext } from "../../feed/types.ts";
import { moodOf, stepSummary } from "../../feed/words.ts";
import type { Plan } from "../../plan/types.ts";
import { type Due, DUE_KINDS, type DueKind } from "../../salon/deskDue.ts";
import type { DeskToday } from "../../salon/deskToday.ts";
import { type Instant, MINUTE } from "../../time/instant.ts";
import { Booked, bookingAddress } from "./booked.tsx";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { offeredFor } from "./presses.ts";
import { RecordForm } from "./recordForm.tsx";
import { timesOf } from "./times.ts";

const HEADINGS: Readonly<Record<DueKind, string>> = {
  decide: "Answers to decide about",
  post: "Kits to post",
  "walk-in": "Tests to put on here",
  kit: "Kits to ask after",
  removal: "Tests to take off",
  look: "Looks",
  confirm: "Results to confirm before the colour",
  questions: "Health questions not answered",
};

/** @param questions the address of each appointment's health questions, by `booking.uid` */
export const DueList: FC<{ signed: Signed; today: DeskToday; questions: ReadonlyMap<string, string> }> = ({
  signed,
  today,
  questions,
}) => {
  const groups = Map.groupBy(today.due, ({ kind }) => kind);
  const plans = new Map(today.plans.map((plan) => [plan.booking.uid, plan]));
  if (today.due.length === 0) return <p>Nothing is due before then.</p>;
  return (
    <>
      {DUE_KINDS.flatMap((kind) => {
        const list = groups.get(kind);
        if (!list) return [];
        return (
          <>
            <h3 id={groupId(kind)}>
              {HEADINGS[kind]} <span class="count">{list.length}</span>
            </h3>
            <ul class="rows">
              {list.map((due) => {
                const plan = plans.get(due.booking);
                return plan ? (
                  <DueRow
                    signed={signed}
                    today={today}
                    due={due}
                    plan={plan}
                    questions={questions.get(due.booking) ?? null}
                  />
                ) : null;
              })}
            </ul>
          </>
        );
      })}
    </>
  );
};

/** Where a press comes back to: the list it was in, so that the next of its kind is at hand. */
const groupId = (kind: DueKind): string => `due-${kind}`;

interface Row {
  readonly signed: Signed;
  readonly today: DeskToday;
  readonly due: Due;
  readonly plan: Plan;
  readonly questions: string | null;
}

const DueRow: FC<Row> = ({ signed, today, due, plan, questions }) => {
  const { near } = timesOf(signed);
  const booking = today.bookings.find(({ uid }) => uid === due.booking);
  const name = plan.booking.client?.name ?? "";
  const { choices, details } = offeredFor(due.kind, plan, due.step.opens <= today.now);
  const product = signed.head.settings.services.find((each) => each.name === plan.booking.service)?.product ?? null;
  const context = deskContext(signed);
  return (
    <li class={due.isLate ? "is-late" : undefined}>
      <span class="when">
        {due.isLate ? <strong class="late-mark">Late: </strong> : null}
        {WHEN[due.kind]} {near(shownAt(due, plan, context))}
      </span>
      {booking === undefined ? null : <Booked signed={signed} booking={booking} name={name} />}
      <div class="about">
        <p class="small">{stepSummary(due.step, plan.route, plan, context, "salon", moodOf(due.step, plan))}</p>
        {choices.length === 0 ? (
          <AskOrDecide signed={signed} due={due} name={name} questions={questions} />
        ) : (
          <RecordForm
            signed={signed}
            booking={refOf(signed, due.booking)}
            choices={choices}
            about={name}
            details={details}
            product={product}
            back={`${signed.here}#${groupId(due.kind)}`}
          />
        )}
      </div>
    </li>
  );
};

/** The time that stands beside it: of what is done from a time on the one its words say, rounded alike. */
const shownAt = ({ kind, step, at }: Due, plan: Plan, { settings, zone }: FeedContext): Instant => {
  if (kind === "confirm") return plan.booking.start;
  return isDoneFrom(step) ? Math.ceil(stepTime(step, settings, zone).from / MINUTE) * MINUTE : at;
};

/** What a person must read first is decided on the appointment's page, which then leads back here. */
const AskOrDecide: FC<Pick<Row, "signed" | "due" | "questions"> & { name: string }> = ({
  signed,
  due: { kind, booking },
  questions,
  name,
}) => {
  const address = `${bookingAddress(signed, booking)}?from=today`;
  if (kind === "decide") {
    return (
      <a class="button" href={`${address}#questions`}>
        Read the answers and decide<span class="unseen">: {name}</span>
      </a>
    );
  }
  return (
    <div class="presses">
      {questions === null ? null : (
        <a class="button" href={questions}>
          Ask her on this screen<span class="unseen">: {name}</span>
        </a>
      )}
      <a class="button" href={`${address}#asked`}>
        Record what she said<span class="unseen">: {name}</span>
      </a>
    </div>
  );
};

const WHEN: Readonly<Record<DueKind, string>> = {
  decide: "before",
  post: "by",
  "walk-in": "by",
  kit: "was due",
  removal: "from",
  look: "from",
  confirm: "colour",
  questions: "by",
};
