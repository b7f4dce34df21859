/** The health questions through HTTP: asked, answered, refused, decided on, and what plans and feeds make of them. */
import { evictDurableObject, reset, runInDurableObject } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import {
  ask,
  diaryText,
  linkOf,
  MARA,
  MINIMAL,
  objectOf,
  plansOf,
  push,
  record,
  send,
  setClock,
  WREN,
} from "./client.ts";
import { answer, answersTo, askClient, entryOf, getQuestions, post, recordsOf, screeningsOf } from "./questionnaire.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Problem {
  readonly title: string;
  readonly detail: string;
  readonly errors?: readonly { readonly at: string; readonly value: string | null; readonly text: string }[];
}

const problemOf = async (given: Response, status: number): Promise<Problem> => {
  expect(given.status).toBe(status);
  expect(given.headers.get("content-type")).toBe("application/problem+json");
  return given.json<Problem>();
};
const standings = async (key: string): Promise<readonly string[]> =>
  (await plansOf(key)).map(({ standing }) => standing);
const screeningState = async (key: string): Promise<string | undefined> =>
  (await plansOf(key))[0]?.steps.find(({ kind }) => kind === "screening")?.state;
const liveIn = (text: string): readonly string[] =>
  text
    .replaceAll("\r\n ", "")
    .split("BEGIN:VEVENT")
    .slice(1)
    .filter((event) => event.includes("STATUS:CONFIRMED"))
    .map((event) => /SUMMARY:(.*)/.exec(event)?.[1]?.trim() ?? "");

describe("asking", () => {
  test("gives the questions with what a yes means and where each comes from, and the consent as a statement", async () => {
    const { page } = await askClient();
    const answered = await send(`${page}/screening`);
    expect(answered.headers.get("cache-control")).toBe("private, no-store");
    const asked = await answered.json<Record<string, unknown>>();
    expect(Object.keys(asked)).toEqual(["version", "consent", "questions"]);
    expect(asked["version"]).toBe(1);
    expect(asked["consent"]).toContain("Quillfen Colour Room keeps these answers about my health");
    const { questions } = await getQuestions(page);
    expect(questions.map(({ id, yes }) => [id, yes])).toEqual([
      ["under-16", "do-not-colour"],
      ["scalp", "do-not-colour"],
      ["past-reaction", "do-not-colour"],
      ["tattoo-reaction", "do-not-colour"],
      ["tattoo", "test-needed"],
      ["elsewhere", "test-needed"],
      ["product", "test-needed"],
      ["health", "test-needed"],
    ]);
    for (const question of questions) expect(Object.keys(question)).toEqual(["id", "text", "yes", "source"]);
  });

  test("a program that names no type, or wants JSON rather than a page, gets JSON; a browser gets the page", async () => {
    const { page } = await askClient();
    const typeFor = async (accept?: string) =>
      (await send(`${page}/screening`, accept === undefined ? {} : { headers: { accept } })).headers
        .get("content-type")
        ?.split(";")[0];
    expect(await typeFor()).toBe("application/json");
    expect(await typeFor("*/*")).toBe("application/json");
    expect(await typeFor("application/json, text/html;q=0.5")).toBe("application/json");
    expect(await typeFor("text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8")).toBe("text/html");
  });

  test("an unknown link is 404 and a revoked one 410, to ask, to answer and to withdraw", async () => {
    const { key, client, page } = await askClient();
    await linkOf(key, client, true);
    const unknown = `/c/${"A".repeat(54)}`;
    const whole = { version: 1, consent: true, answers: {} };
    for (const [link, status] of [
      [unknown, 404],
      [page, 410],
    ] as const) {
      await problemOf(await send(`${link}/screening`), status);
      await problemOf(await post(`${link}/screening`, whole), status);
      await problemOf(await post(`${link}/screening`, { nothing: "known" }), status);
      await problemOf(await post(`${link}/consent`, { consent: false }), status);
      await problemOf(await post(`${link}/consent`, {}), status);
      const shown = await send(`${link}/screening`, { headers: { accept: "text/html" } });
      expect([shown.status, (await shown.text()).includes("your local emergency number")]).toEqual([status, true]);
    }
    expect(await screeningsOf(key)).toEqual([]);
  });

  test("asking twice writes once, and asking writes nothing where nothing has changed", async () => {
    const salon = await askClient();
    const rows = () =>
      runInDurableObject(objectOf(salon), (_instance, state) => {
        const [meta, questions] = ["SELECT * FROM meta ORDER BY name", "SELECT * FROM questions"].map((query) =>
          JSON.stringify(state.storage.sql.exec(query).toArray()),
        );
        return { meta, questions };
      });
    await getQuestions(salon.page);
    const before = await rows();
    setClock("2026-12-01T09:20:00Z");
    await getQuestions(salon.page);
    await send(`${salon.page}/screening`, { headers: { accept: "text/html" } });
    expect(await rows()).toEqual(before);
  });
});

