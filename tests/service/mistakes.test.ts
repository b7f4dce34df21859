/**
 * Small mistakes in a request, which must never be carried out as something else or lost without a word. Rules of the outward
 * contract, no other source; everyone named is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  MINIMAL,
  plansOf,
  push,
  record,
  send,
  setClock,
} from "./client.ts";
import { findStored } from "./storage.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const at = (day: string, uid: string): EntryText => ({
  uid,
  start: `DTSTART;TZID=Europe/London:202612${day}T103000`,
  client: "Ann Brill",
  email: "ann@post.example",
});
const importTable = (key: string, text: string, query = ""): Promise<Response> =>
  send(`/api/salon/records/import${query}`, {
    method: "POST",
    headers: { authorization: `Bearer ${key}`, "content-type": "text/csv" },
    body: text,
  });
const recordsOf = async <Row>(key: string, query = ""): Promise<readonly Row[]> =>
  (await (await ask(key, "GET", `/api/salon/records${query}`)).json<{ records: Row[] }>()).records;

const LINE = "clientName,kind,outcome,route,at\nAnn Brill,read,clear,in-salon,2026-09-01T10:00:00Z";

test.each(["?dryrun", "?dry_run=true", "?dry-run=false", "?dry-run=0", "?zzz=1", "?dry-run&dryrun"])(
  "what was to be tried is never done by mistake: %s",
  async (query) => {
    const { key } = await createSalon();
    const imported = await importTable(key, LINE, query);
    expect(imported.status).toBe(422);
    expect(await recordsOf(key)).toEqual([]);
    const before = await (await ask(key, "GET", "/api/salon")).json();
    const put = await ask(key, "PUT", `/api/salon${query}`, { ...MINIMAL, name: "Another Room" });
    expect(put.status).toBe(422);
    expect(await (await ask(key, "GET", "/api/salon")).json()).toEqual(before);
    expect((await ask(key, "POST", `/api/salon/clients${query}`, { name: "Ann Brill" })).status).toBe(422);
    expect((await ask(key, "GET", "/api/salon/clients?limit=5")).status).toBe(200);
  },
);

test.each(["?dry-run", "?dry-run=true", "?dry-run=1", "?dry-run="])(
  "a trial is one, and says so: %s",
  async (query) => {
    const { key } = await createSalon();
    const imported = await importTable(key, LINE, query);
    expect([imported.status, (await imported.json<{ dryRun: boolean }>()).dryRun]).toEqual([200, true]);
    expect(await recordsOf(key)).toEqual([]);
    expect((await ask(key, "PUT", `/api/salon${query}`, MINIMAL)).status).toBe(200);
  },
);

test("a trial of settings by somebody who has not seen the present ones is refused as the change would be", async () => {
  const { key } = await createSalon();
  const etag = (await ask(key, "GET", "/api/salon")).headers.get("etag") ?? "";
  const tried = (tag: string): Promise<Response> =>
    send("/api/salon?dry-run", {
      method: "PUT",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "if-match": tag },
      body: JSON.stringify(MINIMAL),
    });
  expect((await tried(etag)).status).toBe(200);
  await ask(key, "PUT", "/api/salon", { ...MINIMAL, name: "Another Room" });
  expect((await tried(etag)).status).toBe(412);
});

test("a cursor of another list, or of none, is refused; one whose row is gone goes on where it was", async () => {
  const { key } = await createSalon();
  const all = ["11", "12", "13", "14"].map((day) => at(day, `b${day}`));
  await push(key, diaryText(all));
  for (const path of ["records", "plans", "screenings", "clients", "entries"]) {
    for (const after of ["zzz", "b12", "r-1", "x1"]) {
      const listed = await ask(key, "GET", `/api/salon/${path}?after=${after}`);
      expect([path, after, listed.status]).toEqual([path, after, 422]);
    }
  }
  const page = await (await ask(key, "GET", "/api/salon/plans?limit=2")).json<{ next: string }>();
  await push(key, diaryText(all.filter(({ uid }) => uid !== "b12")));
  const rest = await (await ask(key, "GET", `/api/salon/plans?after=${page.next}`)).json<{
    plans: { booking: { uid: string } }[];
  }>();
  expect(rest.plans.map(({ booking }) => booking.uid)).toEqual(["b13", "b14"]);
});

test("times before anybody, half characters and marks that turn a line are kept out of what is told", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  for (const when of ["0000-01-01T00:00:00+23:59", "0001-01-01T00:00:00Z", "1899-12-31T23:59:59Z"]) {
    const refused = await record(key, { booking: "b1", kind: "note", at: when, note: "x" });
    expect([when, refused.status]).toEqual([when, 422]);
  }
  expect(
    (await record(key, { booking: "b1", kind: "note", note: "half \ud800 of one", by: "Ines\u202e\u0007 Rowe" }))
      .status,
  ).toBe(201);
  const [kept] = await recordsOf<{ note: string; by: string }>(key);
  expect(kept).toMatchObject({ note: "half \ufffd of one", by: "Ines Rowe" });
  const csv = await (await ask(key, "GET", "/api/salon/records?format=csv")).arrayBuffer();
  expect(() => new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(csv)).not.toThrow();
});

test("an answer's fields are no request's: they are named and refused", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  for (const field of ["id", "recorded", "correctedBy"]) {
    const refused = await record(key, { booking: "b1", kind: "note", note: "x", [field]: "r9" });
    expect([refused.status, (await refused.json<{ errors: { at: string }[] }>()).errors[0]?.at]).toEqual([422, field]);
  }
});

test("a table with the line ends of two systems is read line by line, blanks around codes and all", async () => {
  const { key } = await createSalon();
  const line = (name: string) => `${name}, read ,clear ,in-salon, 2026-09-01T10:00:00Z`;
  for (const text of [
    `clientName,kind,outcome,route,at\r\n${line("Ann Brill")}\n${line("Bea Cole")}\n${line("Cleo Dunn")}`,
    `clientName,kind,outcome,route,at\n${line("Dot Ewing")}\r\n${line("Eda Finch")}\r${line("Flo Garth")}\r\n`,
  ]) {
    const imported = await importTable(key, text);
    expect(await imported.json()).toMatchObject({ accepted: 3, refused: [] });
  }
  const long = await importTable(
    key,
    `clientName,kind,at,note\nAnn Brill,note,2026-09-01T10:00:00Z,${"n".repeat(4_001)}`,
  );
  expect((await long.json<{ refused: { reason: { text: string } }[] }>()).refused[0]?.reason.text).toContain(
    "at most 4000 characters, not 4001",
  );
  const named = await importTable(
    key,
    "clientName,kind,at,corrects\nAnn Brill,correction,2026-09-01T10:00:00Z,Beth has a rash",
  );
  expect(await named.text()).not.toContain("Beth");
});

test("what was set aside says so wherever it is listed, and what sets it aside stands beside it", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  const told = { kind: "read", route: "in-salon", outcome: "clear", at: "2026-11-29T10:00:00Z" };
  const first = await (await record(key, { booking: "b1", ...told })).json();
  expect((await record(key, { client: "c1", kind: "correction", corrects: "r1" })).status).toBe(201);
  const rows = await recordsOf<{ id: string; corrects: string | null }>(key, "?booking=b1");
  expect(rows.map(({ id, corrects }) => [id, corrects])).toEqual([
    ["r1", null],
    ["r2", "r1"],
  ]);
  // What was told stays to the letter what it was answered with.
  expect(rows[0]).toEqual(first);
  const [head = "", line = ""] = (
    await (await ask(key, "GET", "/api/salon/records?format=csv&booking=b1")).text()
  ).split("\r\n");
  expect(line.split(",")[head.split(",").indexOf("correctedBy")]).toBe("r2");
});

test("a request sent again after its client was erased brings nobody back", async () => {
  const salon = await createSalon();
  const { key } = salon;
  const add = (): Promise<Response> =>
    send("/api/salon/clients", {
      method: "POST",
      headers: { authorization: `Bearer ${key}`, "content-type": "application/json", "idempotency-key": "k-1" },
      body: JSON.stringify({ name: "Zelda Fenwright", email: "zelda@post.example" }),
    });
  expect((await add()).status).toBe(201);
  expect((await ask(key, "DELETE", "/api/salon/clients/c1")).status).toBe(200);
  const again = await add();
  expect([again.status, (await again.json<{ type: string }>()).type]).toEqual([
    410,
    "urn:countback:problem:done-and-gone",
  ]);
  expect(await findStored(salon, "Zelda")).toEqual([]);
  expect(await plansOf(key)).toEqual([]);
});

test("the log read back by the salon that wrote it adds nothing, whatever stands in it", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  const notes = [
    "",
    "'=1+1",
    "\uff1d1+1",
    "a\rb",
    "x;=HYPERLINK(1)",
    "''@both",
    "-",
    "tab\tin",
    'say "so"',
    "two\nlines",
  ];
  for (const note of notes) expect((await record(key, { client: "c1", kind: "reacted", note })).status).toBe(201);
  await record(key, { client: "c1", kind: "read", outcome: "clear", at: "2026-11-20T10:00:00Z" });
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-11-20T10:00:00Z" });
  const csv = await (await ask(key, "GET", "/api/salon/records?format=csv")).text();
  expect(
    /(^|[\t;,\r\n])"?[=+@\uff1d]/.test(
      csv.replaceAll(/"[^"]*"/g, (cell) => (/^"[=+@\uff1d]/.test(cell) ? cell : '""')),
    ),
  ).toBe(false);
  const again = await importTable(key, csv);
  expect(await again.json()).toMatchObject({ accepted: 0, known: notes.length + 2, refused: [] });
});

test("an id beside an address that is another's is refused; so is an address without a name", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  const lines = [
    "client,clientName,clientEmail,kind,outcome,route,at",
    "c1,Ann Brill,other@post.example,read,clear,in-salon,2026-11-01T10:00:00Z",
    "c1,,other@post.example,read,clear,in-salon,2026-11-01T10:00:00Z",
    "c1,Ann Brill,ANN@post.example,Read,Clear,In-Salon,2026-11-01T10:00:00Z",
    "c1,Ann Brill,,read,clear,on-file,2026-11-02T10:00:00Z",
  ];
  const imported = await importTable(key, lines.join("\n"));
  const { accepted, refused } = await imported.json<{
    accepted: number;
    refused: { line: number; reason: { code: string } }[];
  }>();
  expect([accepted, refused.map(({ line, reason }) => [line, reason.code])]).toEqual([
    1,
    [
      [2, "client-of-another-address"],
      [3, "line-refused"],
      [5, "route-missing"],
    ],
  ]);
});

test("what stops somebody is imported though its appointment is not known here", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  const lines = [
    "clientName,clientEmail,kind,outcome,route,at,booking",
    "Ann Brill,ann@post.example,reacted,,,2026-10-01T10:00:00Z,old-1",
    "Ann Brill,ann@post.example,read,reaction,in-salon,2026-10-01T10:00:00Z,old-1",
    "Ann Brill,ann@post.example,removed,,,2026-10-01T10:00:00Z,old-1",
  ];
  const imported = await importTable(key, lines.join("\n"));
  expect(await imported.json()).toMatchObject({
    accepted: 2,
    refused: [{ line: 4, reason: { code: "booking-unknown" } }],
  });
  expect((await plansOf(key)).map(({ standing }) => standing)).toEqual(["stop"]);
});

test("a trial of settings says what they would let go at once", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  for (const when of ["2026-09-01", "2026-09-02"])
    await record(key, { client: "c1", kind: "note", at: `${when}T10:00:00Z`, note: "x" });
  const tried = async (retention: object) =>
    (await (await ask(key, "PUT", "/api/salon?dry-run", { ...MINIMAL, retention })).json<{ erased: object }>()).erased;
  setClock("2026-12-20T10:00:00Z");
  expect(await tried({ evidence: "P6Y", rest: "P2Y" })).toEqual({ records: 0, answers: 0, clients: 0 });
  expect(await tried({ evidence: "P6D", rest: "P2Y" })).toEqual({ records: 2, answers: 0, clients: 0 });
  expect(await recordsOf(key)).toHaveLength(2);
});

test("a reaction of one who was erased is still told where her appointment is kept", async () => {
  const { key } = await createSalon();
  await push(key, diaryText([at("11", "b1")]));
  await record(key, { booking: "b1", kind: "applied", route: "in-salon", at: "2026-11-30T10:00:00Z" });
  setClock("2026-12-12T10:00:00Z");
  expect((await ask(key, "DELETE", "/api/salon/clients/c1")).status).toBe(200);
  expect((await record(key, { booking: "b1", kind: "reacted", at: "2026-12-11T20:00:00Z" })).status).toBe(201);
  expect((await record(key, { booking: "b1", kind: "note", note: "x" })).status).toBe(404);
  expect((await ask(key, "GET", "/api/salon/evidence?booking=b1")).status).toBe(200);
});

test("a table's corrections set aside its own lines and nothing that happens to have their numbers here", async () => {
  const first = await createSalon();
  await push(first.key, diaryText([at("11", "b1")]));
  await record(first.key, { client: "c1", kind: "note", at: "2026-11-01T10:00:00Z", note: "before" });
  await record(first.key, {
    client: "c1",
    kind: "read",
    outcome: "not-sure",
    route: "in-salon",
    at: "2026-11-02T10:00:00Z",
  });
  await record(first.key, { client: "c1", kind: "reacted", at: "2026-11-03T10:00:00Z", reaction: {} });
  await record(first.key, { client: "c1", kind: "correction", corrects: "r2", at: "2026-11-04T10:00:00Z" });
  const csv = await (await ask(first.key, "GET", "/api/salon/records?format=csv")).text();
  const again = await importTable(first.key, csv);
  expect(await again.json()).toMatchObject({ accepted: 0, known: 4, refused: [] });
  const second = await createSalon();
  await push(second.key, diaryText([at("11", "b1")]));
  await record(second.key, { client: "c1", kind: "reacted", at: "2026-11-20T10:00:00Z" });
  const lines = csv.split("\r\n").map((line, n) => (n === 0 ? line : line.replace(",c1,", ",,")));
  const imported = await importTable(second.key, lines.join("\r\n"));
  expect(await imported.json()).toMatchObject({ accepted: 4, refused: [] });
  const rows = await recordsOf<{ id: string; kind: string; outcome: string | null; corrects: string | null }>(
    second.key,
  );
  const aside = rows.flatMap(({ corrects }) => rows.filter(({ id }) => id === corrects));
  expect(aside).toMatchObject([{ kind: "read", outcome: "not-sure" }]);
  expect((await plansOf(second.key))[0]?.standing).toBe("stop");
  const stray =
    "clientName,clientEmail,kind,at,corrects\nAnn Brill,ann@post.example,correction,2026-11-21T10:00:00Z,r1";
  const refused = await importTable(second.key, stray);
  expect(await refused.json()).toMatchObject({ accepted: 0, refused: [{ reason: { code: "corrects-unknown" } }] });
});

test("a header of a hundred thousand columns is refused in few words", async () => {
  const { key } = await createSalon();
  const refused = await importTable(key, "a,".repeat(100_000));
  expect(refused.status).toBe(422);
  expect((await refused.text()).length).toBeLessThan(60_000);
});
