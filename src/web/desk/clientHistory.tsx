/** Every record of a client in words, by appointment, and what was decided about who she is. */
import type { FC } from "hono/jsx";
import type { ClientAtDesk } from "../../salon/clientAtDesk.ts";
import { decisionWords } from "../decisionWords.ts";
import { shownWords } from "../evidenceWords.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { ToldRows } from "./toldRows.tsx";

export const ClientHistory: FC<{ signed: Signed; found: ClientAtDesk }> = ({ signed, found }) => {
  const { records, shown } = found;
  const context = deskContext(signed);
  const bookings = new Map(shown.bookings.map((booking) => [booking.uid, booking]));
  const titleOf = (uid: string | null): string => {
    if (uid === null) return "Of no appointment";
    const booking = bookings.get(uid);
    return booking
      ? `${minuteIn(booking.start, context)}, ${shownWords(booking.service)}`
      : "An appointment that is not kept any more";
  };
  const groups = Map.groupBy(records, ({ record }) => titleOf(record.booking));
  return (
    <section class="card">
      <h2>What was told</h2>
      {records.length === 0 ? (
        <p>Nothing yet. Silence is not a clear result.</p>
      ) : (
        <>
          <ToldRows signed={signed} groups={[...groups].map(([title, rows]) => ({ title, rows }))} />
          <p class="small">
            A clear test does not mean that no reaction will happen. Nothing here is changed after it was told: what was
            wrong is struck out and stands beside its correction.
          </p>
        </>
      )}
      {shown.deeds.length === 0 ? null : (
        <details>
          <summary>Decisions about who she is, and requests</summary>
          <ul class="plainlist">
            {shown.deeds.map((deed) => (
              <li>
                {minuteIn(deed.at, context)}: <bdi>{decisionWords({ ...deed, bookings: [] }, shown.client.id)}</bdi>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
};
