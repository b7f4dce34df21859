/** Earlier results on the first day, as a table: good lines, and lines that must be refused. */
import { learnHolder } from "./bookings.ts";
import { DAY, iso, type Seconds } from "./calendar.ts";
import { writeTable } from "./csv.ts";
import type { Face, Woman } from "./people.ts";
import { hostile } from "./telling.ts";
import type { World } from "./world.ts";

const HEADER = [
  "clientName",
  "clientEmail",
  "clientPhone",
  "kind",
  "at",
  "outcome",
  "route",
  "product",
  "shade",
  "batch",
  "site",
  "by",
  "note",
  "id",
  "recorded",
];

interface Line {
  readonly face: Face;
  readonly at: Seconds;
  readonly product: string;
  readonly shade: number;
  readonly batch: string;
  readonly note: string | null;
}

const GOOD = { kind: "read", outcome: "clear", route: "in-salon", site: "nape", by: "Tomas" } as const;

const cellsOf = ({ face, at, product, shade, batch, note }: Line): readonly (string | number | null)[] => {
  const { kind, outcome, route, site, by } = GOOD;
  return [
    face.name,
    face.email,
    face.phone,
    kind,
    iso(at),
    outcome,
    route,
    product,
    shade,
    batch,
    site,
    by,
    note,
    "r999",
    iso(at),
  ];
};

export const importEarlier = async (world: World, women: readonly Woman[]): Promise<void> => {
  const { dice, log, now } = world;
  const lines = women.map(
    ({ faces }): Line => ({
      face: faces[0] as Face,
      at: now - dice.between(20, 300) * DAY,
      product: dice.pick(["line A", "line B"]),
      shade: dice.between(1, 10),
      batch: world.token("lot"),
      note: dice.chance(0.4) ? hostile(world) : null,
    }),
  );
  const wrong = [
    [...cellsOf({ ...(lines[0] as Line), at: now + DAY, batch: world.token("lot") })],
    cellsOf({ ...(lines[1] as Line), batch: world.token("lot") }).with(3, "painted"),
    cellsOf({ ...(lines[2] as Line), batch: world.token("lot") }).with(6, ""),
  ];
  const table = writeTable(HEADER, [...wrong, ...lines.map(cellsOf)]);
  for (const isAgain of [false, true]) {
    const answer = await send(world, table);
    const told = await answer.json<{ accepted: number; known: number; refused: unknown[] }>();
    const wanted = [200, isAgain ? 0 : lines.length, isAgain ? lines.length : 0, wrong.length];
    const got = [answer.status, told.accepted, told.known, told.refused.length];
    if (got.join() !== wanted.join()) world.fault(`an import gave ${got.join()}, not ${wanted.join()}`);
    world.count("tables taken in");
    if (isAgain) continue;
    for (const line of lines) {
      const holder = await learnHolder(world, line.face);
      const { face: _face, ...said } = line;
      const plain = {
        taken: null,
        booking: null,
        via: "api",
        reason: null,
        corrects: null,
        reaction: null,
        questions: null,
        start: null,
        gone: false,
      };
      log.addRecord({
        ...GOOD,
        ...plain,
        ...said,
        id: log.nextRecord,
        told: holder.id,
        recorded: now,
        settings: log.settings,
      });
      world.count("records");
    }
  }
  for (const woman of women) woman.tested = true;
};

const send = (world: World, table: string): Promise<Response> =>
  world.send("/api/salon/records/import", {
    method: "POST",
    headers: { authorization: `Bearer ${world.salon.key}`, "content-type": "text/csv" },
    body: table,
  });