describe("answering", () => {
  test("no to everything is a pass, recorded once through her link, and the step is done", async () => {
    const { key, page, client } = await askClient();
    const answered = await answer(page);
    expect([answered.status, answered.headers.get("location")]).toEqual([201, `${new URL(page).pathname}/screening`]);
    const said = await answered.json<{ outcome: string; why: { code: string; text: string } }>();
    expect([Object.keys(said), said.outcome, said.why.code]).toEqual([["outcome", "why"], "pass", "pass"]);
    expect(await screeningState(key)).toBe("done");
    const [told, ...others] = await recordsOf(key);
    expect(others).toEqual([]);
    expect(told).toMatchObject({
      client,
      booking: "b1",
      kind: "screened",
      outcome: "pass",
      via: "client-link",
      at: "2026-12-01T09:00:00Z",
      recorded: "2026-12-01T09:00:00Z",
    });
    const [kept] = await screeningsOf(key);
    expect(kept).toMatchObject({ client, booking: "b1", version: 1, outcome: "pass", withdrawn: null });
    expect([kept?.records, kept?.via, kept?.at]).toEqual([[told?.id], "client-link", "2026-12-01T09:00:00Z"]);
    expect(kept?.answers).toEqual(answersTo(await getQuestions(page)));
    expect(kept?.questions.map(({ text }) => text)).toEqual(
      (await getQuestions(page)).questions.map(({ text }) => text),
    );
  });

  test("a pass is no confirmation: the booking is not ready by it", async () => {
    const { key, page } = await askClient();
    await record(key, { booking: "b1", kind: "applied", at: "2026-11-28T10:00:00Z" });
    await record(key, { booking: "b1", kind: "read", outcome: "clear", at: "2026-11-30T10:00:00Z", via: "desk" });
    await answer(page);
    expect(await standings(key)).not.toContain("ready");
  });

  test("booking absent is the next one ahead; named, it is that one", async () => {
    const { key, page } = await askClient([11, 18]);
    expect((await answer(page)).status).toBe(201);
    const later = await answer(page, {}, { booking: "b2" });
    expect(later.headers.get("location")).toMatch(/\/screening\?appointment=[0-9a-f-]{36}/);
    expect((await screeningsOf(key)).map(({ booking }) => booking)).toEqual(["b1", "b2"]);
    setClock("2026-12-12T09:00:00Z");
    await answer(page);
    expect((await screeningsOf(key)).map(({ booking }) => booking)).toEqual(["b1", "b2", "b2"]);
    expect(await screeningsOf(key, "?booking=b1")).toHaveLength(1);
    expect(await screeningsOf(key, "?client=c99")).toEqual([]);
  });

  test("a list of answers comes in pages", async () => {
    const { key, page } = await askClient();
    for (let n = 0; n < 12; n++) await answer(page);
    const first = await (await ask(key, "GET", "/api/salon/screenings?limit=11")).json<{ next: string }>();
    const rest = await (await ask(key, "GET", `/api/salon/screenings?limit=11&after=${first.next}`)).json<{
      screenings: unknown[];
      next: string | null;
    }>();
    expect([rest.screenings.length, rest.next]).toEqual([1, null]);
    await problemOf(await ask(key, "GET", "/api/salon/screenings?clients=c1"), 422);
    expect((await send("/api/salon/screenings")).status).toBe(401);
  });
});

