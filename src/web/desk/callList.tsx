/** Whom to telephone or write to: why, by what, with which words; that she was told is noted by one press. */
import type { FC } from "hono/jsx";
import { stepSummary } from "../../feed/words.ts";
import type { Plan } from "../../plan/types.ts";
import type { Call, CallReason } from "../../salon/deskCalls.ts";
import type { DeskClient } from "../../salon/deskPeople.ts";
import type { DeskToday } from "../../salon/deskToday.ts";
import { CALLS_BRIEF, CALLS_WHOLE } from "../../bounds.ts";
import { Booked, bookingAddress } from "./booked.tsx";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { Fields } from "./press.tsx";
import { type Message, Reach } from "./reach.tsx";
import { timesOf } from "./times.ts";

export const REASON_WORDS: Readonly<Record<CallReason, string>> = {
  stop: "There is a stop: she must not be coloured as it stands",
  "new-test": "The test that is on is not enough: she needs a new one",
  "no-time": "No time is left for a test before this colour",
  "too-late": "No test fits any more before this colour: ask whether one is on already, else it has to move",
  "fell-over": "The way that was planned has closed; another is open",
  overdue: "Has passed and is not recorded",
  "short-notice": "This came up less than a day ahead: her calendar may show it too late",
  "no-link": "She has not been given her link",
  unopened: "She has not opened her link for a day",
};

interface Listed {
  readonly signed: Signed;
  readonly today: DeskToday;
  readonly messages: ReadonlyMap<string, Message>;
}

export const CallList: FC<Listed> = ({ signed, today, messages }) => {
  const open = today.calls.filter(({ told }) => told === null);
  const done = today.calls.filter(({ told }) => told !== null);
  return (
    <>
      {open.length === 0 ? <p>Nobody to tell anything.</p> : null}
      <ul class="rows calls">
        {open.slice(0, CALLS_WHOLE).map((call) => (
          <CallRow signed={signed} today={today} call={call} message={messages.get(call.booking) ?? null} />
        ))}
      </ul>
      <Briefly signed={signed} today={today} calls={open.slice(CALLS_WHOLE)} heading="Next, once these are told" />
      {done.length === 0 ? null : (
        <details>
          <summary>Told already ({done.length})</summary>
          <Briefly signed={signed} today={today} calls={done} heading={null} />
        </details>
      )}
    </>
  );
};

/** Without the words to send, of which a page of many would be nothing but: they stand on each appointment's page. */
const Briefly: FC<{ signed: Signed; today: DeskToday; calls: readonly Call[]; heading: string | null }> = ({
  signed,
  today,
  calls,
  heading,
}) => {
  const { near } = timesOf(signed);
  const bookings = new Map(today.bookings.map((booking) => [booking.uid, booking]));
  const names = new Map(today.clients.map(({ id, name }) => [id, name]));
  if (calls.length === 0) return null;
  return (
    <>
      {heading === null ? null : (
        <h3>
          {heading} <span class="count">{calls.length}</span>
        </h3>
      )}
      <ul class="links">
        {calls.slice(0, CALLS_BRIEF).map(({ booking, reasons, told }) => {
          const found = bookings.get(booking);
          return found === undefined ? null : (
            <li>
              <a href={bookingAddress(signed, booking)}>
                <bdi>{names.get(found.client) ?? ""}</bdi>, {near(found.start)}
              </a>{" "}
              <span class="small">
                {reasons.map(({ reason }) => REASON_WORDS[reason]).join("; ")}
                {told === null ? "" : `. Told ${near(told.at)}${told.by === null ? "" : ` by ${told.by}`}`}.
              </span>
            </li>
          );
        })}
      </ul>
      {calls.length > CALLS_BRIEF ? <p class="small">And {calls.length - CALLS_BRIEF} more after these.</p> : null}
    </>
  );
};

const CallRow: FC<{ signed: Signed; today: DeskToday; call: Call; message: Message | null }> = ({
  signed,
  today,
  call,
  message,
}) => {
  const { near } = timesOf(signed);
  const booking = today.bookings.find(({ uid }) => uid === call.booking);
  const client = today.clients.find(({ id }) => id === booking?.client);
  const plan = today.plans.find((each) => each.booking.uid === call.booking);
  if (!booking || !client || !plan) return null;
  return (
    <li>
      <Booked signed={signed} booking={booking} name={client.name} />
      <div class="about">
        <ul class="reasons">
          {call.reasons.map((each) => (
            <li>{reasonWords(each, plan, signed)}</li>
          ))}
        </ul>
        {call.told === null ? null : (
          <p class="small">
            Told {near(call.told.at)}
            {call.told.by === null ? "" : ` by ${call.told.by}`}.
          </p>
        )}
        <Reach client={client} message={message} />
        {message === null ? null : (
          <details>
            <summary>
              What to say<span class="unseen"> to {client.name}</span>
            </summary>
            <p class="words">{message.text}</p>
          </details>
        )}
        {call.told === null && message !== null ? (
          <Told signed={signed} call={call} client={client} message={message} />
        ) : null}
      </div>
    </li>
  );
};

/** Reasons are said with the step they are about, where there is one. */
/** When she could come instead, as far as the rules go. */
const earliestWords = ({ earliest, routes }: Plan, signed: Signed): string => {
  const starts = [earliest?.start, ...routes.map((each) => each.earliest)].filter((at) => at != null);
  if (starts.length === 0) return "";
  return ` The earliest start that the rules allow her is ${timesOf(signed).long(Math.min(...starts))}.`;
};

const reasonWords = ({ reason, step }: Call["reasons"][number], plan: Plan, signed: Signed): string => {
  if (step === null) {
    const fell = reason === "fell-over" ? plan.why.find(({ code }) => code === "fell-over")?.text : undefined;
    const isClosed = reason === "no-time" || reason === "too-late";
    return `${fell ?? REASON_WORDS[reason]}${fell === undefined ? "." : ""}${isClosed ? earliestWords(plan, signed) : ""}`;
  }
  const summary = stepSummary(
    step,
    plan.route,
    plan,
    deskContext(signed),
    "salon",
    reason === "overdue" ? "late" : "todo",
  );
  if (reason === "overdue") return `${summary}.`;
  if (reason === "short-notice") return `${summary}. ${REASON_WORDS[reason]}.`;
  return `${summary}: ${REASON_WORDS[reason].charAt(0).toLowerCase()}${REASON_WORDS[reason].slice(1)}.`;
};

const Told: FC<{ signed: Signed; call: Call; client: DeskClient; message: Message }> = ({
  signed,
  call,
  client,
  message,
}) => (
  <form method="post" action="/desk/told" class="press">
    <Fields signed={signed} back={`${signed.here}#calls`} />
    <input type="hidden" name="booking" value={refOf(signed, call.booking)} />
    <input type="hidden" name="words" value={message.text} />
    <input type="hidden" name="reason" value={call.reasons.map(({ reason }) => reason).join(" ")} />
    <button type="submit" name="how" value="sent">
      Sent<span class="unseen"> to {client.name}</span>
    </button>
    <button type="submit" name="how" value="spoken">
      Spoke to her<span class="unseen">: {client.name}</span>
    </button>
  </form>
);
