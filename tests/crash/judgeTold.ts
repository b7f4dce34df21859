/** Records and sets of answers after a restart, against what the harness was told: none lost, doubled or altered. */
import { type Caller, jsonOf } from "./Caller.ts";
import { type Sent, screeningKey, written } from "./Journal.ts";
import type { Tally } from "./Tally.ts";
import { sure, type WatchedSalon } from "./WatchedSalon.ts";

interface RecordSeen extends Readonly<Record<string, unknown>> {
  readonly id: string;
  readonly note: string | null;
  readonly kind: string;
}

interface ScreeningSeen {
  readonly id: string;
  readonly client: string;
  readonly version: number;
  readonly answers: Readonly<Record<string, string>> | null;
  readonly outcome: string | null;
  readonly records: readonly string[];
}

/** Small, so that several pages are asked for. */
const PAGE = 60;

/** Every row of a list, page after page. */
export const everyPage = async <Row>(
  salon: WatchedSalon,
  caller: Caller,
  path: string,
  list: string,
): Promise<readonly Row[]> => {
  const rows: Row[] = [];
  for (let after: string | null = ""; after !== null; ) {
    const query: string = `?limit=${PAGE}${after === "" ? "" : `&after=${encodeURIComponent(after)}`}`;
    const page = jsonOf(sure(await salon.ask(caller, "GET", `${path}${query}`), 200)) as Record<string, unknown>;
    rows.push(...(page[list] as Row[]));
    after = page["next"] as string | null;
  }
  return rows;
};

export const judgeTold = async (salon: WatchedSalon, caller: Caller, tally: Tally): Promise<void> => {
  const records = await everyPage<RecordSeen>(salon, caller, "/api/salon/records", "records");
  const screenings = await everyPage<ScreeningSeen>(salon, caller, "/api/salon/screenings", "screenings");
  const numbers = records.map(({ id }) => Number(id.slice(1)));
  if (numbers.some((number, place) => number <= (numbers[place - 1] ?? 0)))
    tally.fault("records are not in their order");
  const marked = new Map(records.flatMap((record) => (record.note === null ? [] : [[record.note, record]])));
  if (marked.size !== records.filter(({ note }) => note !== null).length) tally.fault("a record is doubled");
  const { journal } = salon;
  settle("record", journal.records, new Map([...marked].map(([note, row]) => [note, written(row)])), tally);
  const keyed = new Map(screenings.map((row) => [screeningKey(row.client, row.answers ?? {}), written(row)]));
  if (keyed.size !== screenings.length) tally.fault("a set of answers is doubled");
  settle("set of answers", journal.screenings, keyed, tally);
  judgeOrigins(records, screenings, tally);
};

/** Gives every row that was sent its fate, and says which fate none may have. */
const settle = (
  what: string,
  journal: ReadonlyMap<string, Sent>,
  found: ReadonlyMap<string, string>,
  tally: Tally,
): void => {
  for (const key of found.keys()) if (!journal.has(key)) tally.fault(`a ${what} that nobody sent is there`);
  for (const [key, sent] of journal) {
    const row = found.get(key);
    const { fate } = sent;
    if (fate === "asked") tally.fault(`a ${what} was never answered and never cut`);
    if (fate === "cut") tally.add(row === undefined ? "notKeptOfCut" : "keptOfCut");
    if (row === undefined) {
      if (fate === "acknowledged" || fate === "kept") tally.fault(`a ${what} is lost: ${key} (${fate})`);
      sent.fate = fate === "cut" ? "gone" : fate;
      continue;
    }
    if (fate === "refused" || fate === "gone") tally.fault(`a ${what} turned up that was ${fate}: ${key}`);
    if (sent.told !== undefined && sent.told !== row) tally.fault(`a ${what} is altered: ${key}`);
    const has = JSON.parse(row) as Record<string, unknown>;
    const wrong = Object.entries(sent.fields).find(([name, value]) => has[name] !== value);
    if (wrong) tally.fault(`a ${what} came back with another ${wrong[0]}: ${key}`);
    sent.told = row;
    sent.fate = fate === "cut" ? "kept" : fate;
  }
};

/** Answers and the records that come of them are kept together or not at all. */
const judgeOrigins = (records: readonly RecordSeen[], screenings: readonly ScreeningSeen[], tally: Tally): void => {
  const bare = new Set(records.filter(({ note }) => note === null).map(({ id }) => id));
  for (const { id, outcome, records: made } of screenings) {
    if ((outcome === null) !== (made.length === 0)) tally.fault(`answers ${id} and their records disagree`);
    for (const record of made) if (!bare.delete(record)) tally.fault(`a record of answers ${id} is lost or doubled`);
  }
  for (const id of bare) tally.fault(`record ${id} came of no answers that are there`);
};
