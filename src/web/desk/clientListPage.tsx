/** The clients of the salon: who they are, who has to be decided about, and one more by hand. */
import type { FC } from "hono/jsx";
import { TEXT_MAX } from "../../bounds.ts";
import type { ClientBrief } from "../../salon/clientList.ts";
import type { Page } from "../../salon/recordList.ts";
import type { Signed } from "./desk.ts";
import { Faults, Field } from "./field.tsx";
import { DeskPage } from "./frame.tsx";
import { Fields } from "./press.tsx";
import type { Refused } from "./readFields.ts";
import { Their } from "./their.tsx";

/** Which of them the list shows. */
export type Shown = "all" | "open" | "erased";

interface ListProps {
  readonly signed: Signed;
  readonly page: Page<ClientBrief>;
  readonly shown: Shown;
  /** What is looked for; null: everybody is listed. */
  readonly sought: string | null;
  /** The form for one more client as it was sent, where it was refused. */
  readonly refused: Refused | null;
}

const TABS: readonly (readonly [Shown, string, string])[] = [
  ["all", "/desk/clients", "Everyone"],
  ["open", "/desk/clients?state=open", "To be decided"],
  ["erased", "/desk/clients?state=erased", "Erased, records kept"],
];

export const ClientListPage: FC<ListProps> = ({ signed, page, shown, sought, refused }) => (
  <DeskPage title="Clients" place="clients" signed={signed}>
    <h1>Clients</h1>
    <div class="register">
      <form method="post" action="/desk/clients/find" class="seek" role="search">
        <Fields signed={signed} back="/desk/clients" />
        <label for="q">Name, e-mail address or telephone</label>
        <input id="q" name="q" type="search" value={sought ?? ""} maxlength={TEXT_MAX} autocomplete="off" />
        <button type="submit" class="first">
          Find
        </button>
      </form>
      <nav class="tabs" aria-label="Which clients">
        <ul>
          {TABS.map(([name, address, words]) => (
            <li>
              <a href={address} aria-current={sought === null && name === shown ? "page" : undefined}>
                {words}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <Heading shown={shown} sought={sought} count={page.rows.length} />
      {page.rows.length === 0 ? null : (
        <ul class="roll card">
          {page.rows.map((row) => (
            <Row row={row} />
          ))}
        </ul>
      )}
      {page.next === null ? null : (
        <p>
          <a class="button" href={nextAddress(shown, sought, page.next)}>
            More clients
          </a>
        </p>
      )}
      <AddForm signed={signed} refused={refused} />
      <p>
        <a href="/desk/log">Every record of every client</a>, to look through, to keep a copy of, or to bring in earlier
        results.
      </p>
    </div>
  </DeskPage>
);

const nextAddress = (shown: Shown, sought: string | null, next: string): string => {
  const query = new URLSearchParams(sought === null ? (shown === "all" ? {} : { state: shown }) : { found: "1" });
  query.set("after", next);
  return `/desk/clients?${query.toString()}`;
};

const HEADINGS: Readonly<Record<Shown, readonly [some: string, none: string]>> = {
  all: ["Everyone the diaries or you have named", "Nobody yet. Clients come from the diaries as soon as one is read."],
  open: ["About whom you have to decide something", "Nothing has to be decided about anybody."],
  erased: ["Erased, with records that must still be kept", "Nobody who was erased has records left here."],
};

const Heading: FC<{ shown: Shown; sought: string | null; count: number }> = ({ shown, sought, count }) => {
  const [some, none] = HEADINGS[shown];
  if (sought === null) return <h2>{count > 0 ? some : none}</h2>;
  return (
    <>
      <h2>
        {count > 0 ? "Found for" : "Nobody found for"} “<Their words={sought} />”
      </h2>
      <p>
        {count > 0
          ? null
          : "Every word must stand in the name, or the beginning or whole of an address, or the whole telephone number. "}
        <a href="/desk/clients">Show everyone</a>
      </p>
    </>
  );
};

const Row: FC<{ row: ClientBrief }> = ({ row: { client, joined, questions } }) => {
  const reach = [client.email, client.phone].filter((each) => each !== null);
  const others = [...new Set(joined.map(({ name }) => name))].filter((name) => name !== client.name);
  return (
    <li>
      <a href={`/desk/clients/${client.id}`}>
        <Their words={client.name} />
      </a>
      <span class="small">
        {reach.length === 0
          ? "no address or telephone"
          : reach.map((each, index) => [index > 0 ? " · " : "", <Their words={each} />])}
        {others.length === 0 ? null : (
          <> · also called {others.map((name, index) => [index > 0 ? ", " : "", <Their words={name} />])}</>
        )}
      </span>
      {questions.length === 0 ? null : (
        <span class="ask">
          <span aria-hidden="true">?</span>{" "}
          {questions.length === 1 ? "1 thing to decide" : `${questions.length} things to decide`}
        </span>
      )}
      {client.erasing !== null && client.erased === null ? <span class="ask">being erased</span> : null}
    </li>
  );
};

/** Of the fields of the form for one more client. */
export const CLIENT_LABELS = { name: "Name", email: "E-mail address", phone: "Telephone" } as const;

const AddForm: FC<{ signed: Signed; refused: Refused | null }> = ({ signed, refused }) => (
  <details class="card" open={refused !== null} id="add">
    <summary>Add a client by hand</summary>
    <p class="small">
      Before any diary names her: then her link can be given at once. With an address or a telephone she is told apart
      from others of her name.
    </p>
    <Faults refused={refused} idOf={(at) => `add-${at}`} />
    <form method="post" action="/desk/clients" class="stack">
      <Fields signed={signed} back="/desk/clients" />
      <Field id="add-name" name="name" label={CLIENT_LABELS.name} refused={refused} maxlength={TEXT_MAX} required />
      <Field
        id="add-email"
        name="email"
        label={`${CLIENT_LABELS.email} (if you have it)`}
        type="email"
        refused={refused}
        maxlength={TEXT_MAX}
      />
      <Field
        id="add-phone"
        name="phone"
        label={`${CLIENT_LABELS.phone} (if you have it)`}
        type="tel"
        refused={refused}
        maxlength={TEXT_MAX}
      />
      <button type="submit" class="first">
        Add
      </button>
    </form>
  </details>
);