describe("refused, and nothing kept", () => {
  const nothingKept = async (key: string): Promise<void> => {
    expect([await screeningsOf(key), await recordsOf(key)]).toEqual([[], []]);
    expect(await screeningState(key)).toBe("planned");
  };

  test("every question left out, unknown or answered otherwise is named, and no answer is said back", async () => {
    const { key, page } = await askClient();
    const asked = await getQuestions(page);
    const { scalp: _scalp, ...answers } = answersTo(asked, { health: "a secret illness", tattoo: "NO" });
    const refused = await post(`${page}/screening`, {
      version: 1,
      consent: true,
      answers: { ...answers, "shoe-size": "yes", constructor: "no" },
    });
    const { errors, detail } = await problemOf(refused, 422);
    expect(errors?.map(({ at }) => at)).toEqual([
      "answers.scalp",
      "answers.tattoo",
      "answers.health",
      "answers.shoe-size",
      "answers.constructor",
    ]);
    expect(errors?.every(({ value }) => value === null)).toBe(true);
    expect(JSON.stringify([errors, detail])).not.toMatch(/secret|illness|\bNO\b/);
    for (const shape of [undefined, null, "yes", ["yes"], 7]) {
      const whole = await problemOf(
        await post(`${page}/screening`, { version: 1, consent: true, answers: shape }),
        422,
      );
      const named = whole.errors?.map(({ at }) => at) ?? [];
      expect(named).toEqual(expect.arrayContaining(asked.questions.map(({ id }) => `answers.${id}`)));
    }
    await nothingKept(key);
  });

  test("without consent it says what else can be done, and keeps no answer", async () => {
    const { key, page } = await askClient();
    for (const consent of [false, undefined]) {
      const { errors } = await problemOf(await answer(page, {}, { consent }), 422);
      expect(errors?.map(({ at }) => at)).toEqual(["consent"]);
      expect(errors?.[0]?.text).toContain("telephone the salon");
      expect(errors?.[0]?.text).toContain("nothing of them was");
    }
    await problemOf(await answer(page, {}, { consent: "true" }), 422);
    await nothingKept(key);
    const held = await post(`${page}/consent`, { consent: false });
    expect((await held.json<{ at: unknown }>()).at).toBeNull();
  });

  test("an unknown field is named, and a body of another type or none is told apart", async () => {
    const { key, page } = await askClient();
    const { errors } = await problemOf(await answer(page, {}, { bookings: "b1" }), 422);
    expect(errors?.map(({ at }) => at)).toEqual(["bookings"]);
    await problemOf(await post(`${page}/screening`, {}), 422);
    const xml = { method: "POST", headers: { "content-type": "text/xml" }, body: "<a/>" };
    await problemOf(await send(`${page}/screening`, xml), 415);
    const put = await send(`${page}/screening`, { method: "PUT" });
    expect([put.status, put.headers.get("allow")]).toEqual([405, "GET, HEAD, POST"]);
    await nothingKept(key);
  });

  test("answers to another version are 409 and name both versions", async () => {
    const { key, page } = await askClient();
    await getQuestions(page);
    const own = { ...MINIMAL, questions: [{ id: "scarf", text: "Do you wear a scarf?", yes: "test-needed" }] };
    expect((await ask(key, "PUT", "/api/salon", own)).status).toBe(200);
    const refused = await problemOf(await answer(page, {}, { version: 1 }), 409);
    expect(refused.detail).toMatch(/version 1\b.*version 2\b.*GET the questions again/);
    await problemOf(await answer(page, {}, { version: 3 }), 409);
    expect((await recordsOf(key)).length).toBe(0);
    expect((await answer(page)).status).toBe(201);
  });

  test("another client's, a past, a cancelled and an unknown booking are 422; no appointment ahead is 409", async () => {
    const { key, page } = await askClient();
    const two = (start: string) =>
      diaryText([entryOf("b1", start), entryOf("b9", "20261212T103000", WREN), entryOf("b3", "20261213T103000")]);
    await push(key, two("20261211T103000"));
    const texts = new Set<string>();
    const refuse = async (booking: string) =>
      texts.add((await problemOf(await answer(page, {}, { booking }), 422)).detail);
    await refuse("b9");
    await refuse("b77");
    await push(key, diaryText([entryOf("b1", "20261211T103000"), entryOf("b9", "20261212T103000", WREN)]));
    await refuse("b3");
    setClock("2026-12-11T10:30:01Z");
    await refuse("b1");
    // Whether another client has such a booking is nobody's business: all four read alike.
    expect(texts.size).toBe(1);
    expect((await problemOf(await answer(page), 409)).title).toBe("No appointment ahead");
    expect(await screeningsOf(key)).toEqual([]);
    expect((await getQuestions(page)).questions).toHaveLength(8);
  });

  test("the second of the start is still ahead", async () => {
    const { page } = await askClient();
    setClock("2026-12-11T10:30:00Z");
    expect((await answer(page)).status).toBe(201);
  });
});

