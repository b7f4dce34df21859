/** Earlier results from a table: first tried, with every line that is refused and why; then brought in. */
import type { FC } from "hono/jsx";
import { IMPORT_LINES_MAX } from "../../bounds.ts";
import type { Imported } from "../../salon/importRecords.ts";
import type { Signed } from "./desk.ts";
import { DeskPage } from "./frame.tsx";
import { Fields } from "./press.tsx";

/** What came of a table. */
export interface Tried {
  readonly imported: Imported;
  /** The table itself, to be sent again as it is (base64 of UTF-8); null: it was brought in. */
  readonly table: string | null;
}

interface Props {
  readonly signed: Signed;
  readonly tried: Tried | null;
  /** Why the table as a whole cannot be read, one sentence each. */
  readonly faults: readonly string[];
}

export const ImportPage: FC<Props> = ({ signed, tried, faults }) => (
  <DeskPage title="Earlier results" place="clients" signed={signed}>
    <h1>
      <a href="/desk/log">The evidence log</a>: earlier results
    </h1>
    <div class="register">
      {faults.length === 0 ? null : (
        <div class="faults" role="alert">
          <p>
            <strong>The table cannot be read. Nothing was brought in.</strong>
          </p>
          <ul>
            {faults.map((text) => (
              <li>{text}</li>
            ))}
          </ul>
        </div>
      )}
      {tried === null ? null : <Outcome signed={signed} tried={tried} />}
      {tried !== null && tried.table === null ? null : <Choose signed={signed} isAgain={tried !== null} />}
      <Columns />
    </div>
  </DeskPage>
);

const counted = (count: number, one: string, many: string): string => (count === 1 ? `1 ${one}` : `${count} ${many}`);

const Outcome: FC<{ signed: Signed; tried: Tried }> = ({ signed, tried: { imported, table } }) => {
  const { accepted, known, clients, refused } = imported;
  const isTrial = table !== null;
  return (
    <section class="card" role="status">
      <h2>
        {isTrial
          ? accepted === 0
            ? "Nothing in this table is new"
            : `${counted(accepted, "line", "lines")} can be brought in`
          : `${counted(accepted, "line was", "lines were")} brought in`}
      </h2>
      <ul>
        {known === 0 ? null : (
          <li>{counted(known, "line says", "lines say")} what is on file already: nothing is added twice.</li>
        )}
        {clients === 0 ? null : (
          <li>
            {counted(clients, "client is", "clients are")} new{isTrial ? " and would be added" : ""}.
          </li>
        )}
        {refused.length === 0 ? <li>No line is refused.</li> : null}
      </ul>
      {refused.length === 0 ? null : (
        <>
          <h3>{counted(refused.length, "line is", "lines are")} refused</h3>
          <p class="small">
            The others can be brought in all the same; mend these in your table and send it again: what is on file by
            then is left out.
          </p>
          <table class="told-table">
            <thead>
              <tr>
                <th scope="col">Line</th>
                <th scope="col">Why, and what to do</th>
              </tr>
            </thead>
            <tbody>
              {refused.map(({ line, reason }) => (
                <tr>
                  <td>
                    <strong>Line {line}</strong>
                  </td>
                  <td>{reason.text}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {table === null || accepted === 0 ? null : (
        <form method="post" action="/desk/log/import" enctype="multipart/form-data" class="actions">
          <Fields signed={signed} />
          <input type="hidden" name="table" value={table} />
          <button type="submit" name="do" value="import" class="first">
            Bring in {counted(accepted, "line", "lines")}
          </button>
          <a class="button" href="/desk/log/import">
            Leave it
          </a>
        </form>
      )}
      {isTrial ? null : (
        <p>
          <a href="/desk/log">See them in the log</a>
        </p>
      )}
    </section>
  );
};

const Choose: FC<{ signed: Signed; isAgain: boolean }> = ({ signed, isAgain }) => (
  <form method="post" action="/desk/log/import" enctype="multipart/form-data" class="card stack">
    <Fields signed={signed} />
    <h2>{isAgain ? "Another table" : "Try a table"}</h2>
    <p class="field">
      <label for="table-file">The table as a file (CSV, UTF-8)</label>
      <input id="table-file" name="file" type="file" accept=".csv,text/csv" required />
    </p>
    <p class="small">It is tried first: you see what would come of it, and nothing is kept before you say so.</p>
    <button type="submit" name="do" value="try" class={isAgain ? undefined : "first"}>
      Try it
    </button>
  </form>
);

const Columns: FC = () => (
  <details class="card">
    <summary>What the table looks like</summary>
    <p>
      A line for each thing that happened, at most {IMPORT_LINES_MAX}, and a first line with the names of the columns.
      Of these, kind, at and clientName are needed; a column that you have nothing for is left out.
    </p>
    <dl class="facts">
      {COLUMNS.map(([name, words]) => (
        <div class="whole">
          <dt>{name}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
    <p>For one test that was clear, for example:</p>
    <pre class="sample" tabindex={0}>
      {SAMPLE}
    </pre>
    <p class="small">
      An earlier clear result counts again only as far as your rules let it, and only once it is certain whose it is.
      The log's own table, saved here or elsewhere, can be brought in as it is.
    </p>
  </details>
);

const COLUMNS: readonly (readonly [name: string, words: string])[] = [
  ["clientName", "whose it is, as the diary writes the name"],
  ["clientEmail, clientPhone", "her address or telephone, so that she is told apart from others of her name"],
  [
    "kind",
    "applied (put on), removed (taken off), read (looked at), reacted (something showed), screened (health questions), note",
  ],
  ["at", "when it happened, with the offset from UTC: 2026-03-14T10:30:00Z"],
  ["outcome", "of a read: clear, reaction or not-sure; of screened: pass, test-needed or do-not-colour"],
  ["route", "where the test was made: in-salon or home-kit"],
  ["by", "who did it, or saw it"],
  ["product, shade, batch, site", "what was tested, its depth from 1 to 10, its batch, and where on the skin"],
  ["note, reason, photo", "in your own words; of a picture, where you keep it"],
];

const SAMPLE = `clientName,clientEmail,kind,at,outcome,route,by
Mara Quillfeather,mara@example.com,applied,2026-03-12T10:30:00Z,,in-salon,Ines
Mara Quillfeather,mara@example.com,read,2026-03-14T10:45:00Z,clear,in-salon,Ines`;
