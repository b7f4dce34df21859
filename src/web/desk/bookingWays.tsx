/** Which ways lead to a clear test before this colour, until when each is open, and the choice of another. */
import type { FC } from "hono/jsx";
import type { Plan, RoutePlan } from "../../plan/types.ts";
import { ROUTE_WORDS } from "../evidenceWords.ts";
import { refOf, type Signed } from "./desk.ts";
import { choiceOf } from "./recordForm.tsx";
import { Press } from "./press.tsx";
import { timesOf } from "./times.ts";

export const BookingWays: FC<{ signed: Signed; plan: Plan }> = ({ signed, plan }) => {
  const { long } = timesOf(signed);
  const isAhead = plan.standing !== "past" && plan.standing !== "cancelled";
  if (plan.standing === "stop") {
    return (
      <section class="panel" aria-labelledby="ways">
        <h2 id="ways">Ways to a clear test</h2>
        <p>None while there is a stop: no test is asked for until a person has decided.</p>
      </section>
    );
  }
  return (
    <section class="panel" aria-labelledby="ways">
      <h2 id="ways">Ways to a clear test</h2>
      <ul class="rows ways">
        {plan.routes.map((each) => (
          <li>
            <span class="when">
              <strong>{ROUTE_WORDS[each.route]}</strong>
            </span>
            <span>
              {each.route === plan.route ? "This is the way. " : ""}
              {each.fits ? "It fits" : "It does not fit"}
              {each.fits && each.until !== null ? ` until ${long(each.until)}` : ""}. {each.why.text}
            </span>
            <div class="about">
              {isAhead && each.fits && each.route !== plan.route && each.route !== "on-file" ? (
                <Choose signed={signed} plan={plan} route={each} />
              ) : null}
            </div>
          </li>
        ))}
      </ul>
      {plan.earliest === null ? null : (
        <p>
          Earliest start that the rules allow her: <strong>{long(plan.earliest.start)}</strong>,{" "}
          {ROUTE_WORDS[plan.earliest.route]}.
        </p>
      )}
    </section>
  );
};

const Choose: FC<{ signed: Signed; plan: Plan; route: RoutePlan }> = ({ signed, plan, route: { route } }) => (
  <Press
    signed={signed}
    to="/desk/records"
    fields={{
      booking: refOf(signed, plan.booking.uid),
      choice: choiceOf({ kind: "route", ...(route === "on-file" ? {} : { route }) }),
    }}
    label={route === "home-kit" ? "Post her a kit instead" : "Test at the salon instead"}
    back={`${signed.here}#ways`}
  />
);