describe("versions", () => {
  test("a change of the questions, the language or the salon's name is a new version; other settings are not", async () => {
    const { key, page } = await askClient();
    const put = async (more: Readonly<Record<string, unknown>>) => {
      expect((await ask(key, "PUT", "/api/salon", { ...MINIMAL, ...more })).status).toBe(200);
      return getQuestions(page);
    };
    expect((await getQuestions(page)).version).toBe(1);
    expect((await put({ lastWalkIn: "PT45M" })).version).toBe(1);
    const american = await put({ language: "en-US" });
    expect([american.version, JSON.stringify(american.questions).includes("after coloring your hair")]).toEqual([
      2,
      true,
    ]);
    expect((await put({ name: "Quillfen Two" })).consent).toContain("Quillfen Two");
    expect((await put({ name: "Quillfen Two" })).version).toBe(3);
    expect((await put({})).version).toBe(4);
  });

  test("old answers keep the words that were answered, and a salon's own list keeps the label's four", async () => {
    const { key, page } = await askClient();
    await answer(page, { tattoo: "yes" });
    const own = [{ id: "scarf", text: "Do you wear a scarf?", yes: "do-not-colour", ground: "other" }];
    await ask(key, "PUT", "/api/salon", { ...MINIMAL, questions: own });
    expect((await getQuestions(page)).questions.map(({ id }) => id)).toEqual([
      "under-16",
      "scalp",
      "past-reaction",
      "tattoo-reaction",
      "scarf",
    ]);
    await answer(page, { scarf: "yes" });
    const [old, fresh] = await screeningsOf(key);
    expect([old?.version, fresh?.version]).toEqual([1, 2]);
    expect(old?.questions.find(({ id }) => id === "tattoo")?.text).toContain("temporary black tattoo");
    expect([old?.answers?.["tattoo"], fresh?.answers?.["scarf"], fresh?.outcome]).toEqual([
      "yes",
      "yes",
      "do-not-colour",
    ]);
  });

  test("settings that put other words to a question of the label are refused", async () => {
    const { key } = await askClient();
    const questions = [{ id: "under-16", text: "Are you 16 or older today?", yes: "do-not-colour" }];
    const { errors } = await problemOf(await ask(key, "PUT", "/api/salon", { ...MINIMAL, questions }), 422);
    expect(errors?.map(({ at }) => at)).toEqual(["questions[0].id"]);
  });
});

