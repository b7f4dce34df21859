/**
 * What the evidence of an appointment says, and to whom it may be shown: each look beside its own test, nothing that speaks of
 * somebody else, nothing "not recorded" that was told. Everyone named is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { ask, createSalon, diaryText, linkOf, MARA, MINIMAL, push, record, send, setClock } from "./client.ts";
import { B1, evidenceOf, factsOf, pageOf, tell } from "./evidenceSeen.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

const HOME = { ...MINIMAL, tests: [{ route: "home-kit", protocol: "home-kit-120h" }] };
const SET_ASIDE = "told, set aside by a correction (see below)";

describe("tests", () => {
  test("two under one booking stand apart, and a clear look is credited to its own product alone", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    setClock("2026-12-09T09:30:00Z");
    const first = { product: "line A", batch: "LOT-1", site: "left ear", route: "in-salon" };
    await tell(key, { kind: "applied", at: "2026-12-05T10:00:00Z", ...first });
    await tell(key, { kind: "removed", at: "2026-12-05T10:45:00Z" });
    await tell(key, { kind: "read", outcome: "clear", at: "2026-12-07T10:30:00Z" });
    const second = { product: "line B", batch: "LOT-2", site: "right ear", route: "in-salon" };
    await tell(key, { kind: "applied", at: "2026-12-08T09:30:00Z", ...second });
    const page = await pageOf(key);
    expect(page).toContain("<h3>Test 1 of 2</h3>");
    expect(factsOf(page).filter((block) => "Put on" in block)).toEqual([
      expect.objectContaining({
        Product: "line A",
        Batch: "LOT-1",
        Site: "left ear",
        "Taken off": "Sat 5 Dec 2026, 10:45 +00:00, Ines at the desk",
        "Looked at": "Mon 7 Dec 2026, 10:30 +00:00: clear, Ines at the desk",
      }),
      expect.objectContaining({
        Product: "line B",
        Batch: "LOT-2",
        Site: "right ear",
        "Put on": expect.stringContaining("Tue 8 Dec 2026, 09:30") as string,
        "Taken off": "not recorded",
        "Looked at": "not recorded",
      }),
    ]);
    // One that names a product goes to that product's test, whenever it was made.
    await tell(key, { kind: "read", outcome: "clear", product: "line A", at: "2026-12-09T09:00:00Z" });
    const [one, other] = factsOf(await pageOf(key)).filter((block) => "Put on" in block);
    expect(one?.["Looked at"]).toContain("Wed 9 Dec 2026, 09:00 +00:00: clear");
    expect(other?.["Looked at"]).toBe("not recorded");
  });

  test("a kit's product and batch come from its posting where the application names none", async () => {
    const { key } = await createSalon(HOME);
    await push(key, diaryText([B1]));
    setClock("2026-12-05T09:10:00Z");
    await tell(key, { kind: "posted", product: "kit K", batch: "HK-77", at: "2026-12-01T15:00:00Z" });
    expect(factsOf(await pageOf(key)).find((block) => "Put on" in block)).toMatchObject({
      "Kind of test": "home kit",
      Batch: "HK-77 (posted Tue 1 Dec 2026, 15:00 +00:00)",
      "Put on": "not recorded",
    });
    await tell(key, { kind: "applied", route: "home-kit", at: "2026-12-05T09:00:00Z" });
    expect(factsOf(await pageOf(key)).find((block) => "Put on" in block)).toMatchObject({
      Product: "kit K (posted Tue 1 Dec 2026, 15:00 +00:00)",
      Batch: "HK-77 (posted Tue 1 Dec 2026, 15:00 +00:00)",
    });
  });

  test("a kit that was posted and not used lends nothing to a test at the salon", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    setClock("2026-12-08T10:00:00Z");
    await tell(key, { kind: "posted", batch: "HK-77", at: "2026-12-01T15:00:00Z" });
    await tell(key, { kind: "applied", route: "in-salon", at: "2026-12-08T09:00:00Z" });
    expect(factsOf(await pageOf(key)).find((block) => "Put on" in block)?.["Batch"]).toBe("not recorded");
  });

  test("what was told and set aside is not said to be not recorded", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    setClock("2026-12-09T12:00:00Z");
    await tell(key, { kind: "applied", route: "in-salon", at: "2026-12-07T09:00:00Z" });
    const read = await tell(key, { kind: "read", outcome: "clear", at: "2026-12-09T09:30:00Z" });
    const reacted = await tell(key, { kind: "reacted", at: "2026-12-09T09:40:00Z" });
    for (const corrects of [read, reacted])
      await tell(key, { kind: "correction", corrects, reason: "told of another", at: "2026-12-09T10:00:00Z" });
    const facts = Object.assign({}, ...factsOf(await pageOf(key))) as Record<string, string>;
    expect([facts["Looked at"], facts["Something showed"], facts["Taken off"], facts["Confirmed"]]).toEqual([
      SET_ASIDE,
      SET_ASIDE,
      "not recorded",
      "not recorded",
    ]);
  });

  test("an earlier result is named with its date and record, and the term by which it counts", async () => {
    const onFile = { months: 12, product: "same", shade: "not-darker" };
    const { key } = await createSalon({
      ...MINIMAL,
      services: [{ name: "Colour", words: ["tint"], product: "line A", shade: 5 }],
      tests: [{ route: "in-salon", protocol: "salon-48h", onFile }],
    });
    await push(key, diaryText([B1]));
    const earlier = { kind: "read", outcome: "clear", route: "in-salon", product: "line A", shade: 4, batch: "LOT-3" };
    await record(key, { client: "c1", ...earlier, at: "2026-09-01T10:00:00Z" });
    await tell(key, { kind: "screened", outcome: "pass", at: "2026-12-01T08:00:00Z" });
    const words =
      "The test looked at Tue 1 Sep 2026, 11:00 +01:00 (r1). By version 1 of the settings a clear result of a test of this kind, at the salon, counts again for 12 months, for the same product (line A), in no darker shade (4).";
    const { restsOn } = await evidenceOf(key);
    expect(restsOn).toEqual({
      record: "r1",
      at: "2026-09-01T10:00:00Z",
      route: "in-salon",
      terms: onFile,
      text: words,
    });
    const page = await pageOf(key);
    expect(factsOf(page).find((block) => "Rests on" in block)?.["Rests on"]).toBe(words);
    expect(page).toContain("<h3>The earlier test it rests on</h3>");
    expect(factsOf(page).find((block) => "Put on" in block)).toMatchObject({
      Batch: expect.stringContaining("LOT-3") as string,
      "Put on": "not recorded",
    });
  });
});

describe("for whoever reads it", () => {
  test("says nothing of somebody else's stop, only that a question about her is open", async () => {
    const { key } = await createSalon();
    const phone = "DESCRIPTION:tel:01632 960 100";
    const at = (uid: string, client: string, email: string) => ({ ...B1, uid, client, email, more: [phone] });
    await push(key, diaryText([at("b1", "Mara Quillfeather", "mara@example.com")]));
    await push(
      key,
      diaryText([at("b1", "Mara Quillfeather", "mara@example.com"), at("b2", "Mara Q", "q@example.com")]),
    );
    await tell(key, { booking: "b2", kind: "reacted", at: "2026-12-01T08:00:00Z" });
    const { plans } = await (await ask(key, "GET", "/api/salon/plans")).json<{
      plans: { booking: { uid: string }; why: { code: string }[] }[];
    }>();
    const hers = plans.find(({ booking }) => booking.uid === "b1")?.why.map(({ code }) => code);
    expect(hers).toContain("possible-stop");
    const { plan } = await evidenceOf(key);
    expect(plan?.why.map(({ code }) => code)).toEqual(
      hers?.map((code) => (code === "possible-stop" ? "who-is-open" : code)),
    );
    const json = JSON.stringify(await evidenceOf(key));
    const page = await pageOf(key);
    for (const text of [json, page]) {
      expect(text).not.toMatch(/has a stop|Somebody of the same name|possible-stop|not-told-apart/);
      expect(text).toContain("A question about who this client is waits for a person at the salon.");
    }
    // Nor once it is past, when that is why it was not ready.
    setClock("2026-12-20T09:00:00Z");
    expect(await pageOf(key)).not.toMatch(/has a stop|of the same name/);
    const exported = await (await ask(key, "GET", "/api/salon/clients/c1/export")).text();
    expect(exported).not.toMatch(/has a stop|possible-stop/);
  });

  test("what was told of another client is named by its record alone", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    const told = await tell(key, { kind: "note", note: "takes warfarin", at: "2026-12-01T08:00:00Z" });
    await push(key, diaryText([{ ...B1, client: "Wilma Otherwise", email: "wilma@example.com" }]));
    const [page, { foreign }] = [await pageOf(key), await evidenceOf(key)];
    expect(foreign).toEqual([{ id: told, recorded: "2026-12-01T09:00:00Z" }]);
    expect(page).toContain(`while the diary gave it to another client, and kept there: ${told}.`);
    expect(page).not.toContain("warfarin");
  });

  test("says by which settings, and when, its standing is reckoned, with dates in full", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    setClock("2026-12-01T10:00:00Z");
    const changed = await ask(key, "PUT", "/api/salon", { ...MINIMAL, name: "Quillfen Colour House" });
    expect(changed.status).toBe(200);
    setClock("2026-12-08T10:00:00Z");
    await tell(key, {
      kind: "screened",
      outcome: "do-not-colour",
      reason: "past-reaction",
      at: "2026-12-08T09:00:00Z",
    });
    const page = await pageOf(key);
    expect(page).toContain(
      "Reckoned on Tue 8 Dec 2026, 10:00 +00:00 with version 2 of the salon's settings; each record names the version it was told under. The salon's name, address and zone are those of today.",
    );
    expect((await evidenceOf(key)).settings).toBe(2);
    const stands = factsOf(page).find((block) => "How it stands" in block)?.["How it stands"];
    expect(stands).toContain("a past reaction was told at the screening (Tue 8 Dec 2026, 09:00)");
    // The plan itself says no more than is needed beside its appointment.
    const plans = await (await ask(key, "GET", "/api/salon/plans")).text();
    expect(plans).toContain("told at the screening (Tue 09:00)");
  });

  test.each([
    ["sufficient", 72, "Asked, looked at and confirmed."],
    ["too short", 30, "was not ready by the records"],
  ])(
    "what was %s by the settings that held when the colour began stays so, whatever they are later",
    async (_what, hours, says) => {
      const { key } = await createSalon();
      await push(key, diaryText([B1]));
      const before = (ago: number) => new Date(Date.parse("2026-12-11T10:30:00Z") - ago * 3_600_000).toISOString();
      setClock("2026-12-11T10:00:00Z");
      await tell(key, { kind: "screened", outcome: "pass", at: before(hours + 1) });
      await tell(key, { kind: "applied", route: "in-salon", at: before(hours) });
      await tell(key, { kind: "read", outcome: "clear", at: before(hours > 48 ? hours - 48 : 1) });
      if (hours > 48) await tell(key, { kind: "confirmed", at: "2026-12-11T10:00:00Z" });
      setClock("2026-12-12T10:00:00Z");
      const stands = async () =>
        factsOf(await pageOf(key)).find((block) => "How it stands" in block)?.["How it stands"];
      expect(await stands()).toContain(says);
      const own = {
        lead: { least: "PT24H" },
        readings: [{ after: "PT24H", within: "PT3H" }],
        source: { title: "ours", year: 2026 },
      };
      for (const [version, settings] of [
        [2, { ...MINIMAL, tests: [{ route: "home-kit", protocol: "home-kit-120h" }] }],
        [3, { ...MINIMAL, tests: [{ route: "in-salon", protocol: "ours" }], protocols: { ours: own } }],
      ] as const) {
        const put = await ask(key, "PUT", "/api/salon", settings);
        expect([version, put.status]).toEqual([version, 200]);
        expect(await stands()).toContain(says);
        expect((await evidenceOf(key)).settings).toBe(1);
        expect(await pageOf(key)).toContain(
          "with version 1 of the salon's settings, which held when the appointment began; each",
        );
      }
    },
  );

  test("no code words: grounds and answers are put in words", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    const { page: link } = await linkOf(key, "c1");
    const asked = await (await send(`${link}/screening`, { headers: { accept: "application/json" } })).json<{
      version: number;
      questions: { id: string }[];
    }>();
    const answers = Object.fromEntries(asked.questions.map(({ id }) => [id, "no"]));
    const answered = await send(`${link}/screening`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ version: asked.version, consent: true, answers: { ...answers, elsewhere: "not-sure" } }),
    });
    expect(answered.status).toBe(201);
    await tell(key, {
      kind: "screened",
      outcome: "do-not-colour",
      reason: "past-reaction",
      at: "2026-12-01T08:00:00Z",
    });
    const page = await pageOf(key);
    expect(factsOf(page)[0]?.["Health questions"]).toBe(
      "Tue 1 Dec 2026, 08:00 +00:00: do not colour (a past reaction), Ines at the desk",
    );
    expect(page).toContain("Why: a past reaction");
    expect(page).toContain("<strong>not sure</strong>");
    expect(page).not.toMatch(/not-sure|past-reaction/);
  });

  test("a record says for which start it was told, where the appointment has moved since", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    await tell(key, { kind: "applied", route: "in-salon", at: "2026-12-01T08:00:00Z" });
    expect((await evidenceOf(key)).records[0]?.["appointmentStart"]).toBe("2026-12-11T10:30:00Z");
    expect(await pageOf(key)).not.toContain("For the appointment at");
    await push(key, diaryText([{ ...B1, start: "DTSTART;TZID=Europe/London:20261212T140000" }]));
    const late = await tell(key, { kind: "note", note: "moved", at: "2026-12-01T08:30:00Z" });
    const { records } = await evidenceOf(key);
    expect(records.map(({ id, appointmentStart }) => [id, appointmentStart])).toEqual([
      ["r1", "2026-12-11T10:30:00Z"],
      [late, "2026-12-12T14:00:00Z"],
    ]);
    const page = await pageOf(key);
    expect(page.match(/For the appointment at [^<]*/g)).toEqual([
      "For the appointment at Fri 11 Dec 2026, 10:30 +00:00",
    ]);
  });
});

