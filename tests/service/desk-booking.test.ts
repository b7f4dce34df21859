/** The coming weeks and one appointment at the desk. Everyone named is invented. */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createSalon, diaryText, MARA, plansOf, push, record, setClock, type TestSalon, WREN } from "./client.ts";
import { DeskVisitor, type Seen, wordsOf } from "./DeskVisitor.ts";

beforeEach(() => setClock("2026-12-01T09:30:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const SETTINGS = {
  name: "Quillfen Colour Room",
  zone: "Europe/London",
  country: "GB",
  staff: ["Ines"],
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
};
const at = (day: string): string => `DTSTART;TZID=Europe/London:202612${day}T103000`;
const TWO = diaryText([
  { uid: "mara-1", start: at("18"), ...MARA },
  { uid: "wren-1", start: at("04"), ...WREN },
]);

const opened = async (): Promise<{ salon: TestSalon; desk: DeskVisitor }> => {
  const salon = await createSalon(SETTINGS);
  await push(salon.key, TWO);
  return { salon, desk: await DeskVisitor.signIn(salon) };
};
const refOf = (weeks: Seen, name: string): string =>
  new RegExp(`href="(/desk/booking/[0-9a-f-]{36})"><bdi>${name}`).exec(weeks.html)?.[1] ?? "";

test("a row an appointment, in the order of their starts, and a row changes as soon as something is told or its time comes", async () => {
  const { salon, desk } = await opened();
  const weeks = await desk.open("/desk/weeks?weeks=4");
  expect(wordsOf(weeks)).toMatch(/Fri 4 Dec.*10:30.*Wren Tallis-Moor.*Fri 18 Dec.*Mara Quillfeather/s);
  const rowOf = (page: Seen, name: string): string =>
    wordsOf({ html: page.html.split("<tr").find((row) => row.includes(name)) ?? "" } as Seen);
  expect(rowOf(weeks, "Wren")).toContain("To do now");
  // Asked again with nothing changed it says the same; then one record later not.
  expect(rowOf(await desk.open("/desk/weeks?weeks=4"), "Wren")).toBe(rowOf(weeks, "Wren"));
  await record(salon.key, { kind: "reacted", booking: "wren-1" });
  expect(rowOf(await desk.open("/desk/weeks?weeks=4"), "Wren")).toContain("Stop: do not colour");
  const before = rowOf(await desk.open("/desk/weeks?weeks=4"), "Mara");
  // Past the last post for her kit.
  setClock("2026-12-16T08:00:00Z");
  const after = rowOf(await desk.open("/desk/weeks?from=2026-12-01&weeks=4"), "Mara");
  expect(after).not.toBe(before);
  expect(after).toMatch(/Late|To do now/);
});

test("weeks that cannot be are said with the limit", async () => {
  const { desk } = await opened();
  for (const query of ["weeks=9", "weeks=x", "from=yesterday", "colour=red"]) {
    const page = await desk.open(`/desk/weeks?${query}`);
    expect([query, page.status]).toEqual([query, 422]);
  }
});

test("another time tried is what the plan is once the diary is moved there, and trying changes nothing", async () => {
  const { salon, desk } = await opened();
  const ref = refOf(await desk.open("/desk/weeks?weeks=4"), "Mara");
  const tried = await desk.open(`${ref}?start=2026-12-11T12:15`);
  const beside = wordsOf({
    html: tried.html.slice(tried.html.indexOf("If Fri 11 Dec"), tried.html.indexOf('id="records"')),
  } as Seen);
  expect(await plansOf(salon.key)).toMatchObject([{}, { booking: { start: "2026-12-18T10:30:00Z" } }]);
  await push(salon.key, TWO.replace(at("18"), "DTSTART;TZID=Europe/London:20261211T121500"));
  const moved = (await plansOf(salon.key)).find(({ booking }) => booking.uid === "mara-1");
  // By the contract's own plans, which know nothing of the page.
  for (const { due, kind } of moved?.steps.filter((step) =>
    ["shipping", "arrival", "application"].includes(step.kind),
  ) ?? []) {
    const clock = new Date(due).toISOString().slice(11, 16);
    expect([kind, beside.includes(clock)]).toEqual([kind, true]);
  }
  const page = await desk.open(ref);
  expect(wordsOf(page)).toContain("it was Fri 18 Dec 2026, 10:30");
});

test("what was told wrongly is set aside with its reason, and stays beside it", async () => {
  const { salon, desk } = await opened();
  await record(salon.key, { kind: "applied", route: "in-salon", booking: "wren-1", at: "2026-12-01T09:00:00Z" });
  const ref = refOf(await desk.open("/desk/weeks"), "Wren");
  const page = await desk.open(ref);
  const form = page.html.split("<form").find((each) => each.includes('name="corrects"')) ?? "";
  const only = { ...page, html: `<form${form}` };
  const aside = await desk.press(only, "/desk/records", {
    choice: "correction - - -",
    corrects: "r1",
    reason: "another client's",
  });
  expect(aside.status).toBe(200);
  expect(wordsOf(aside)).toMatch(/Set aside by r2.*another client's/s);
  expect((await plansOf(salon.key))[0]?.steps.find(({ kind }) => kind === "application")?.state).toBe("planned");
});

test("a decision about answers is a screening of the desk's, with its ground", async () => {
  const { salon, desk } = await opened();
  const ref = refOf(await desk.open("/desk/weeks"), "Wren");
  const page = await desk.open(ref);
  const form = page.html.split("<form").find((each) => each.includes("Do not colour: under 16")) ?? "";
  const stopped = await desk.press({ ...page, html: `<form${form}` }, "/desk/records", {
    choice: "screened do-not-colour - under-16",
  });
  expect(wordsOf(stopped)).toContain("Stop: do not colour");
  expect((await plansOf(salon.key))[0]?.standing).toBe("stop");
  // Nothing on the page asks for a test any more.
  expect(stopped.html).not.toContain("Test is on");
});

test("a reaction is described under the form's headings by the same press", async () => {
  const { salon, desk } = await opened();
  const ref = refOf(await desk.open("/desk/weeks"), "Wren");
  const page = await desk.open(ref);
  const form = page.html.split("<form").find((each) => each.includes('name="signs"')) ?? "";
  await desk.press({ ...page, html: `<form${form}` }, "/desk/records", {
    choice: "reacted - - -",
    signs: "redness",
    bodyAreas: "neck",
    note: "came in",
  });
  const shown = await desk.open(ref);
  expect(wordsOf(shown)).toMatch(/Something showed.*came in/s);
  expect((await plansOf(salon.key))[0]?.standing).toBe("stop");
});

test("an appointment that is not there is 404 with the way back", async () => {
  const { desk } = await opened();
  const gone = await desk.open("/desk/booking/00000000-0000-5000-8000-000000000000");
  expect([gone.status, wordsOf(gone)]).toEqual([404, expect.stringContaining("not there any more")]);
});
