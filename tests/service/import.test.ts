/**
 * Earlier results from a table, and the log as one. A bad line costs itself and says why; the same table twice changes nothing.
 * CSV: RFC 4180, read back by csv-parse; formulas: OWASP, "CSV Injection". Everyone named is invented.
 */
import { evictDurableObject, reset } from "cloudflare:test";
import { parse } from "csv-parse/sync";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, MARA, objectOf, plansOf, push, record, send, setClock } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Imported {
  readonly accepted: number;
  readonly known: number;
  readonly clients: number;
  readonly refused: readonly {
    readonly line: number;
    readonly reason: { readonly code: string; readonly text: string };
  }[];
}

const importTable = (
  key: string,
  text: BodyInit,
  query = "",
  headers: Record<string, string> = {},
): Promise<Response> =>
  send(`/api/salon/records/import${query}`, {
    method: "POST",
    headers: { authorization: `Bearer ${key}`, "content-type": "text/csv", ...headers },
    body: text,
  });
const taken = async (key: string, text: BodyInit, query = ""): Promise<Imported> => {
  const answer = await importTable(key, text, query);
  expect(answer.status).toBe(200);
  return answer.json();
};
const recordsOf = async (key: string): Promise<readonly unknown[]> =>
  (await (await ask(key, "GET", "/api/salon/records?limit=2000")).json<{ records: unknown[] }>()).records;
const clientsOf = async (key: string): Promise<readonly { id: string; name: string }[]> =>
  (await (await ask(key, "GET", "/api/salon/clients?limit=2000")).json<{ clients: { id: string; name: string }[] }>())
    .clients;

const HEADER = "clientName,clientEmail,clientPhone,kind,at,outcome,route,product,shade,note";
const ann = (note: string) => `Ann Brill,ann@post.example,,read,2026-09-01T10:00:00Z,clear,in-salon,line A,4,${note}`;

test("a dry run says what would come of it and changes nothing; then it is taken, and the earlier result counts", async () => {
  const { key } = await createSalon({
    name: "Quillfen Colour Room",
    zone: "Europe/London",
    tests: [{ route: "in-salon", protocol: "salon-48h", onFile: { months: 12, product: "any", shade: "any" } }],
  });
  await push(
    key,
    diaryText([
      {
        uid: "b1",
        start: "DTSTART;TZID=Europe/London:20261211T103000",
        client: "Ann Brill",
        email: "ann@post.example",
      },
    ]),
  );
  const table = `${HEADER}\r\n${ann("card 12")}\r\n`;
  expect(await taken(key, table, "?dry-run")).toEqual({ accepted: 1, known: 0, clients: 0, refused: [], dryRun: true });
  expect(await recordsOf(key)).toEqual([]);
  expect(await taken(key, table)).toEqual({ accepted: 1, known: 0, clients: 0, refused: [], dryRun: false });
  expect((await plansOf(key))[0]?.route).toBe("on-file");
  expect(await recordsOf(key)).toEqual([
    expect.objectContaining({
      client: "c1",
      kind: "read",
      at: "2026-09-01T10:00:00Z",
      recorded: "2026-12-01T09:00:00Z",
      shade: 4,
      via: "api",
      zone: "Europe/London",
      settings: 1,
      // By which rule it was done then, nobody has said.
      rule: null,
    }),
  ]);
});

