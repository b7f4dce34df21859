/** The records that a salon keeps, in the order they were told. Pure. */
import { ownersOf, personOf } from "./owners.ts";
import type { Client, Recorded, State } from "./types.ts";

/** One page of a list; `next` is the cursor of the page that follows, if any. */
export interface Page<Row> {
  readonly rows: readonly Row[];
  readonly next: string | null;
}

/** Which records are listed. */
export interface RecordChoice {
  /** Also of those who turned out to be her. */
  readonly client: string | null;
  readonly booking: string | null;
  /** The record the page before ended with. */
  readonly after: string | null;
  readonly limit: number;
}

/** Ids of records are `r` and a number, given in the order they are told. */
const numberOf = (id: string): number => Number(id.slice(1));

type Told = Pick<State, "facts" | "clients">;

export const listRecords = (state: Told, { after, ...choice }: RecordChoice): Page<Recorded> => {
  const from = after === null ? 0 : numberOf(after);
  return pageOf(
    state,
    [...state.facts.values()].filter(({ id }) => numberOf(id) > from),
    choice,
  );
};

/** The same from the newest back; `after` is the record the page before ended with. */
export const latestLog = (state: Told, { after, ...choice }: RecordChoice): Page<LogEntry> => {
  const to = after === null ? Number.MAX_SAFE_INTEGER : numberOf(after);
  const earlier = [...state.facts.values()].filter(({ id }) => numberOf(id) < to);
  return asLog(state, pageOf(state, earlier.toReversed(), choice));
};

/** Those of `facts` that are chosen, as many as a page has. */
const pageOf = (
  state: Told,
  facts: readonly Recorded[],
  { client, booking, limit }: Omit<RecordChoice, "after">,
): Page<Recorded> => {
  const owners = ownersOf(state);
  const person = client === null ? null : personOf(state.clients, client);
  const rows: Recorded[] = [];
  for (const fact of facts) {
    // What sets a record aside stands beside it, also where it was told without an appointment.
    if (booking !== null && fact.booking !== booking && state.facts.get(setAside(fact))?.booking !== booking) continue;
    if (person !== null && owners.ofRecord(fact) !== person) continue;
    if (rows.length === limit) return { rows, next: rows.at(-1)?.id ?? null };
    rows.push(fact);
  }
  return { rows, next: null };
};

/** The id of the record that a correction sets aside; nobody's of any other. */
const setAside = ({ kind, corrects }: Recorded): string => (kind === "correction" ? (corrects ?? "") : "");

/** A record with the client it was told of, as she is called now; of one who is gone, whose it is instead. */
export interface LogEntry {
  readonly record: Recorded;
  readonly person: Pick<Client, "name" | "email" | "phone"> | null;
  /** The correction that set it aside; null: it stands. */
  readonly correctedBy: string | null;
}

export const listLog = (state: Told, choice: RecordChoice): Page<LogEntry> => asLog(state, listRecords(state, choice));

const asLog = (state: Told, { rows, next }: Page<Recorded>): Page<LogEntry> => {
  const { ofRecord } = ownersOf(state);
  const corrections = new Map<string, Recorded>();
  for (const fact of state.facts.values()) {
    const target = state.facts.get(setAside(fact));
    if (target && ofRecord(target) === ofRecord(fact)) corrections.set(target.id, fact);
  }
  const entryOf = (record: Recorded): LogEntry => {
    const owner = ofRecord(record);
    const client = state.clients.get(record.client ?? "") ?? state.clients.get(owner ?? "");
    const person = client ? { name: client.name, email: client.email, phone: client.phone } : null;
    return { record, person, correctedBy: corrections.get(record.id)?.id ?? null };
  };
  return { rows: rows.map(entryOf), next };
};
