/** Reactions that nobody at the desk has read: before everything else, those told while the salon was shut first. */
import type { FC } from "hono/jsx";
import type { Unread } from "../../salon/deskNews.ts";
import type { DeskToday } from "../../salon/deskToday.ts";
import { Booked } from "./booked.tsx";
import type { Signed } from "./desk.ts";
import { Press } from "./press.tsx";
import { Reach } from "./reach.tsx";
import { timesOf } from "./times.ts";

export const UnreadReactions: FC<{ signed: Signed; today: DeskToday }> = ({ signed, today }) =>
  today.unread.length === 0 ? null : (
    <section class="panel unread" aria-labelledby="unread">
      <h2 id="unread">Something shows: read this first</h2>
      <p>
        Do not colour. Telephone her. Trouble breathing, swelling of the face, lips or tongue, or feeling faint is an
        emergency; otherwise ask her to see a pharmacist or doctor.
      </p>
      <ul class="rows">
        {today.unread.map((each) => (
          <UnreadRow signed={signed} today={today} unread={each} />
        ))}
      </ul>
    </section>
  );

const UnreadRow: FC<{ signed: Signed; today: DeskToday; unread: Unread }> = ({ signed, today, unread }) => {
  const { near } = timesOf(signed);
  const { record, client: id, isOutOfHours } = unread;
  const client = today.clients.find((each) => each.id === id);
  const booking = today.bookings.find(({ uid }) => uid === record.booking);
  const name = client?.name ?? "";
  return (
    <li>
      <span class="when">
        {near(record.recorded)}
        {isOutOfHours ? <strong> while you were shut</strong> : null}
      </span>
      {booking ? (
        <Booked signed={signed} booking={booking} name={name} />
      ) : (
        <a href={`/desk/clients/${id}`}>
          <bdi>{name}</bdi>
        </a>
      )}
      <div class="about">
        {record.note === null ? null : <p class="words">{record.note}</p>}
        {client === undefined ? null : <Reach client={client} message={null} />}
        <Press
          signed={signed}
          to="/desk/seen"
          fields={{ record: record.id }}
          label="I have read this"
          about={name}
          kind="first"
        />
      </div>
    </li>
  );
};
