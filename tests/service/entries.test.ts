/** Entries of the diaries, and a person's answers to them, over HTTP. Everyone named is invented. */
import { evictDurableObject, reset, runInDurableObject } from "cloudflare:test";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { ENTRY_ANSWERS_MAX } from "../../src/bounds.ts";
import {
  ask,
  createSalon,
  diaryText,
  type EntryText,
  MARA,
  MINIMAL,
  objectOf,
  plansOf,
  push,
  send,
  setClock,
  type TestSalon,
  WREN,
} from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Listed {
  readonly id: string;
  readonly uid: string;
  readonly recurrenceId: string | null;
  readonly diary: string;
  readonly start: string | null;
  readonly date: string | null;
  readonly summary: string;
  readonly state: string;
  readonly why: { readonly code: string; readonly text: string } | null;
  readonly nearest: string | null;
  readonly service: string | null;
  readonly client: { readonly name: string } | null;
}
interface Problem {
  readonly type: string;
  readonly detail: string;
  readonly errors?: readonly { readonly at: string; readonly limit: string; readonly remedy: string }[];
}

const list = async (key: string, query = ""): Promise<{ entries: Listed[]; next: string | null }> => {
  const answer = await ask(key, "GET", `/api/salon/entries${query}`);
  expect(answer.status).toBe(200);
  return answer.json();
};
const idOf = async (key: string, uid: string): Promise<string> =>
  (await list(key)).entries.find((each) => each.uid === uid)?.id ?? "";
const put = (key: string, id: string, body: unknown): Promise<Response> =>
  ask(key, "PUT", `/api/salon/entries/${id}`, body);
const refused = async (answer: Response): Promise<[number, string, Problem]> => {
  const problem = await answer.json<Problem>();
  return [answer.status, problem.type.replace("urn:countback:problem:", ""), problem];
};
/** `state why` of each, by UID. */
const states = async (key: string): Promise<Record<string, string>> =>
  Object.fromEntries(
    (await list(key)).entries.map(({ uid, state, why, client }) => [
      uid,
      [state, why?.code, client?.name].filter((part) => part !== undefined).join(" "),
    ]),
  );

const on = (day: string, time = "103000"): string => `DTSTART;TZID=Europe/London:202612${day}T${time}`;
const glow = (uid: string, day: string, more: Partial<EntryText> = {}): EntryText => ({
  uid,
  start: on(day),
  summary: "Mystery Glow - Ann Brill",
  ...more,
});
const DIARY: readonly EntryText[] = [
  glow("glow", "11"),
  { uid: "tint", start: on("12"), summary: "Root tint", ...MARA },
  { uid: "bare", start: on("13"), summary: "Colur" },
  { uid: "cut", start: on("14"), summary: "Cut", ...WREN },
  { uid: "patch", start: on("10"), summary: "Patch test", ...MARA },
  { uid: "day", start: "DTSTART;VALUE=DATE:20261215", summary: "Founders' day" },
  { uid: "lost", start: "DTSTART;TZID=Nowhere/Clocktower:20261216T103000", summary: "Tint", ...WREN },
  { uid: "off", start: on("17"), summary: "Tint", ...WREN, more: ["STATUS:CANCELLED"] },
  { uid: "maybe", start: on("18"), summary: "Tint", ...WREN, more: ["STATUS:TENTATIVE"] },
];
const filled = async (settings: object = {}, entries = DIARY): Promise<TestSalon> => {
  const salon = await createSalon({ ...MINIMAL, ...settings });
  expect((await push(salon.key, diaryText(entries))).status).toBe(200);
  return salon;
};

