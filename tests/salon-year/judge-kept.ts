/** All that is kept, against the log: every record on every page and in the table, every client with what she is reached by. */
import { iso } from "./calendar.ts";
import { readTable } from "./csv.ts";
import { lineOf, type RecordSeen, seenLine } from "./judge-evidence.ts";
import { casesOf } from "./keeping.ts";
import type { World } from "./world.ts";

const PAGE = 500;

const differ = (world: World, what: string, got: readonly string[], wanted: readonly string[]): void => {
  const [there, due] = [new Set(got), new Set(wanted)];
  const [missing, extra] = [wanted.filter((line) => !there.has(line)), got.filter((line) => !due.has(line))];
  if (missing.length > 0)
    world.fault(`${what}: ${missing.length} missing, such as ${missing.slice(0, 2).join(" and ")}`);
  if (extra.length > 0) world.fault(`${what}: ${extra.length} too many, such as ${extra.slice(0, 2).join(" and ")}`);
  if (there.size !== got.length) world.fault(`${what}: something stands there twice`);
};

const pagesOf = async <Row>(world: World, path: string, rows: string): Promise<readonly Row[]> => {
  const all: Row[] = [];
  for (let after = ""; ; ) {
    const page = await world.json<Record<string, unknown>>(
      `${path}${path.includes("?") ? "&" : "?"}limit=${PAGE}${after}`,
    );
    all.push(...(page[rows] as Row[]));
    if (page["next"] === null) return all;
    after = `&after=${encodeURIComponent(page["next"] as string)}`;
  }
};

interface ClientSeen {
  readonly id: string;
  readonly name: string;
  readonly email: string | null;
  readonly phone: string | null;
  readonly confirmed: boolean;
  readonly joined: readonly { readonly id: string }[];
}

export const judgeKept = async (world: World): Promise<void> => {
  const { log } = world;
  const kept = [...log.records.values()].filter(({ gone }) => !gone);
  const records = await pagesOf<RecordSeen>(world, "/records", "records");
  differ(
    world,
    "records",
    records.map(seenLine),
    kept.map((record) => lineOf(world, record)),
  );
  world.count("records compared", records.length);
  const table = readTable(await (await world.ask("GET", "/records?format=csv")).text());
  const fields = [
    "id",
    "client",
    "booking",
    "kind",
    "at",
    "recorded",
    "outcome",
    "route",
    "by",
    "via",
    "product",
    "shade",
    "batch",
    "site",
    "reason",
    "note",
    "corrects",
  ] as const;
  differ(
    world,
    "the table",
    table.map((row) =>
      JSON.stringify([row["clientName"], row["clientEmail"], row["clientPhone"], ...fields.map((field) => row[field])]),
    ),
    kept.map((record) => {
      const row = log.holder(record.told);
      const told: Record<string, unknown> = {
        ...record,
        client: record.told,
        at: iso(record.at),
        recorded: iso(record.recorded),
      };
      return JSON.stringify([
        row.face.name,
        row.email ?? "",
        row.phone ?? "",
        ...fields.map((field) => String((told[field] as string | number | null | undefined) ?? "")),
      ]);
    }),
  );
  for (const isErased of [false, true]) {
    const clients = await pagesOf<ClientSeen>(world, `/clients${isErased ? "?state=erased" : ""}`, "clients");
    const persons = log.persons().filter(({ erased }) => (erased !== null) === isErased);
    differ(
      world,
      isErased ? "erased clients" : "clients",
      clients.map(({ id, name, email, phone, confirmed, joined }) =>
        JSON.stringify([id, name, email, phone, confirmed, joined.map((each) => each.id)]),
      ),
      persons.map(({ id, face, email, phone, confirmed }) =>
        JSON.stringify([
          id,
          face.name,
          email,
          phone,
          confirmed,
          log.rowsOf(id).flatMap((row) => (row.id === id ? [] : [row.id])),
        ]),
      ),
    );
  }
  for (const { id, erased } of log.persons()) {
    if (erased === null && world.dice.chance(0.1)) await judgePerson(world, id);
  }
};

/** Counts by person. */
export const judgePerson = async (world: World, person: string): Promise<void> => {
  const { log } = world;
  world.count("persons counted");
  const records = await pagesOf<RecordSeen>(world, `/records?client=${person}`, "records");
  const cases = casesOf(log, person).map(({ name, last, isEvidence }) => `${name} ${iso(last)} ${isEvidence}`);
  differ(
    world,
    `records of ${person} (${cases.join("; ")})`,
    records.map(({ id }) => id),
    log.recordsOf(person).map(({ id }) => id),
  );
  const screenings = await pagesOf<{ at: string; booking: string }>(
    world,
    `/screenings?client=${person}`,
    "screenings",
  );
  differ(
    world,
    `answers of ${person}`,
    screenings.map(({ at, booking }) => `${at} ${booking}`),
    log.screeningsOf(person).map(({ at, booking }) => `${iso(at)} ${booking}`),
  );
  const holder = log.holder(person);
  const answer = await world.ask("GET", `/clients/${person}`);
  const isClient = holder.erased === null && !holder.gone;
  if (answer.status !== (isClient ? 200 : 404)) return world.fault(`client ${person} is ${answer.status}`);
  if (!isClient) return;
  const seen = await answer.json<ClientSeen & { bookings: { uid: string }[]; records: number }>();
  if (seen.email !== holder.email || seen.phone !== holder.phone)
    world.fault(`${person} is reached by ${seen.email} ${seen.phone}, not ${holder.email} ${holder.phone}`);
  if (seen.records !== records.length)
    world.fault(`${person} has ${seen.records} records, listed are ${records.length}`);
  differ(
    world,
    `bookings of ${person}`,
    seen.bookings.map(({ uid }) => uid),
    log.bookingsOf(person).map(({ uid }) => uid),
  );
};