describe("who is who", () => {
  test("a split names the other one from either side, and of its bookings those of this client", async () => {
    const { key } = await createSalon();
    const bare = (uid: string, day: string) => ({
      uid,
      start: `DTSTART;TZID=Europe/London:202612${day}T103000`,
      summary: `Root tint - ${MARA.client}`,
    });
    await push(key, diaryText([bare("b1", "11"), bare("b2", "18")]));
    const split = await ask(key, "POST", "/api/salon/clients/c1/split", { bookings: ["b2"], by: "Ines" });
    expect(split.status).toBe(201);
    for (const uid of ["b1", "b2"])
      await tell(key, { booking: uid, kind: "note", note: uid, at: "2026-12-01T08:00:00Z" });
    expect(await pageOf(key, "b1")).toContain("some bookings are another person's (client c2), by Ines");
    expect(await pageOf(key, "b2")).toContain(
      "some bookings that stood under another client are hers (client c1): b2, by Ines",
    );
    expect((await evidenceOf(key, "b1")).decisions.map(({ bookings }) => bookings)).toEqual([[]]);
    expect((await evidenceOf(key, "b2")).decisions.map(({ bookings }) => bookings)).toEqual([["b2"]]);
    const apart = await ask(key, "POST", "/api/salon/clients/c1/apart", { with: "c2", by: "Ines" });
    expect(apart.status).toBe(200);
  });

  test("two told apart name each other", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1, { ...B1, uid: "b2", client: "Mara Quillfen", email: "other@example.com" }]));
    const apart = await ask(key, "POST", "/api/salon/clients/c1/apart", { with: "c2", by: "Ines" });
    expect(apart.status).toBe(200);
    expect(await pageOf(key, "b1")).toContain("two clients are two people (client c2), by Ines");
    expect(await pageOf(key, "b2")).toContain("two clients are two people (client c1), by Ines");
  });
});

