/** The answer of the front door: the whole chain before one colour, which ways still fit, and the file to take along. */
import type { FC } from "hono/jsx";
import { catalogueOf } from "../feed/language/catalogueOf.ts";
import { stepLines } from "../feed/nextToDo.ts";
import { longTime } from "../feed/timeInWords.ts";
import { shadesBetween } from "../plan/shades.ts";
import type { RouteName, RoutePlan } from "../plan/types.ts";
import { type Instant, wholeMinute } from "../time/instant.ts";
import { chainOf } from "./chain.ts";
import { ChainPicture } from "./chainPicture.tsx";
import { ChainSymbols } from "./chainSymbols.tsx";
import type { OneAsked, OnePlan } from "./onePlan.ts";
import { StepList } from "./stepList.tsx";

const ROUTE_WORDS: Readonly<Record<RouteName, string>> = {
  "home-kit": "A kit sent home",
  "in-salon": "A test at the salon",
  "on-file": "An earlier clear result",
};

export const FrontAnswer: FC<{ asked: OneAsked; counted: OnePlan }> = ({ asked, counted }) => {
  const { plan, context, rules } = counted;
  const { zone } = context;
  const say = (at: Instant): string => longTime(at, zone, catalogueOf("en-GB").time);
  const lines = stepLines(plan, context);
  const times = [plan.asOf, plan.booking.start, ...plan.steps.map(({ due }) => due)];
  const shown = chainOf(plan, shadesBetween(rules, Math.min(...times), Math.max(...times)), context);
  const fits = plan.routes.some((route) => route.fits);
  const next = lines.find(({ state }) => state === "now" || state === "open");
  return (
    <section class="card">
      <h2>{fits && next ? `First: ${next.text}` : "No test fits any more before this colour"}</h2>
      <p>
        The colour starts on <strong>{say(plan.booking.start)}</strong> by the clocks of {zone.name}. Counted back from
        it at {say(wholeMinute(plan.asOf))}.
        {fits && lines.some(({ state }) => state === "asked")
          ? " Some times have passed already; what is left still fits if it is done at once."
          : null}
      </p>
      {plan.earliest === null ? null : (
        <p class="now">
          The earliest colour that a test begun now allows is on {say(plan.earliest.start)}:{" "}
          {ROUTE_WORDS[plan.earliest.route].toLowerCase()}. That says nothing of a free chair. If a test is on already,
          tell the salon: it may still count.
        </p>
      )}
      {shown.marks.length === 0 ? null : (
        <>
          <ChainSymbols />
          <ChainPicture shown={shown} zone={zone} language="en-GB" />
          <h3>Every step, with its exact time</h3>
          <StepList lines={lines} />
        </>
      )}
      <h3>Which ways fit, counted from now</h3>
      <ul class="ways">
        {plan.routes.map((route) => (
          <Way route={route} say={say} />
        ))}
      </ul>
      <p>
        <a class="button first" href={`/count-back.ics?${fileQuery(asked)}`}>
          Save these times as a calendar file
        </a>
      </p>
      <p class="small">
        The file is taken into a calendar once. It does not follow if the appointment moves, and it knows nothing of
        what is done meanwhile.
      </p>
    </section>
  );
};

const Way: FC<{ route: RoutePlan; say: (at: Instant) => string }> = ({
  route: { route, fits, until, earliest, why },
  say,
}) => (
  <li class={fits ? "fits" : undefined}>
    <strong>
      {ROUTE_WORDS[route]}
      {fits ? (until === null ? " fits." : ` fits until ${say(until)}.`) : " does not fit any more."}
    </strong>{" "}
    {why.text}
    {fits || earliest === null ? null : ` The earliest colour that it would serve: ${say(earliest)}.`}
  </li>
);

const fileQuery = ({ start, zone, test, country }: OneAsked): string => {
  const query = new URLSearchParams({ start: new Date(start * 1000).toISOString().replace(".000", "") });
  if (zone !== null) query.set("zone", zone);
  if (test !== null) query.set("test", test);
  if (country !== null) query.set("country", country);
  return query.toString();
};
