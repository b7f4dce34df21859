/** The same appointment at another time: what her plan would be, beside what it is. Changes nothing. */
import type { FC } from "hono/jsx";
import { stepLines } from "../../feed/nextToDo.ts";
import type { Plan } from "../../plan/types.ts";
import type { DeskBookingShown } from "../../salon/deskBooking.ts";
import { ROUTE_WORDS } from "../evidenceWords.ts";
import { bookingAddress } from "./booked.tsx";
import { deskContext, type Signed } from "./desk.ts";
import { StandingMark } from "./standing.tsx";
import { timesOf } from "./times.ts";

export const WhatIf: FC<{ signed: Signed; shown: DeskBookingShown }> = ({
  signed,
  shown: { plan, booking, whatIf },
}) => {
  const { field, long } = timesOf(signed);
  const address = bookingAddress(signed, booking.uid);
  return (
    <section class="panel" aria-labelledby="if">
      <h2 id="if">If it were at another time</h2>
      <form method="get" action={`${address}#if`} class="press">
        <label>
          Start{" "}
          <input type="datetime-local" name="start" value={field(whatIf?.booking.start ?? booking.start)} required />
        </label>
        <button type="submit">Try it</button>
      </form>
      <p class="small">Nothing is moved by this: move the appointment in your diary.</p>
      {whatIf === null ? null : (
        <div class="beside">
          <PlanBrief heading={`As it is, ${long(booking.start)}`} signed={signed} plan={plan} />
          <PlanBrief heading={`If ${long(whatIf.booking.start)}`} signed={signed} plan={whatIf} />
        </div>
      )}
    </section>
  );
};

const PlanBrief: FC<{ heading: string; signed: Signed; plan: Plan }> = ({ heading, signed, plan }) => {
  const { long } = timesOf(signed);
  return (
    <div>
      <h3>{heading}</h3>
      <p>
        <StandingMark standing={plan.standing} /> {plan.route === null ? "" : ROUTE_WORDS[plan.route]}
      </p>
      <p class="small">{plan.why[0]?.text}</p>
      {plan.earliest === null ? null : <p class="small">Earliest: {long(plan.earliest.start)}.</p>}
      <ul class="links">
        {stepLines(plan, deskContext(signed), "salon").map(({ text, when, stateWords }) => (
          <li>
            {text} <span class="small">({stateWords})</span>
            {when === null ? null : <span class="small"> {when}</span>}
          </li>
        ))}
      </ul>
    </div>
  );
};