test("every entry in sight is listed with what it was taken for, the earliest first", async () => {
  const { key } = await filled();
  const { entries, next } = await list(key);
  expect(next).toBeNull();
  expect(entries.map(({ uid, start, date, state, why }) => [uid, start ?? date, state, why?.code ?? null])).toEqual([
    ["patch", "2026-12-10T10:30:00Z", "test", null],
    ["glow", "2026-12-11T10:30:00Z", "unsorted", "no-match"],
    ["tint", "2026-12-12T10:30:00Z", "booking", null],
    ["bare", "2026-12-13T10:30:00Z", "unsorted", "no-match"],
    ["cut", "2026-12-14T10:30:00Z", "not-colour", null],
    ["day", "2026-12-15", "unsorted", "all-day"],
    ["off", "2026-12-17T10:30:00Z", "not-colour", null],
    ["maybe", "2026-12-18T10:30:00Z", "booking", null],
    ["lost", null, "not-certain", "zone-unknown"],
  ]);
  expect(entries.find(({ uid }) => uid === "bare")).toMatchObject({
    recurrenceId: null,
    diary: "main",
    summary: "Colur",
    nearest: "Colour",
  });
  expect(entries.find(({ uid }) => uid === "tint")).toMatchObject({
    service: "Colour",
    client: { name: MARA.client },
    nearest: null,
  });
  for (const { id, why } of entries) {
    expect(encodeURIComponent(id)).toBe(id);
    if (why) expect(why.text).toMatch(/\.$/);
  }
});

test("lists are filtered by state and diary, and paged though entries change their state between two pages", async () => {
  const { key } = await filled();
  await push(key, diaryText([glow("elsewhere", "20")]), "chair-2");
  const uids = async (query: string) => (await list(key, query)).entries.map(({ uid }) => uid);
  expect(await uids("?state=unsorted")).toEqual(["glow", "bare", "day", "elsewhere"]);
  expect(await uids("?state=unsorted&diary=chair-2")).toEqual(["elsewhere"]);
  expect(await uids("?state=not-certain")).toEqual(["lost"]);
  expect(await uids("?state=test")).toEqual(["patch"]);
  const first = await list(key, "?state=unsorted&limit=2");
  expect(first.entries.map(({ uid }) => uid)).toEqual(["glow", "bare"]);
  expect((await put(key, await idOf(key, "bare"), { as: "not-colour" })).status).toBe(200);
  const second = await list(key, `?state=unsorted&limit=2&after=${first.next ?? ""}`);
  expect(second.entries.map(({ uid }) => uid)).toEqual(["day", "elsewhere"]);
  expect(second.next).toBeNull();
  const every: string[] = [];
  for (let after = ""; ; ) {
    const { entries, next } = await list(key, `?limit=3${after}`);
    every.push(...entries.map(({ uid }) => uid));
    if (next === null) break;
    after = `&after=${next}`;
  }
  expect(every).toEqual(await uids(""));
  expect(new Set(every).size).toBe(DIARY.length + 1);
});

test.each([
  ["?state=strange", 422, "state"],
  ["?after=glow", 422, "after"],
  ["?limit=0", 422, "limit"],
  ["?colour=red", 422, "colour"],
])("a list asked for as %s is refused by name", async (query, status, at) => {
  const { key } = await createSalon();
  const [answered, code, problem] = await refused(await ask(key, "GET", `/api/salon/entries${query}`));
  expect([answered, code, problem.errors?.map((error) => error.at)]).toEqual([status, "request-refused", [at]]);
});

test("a diary that is not kept has no entries to list", async () => {
  const { key } = await createSalon();
  expect((await refused(await ask(key, "GET", "/api/salon/entries?diary=none"))).slice(0, 2)).toEqual([
    404,
    "no-such-diary",
  ]);
});

