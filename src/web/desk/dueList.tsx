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

export const DueList: FC<{ signed: Signed; today: DeskToday }> = ({ signed, today }) => {
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
            <h3>
              {HEADINGS[kind]} <span class="count">{list.length}</span>
            </h3>
            <ul class="rows">
              {list.map((due) => {
                const plan = plans.get(due.booking);
                return plan ? <DueRow signed={signed} today={today} due={due} plan={plan} /> : null;
              })}
            </ul>
          </>
        );
      })}
    </>
  );
};

const DueRow: FC<{ signed: Signed; today: DeskToday; due: Due; plan: Plan }> = ({ signed, today, due, plan }) => {
  const { near } = timesOf(signed);
  const booking = today.bookings.find(({ uid }) => uid === due.booking);
  const name = plan.booking.client?.name ?? "";
  const { choices, details } = offeredFor(due.kind, plan);
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
          <a class="button" href={`${bookingAddress(signed, due.booking)}#questions`}>
            {due.kind === "decide" ? "Read the answers and decide" : "Ask her"}
            <span class="unseen">: {name}</span>
          </a>
        ) : (
          <RecordForm
            signed={signed}
            booking={refOf(signed, due.booking)}
            choices={choices}
            about={name}
            details={details}
            product={product}
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
