/** Earliest starts, evidence, and the log with its tables, over the desk's pages. Everyone named is invented. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { eventUid } from "../../src/plan/uid.ts";
import { ask, createSalon, diaryText, MARA, MINIMAL, push, record, setClock, WREN } from "./client.ts";
import { DeskVisitor, wordsOf } from "./DeskVisitor.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const AT = (day: number): string => `DTSTART;TZID=Europe/London:202612${day}T103000`;
const TWO = diaryText([
  { uid: "mara-1", start: AT(11), ...MARA },
  { uid: "wren-1", start: AT(12), ...WREN },
]);
const BOTH = {
  ...MINIMAL,
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
};

test("the earliest starts are one sentence a way, the soonest first, and say what has to happen", async () => {
  const { key } = await createSalon(BOTH);
  const desk = await DeskVisitor.signIn({ key });
  const { routes } = await (await ask(key, "GET", "/api/salon/earliest")).json<{ routes: { start: string }[] }>();
  const page = wordsOf(await desk.open("/desk/earliest"));
  expect(routes).toHaveLength(2);
  expect(page).toMatch(
    /Earliest colour with a test at the salon: Thu 3 Dec 2026, 09:\d\d .*Come in for your skin test.*Earliest colour with a kit sent home: /,
  );
  expect(page).toContain("no free chair");
  const later = wordsOf(await desk.open("/desk/earliest?after=2027-03-01T08:00"));
  expect(later).toMatch(/Counted from Mon 1 Mar 2027, 08:00.*at the salon: Wed 3 Mar 2027/);
  for (const after of ["yesterday", "2090-01-01T10:00", "<b>"]) {
    const wrong = await desk.open(`/desk/earliest?after=${encodeURIComponent(after)}`);
    expect([after, wrong.status, wordsOf(wrong).includes("Not before m")]).toEqual([after, 422, true]);
    expect(wordsOf(wrong)).toContain("Earliest colour with a test at the salon: Thu 3 Dec");
  }
});

test("the evidence of an appointment is a page to print and a file, by a name that says nothing of anybody", async () => {
  const { key, salon } = await createSalon();
  await push(key, TWO);
  await record(key, { client: "c1", booking: "mara-1", kind: "applied", route: "in-salon", by: "Ines" });
  const desk = await DeskVisitor.signIn({ key });
  const ref = eventUid(salon, "mara-1", "colour", null);
  const page = await desk.open(`/desk/evidence/${ref}`);
  expect(wordsOf(page)).toMatch(/Print Save as a file.*Skin test record.*Mara Quillfeather.*Test put on/);
  const file = await desk.open(`/desk/evidence/${ref}/file`);
  expect(file.headers.get("content-disposition")).toBe('attachment; filename="skin-test-record.html"');
  expect(file.html).toContain("<style>");
  for (const other of [eventUid(salon, "nobody", "colour", null), "mara-1", "%3Cb%3E"]) {
    expect((await desk.open(`/desk/evidence/${other}`)).status).toBe(404);
  }
});

test("the log is read newest first, of all, of one client or of one appointment, and leaves as CSV and JSON", async () => {
  const { key, salon } = await createSalon();
  await push(key, TWO);
  await record(key, {
    client: "c1",
    booking: "mara-1",
    kind: "applied",
    route: "in-salon",
    note: '<img src=x onerror="x">',
  });
  await record(key, { client: "c1", kind: "correction", corrects: "r1", reason: "wrong client" });
  for (let each = 0; each < 55; each++) await record(key, { client: "c2", kind: "note", note: `note ${each}` });
  const desk = await DeskVisitor.signIn({ key });
  const first = await desk.open("/desk/log");
  expect(wordsOf(first)).toMatch(/r57 .*note 54.*note 53/);
  const next = /href="(\/desk\/log\?after=r\d+)"/.exec(first.html)?.[1] ?? "";
  expect(wordsOf(await desk.open(next))).toMatch(/Correction r2 .*Set aside by r2/);
  const hers = await desk.open("/desk/log?client=c1");
  expect(wordsOf(hers)).toMatch(/Records of Mara Quillfeather/);
  expect(hers.html).not.toMatch(/Wren|<img/);
  const one = await desk.open(`/desk/log?booking=${eventUid(salon, "mara-1", "colour", null)}`);
  expect(wordsOf(one)).not.toContain("Wren");
  expect(wordsOf(one)).toContain("Test put on");
  expect(wordsOf(await desk.open("/desk/log?client=c99"))).toContain("Nothing is recorded");
  expect(wordsOf(await desk.open("/desk/log?booking=nothing"))).toContain("Nothing is recorded");
  const csv = await desk.open("/desk/log.csv?client=c1");
  expect(csv.headers.get("content-disposition")).toBe('attachment; filename="records.csv"');
  expect(csv.html.trim().split("\n")).toHaveLength(3);
  const json = await desk.open("/desk/log.json");
  expect(JSON.parse(json.html).records).toHaveLength(57);
  expect(JSON.parse((await desk.open("/desk/log.json?client=c99")).html).records).toEqual([]);
});

const TABLE = [
  "clientName,clientEmail,kind,at,outcome,route,note",
  'Mara Quillfeather,mara@example.com,applied,2026-03-12T10:30:00Z,,in-salon,"two',
  'lines"',
  "Mara Quillfeather,mara@example.com,read,2026-03-14T10:45:00Z,clear,in-salon,",
  "<script>alert(1)</script>,,note,2026-03-14T10:45:00Z,,,hello",
  "Wren Tallis-Moor,wren@example.com,read,some day,clear,in-salon,",
  "",
].join("\n");

test("a table of earlier results is tried, then brought in once, and each refused line says why", async () => {
  const { key } = await createSalon();
  const desk = await DeskVisitor.signIn({ key });
  const page = await desk.open("/desk/log/import");
  const file = { name: "earlier.csv", text: TABLE };
  const tried = await desk.upload(page, "/desk/log/import", { do: "try" }, file);
  expect(wordsOf(tried)).toMatch(
    /3 lines can be brought in.*2 clients are new and would be added.*1 line is refused.*Line 6 at must be/,
  );
  expect(wordsOf(await desk.open("/desk/log"))).toContain("Nothing is recorded");
  const done = await desk.press(tried, "/desk/log/import", { do: "import" });
  expect(wordsOf(done)).toMatch(/3 lines were brought in/);
  const again = await desk.press(tried, "/desk/log/import", { do: "import" });
  expect(wordsOf(again)).toMatch(/3 lines were brought in/);
  const log = await desk.open("/desk/log");
  expect(log.html.match(/<tr><td>/g)).toHaveLength(3);
  expect(log.html).not.toContain("<script>alert");
  const { records } = JSON.parse((await desk.open("/desk/log.json")).html) as { records: { note: string }[] };
  expect(records[0]?.note).toBe("two\nlines");
  const known = await desk.upload(page, "/desk/log/import", { do: "try" }, file);
  expect(wordsOf(known)).toMatch(/Nothing in this table is new.*3 lines say what is on file already/);
  const wrong = await desk.upload(
    page,
    "/desk/log/import",
    { do: "try" },
    { name: "x.csv", text: "who,what\nAnn,read" },
  );
  expect([wrong.status, wordsOf(wrong).includes("The table cannot be read")]).toEqual([422, true]);
  const none = await desk.press(page, "/desk/log/import", { do: "try" });
  expect([none.status, wordsOf(none).includes("No table was chosen")]).toEqual([422, true]);
});
