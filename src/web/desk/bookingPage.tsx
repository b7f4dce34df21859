/** One appointment at the desk: how it stands and why, every step with its presses, other ways, other times, and what was told. */
import type { FC } from "hono/jsx";
import { stepLines } from "../../feed/nextToDo.ts";
import { isDoneFrom } from "../../feed/eventTime.ts";
import type { Plan, Step } from "../../plan/types.ts";
import type { DeskBookingShown } from "../../salon/deskBooking.ts";
import type { DueKind } from "../../salon/deskDue.ts";
import { chainOf } from "../chain.ts";
import { ChainPicture } from "../chainPicture.tsx";
import { ChainSymbols } from "../chainSymbols.tsx";
import { bookingAddress } from "./booked.tsx";
import { BookingQuestions } from "./bookingQuestions.tsx";
import { BookingRecords } from "./bookingRecords.tsx";
import { BookingWays } from "./bookingWays.tsx";
import { WhatIf } from "./bookingWhatIf.tsx";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { offeredFor } from "./presses.ts";
import { type Message, Reach } from "./reach.tsx";
import { RecordForm } from "./recordForm.tsx";
import { StandingMark } from "./standing.tsx";
import { timesOf } from "./times.ts";

export interface BookingShown {
  readonly signed: Signed;
  readonly shown: DeskBookingShown;
  /** What she would be sent. */
  readonly message: Message;
  /** The address of her questions for this appointment. */
  readonly questions: string;
  /** A row of the first page led here for a decision: it leads back there. */
  readonly isFromToday: boolean;
}

export const BookingPage: FC<BookingShown> = ({ signed, shown, message, questions, isFromToday }) => {
  const { booking, plan, client, shades, others } = shown;
  const { long, zone, near } = timesOf(signed);
  const { language } = signed.head.settings;
  return (
    <DeskPage title="Appointment" place={null} signed={signed}>
      <h1>
        <bdi>{client.name}</bdi>: {booking.service}, {long(booking.start)}
      </h1>
      <div class="panel">
        <p class="stands">
          <StandingMark standing={plan.standing} />
        </p>
        {booking.turned !== null && booking.turned.from !== null ? (
          <p class="small">
            Moved {near(booking.turned.at)}: it was {long(booking.turned.from)}.
          </p>
        ) : null}
        {booking.unreadSince === null ? null : (
          <p class="mark">Its entry in the diary cannot be understood any more, since {near(booking.unreadSince)}.</p>
        )}
        <ul class="reasons">
          {plan.why.map(({ text }) => (
            <li>{text}</li>
          ))}
        </ul>
        <Reach client={client} message={message} />
        <p class="small">
          <a href={`/desk/clients/${client.id}`}>Everything about her</a> ·{" "}
          <a href={`/desk/evidence/${refOf(signed, booking.uid)}`}>Evidence on one page</a> · diary {booking.diary}
        </p>
      </div>
      <section class="panel" aria-labelledby="steps">
        <h2 id="steps">Steps</h2>
        {plan.steps.length === 0 ? <p>There are none.</p> : null}
        <ChainSymbols />
        <ChainPicture shown={chainOf(plan, shades, deskContext(signed))} zone={zone} language={language} />
        <Steps signed={signed} plan={plan} />
      </section>
      <BookingQuestions signed={signed} shown={shown} questions={questions} isFromToday={isFromToday} />
      <BookingWays signed={signed} plan={plan} />
      <WhatIf signed={signed} shown={shown} />
      <BookingRecords signed={signed} shown={shown} />
      {others.length === 0 ? null : (
        <section class="panel" aria-labelledby="others">
          <h2 id="others">Her other appointments for colour</h2>
          <ul class="rows">
            {others.map(({ booking: other, standing }) => (
              <li>
                <StandingMark standing={standing} />
                <a href={bookingAddress(signed, other.uid)}>
                  {other.service}, {long(other.start)}
                </a>
              </li>
            ))}
          </ul>
        </section>
      )}
    </DeskPage>
  );
};

/** As which of the desk's dues a step is recorded. */
const dueKindOf = (step: Step, route: Plan["route"]): DueKind | null => {
  switch (step.kind) {
    case "shipping":
      return "post";
    case "arrival":
      return "kit";
    case "application":
      return route === "home-kit" ? "kit" : "walk-in";
    case "removal":
      return "removal";
    case "reading":
      return "look";
    case "result":
      return "confirm";
    case "screening":
    case "rescreening":
      return null;
  }
};

const Steps: FC<{ signed: Signed; plan: Plan }> = ({ signed, plan }) => {
  const context = deskContext(signed);
  const { long } = timesOf(signed);
  const steps = new Map([...plan.steps, ...plan.leftBehind].map((step) => [step.uid, step]));
  const product = signed.head.settings.services.find(({ name }) => name === plan.booking.service)?.product ?? null;
  return (
    <ul class="rows steps-list">
      {stepLines(plan, context, "salon").map(({ uid, text, when, stateWords, state, route }) => {
        const step = steps.get(uid);
        if (!step) return null;
        const kind = dueKindOf(step, route);
        const isPressable = kind !== null && isToPress(step, state, plan);
        const { choices, details } = kind === null ? { choices: [], details: [] } : offeredFor(kind, plan, true);
        return (
          <li>
            <span class="when">
              {state === "done"
                ? `\u2713 ${stateWords}`
                : (when ?? (isDoneFrom(step) ? `from ${long(step.opens)}` : `by ${long(step.due)}`))}
            </span>
            <span>
              {text} {state === "done" ? null : <span class="small">({stateWords})</span>}
              <span class="small rule">{ruleOf(step)}</span>
            </span>
            <div class="about">
              {isPressable && choices.length > 0 ? (
                <RecordForm
                  signed={signed}
                  booking={refOf(signed, plan.booking.uid)}
                  choices={choices}
                  about={text}
                  details={details}
                  product={product}
                  first={state === "now" || state === "asked"}
                  back={`${signed.here}#steps`}
                />
              ) : null}
            </div>
          </li>
        );
      })}
    </ul>
  );
};

/** What has not begun cannot have been done; a result is confirmed once its looks are told. */
const isToPress = (step: Step, state: string, plan: Plan): boolean => {
  if (step.kind === "result") return step.state === "done" && plan.standing !== "ready" && plan.standing !== "past";
  if (step.counted !== null && !step.counted.recorded) return false;
  return state === "now" || state === "asked" || (step.kind === "shipping" && state === "open");
};

const ruleOf = ({ rule: { protocol, source } }: Step): string =>
  [protocol, source].filter((part) => part !== null).join(": ");
