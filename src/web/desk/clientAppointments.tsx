/** A client's appointments with how each stands, the next ones first. */
import type { FC } from "hono/jsx";
import type { Booking } from "../../salon/types.ts";
import type { ClientAtDesk } from "../../salon/clientAtDesk.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { StandingMark } from "./standing.tsx";
import { Their } from "./their.tsx";

export const ClientAppointments: FC<{ signed: Signed; found: ClientAtDesk }> = ({ signed, found }) => {
  const { bookings } = found.shown;
  const isAhead = ({ start, cancelledAt }: Booking): boolean => start > signed.head.now && cancelledAt === null;
  const ahead = bookings.filter(isAhead);
  const others = bookings.filter((each) => !isAhead(each)).toReversed();
  return (
    <section class="card">
      <h2>Her colour appointments</h2>
      {ahead.length === 0 ? (
        <p>No colour appointment ahead.</p>
      ) : (
        <List signed={signed} found={found} bookings={ahead} />
      )}
      {others.length === 0 ? null : (
        <details>
          <summary>
            {others.length === 1 ? "1 that is past or cancelled" : `${others.length} that are past or cancelled`}
          </summary>
          <List signed={signed} found={found} bookings={others} />
        </details>
      )}
    </section>
  );
};

const List: FC<{ signed: Signed; found: ClientAtDesk; bookings: readonly Booking[] }> = ({
  signed,
  found,
  bookings,
}) => {
  const standings = new Map(found.plans.map(({ booking, standing }) => [booking.uid, standing]));
  return (
    <ul class="roll">
      {bookings.map(({ uid, start, service, diary, cancelledAt }) => {
        const standing = standings.get(uid) ?? (cancelledAt === null ? null : "cancelled");
        return (
          <li>
            <a
              href={standings.has(uid) ? `/desk/booking/${refOf(signed, uid)}` : `/desk/evidence/${refOf(signed, uid)}`}
            >
              {minuteIn(start, deskContext(signed))}
            </a>
            <span class="small">
              <Their words={service} />, diary <Their words={diary} /> ·{" "}
              <a href={`/desk/evidence/${refOf(signed, uid)}`}>
                evidence<span class="unseen"> of the appointment {minuteIn(start, deskContext(signed))}</span>
              </a>
            </span>
            {standing === null ? null : <StandingMark standing={standing} />}
          </li>
        );
      })}
    </ul>
  );
};
