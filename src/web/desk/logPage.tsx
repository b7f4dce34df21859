/** The evidence log at the desk: every record in words, the newest first, with the ways to take it along and to bring earlier results. */
import type { FC } from "hono/jsx";
import type { LogEntry, Page } from "../../salon/recordList.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, type Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { ToldRows } from "./toldRows.tsx";
import { Their } from "./their.tsx";

/** Of whom or of what the records are; both null: all of them. */
export interface LogChoice {
  readonly client: { readonly id: string; readonly name: string } | null;
  readonly booking: { readonly ref: string; readonly start: number | null } | null;
}

interface Props {
  readonly signed: Signed;
  readonly choice: LogChoice;
  readonly page: Page<LogEntry>;
  /** Where this page begins; null: with the newest. */
  readonly after: string | null;
}

/** @param path `/desk/log`, or a file of it */
const logAddress = (path: string, { client, booking }: LogChoice, after: string | null = null): string => {
  const query = new URLSearchParams();
  if (client) query.set("client", client.id);
  if (booking) query.set("booking", booking.ref);
  if (after !== null) query.set("after", after);
  const text = query.toString();
  return text === "" ? path : `${path}?${text}`;
};

export const LogPage: FC<Props> = ({ signed, choice, page, after }) => {
  const isOfAll = choice.client === null && choice.booking === null;
  return (
    <DeskPage title="Records" place="clients" signed={signed}>
      <h1>The evidence log</h1>
      <div class="register">
        <Chosen signed={signed} choice={choice} />
        <p class="small">In the order they were told, the newest first.</p>
        <div class="actions">
          <a class="button" href={logAddress("/desk/log.csv", choice)}>
            Save as a table (CSV)
          </a>
          <a class="button" href={logAddress("/desk/log.json", choice)}>
            Save as JSON
          </a>
          <a class="button" href="/desk/log/import">
            Bring in earlier results…
          </a>
        </div>
        {page.rows.length === 0 ? (
          <p>{after === null ? "Nothing is recorded. Silence is not a clear result." : "Nothing earlier."}</p>
        ) : (
          <div class="card">
            <ToldRows signed={signed} groups={[{ title: null, rows: page.rows }]} isOfAll />
          </div>
        )}
        {page.next === null ? null : (
          <p>
            <a class="button" href={logAddress("/desk/log", choice, page.next)}>
              Earlier records
            </a>
          </p>
        )}
        <p class="small">
          Nothing is changed after it was told: what was wrong is struck out and stands beside its correction. A clear
          test does not mean that no reaction will happen.
          {isOfAll ? (
            <>
              {" "}
              For the records of one client, <a href="/desk/clients">find her</a> and go on from her page.
            </>
          ) : null}
        </p>
      </div>
    </DeskPage>
  );
};

const Chosen: FC<{ signed: Signed; choice: LogChoice }> = ({ signed, choice: { client, booking } }) => {
  if (client === null && booking === null) return <h2>Every record</h2>;
  return (
    <>
      <h2>
        Records of{" "}
        {client === null ? null : (
          <a href={`/desk/clients/${client.id}`}>
            <Their words={client.name} />
          </a>
        )}
        {client !== null && booking !== null ? ", " : null}
        {booking === null ? null : (
          <a href={`/desk/evidence/${booking.ref}`}>
            {booking.start === null
              ? "an appointment"
              : `the appointment ${minuteIn(booking.start, deskContext(signed))}`}
          </a>
        )}
      </h2>
      <p>
        <a href="/desk/log">Show every record</a>
      </p>
    </>
  );
};