describe("on paper and on a telephone", () => {
  test("of a reaction the headings that were told are shown, the others in one line", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    const { page: link } = await linkOf(key, "c1");
    const pressed = await send(`${link}/records`, {
      method: "POST",
      headers: { "content-type": "application/x-www-form-urlencoded" },
      body: "kind=reacted&booking=b1",
    });
    expect(pressed.status).toBe(303);
    expect(await pageOf(key)).toMatch(
      /<p>\s*Record r1, Tue 1 Dec 2026, 09:00[^<]*: not described yet under the headings/,
    );
    const described = await tell(key, {
      kind: "note",
      note: "by telephone",
      reaction: { signs: "itching", bodyAreas: "neck" },
      at: "2026-12-01T09:00:00Z",
    });
    const page = await pageOf(key);
    expect(page).toMatch(new RegExp(`Record r1, [^<]*: described under the headings with ${described}`));
    expect(page).toContain("<dt>Signs and symptoms</dt><dd>itching</dd>");
    expect(page).not.toContain("<dt>Company</dt>");
    expect(page).toContain("not told: Full name of the product; Company; Batch number; Date of first use;");
  });

  test("paper is never taken for a narrow screen, and there each time of a record says what it is of", async () => {
    const { key } = await createSalon();
    await push(key, diaryText([B1]));
    const page = await pageOf(key);
    expect(page).not.toMatch(/@media \(max-width/);
    const narrow = /@media screen and \(max-width: 45rem\) \{([^]*?)\n\}/.exec(page)?.[1] ?? "";
    expect(narrow).toContain('td:nth-child(2)::before { content: "Happened: "; }');
    expect(narrow).toContain('td:nth-child(5)::before { content: "Told: "; }');
  });
});
