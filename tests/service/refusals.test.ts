/**
 * Every refusal of settings (counting.md 1, 4, 5, 8, 14, 18), as whoever writes them meets it over HTTP: one readable sentence
 * that names the field, what stood there, what it must be and what to do. Everyone named here is invented.
 */
import { reset } from "cloudflare:test";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { FIELDS, withField, WRITTEN } from "./badSettings.ts";
import { ask, createSalon, MINIMAL, OPERATOR, record, send, setClock } from "./client.ts";

beforeEach(() => setClock("2026-12-01T09:00:00Z"));
afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

interface Told {
  readonly at: string;
  readonly value: string | null;
  readonly limit: string;
  readonly remedy: string;
  readonly text: string;
}

/** Words of the library that checks shapes; none of them is for a person. */
const LIBRARY_WORDS =
  /Invalid input|expected|received|Too (small|big)|pattern|\/\^|undefined|NaN|\[object|must be must|;;|\.\.$/i;

/** One error as it must be: whole, in one sentence, and of its own field. */
const holdToWords = (error: Told): void => {
  expect(
    Object.keys(error)
      .filter((key) => key !== "code")
      .sort(),
  ).toEqual(["at", "limit", "remedy", "text", "value"]);
  for (const part of [error.at, error.limit, error.remedy, error.text]) expect(part).not.toBe("");
  expect(error.value === null || typeof error.value === "string").toBe(true);
  expect(error.text.startsWith(`${error.at} `)).toBe(true);
  expect(error.text).toMatch(/ (must|is missing: it must|is not a field) .*[^.]\.$/);
  expect(error.text).toContain(error.remedy);
  expect(error.text).not.toMatch(LIBRARY_WORDS);
  expect(error.text).not.toContain("\n");
};

const errorsOf = async (answer: Response): Promise<readonly Told[]> => {
  expect(answer.status).toBe(422);
  expect(answer.headers.get("content-type")).toBe("application/problem+json");
  const { errors, detail, status } = await answer.json<{ errors: Told[]; detail: string; status: number }>();
  expect(status).toBe(422);
  expect(errors.length).toBeGreaterThan(0);
  expect(detail).toBe(errors.map(({ text }) => text).join(" "));
  for (const error of errors) holdToWords(error);
  return errors;
};

const created = (settings: unknown): Promise<Response> => ask(OPERATOR, "POST", "/api/salons", settings);
const countedBack = (settings: unknown): Promise<Response> =>
  send("/api/count-back", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ start: "2026-12-18T10:30:00Z", settings }),
  });

/** Both ways in say the same of the same settings. */
const refused = async (settings: object): Promise<readonly Told[]> => {
  const errors = await errorsOf(await created({ ...MINIMAL, ...settings }));
  expect(await errorsOf(await countedBack({ ...MINIMAL, ...settings }))).toEqual(errors);
  return errors;
};

const walkIn = { route: "in-salon", protocol: "own" };
const own = (protocol: object): object => ({
  tests: [walkIn],
  protocols: { own: { lead: { least: "PT48H" }, readings: [{ after: "PT48H" }], ...protocol } },
});

describe("what the rules refuse", () => {
  test.each<[string, object, string, RegExp]>([
    ["1: days for a lead", own({ lead: { least: "P2D" } }), "protocols.own.lead.least", /^in exact hours.*PT48H/],
    ["1: a number of hours with a fraction", own({ wear: "PT1.5H" }), "protocols.own.wear", /whole hours/],
    [
      "1: a length below nothing",
      own({ removeWithin: "-PT3H" }),
      "protocols.own.removeWithin",
      /length in exact hours/,
    ],
    [
      "1: a length beyond 400 days",
      own({ lead: { least: "PT9999999H" } }),
      "protocols.own.lead.least",
      /^at most PT9600H$/,
    ],
    ["1: a length that is none", { lastWalkIn: "48h" }, "lastWalkIn", /length in exact hours/],
    ["1: a lead of no time", own({ lead: { least: "PT0H" } }), "protocols.own.lead.least", /^longer than nothing$/],
    ["4: a night in one span", { opening: { fri: ["20:00-02:00"] } }, "opening.fri[0]", /^a span that ends after/],
    ["4: a night for the client", { clientHours: "21:00-08:00" }, "clientHours", /^a span that ends after/],
    ["4: 25 o'clock", { opening: { mon: ["09:00-25:00"] } }, "opening.mon[0]", /00:00 to 24:00/],
    ["4: the 30th of February", { closed: ["2026-02-30"] }, "closed[0]", /^a date/],
    ["4: dates in reverse", { closed: ["2026-12-27/2026-12-24"] }, "closed[0]", /first is not the later/],
    ["5: hours on no weekday", { opening: {} }, "opening", /^hours on at least one weekday$/],
    ["5: a weekday without hours", { opening: { mon: [] } }, "opening", /^hours on at least one weekday$/],
    [
      "8: a least above the most",
      own({ lead: { least: "PT48H", most: "PT24H" } }),
      "protocols.own.lead.least",
      /lead\.most, PT24H/,
    ],
    [
      "8: protocols that disagree",
      { tests: [{ route: "in-salon", protocol: ["salon-48h", "wash-off-24h"] }] },
      "tests[0].protocol",
      /agree on lead\.from and wear/,
    ],
    [
      "8: a route twice",
      {
        tests: [
          { route: "in-salon", protocol: "salon-48h" },
          { route: "in-salon", protocol: "two-looks-48h" },
        ],
      },
      "tests[1].route",
      /no earlier test has/,
    ],
    ["14: a post of no days", { post: { transit: 0 } }, "post.transit", /from 1 to 60$/],
    ["14: a post of one and a half", { post: { transit: 1.5 } }, "post.transit", /from 1 to 60$/],
    ["14: a post of two months", { post: { transit: 61 } }, "post.transit", /from 1 to 60$/],
    ["14: a collection at no time", { post: { lastCollection: "24:30" } }, "post.lastCollection", /00:00 to 24:00/],
    [
      "18: no look that the colour waits for",
      own({ readings: [{ after: "PT49H" }] }),
      "protocols.own.readings",
      /at least one look/,
    ],
    ["18: no look at all", own({ readings: [] }), "protocols.own.readings", /at least one look/],
    [
      "18: a look at once",
      own({ readings: [{ after: "PT0H" }] }),
      "protocols.own.readings[0].after",
      /^longer than nothing$/,
    ],
  ])("counting.md %s", async (_rule, settings, at, limit) => {
    const errors = await refused(settings);
    expect(errors.map((error) => error.at)).toEqual([at]);
    expect(errors[0]?.limit).toMatch(limit);
  });
});