test("an answer takes effect at once, for the entry and for those like it, and holds for what is pushed later", async () => {
  const { key } = await filled({}, [...DIARY, glow("bea", "21", { summary: "Mystery Glow - Bea Holm" })]);
  const before = (await plansOf(key)).map(({ booking }) => booking.uid);
  const answer = await put(key, await idOf(key, "glow"), {
    as: "booking",
    service: "Colour",
    client: { name: "Ann Brill", email: "ann@post.example" },
  });
  expect(answer.status).toBe(200);
  expect(await answer.json<Listed>()).toMatchObject({
    uid: "glow",
    state: "booking",
    why: { code: "answered" },
    nearest: null,
    service: "Colour",
    client: { name: "Ann Brill" },
  });
  const plans = await plansOf(key);
  expect(plans.map(({ booking }) => booking.uid).filter((uid) => !before.includes(uid))).toEqual(["glow", "bea"]);
  const ofGlow = plans.find(({ booking }) => booking.uid === "glow");
  expect(ofGlow?.booking.client.name).toBe("Ann Brill");
  expect(ofGlow?.steps.some(({ kind }) => kind === "application")).toBe(true);
  expect(await states(key)).toMatchObject({
    glow: "booking answered Ann Brill",
    bea: "booking answered-alike Bea Holm",
  });
  const moved = [
    glow("glow", "29", { more: ["DESCRIPTION:She will be late"] }),
    glow("cy", "30", { summary: "Mystery Glow", client: "Cy Finch", email: "cy@post.example" }),
    glow("longer", "28", { summary: "Mystery Glow Deluxe - Dee Lund" }),
    ...DIARY.slice(1),
  ];
  expect((await push(key, diaryText(moved))).status).toBe(200);
  expect(await states(key)).toMatchObject({
    glow: "booking answered Ann Brill",
    cy: "booking answered-alike Cy Finch",
    longer: "unsorted no-match",
  });
});

test("the same answer twice changes nothing, and the feeds keep their bytes; another takes its place", async () => {
  const salon = await filled();
  const { key } = salon;
  const id = await idOf(key, "glow");
  const ann = { as: "booking", service: "Colour", client: { name: "Ann Brill" } };
  const feed = async () => (await send(salon.feed)).text();
  const stored = () =>
    runInDurableObject(objectOf(salon), (_instance, state) =>
      JSON.stringify([
        state.storage.sql.exec("SELECT * FROM answers").toArray(),
        state.storage.sql.exec("SELECT * FROM reads").toArray(),
      ]),
    );
  const first = await (await put(key, id, ann)).text();
  const [bytes, rows] = [await feed(), await stored()];
  expect(bytes).toContain("BEGIN:VEVENT");
  setClock("2026-12-01T09:30:00Z");
  expect(await (await put(key, id, ann)).text()).toBe(first);
  expect(await feed()).toBe(bytes);
  expect(await stored()).toBe(rows);
  setClock("2026-12-01T09:40:00Z");
  expect((await put(key, id, { ...ann, client: { name: "Bea Holm" } })).status).toBe(200);
  expect((await plansOf(key)).find(({ booking }) => booking.uid === "glow")?.booking.client.name).toBe("Bea Holm");
  expect(await (await put(key, id, { as: "not-colour" })).json<Listed>()).toMatchObject({ state: "not-colour" });
  expect((await plansOf(key)).find(({ booking }) => booking.uid === "glow")?.standing).toBe("cancelled");
});

test("an answer reaches the other diaries at once where its phrase does, and leaves alone those it does not concern", async () => {
  const salon = await filled();
  const { key } = salon;
  expect(
    (await push(key, diaryText([glow("bea", "21", { summary: "Mystery Glow - Bea Holm" })]), "chair-2")).status,
  ).toBe(200);
  const sortedBy = () =>
    runInDurableObject(objectOf(salon), (_instance, state) =>
      state.storage.sql.exec("SELECT DISTINCT diary, sorted_by FROM reads ORDER BY diary").toArray(),
    );
  const [chair, main] = await sortedBy();
  // Against the salon's own word, and so of this entry alone.
  await put(key, await idOf(key, "cut"), { as: "booking" });
  const [chairAfter, mainAfter] = await sortedBy();
  expect([chairAfter, mainAfter?.["diary"]]).toEqual([chair, "main"]);
  expect(mainAfter).not.toEqual(main);
  const id = await idOf(key, "glow");
  await put(key, id, { as: "booking", client: { name: "Ann Brill" } });
  expect((await states(key))["bea"]).toBe("booking answered-alike Bea Holm");
  expect((await plansOf(key)).map(({ booking }) => booking.uid)).toContain("bea");
  await put(key, id, { as: "not-colour" });
  expect((await states(key))["bea"]).toBe("not-colour answered-alike");
  expect((await plansOf(key)).find(({ booking }) => booking.uid === "bea")?.standing).toBe("cancelled");
  await ask(key, "DELETE", `/api/salon/entries/${id}`);
  expect((await states(key))["bea"]).toBe("unsorted no-match");
});