describe("do not colour", () => {
  // Ground and reach: the published label (Annex III of Regulation (EC) No 1223/2009); NHBF for under 16.
  test.each([
    ["under-16", "under-16", ["stop", "due"]],
    ["scalp", "other", ["stop", "due"]],
    ["past-reaction", "past-reaction", ["stop", "stop"]],
    ["tattoo-reaction", "past-reaction", ["stop", "stop"]],
  ])(
    "yes to %s stops by %s as far as that reaches, and the feeds ask for nothing but the telephone",
    async (id, ground, reach) => {
      const salon = await askClient([11, 14]);
      const { key, page } = salon;
      const feed = `${page}/skin-test.ics`;
      expect(liveIn(await (await send(feed)).text()).length).toBeGreaterThan(6);
      const said = await (await answer(page, { [id]: "yes" })).json<{ outcome: string; why: { text: string } }>();
      expect(said.outcome).toBe("do-not-colour");
      expect(said.why.text).toContain("A person at the salon will look at it");
      expect((await recordsOf(key)).map(({ outcome, reason }) => [outcome, reason])).toEqual([
        ["do-not-colour", ground],
      ]);
      expect(await standings(key)).toEqual(reach);
      const texts = [await (await send(feed)).text(), await (await send(salon.feed)).text()];
      const [hers, ofSalon] = texts.map((text) => liveIn(text));
      const stopped = reach.filter((standing) => standing === "stop").length;
      const telephone = "Please telephone Quillfen Colour Room about this appointment";
      expect(hers?.filter((summary) => summary === telephone)).toHaveLength(stopped);
      if (stopped === 2) {
        expect(hers).toHaveLength(2);
        expect(ofSalon?.filter((summary) => !summary.startsWith("Done: ")).toSorted()).toEqual([
          "Telephone M.Q. before anything is done for the colour on Fri 11 Dec 2026\\, 10:30",
          "Telephone M.Q. before anything is done for the colour on Mon 14 Dec 2026\\, 10:30",
        ]);
      }
      for (const text of texts) expect(text).not.toMatch(/under.?16|scalp|tattoo|past.?reaction|do-not-colour/i);
    },
  );

  test("two grounds at once are two records, the farther last; the one corrected leaves the other's stop", async () => {
    const { key, page } = await askClient([11, 14]);
    await answer(page, { "under-16": "yes", "past-reaction": "yes", scalp: "yes" });
    const records = await recordsOf(key);
    expect(records.map(({ reason }) => reason)).toEqual(["other", "under-16", "past-reaction"]);
    expect((await screeningsOf(key))[0]?.records).toEqual(records.map(({ id }) => id));
    expect(await standings(key)).toEqual(["stop", "stop"]);
    const correct = (corrects: string | undefined, reason: string | null) =>
      record(key, { booking: "b1", kind: "correction", corrects, reason, at: "2026-12-01T09:00:00Z", via: "desk" });
    const past = records.find(({ reason }) => reason === "past-reaction")?.id;
    const young = records.find(({ reason }) => reason === "under-16")?.id;
    await problemOf(await correct(past, null), 422);
    expect(await standings(key)).toEqual(["stop", "stop"]);
    expect((await correct(past, "spoke to her: it was a nickel earring")).status).toBe(201);
    expect(await standings(key)).toEqual(["stop", "due"]);
    expect((await correct(young, "she is 61, a slip")).status).toBe(201);
    expect(await standings(key)).toEqual(["stop", "due"]);
    // Asking again lifts ground `other` (counting.md 24), and nothing else is left.
    setClock("2026-12-01T09:05:00Z");
    await answer(page);
    expect(await standings(key)).not.toContain("stop");
  });

  test("asking again lifts no past reaction and no under-16, and a client's link corrects nothing", async () => {
    const { key, page } = await askClient();
    await answer(page, { "past-reaction": "yes" });
    setClock("2026-12-01T09:10:00Z");
    expect((await (await answer(page)).json<{ outcome: string }>()).outcome).toBe("pass");
    expect(await standings(key)).toEqual(["stop"]);
    const asked = await post(`${page}/records`, { kind: "correction", reason: "I was wrong" });
    expect(asked.status).toBe(422);
    expect(await standings(key)).toEqual(["stop"]);
  });

  test("a yes to a ground beside a not-sure stops: nobody has to be asked for that", async () => {
    const { key, page } = await askClient();
    const said = await (await answer(page, { scalp: "yes", health: "not-sure" })).json<{ outcome: string }>();
    expect(said.outcome).toBe("do-not-colour");
    expect(await standings(key)).toEqual(["stop"]);
  });
});