describe("what no field takes", () => {
  test.each(FIELDS)("$way", async ({ way, allowed }) => {
    for (const value of WRITTEN.filter((each) => !allowed.has(JSON.stringify(each)))) {
      const settings = { ...MINIMAL, ...withField(way, value) };
      const label = `${way.join(".")}: ${JSON.stringify(value)}`;
      const answer = await countedBack(settings);
      expect(answer.status, label).toBe(422);
      const errors = await errorsOf(answer);
      for (const { at } of errors) expect(at, label).toMatch(new RegExp(`^"?${String(way[0])}`));
    }
  });

  test("every one of sixty and more bad settings is refused to the operator as well", async () => {
    const bad = FIELDS.flatMap(({ way, allowed }) =>
      [null, 1.5, "", [], "x".repeat(300)]
        .filter((value) => !allowed.has(JSON.stringify(value)))
        .map((value) => ({ ...MINIMAL, ...withField(way, value) })),
    );
    expect(bad.length).toBeGreaterThan(60);
    for (const settings of bad) await errorsOf(await created(settings));
  });

  test.each([[null], [[]], ["hello"], [5], [true]])("a whole body of %j", async (body) => {
    const open = { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) };
    for (const answer of [await created(body), await send("/api/count-back", open)]) {
      const [error, ...others] = await errorsOf(answer);
      expect(others).toEqual([]);
      expect([error?.at, error?.value, error?.limit]).toEqual(["the body", null, "an object in braces"]);
    }
  });

  test("a field that is left out is named with what it must be", async () => {
    const errors = await errorsOf(await created({}));
    expect(errors.map(({ at }) => at)).toEqual(["name", "zone", "tests"]);
    for (const { at, text } of errors) expect(text).toContain(`${at} is missing: it must be `);
  });

  test("each unknown field is named", async () => {
    const errors = await refused({ opning: {}, post: { transitt: 3 }, protocols: { own: { lead: {}, wears: 1 } } });
    expect(errors.map(({ at }) => at).sort()).toEqual(
      ["opning", "post.transitt", "protocols.own.lead.least", "protocols.own.readings", "protocols.own.wears"].sort(),
    );
  });

  test("an unknown word is answered with the words that are known", async () => {
    const [route] = await refused({ tests: [{ route: "on-file", protocol: "salon-48h" }] });
    expect(route?.text).toBe("tests[0].route must be one of in-salon, home-kit, not on-file; write one of them.");
    const [day] = await refused({ post: { collection: ["monday"] } });
    expect(day?.text).toContain("must be one of mon, tue, wed, thu, fri, sat, sun, not monday");
    const [protocol] = await refused({ tests: [{ route: "in-salon", protocol: "salon-24h" }] });
    expect(protocol?.text).toContain("salon-48h, salon-45min-48h, home-kit-120h");
  });

  test("a name, a telephone and a calendar's address are never said back", async () => {
    const telling = {
      contact: { phone: 7_700_900_123 },
      staff: "Wren Tallis-Moor",
      diaries: [{ name: "a/Wren", url: 5 }],
    };
    const answer = await created({ ...MINIMAL, ...telling });
    expect(answer.status).toBe(422);
    expect(await answer.clone().text()).not.toMatch(/Wren|7700/);
    expect((await errorsOf(answer)).map(({ value }) => value)).toEqual([null, null, null, null]);
  });
});

test("a rule of the salon's own without a source says so in the plan (counting.md, presets)", async () => {
  for (const source of [undefined, {}]) {
    const answer = await countedBack({ ...MINIMAL, ...own(source ? { source } : {}) });
    expect(answer.status).toBe(200);
    const { steps } = await answer.json<{ steps: { kind: string; rule: { source: string | null } }[] }>();
    const application = steps.find(({ kind }) => kind === "application");
    expect(application?.rule.source).toBe("the salon's own rule, no source given");
  }
});

test("a record that names neither client nor booking is refused for that", async () => {
  const { key } = await createSalon();
  const answer = await record(key, { kind: "applied" });
  expect(answer.status).toBe(422);
  const { errors } = await answer.json<{ errors: Told[] }>();
  expect(errors.map(({ at }) => at)).toEqual(["client"]);
  for (const error of errors) holdToWords(error);
});