test("an answer of not-colour gives way to a colour that is entered later", async () => {
  const { key } = await filled();
  expect((await put(key, await idOf(key, "glow"), { as: "not-colour", client: { name: "Ann Brill" } })).status).toBe(
    200,
  );
  expect((await states(key))["glow"]).toBe("not-colour answered");
  const later = [{ ...glow("glow", "11"), summary: "Tint - Ann Brill" }, ...DIARY.slice(1)];
  expect((await push(key, diaryText(later))).status).toBe(200);
  expect((await states(key))["glow"]).toBe("booking Ann Brill");
  expect((await plansOf(key)).map(({ booking }) => booking.uid)).toContain("glow");
});

test("a nameless series is the client's whom a person names, and a skin test too", async () => {
  const series = { uid: "weekly", start: on("08"), summary: "Tint", more: ["RRULE:FREQ=WEEKLY;COUNT=4"] };
  const dab = { uid: "dab", start: on("09"), summary: "Skin test" };
  const { key } = await filled({}, [series, dab]);
  const [first] = (await list(key)).entries;
  expect([first?.uid, first?.recurrenceId, first?.why?.code]).toEqual(["weekly", "2026-12-08T10:30:00Z", "no-name"]);
  expect((await put(key, first?.id ?? "", { as: "booking", client: { name: "Ann Brill" } })).status).toBe(200);
  expect((await put(key, await idOf(key, "dab"), { as: "test", client: { name: "Ann Brill" } })).status).toBe(200);
  expect((await list(key)).entries.map(({ state, client }) => `${state} ${client?.name}`)).toEqual([
    "booking Ann Brill",
    "test Ann Brill",
    "booking Ann Brill",
    "booking Ann Brill",
    "booking Ann Brill",
  ]);
  expect((await plansOf(key)).map(({ booking }) => booking.client.name)).toEqual(Array(4).fill("Ann Brill"));
});

test("an answer is taken back by DELETE, and the words decide again; the plan waits for another answer", async () => {
  const { key } = await filled();
  const id = await idOf(key, "glow");
  await put(key, id, { as: "booking", client: { name: "Ann Brill" } });
  const remove = () => ask(key, "DELETE", `/api/salon/entries/${id}`);
  expect((await remove()).status).toBe(204);
  expect((await states(key))["glow"]).toBe("unsorted no-match");
  expect((await plansOf(key)).find(({ booking }) => booking.uid === "glow")?.standing).not.toBe("cancelled");
  expect((await remove()).status).toBe(204);
  expect((await ask(key, "DELETE", "/api/salon/entries/unknown")).status).toBe(404);
});