describe("not sure", () => {
  test("a person decides: no record, the step stays open, and the plan says why until a screening is recorded", async () => {
    const { key, page } = await askClient();
    const said = await (await answer(page, { health: "not-sure", tattoo: "yes" })).json<{
      outcome: null;
      why: { code: string };
    }>();
    expect([said.outcome, said.why.code]).toEqual([null, "person-decides"]);
    expect(await recordsOf(key)).toEqual([]);
    expect(await screeningState(key)).toBe("planned");
    const codes = async () => (await plansOf(key))[0]?.why.map(({ code }) => code);
    expect(await codes()).toContain("person-decides");
    const [kept] = await screeningsOf(key);
    expect([kept?.outcome, kept?.records, kept?.answers?.["health"]]).toEqual([null, [], "not-sure"]);
    setClock("2026-12-01T10:00:00Z");
    const decided = await record(key, {
      booking: "b1",
      kind: "screened",
      outcome: "pass",
      at: "2026-12-01T10:00:00Z",
      via: "desk",
    });
    expect(decided.status).toBe(201);
    expect(await codes()).not.toContain("person-decides");
    expect(await screeningState(key)).toBe("done");
  });

  test("the newest of ten and more answers decides, also after the salon has slept", async () => {
    const salon = await askClient();
    for (let minute = 1; minute <= 11; minute++) {
      setClock(`2026-12-01T09:${String(minute).padStart(2, "0")}:00Z`);
      await answer(salon.page, minute === 11 ? { health: "not-sure" } : {});
    }
    const codes = async () => (await plansOf(salon.key))[0]?.why.map(({ code }) => code);
    expect(await codes()).toContain("person-decides");
    await evictDurableObject(objectOf(salon));
    expect((await screeningsOf(salon.key)).map(({ at }) => at)).toEqual(
      (await screeningsOf(salon.key)).map(({ at }) => at).toSorted(),
    );
    await record(salon.key, { booking: "b1", kind: "note", note: "telephoned", at: "2026-12-01T09:11:00Z" });
    expect(await codes()).toContain("person-decides");
  });
});

describe("a new test is needed", () => {
  /** A kit test of an earlier booking, looked at twice and clear: by the default terms it may serve again. */
  const withResult = async () => {
    setClock("2026-09-20T09:00:00Z");
    const asked = await askClient([], {
      tests: [
        { route: "home-kit", protocol: "home-kit-120h" },
        { route: "in-salon", protocol: "salon-48h" },
      ],
    });
    await push(asked.key, diaryText([entryOf("b0", "20261008T103000"), entryOf("b1", "20261218T103000")]));
    const told = [
      { kind: "applied", route: "home-kit", at: "2026-10-01T10:00:00Z" },
      { kind: "removed", at: "2026-10-03T10:00:00Z" },
      { kind: "read", outcome: "clear", at: "2026-10-03T11:00:00Z" },
      { kind: "read", outcome: "clear", at: "2026-10-05T11:00:00Z" },
    ];
    setClock("2026-10-06T09:00:00Z");
    for (const each of told) expect((await record(asked.key, { booking: "b0", ...each })).status).toBe(201);
    setClock("2026-12-01T09:00:00Z");
    const client = (await plansOf(asked.key))[0]?.booking.client.id ?? "";
    return { ...asked, client, page: (await linkOf(asked.key, client)).page };
  };
  const planned = async (key: string) => {
    const plan = (await plansOf(key, "?from=2026-12-01"))[0];
    return [plan?.route, plan?.steps.map(({ kind }) => kind)];
  };

  test("a pass leaves the earlier result standing; test-needed withdraws it, and the plan turns to a fresh test", async () => {
    const { key, page, feed } = await withResult();
    expect(await planned(key)).toEqual(["on-file", ["rescreening"]]);
    await answer(page);
    expect(await planned(key)).toEqual(["on-file", ["rescreening"]]);
    setClock("2026-12-01T09:30:00Z");
    const said = await (await answer(page, { tattoo: "yes" })).json<{ outcome: string; why: { text: string } }>();
    expect([said.outcome, said.why.text.includes("a new skin test is needed")]).toEqual(["test-needed", true]);
    const [route, kinds] = await planned(key);
    expect([route, kinds?.includes("application")]).toEqual(["home-kit", true]);
    const hers = liveIn(await (await send(`${page}/skin-test.ics`)).text());
    expect(hers.some((summary) => summary.startsWith("Put your skin test on by"))).toBe(true);
    expect(liveIn(await (await send(feed)).text()).some((summary) => summary.startsWith("Post M.Q.'s kit"))).toBe(true);
  });

  test("a result put on after the answers counts again", async () => {
    const { key, page } = await withResult();
    await answer(page, { product: "yes" });
    setClock("2026-12-13T11:00:00Z");
    await record(key, { booking: "b1", kind: "applied", route: "home-kit", at: "2026-12-02T10:00:00Z", via: "desk" });
    const plan = (await plansOf(key, "?from=2026-12-01"))[0];
    expect([plan?.route, plan?.steps.find(({ kind }) => kind === "application")?.state]).toEqual(["home-kit", "done"]);
  });
});

