/** An appointment as the desk's lists name it: whose, what, when; each leads to its page. */
import type { FC } from "hono/jsx";
import type { DeskBooking } from "../../salon/deskToday.ts";
import { refOf, type Signed } from "./desk.ts";
import { timesOf } from "./times.ts";

export const bookingAddress = (signed: Signed, uid: string): string => `/desk/booking/${refOf(signed, uid)}`;

export const Booked: FC<{ signed: Signed; booking: DeskBooking; name: string }> = ({ signed, booking, name }) => (
  <span class="booked">
    <a href={`/desk/clients/${booking.client}`}>
      <bdi>{name}</bdi>
    </a>
    <a class="small" href={bookingAddress(signed, booking.uid)}>
      {booking.service}, {timesOf(signed).near(booking.start)}
    </a>
  </span>
);