test.each<[string, string, unknown, number, string, string[]]>([
  ["an unknown id", "nobody", { as: "not-colour" }, 404, "no-such-entry", []],
  ["a time that is not certain", "lost", { as: "not-colour" }, 409, "entry-not-answerable", []],
  ["a date without a time", "day", { as: "booking", client: { name: "Ann Brill" } }, 409, "entry-not-answerable", []],
  ["a test without a time", "day", { as: "test", client: { name: "Ann Brill" } }, 409, "entry-not-answerable", []],
  ["a cancelled entry", "off", { as: "not-colour" }, 409, "entry-not-answerable", []],
  ["nobody's booking", "bare", { as: "booking", service: "Colour" }, 422, "entry-answer-refused", ["client"]],
  ["nobody's test", "glow", { as: "test" }, 422, "entry-answer-refused", ["client"]],
  ["a service that is none", "cut", { as: "booking", service: "Gloss" }, 422, "entry-answer-refused", ["service"]],
  ["staff", "bare", { as: "booking", client: { name: "NELL gray" } }, 422, "entry-answer-refused", ["client.name"]],
  ["no answer", "glow", {}, 422, "request-refused", ["as"]],
  ["a strange answer", "glow", { as: "colour" }, 422, "request-refused", ["as"]],
  [
    "unknown fields",
    "glow",
    { as: "test", who: "x", client: { name: "A", age: 3 } },
    422,
    "request-refused",
    ["client.age", "who"],
  ],
  ["a name without letters", "glow", { as: "test", client: { name: "12" } }, 422, "request-refused", ["client.name"]],
  [
    "no address and no number",
    "glow",
    { as: "test", client: { name: "Ann", email: "ann", phone: "none" } },
    422,
    "request-refused",
    ["client.email", "client.phone"],
  ],
  ["a list", "glow", [], 422, "request-refused", ["the body"]],
])("an answer with %s is refused, and nothing is kept", async (_, uid, body, status, code, fields) => {
  const { key } = await filled({ staff: ["Nell Gray"] });
  const before = await states(key);
  const [answered, is, problem] = await refused(await put(key, (await idOf(key, uid)) || "nobody", body));
  expect([answered, is]).toEqual([status, code]);
  expect((problem.errors ?? []).map(({ at }) => at).toSorted()).toEqual(fields);
  for (const { limit, remedy } of problem.errors ?? [])
    expect(Math.min(limit.length, remedy.length)).toBeGreaterThan(5);
  expect(JSON.stringify(problem)).not.toMatch(/Mystery|NELL|Gloss/);
  if (code === "entry-not-answerable") expect(problem.detail).toMatch(/diary/);
  expect(await states(key)).toEqual(before);
});

test("the services are named where one of several must be told, and words name it where they can", async () => {
  const services = [
    { name: "Tint", words: ["tint*"] },
    { name: "Balayage", words: ["balayage*"] },
  ];
  const entries = [glow("glow", "11"), { uid: "bare", start: on("12"), summary: "Tint" }];
  const { key } = await filled({ services }, entries);
  const client = { name: "Ann Brill" };
  const [status, , problem] = await refused(await put(key, await idOf(key, "glow"), { as: "booking", client }));
  expect([status, problem.errors?.[0]?.limit]).toEqual([422, "one of the services of the settings, Tint, Balayage"]);
  const named = await put(key, await idOf(key, "bare"), { as: "booking", client });
  expect(await named.json<Listed>()).toMatchObject({ state: "booking", service: "Tint" });
});

test("answers outlive the object, a change of the words, and a diary that was emptied and filled again", async () => {
  const salon = await filled();
  const { key } = salon;
  const id = await idOf(key, "glow");
  await put(key, id, { as: "booking", client: { name: "Ann Brill" } });
  const before = await states(key);
  await evictDurableObject(objectOf(salon));
  expect(await states(key)).toEqual(before);
  expect(await idOf(key, "glow")).toBe(id);
  expect((await ask(key, "PUT", "/api/salon", { ...MINIMAL, notColour: ["cut*", "yoga"] })).status).toBe(200);
  expect(await states(key)).toEqual(before);
  await push(key, diaryText([]));
  await ask(key, "POST", "/api/salon/diaries/main/confirm");
  await evictDurableObject(objectOf(salon));
  await push(key, diaryText(DIARY));
  expect((await states(key))["glow"]).toBe("booking answered Ann Brill");
});

/** Within the time that answers are kept. */
const LONG_AGO = Date.parse("2026-01-01T00:00:00Z") / 1000;
const SINCE_SCHEMA_6 = ["deeds", "answered", "erased", "links"];