test("ten thousand lines with every kind of bad one among them; twice changes nothing", async () => {
  const salon = await createSalon();
  const { key } = salon;
  await push(key, diaryText([{ uid: "b1", start: "DTSTART:20261211T103000Z", ...MARA }]));
  const bad: readonly (readonly [string, string, RegExp])[] = [
    ["x,,,read,2026-09-01,clear,in-salon,,,", "line-refused", /instant with an offset/],
    ["x,,,read,2026-09-01T10:00:00,clear,in-salon,,,", "line-refused", /instant with an offset/],
    ["x,,,read,,clear,in-salon,,,", "line-refused", /^at/],
    ["x,,,seen,2026-09-01T10:00:00Z,clear,in-salon,,,", "line-refused", /^kind/],
    ["x,,,,2026-09-01T10:00:00Z,clear,in-salon,,,", "line-refused", /^kind/],
    ["x,,,read,2026-09-01T10:00:00Z,fine,in-salon,,,", "line-refused", /^outcome/],
    ["x,,,read,2026-09-01T10:00:00Z,clear,by-boat,,,", "line-refused", /^route/],
    ["x,,,read,2026-09-01T10:00:00Z,clear,in-salon,,dark,", "line-refused", /^shade/],
    ["x,,,read,2026-09-01T10:00:00Z,clear,in-salon,,11,", "line-refused", /^shade/],
    ["12,,,read,2026-09-01T10:00:00Z,clear,in-salon,,,", "line-refused", /^clientName/],
    ["x,nowhere,,read,2026-09-01T10:00:00Z,clear,in-salon,,,", "line-refused", /^clientEmail/],
    ["x,,no,read,2026-09-01T10:00:00Z,clear,in-salon,,,", "line-refused", /^clientPhone/],
    [`${"x".repeat(201)},,,read,2026-09-01T10:00:00Z,clear,in-salon,,,`, "line-refused", /^clientName/],
    ["x,,,read,2027-09-01T10:00:00Z,clear,in-salon,,,", "at-in-the-future", /no later than/],
    ["x,,,read,2026-09-01T10:00:00Z,,in-salon,,,", "outcome-missing", /outcome/],
    ["x,,,screened,2026-09-01T10:00:00Z,do-not-colour,,,,", "ground-missing", /reason/],
    ["x,,,read,2026-09-01T10:00:00Z,clear,,,,", "route-missing", /route/],
    ["x,,,confirmed,2026-09-01T10:00:00Z,,,,,", "booking-missing", /booking/],
    [",,,read,2026-09-01T10:00:00Z,clear,in-salon,,,", "record-of-nobody", /client/],
    ["x,,,correction,2026-09-01T10:00:00Z,,,,,", "corrects-nothing", /corrects/],
    ["x,,,read,2026-09-01T10:00:00Z,clear,in-salon,,,,", "too-many-fields", /more cells/],
    ["x,,,read", "too-few-fields", /fewer cells/],
  ];
  const good = (n: number) =>
    `Client ${"abcdefghij".charAt(n % 10)}${String.fromCharCode(97 + (n % 23))},c${n % 2000}@post.example,,read,2026-0${1 + (n % 9)}-11T10:${String(n % 60).padStart(2, "0")}:00Z,clear,in-salon,line ${n},,${n % 7 === 0 ? '"two\nlines, and ""a comma"""' : ""}`;
  const lines: string[] = [HEADER];
  const expected: (readonly [number, string])[] = [];
  let [line, taking] = [2, 0];
  for (let n = 0; lines.length <= 10_000; n++) {
    const each = n % 40 === 39 ? bad[Math.floor(n / 40) % bad.length] : undefined;
    if (each) expected.push([line, each[1]]);
    else taking++;
    const text = each?.[0] ?? good(n);
    lines.push(text);
    line += text.split("\n").length;
  }
  const table = `\uFEFF${lines.join("\n")}\n`;
  const first = await taken(key, table);
  expect([first.accepted, first.known]).toEqual([taking, 0]);
  expect(first.refused.map(({ line: at, reason }) => [at, reason.code])).toEqual(expected);
  for (const [index, { reason }] of first.refused.entries()) {
    expect(reason.text).toMatch(bad[index % bad.length]?.[2] ?? /^$/);
    expect(reason.text).not.toContain("nowhere");
  }
  expect(first.refused.length).toBeGreaterThan(10 * bad.length);
  const before = await (await ask(key, "GET", "/api/salon/records?format=csv")).text();
  expect(parse(before, { columns: true })).toHaveLength(taking);
  const clients = await clientsOf(key);
  const again = await taken(key, table);
  expect([again.accepted, again.known, again.clients]).toEqual([0, taking, 0]);
  expect(again.refused).toEqual(first.refused);
  await evictDurableObject(objectOf(salon));
  expect(await (await ask(key, "GET", "/api/salon/records?format=csv")).text()).toBe(before);
  expect(await clientsOf(key)).toEqual(clients);
  // The log itself, sent in again, says nothing new.
  expect(await taken(key, before)).toEqual({ accepted: 0, known: taking, clients: 0, refused: [], dryRun: false });
});

test("a name alone stays unproven; an id and a name must agree; several of one name must be told apart", async () => {
  const { key } = await createSalon();
  const columns = "client,clientName,clientEmail,kind,at,outcome,route";
  const row = (...cells: string[]) => [...cells, "read,2026-09-01T10:00:00Z,clear,in-salon"].join(",");
  await taken(key, [columns, row("", "Ann Brill", ""), row("", "Bea Moor", "bea@post.example")].join("\n"));
  const { clients } = await (await ask(key, "GET", "/api/salon/clients")).json<{
    clients: { id: string; confirmed: boolean }[];
  }>();
  expect(clients.map(({ confirmed }) => confirmed)).toEqual([false, true]);
  const mixed = await taken(
    key,
    [columns, row("c1", "Bea Moor", ""), row("c9", "", ""), row("c2", "BEA MOOR", ""), row("c1", "", "")].join("\n"),
  );
  expect(mixed.refused.map(({ line, reason }) => [line, reason.code])).toEqual([
    [2, "client-of-another-name"],
    [3, "client-unknown"],
  ]);
  expect(mixed.known).toBe(2);
});

