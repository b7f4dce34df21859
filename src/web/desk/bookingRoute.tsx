/** One appointment at the desk. */
import { Hono } from "hono";
import * as z from "zod";
import { COUNT_BACK_YEARS_MAX } from "../../bounds.ts";
import { yearOf } from "../../time/instant.ts";
import { questionsAddress } from "../questionsAddress.ts";
import { SCRIPT_PAGE_HEADERS } from "../layout.tsx";
import { localTime } from "../doors.ts";
import { check } from "../readBody.ts";
import { BookingPage } from "./bookingPage.tsx";
import { type DeskService, deskContext, pageOf } from "./desk.ts";
import { deskFault } from "./deskFault.tsx";
import { messageFor } from "./messages.ts";

export const bookingRoute = new Hono<DeskService>();

const bookingQuery = z.strictObject({ start: localTime.optional(), from: z.literal("today").optional() });

bookingRoute.get("/desk/booking/:ref", async (c) => {
  const { signed, salon } = c.var;
  const { said: _said, ...query } = c.req.query();
  const read = check(query, bookingQuery);
  if (!read.ok) return deskFault(c, read.fault);
  const { start = null } = read.value;
  // The picture has every day between now and then, and the salon waits while it is made.
  if (start !== null && Math.abs(yearOf(start) - yearOf(signed.head.now)) > COUNT_BACK_YEARS_MAX) {
    return deskFault(c, {
      status: 422,
      heading: "Too far away",
      text: `Nobody knows the holidays and the clocks of a day more than ${COUNT_BACK_YEARS_MAX} years from now. Go back and give a nearer one.`,
      back: new URL(c.req.url).pathname,
      backWords: "Back",
    });
  }
  const found = await salon.deskBooking(c.req.param("ref"), start);
  if (!found.ok)
    return deskFault(c, {
      status: 404,
      heading: "This appointment is not there any more",
      text: "It is not in the diaries, or its client was erased. What was recorded of it is kept as long as it must be.",
      back: "/desk",
      backWords: "To today",
    });
  const { plan, client } = found.value;
  const page = pageOf(c, client);
  return c.html(
    <BookingPage
      signed={signed}
      shown={found.value}
      message={messageFor(plan, deskContext(signed), page)}
      isFromToday={read.value.from !== undefined}
      questions={questionsAddress(plan, { ...deskContext(signed), pageUrl: page })}
    />,
    200,
    SCRIPT_PAGE_HEADERS,
  );
});