test("a salon keeps so many answers: the oldest that nothing is sorted by makes room, and what is in use is never forgotten", async () => {
  const glows = Array.from({ length: ENTRY_ANSWERS_MAX + 1 }, (_, n) =>
    glow(`g${n}`, "11", { summary: `Mystery Glow ${n}`, client: `Client ${"abcdefghij".charAt(n % 10)}` }),
  );
  const salon = await filled({}, glows);
  const { key } = salon;
  const { entries } = await list(key, `?limit=2000`);
  const ids = new Map(entries.map(({ uid, id }) => [uid, id]));
  expect(ids.size).toBe(ENTRY_ANSWERS_MAX);
  const row = (id: string, uid: string, title: string, at: number) => ({
    id,
    diary: "main",
    uid,
    key: uid,
    recurrenceId: null,
    pinned: null,
    title,
    said: "nothing",
    carried: null,
    as: "not-colour",
    service: null,
    client: null,
    phrase: "",
    first: at,
    at,
  });
  const rows = [...ids].map(([uid, id], n) => row(id, uid, `mystery glow ${uid.slice(1)}`, LONG_AGO + n + 1));
  const oldest = row("0000", "gone", "gone", LONG_AGO);
  const store = async (all: readonly { readonly id: string }[]) => {
    await runInDurableObject(objectOf(salon), (_instance, state) => {
      state.storage.sql.exec("DELETE FROM answers");
      state.storage.sql.exec(
        "INSERT INTO answers SELECT value ->> 0, value ->> 1 FROM json_each(?)",
        JSON.stringify(all.map((each) => [each.id, JSON.stringify(each)])),
      );
    });
    await evictDurableObject(objectOf(salon));
    expect((await push(key, diaryText(glows))).status).toBe(200);
  };
  const kept = () =>
    runInDurableObject(objectOf(salon), (_instance, state) =>
      state.storage.sql
        .exec("SELECT id FROM answers")
        .toArray()
        .map(({ id }) => id),
    );
  await store([oldest, ...rows.slice(1)]);
  const [first, second] = [rows[0]?.id ?? "", rows[1]?.id ?? ""];
  expect((await put(key, first, { as: "not-colour" })).status).toBe(200);
  const now = await kept();
  expect([now.length, now.includes("0000"), now.includes(first), now.includes(second)]).toEqual([
    ENTRY_ANSWERS_MAX,
    false,
    true,
    true,
  ]);
  const last = (await list(key, "?state=unsorted")).entries.map(({ id }) => id);
  expect(last).toHaveLength(1);
  expect((await refused(await put(key, last[0] ?? "", { as: "not-colour" }))).slice(0, 2)).toEqual([
    409,
    "answers-full",
  ]);
  expect((await put(key, first, { as: "booking" })).status).toBe(200);
  expect(await kept()).toHaveLength(ENTRY_ANSWERS_MAX);
});

test.each([
  ["5", []],
  ["3", ["answers"]],
  ["2", ["answers", "reads"]],
])("a store of schema %s wakes, gains its new tables, and takes answers", async (schema, tables) => {
  const salon = await filled();
  const { key } = salon;
  const before = await states(key);
  await runInDurableObject(objectOf(salon), (_instance, state) => {
    for (const table of [...tables, ...SINCE_SCHEMA_6]) state.storage.sql.exec(`DROP TABLE ${table}`);
    state.storage.sql.exec("UPDATE meta SET value = ? WHERE name = 'schema'", schema);
    state.storage.sql.exec("UPDATE meta SET value = 'older code' WHERE name = 'made-by'");
  });
  await evictDurableObject(objectOf(salon));
  expect(await states(key)).toEqual(before);
  expect((await put(key, await idOf(key, "glow"), { as: "booking", client: { name: "Ann Brill" } })).status).toBe(200);
  await evictDurableObject(objectOf(salon));
  expect((await states(key))["glow"]).toBe("booking answered Ann Brill");
});

test("entries need the salon's key, and each salon sees its own", async () => {
  const [mine, theirs] = [await filled(), await createSalon()];
  expect((await send("/api/salon/entries")).status).toBe(401);
  const id = await idOf(mine.key, "glow");
  expect((await list(theirs.key)).entries).toEqual([]);
  expect((await put(theirs.key, id, { as: "not-colour" })).status).toBe(404);
  expect((await ask(mine.key, "POST", `/api/salon/entries/${id}`, {})).status).toBe(405);
});