test("a table that is none is refused whole, by its columns' places and never by its words", async () => {
  const { key } = await createSalon();
  for (const [text, at] of [
    ["Ann Brill,read,at\n", ["column 1", "column 2", "kind", "clientName"]],
    ["clientName,kind\n", ["at"]],
    ["clientName,kind,at,kind\n", ["the first line"]],
    ["clientName,kind,at,shoe\n", ["column 4"]],
    ["", ["kind", "at", "clientName"]],
  ] as const) {
    const refused = await importTable(key, text);
    expect(refused.status).toBe(422);
    const said = await refused.text();
    expect((JSON.parse(said) as { errors: { at: string }[] }).errors.map((error) => error.at)).toEqual(at);
    expect(said).not.toContain("Brill");
  }
  expect((await importTable(key, new Uint8Array([0x6b, 0xff, 0xfe]))).status).toBe(422);
  expect((await importTable(key, "x", "", { "content-type": "image/png" })).status).toBe(415);
  const lines = Array.from({ length: 20_001 }, () => "x,read,y").join("\n");
  expect((await importTable(key, `clientName,kind,at\n${lines}`)).status).toBe(422);
  expect((await importTable(key, "x".repeat(10_000_001))).status).toBe(413);
});

test("semicolons and tabs, as spreadsheets of other countries write, are read too", async () => {
  const { key } = await createSalon();
  for (const [mark, name] of [
    [";", "Ann"],
    ["\t", "Bea"],
  ] as const) {
    const table = ["ClientName", "KIND", "at", "note"].join(mark);
    const row = [name, "note", "2026-09-01T10:00:00Z", "a, b"].join(mark);
    expect((await taken(key, `${table}\r\n${row}\r\n`)).accepted).toBe(1);
  }
  expect((await recordsOf(key)).map((each) => (each as { note: string }).note)).toEqual(["a, b", "a, b"]);
});

test("the log quotes what a spreadsheet would run, names the person, and comes in pages where they are asked for", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([{ uid: "b1", start: "DTSTART:20261211T103000Z", ...MARA }]));
  const notes = ["=1+1", "+1", "-1", "@x", "plain, with a comma", 'a "word"', "two\nlines"];
  for (const note of notes) await record(key, { booking: "b1", kind: "note", note, at: "2026-12-01T08:00:00Z" });
  const answer = await ask(key, "GET", "/api/salon/records?format=csv");
  expect(answer.headers.get("content-type")).toContain("text/csv");
  const text = await answer.text();
  const rows = parse<Record<string, string>>(text, { columns: true });
  expect(rows.map((row) => row["note"])).toEqual(["'=1+1", "'+1", "'-1", "'@x", ...notes.slice(4)]);
  expect(new Set(rows.map((row) => row["clientName"]))).toEqual(new Set([MARA.client]));
  const page = await ask(key, "GET", "/api/salon/records?format=csv&limit=3");
  expect(parse(await page.text())).toHaveLength(4);
  const next = /<\?([^>]+)>; rel="next"/.exec(page.headers.get("link") ?? "")?.[1];
  const second = await ask(key, "GET", `/api/salon/records?${next}`);
  expect(parse<Record<string, string>>(await second.text(), { columns: true }).map((row) => row["id"])).toEqual([
    "r4",
    "r5",
    "r6",
  ]);
});

test("the same import sent twice under one key is answered as the first time", async () => {
  const { key } = await createSalon();
  const table = `${HEADER}\n${ann("")}\nx,,,read,,,,,,\n`;
  const once = { "idempotency-key": "import-1" };
  const first = await (await importTable(key, table, "", once)).text();
  expect(await (await importTable(key, table, "", once)).text()).toBe(first);
  expect(JSON.parse(first)).toMatchObject({ accepted: 1, known: 0 });
  expect(await recordsOf(key)).toHaveLength(1);
});

test("a result that waits under a bare name is asked about, until the two are one or told apart", async () => {
  const { key } = await createSalon();
  await taken(key, `${HEADER}\r\nAnn Brill,,,read,2026-09-01T10:00:00Z,clear,in-salon,line A,4,\r\n`);
  const entry = {
    uid: "b1",
    start: "DTSTART;TZID=Europe/London:20261211T103000",
    client: "Ann Brill",
    email: "ann@post.example",
  };
  await push(key, diaryText([entry]));
  const asked = async (): Promise<readonly string[]> => {
    const { clients } = await (await ask(key, "GET", "/api/salon/clients?state=open")).json<{
      clients: { id: string; questions: { code: string }[] }[];
    }>();
    return clients.flatMap(({ id, questions }) => questions.map(({ code }) => `${id} ${code}`));
  };
  expect(await asked()).toEqual(["c2 result-of-namesake"]);
  expect((await ask(key, "POST", "/api/salon/clients/c2/apart", { with: "c1" })).status).toBe(200);
  expect(await asked()).toEqual([]);
});
