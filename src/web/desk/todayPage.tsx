/** The desk's first page: what must be read, what is to be done before the salon next opens, whom to telephone, what is new. */
import type { FC } from "hono/jsx";
import type { DeskToday } from "../../salon/deskToday.ts";
import type { Message } from "./reach.tsx";
import { Booked } from "./booked.tsx";
import { CallList } from "./callList.tsx";
import type { Signed } from "./desk.ts";
import { DueList } from "./dueList.tsx";
import { DeskPage } from "./frame.tsx";
import { NewsList } from "./newsList.tsx";
import { StandingMark } from "./standing.tsx";
import { timesOf } from "./times.ts";
import { UnreadReactions } from "./unreadReactions.tsx";

export interface TodayShown {
  readonly signed: Signed;
  readonly today: DeskToday;
  /** From when on there is news. */
  readonly since: number;
  /** What each client who is to be told something would be sent, by `booking.uid`. */
  readonly messages: ReadonlyMap<string, Message>;
  /** The address of the health questions of each appointment whose client is to be asked, by `booking.uid`. */
  readonly questions: ReadonlyMap<string, string>;
}

export const TodayPage: FC<TodayShown> = ({ signed, today, since, messages, questions }) => {
  const { near } = timesOf(signed);
  return (
    <DeskPage title="Today" place="today" signed={signed}>
      <h1 class="unseen">Today</h1>
      <UnreadReactions signed={signed} today={today} />
      <section class="panel" aria-labelledby="due">
        <h2 id="due">To do until you next open, {near(today.until)}</h2>
        <DueList signed={signed} today={today} questions={questions} />
        <ToSettle today={today} />
      </section>
      <section class="panel" aria-labelledby="chairs">
        <h2 id="chairs">In the chair until you next open</h2>
        <Chairs signed={signed} today={today} />
      </section>
      <section class="panel" aria-labelledby="calls">
        <h2 id="calls">To telephone</h2>
        <CallList signed={signed} today={today} messages={messages} />
      </section>
      <section class="panel" aria-labelledby="news">
        <h2 id="news">New since you last looked, {near(since)}</h2>
        <NewsList signed={signed} today={today} />
      </section>
    </DeskPage>
  );
};

const Chairs: FC<{ signed: Signed; today: DeskToday }> = ({ signed, today }) => {
  const { near } = timesOf(signed);
  const plans = new Map(today.plans.map((plan) => [plan.booking.uid, plan]));
  const bookings = today.bookings
    .filter(({ uid }) => today.chairs.includes(uid))
    .toSorted((one, other) => one.start - other.start);
  if (bookings.length === 0) return <p class="small">No colour before then.</p>;
  return (
    <ul class="rows">
      {bookings.map((booking) => {
        const plan = plans.get(booking.uid);
        const name = today.clients.find(({ id }) => id === booking.client)?.name ?? "";
        const last = plan?.why.find(({ code }) => code === "ready" || code === "stop") ?? plan?.why[0];
        return (
          <li>
            <span class="when">{near(booking.start)}</span>
            <Booked signed={signed} booking={booking} name={name} />
            <span class="about">
              {plan === undefined ? null : (
                <StandingMark standing={plan.standing === "past" ? standingThen(plan.why) : plan.standing} />
              )}
              {last === undefined ? null : <span class="small">{last.text}</span>}
            </span>
          </li>
        );
      })}
    </ul>
  );
};

/** How an appointment that has begun stood then. */
const standingThen = (why: readonly { readonly code: string }[]): "ready" | "stop" | "past" =>
  why.some(({ code }) => code === "ready") ? "ready" : why.some(({ code }) => code === "stop") ? "stop" : "past";

/** What waits for a decision elsewhere. */
const ToSettle: FC<{ today: DeskToday }> = ({ today: { unsorted, notCertain, troubled, clientsOpen } }) => {
  const lines = [
    ...troubled.map(({ name, kind }) => ({
      to: "/desk/diaries",
      words: `Diary “${name}” ${TROUBLE[kind]}`,
    })),
    ...(unsorted > 0
      ? [{ to: "/desk/entries?state=unsorted", words: count(unsorted, "entry", "entries", "to answer") }]
      : []),
    ...(notCertain > 0
      ? [
          {
            to: "/desk/entries?state=not-certain",
            words: count(notCertain, "entry", "entries", "that could not be read"),
          },
        ]
      : []),
    ...(clientsOpen > 0
      ? [{ to: "/desk/clients?state=open", words: count(clientsOpen, "client", "clients", "to decide about") }]
      : []),
  ];
  if (lines.length === 0) return null;
  return (
    <>
      <h3>To settle</h3>
      <ul class="links">
        {lines.map(({ to, words }) => (
          <li>
            <a href={to}>{words}</a>
          </li>
        ))}
      </ul>
    </>
  );
};

const TROUBLE = {
  held: "looks wrong and is held: the last good reading counts",
  unreadable: "could not be read: the last good reading counts",
  "never-read": "has not been read yet",
} as const;

const count = (number: number, one: string, many: string, what: string): string =>
  `${number} ${number === 1 ? one : many} ${what}`;