describe("consent", () => {
  interface Said {
    readonly consent: boolean;
    readonly at: string | null;
    readonly why: { readonly code: string; readonly text: string };
  }

  test("taken back empties every answer of hers and leaves what came of it; twice changes nothing more", async () => {
    const salon = await askClient([11, 14]);
    const { key, page } = salon;
    await push(
      key,
      diaryText([
        entryOf("b1", "20261211T103000"),
        entryOf("b2", "20261214T103000"),
        entryOf("b9", "20261212T103000", WREN),
      ]),
    );
    const wren = (await plansOf(key)).find(({ booking }) => booking.uid === "b9")?.booking.client.id ?? "";
    await answer((await linkOf(key, wren)).page);
    await answer(page, { "past-reaction": "yes" });
    await answer(page, { health: "not-sure" }, { booking: "b2" });
    setClock("2026-12-02T09:00:00Z");
    const withdrawn = await post(`${page}/consent`, { consent: false });
    const said = await withdrawn.json<Said>();
    expect([withdrawn.status, said.consent, said.at, said.why.code]).toEqual([
      201,
      false,
      "2026-12-02T09:00:00Z",
      "consent-withdrawn",
    ]);
    expect(said.why.text).toContain("deleted");
    const rows = await screeningsOf(key);
    expect(
      rows.map(({ booking, answers, outcome, withdrawn: at }) => [booking, answers === null, outcome, at]),
    ).toEqual([
      ["b9", false, "pass", null],
      ["b1", true, "do-not-colour", "2026-12-02T09:00:00Z"],
      ["b2", true, null, "2026-12-02T09:00:00Z"],
    ]);
    expect((await recordsOf(key)).map(({ outcome }) => outcome)).toEqual(["pass", "do-not-colour"]);
    expect((await plansOf(key)).filter(({ standing }) => standing === "stop")).toHaveLength(2);
    setClock("2026-12-03T09:00:00Z");
    const again = await post(`${page}/consent`, { consent: false });
    expect([again.status, (await again.json<Said>()).at]).toEqual([200, "2026-12-02T09:00:00Z"]);
    expect(await screeningsOf(key)).toEqual(rows);
    const stored = await runInDurableObject(objectOf(salon), (_instance, state) =>
      JSON.stringify(state.storage.sql.exec("SELECT json FROM screenings WHERE json LIKE '%\"c1\"%'").toArray()),
    );
    expect(stored).toContain("do-not-colour");
    expect(stored).not.toMatch(/not-sure|\\"scalp/);
  });

  test("is kept with the words that she read where she pressed it, and with none where a program asked", async () => {
    const { key, page, client } = await askClient();
    const consentsOf = async () => {
      const exported = await ask(key, "GET", `/api/salon/clients/${client}/export`);
      const { consents } = await exported.json<{ consents: { given: boolean; words: string | null }[] }>();
      return consents.map(({ given, words }) => [given, words]);
    };
    await answer(page);
    await post(`${page}/consent`, { consent: false });
    expect(await consentsOf()).toEqual([
      [true, expect.stringContaining("I agree")],
      [false, null],
    ]);
    await answer(page);
    const shown = await (await send(page)).text();
    const pressed = await send(`${page}/consent`, {
      method: "POST",
      headers: { "content-type": "application/x-www-form-urlencoded" },
      body: "consent=false",
    });
    expect(pressed.status).toBe(303);
    const words = (await consentsOf()).at(-1)?.[1] as string;
    expect(words).toMatch(/^If you take your agreement back, your answers are deleted\..* Take my agreement back$/);
    const plain = shown.replaceAll(/<[^>]*>/g, "").replaceAll(/\s+/g, " ");
    for (const part of words.split(/(?= Take my)/)) expect(plain).toContain(part.trim());
  });

  test("given anew with the next answers, these are kept and the old stay empty", async () => {
    const { key, page } = await askClient();
    await answer(page);
    await post(`${page}/consent`, { consent: false });
    setClock("2026-12-02T09:00:00Z");
    // Its words stand beside the questions alone: there it is given, and nowhere else.
    expect((await problemOf(await post(`${page}/consent`, { consent: true }), 422)).detail).toMatch(
      /answer the questions/,
    );
    await answer(page);
    expect((await screeningsOf(key)).map(({ answers }) => answers === null)).toEqual([true, false]);
  });

  test("what is no consent is named", async () => {
    const { page } = await askClient();
    expect((await problemOf(await post(`${page}/consent`, {}), 422)).errors?.map(({ at }) => at)).toEqual(["consent"]);
    const { errors } = await problemOf(await post(`${page}/consent`, { consent: false, why: "x" }), 422);
    expect(errors?.map(({ at }) => at)).toEqual(["why"]);
  });
});

describe("kept", () => {
  test("a salon that has slept knows answers, versions and consents as before", async () => {
    const salon = await askClient([11, 14]);
    const { key, page } = salon;
    await answer(page, { "tattoo-reaction": "yes" });
    await ask(key, "PUT", "/api/salon", { ...MINIMAL, language: "en-US" });
    await answer(page, { health: "not-sure" }, { booking: "b2" });
    const seen = async () =>
      JSON.stringify([
        await screeningsOf(key),
        await recordsOf(key),
        await getQuestions(page),
        await standings(key),
        (await (await send(page)).text()).includes("Your answers"),
      ]);
    const before = await seen();
    await evictDurableObject(objectOf(salon));
    expect(await seen()).toBe(before);
    expect(before).toContain('"version":2');
  });

  test("a store of schema 1 wakes, gains its new tables, and takes answers", async () => {
    const salon = await askClient();
    const before = JSON.stringify((await plansOf(salon.key)).map(({ steps }) => steps));
    await runInDurableObject(objectOf(salon), (_instance, state) => {
      for (const table of [
        "tests",
        "questions",
        "screenings",
        "consents",
        "reads",
        "answers",
        "deeds",
        "answered",
        "erased",
        "links",
      ]) {
        state.storage.sql.exec(`DROP TABLE ${table}`);
      }
      // What a block read as stood beside its text then, and neither its days nor its count.
      state.storage.sql.exec(
        `UPDATE blocks SET text = json_object('block', json_remove(text, '$.span', '$.count'), 'day', 1, 'readBy', 'x', 'reading', json('{"entries":[],"skipped":[]}'))`,
      );
      state.storage.sql.exec("UPDATE meta SET value = 'of code before' WHERE name = 'made-by'");
      state.storage.sql.exec("UPDATE meta SET value = '1' WHERE name = 'schema'");
    });
    await evictDurableObject(objectOf(salon));
    expect(JSON.stringify((await plansOf(salon.key)).map(({ steps }) => steps))).toBe(before);
    expect((await answer(salon.page)).status).toBe(201);
    expect(await screeningsOf(salon.key)).toHaveLength(1);
    const schema = await runInDurableObject(objectOf(salon), (_instance, state) =>
      state.storage.sql.exec("SELECT value FROM meta WHERE name = 'schema'").one(),
    );
    expect(Number(schema["value"])).toBeGreaterThanOrEqual(2);
  });

  test("a diary that gives the booking to another name takes no stop away, and shows her nothing of the answers", async () => {
    const { key, page } = await askClient();
    await answer(page, { "under-16": "yes" });
    await push(key, diaryText([entryOf("b1", "20261211T103000", { ...MARA, client: "Wilma Otherwise" })]));
    expect(await standings(key)).toEqual(["stop"]);
    const other = (await plansOf(key))[0]?.booking.client.id ?? "";
    const shown = await (await send((await linkOf(key, other)).page)).text();
    expect(shown).not.toContain("Your answers");
    const questions = await send(`${(await linkOf(key, other)).page}/screening`, { headers: { accept: "text/html" } });
    expect(await questions.text()).not.toContain("You answered on");
  });
});
