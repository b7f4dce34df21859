/** What settings and records are refused for, each with a sentence that names thing, value, limit and remedy. */
import { describe, expect, test } from "vitest";
import { checkFact } from "../../src/plan/factCheck.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Fact, Refusal } from "../../src/plan/types.ts";
import { eventUid, uuid5 } from "../../src/plan/uid.ts";
import { settingsSchema } from "../../src/settings.ts";
import { makeFact } from "./plan-arbitraries.ts";

const refusalsOf = (given: Record<string, unknown>): readonly Refusal[] => {
  const walkIn = { route: "in-salon", protocol: "salon-48h" };
  const settings = settingsSchema.parse({ name: "A salon", zone: "Europe/London", tests: [walkIn], ...given });
  const compiled = compileRules(settings, NO_HOLIDAYS, "salon");
  return compiled.ok ? [] : compiled.refusals;
};
const own = (protocol: Record<string, unknown>) => ({
  tests: [{ route: "in-salon", protocol: "own" }],
  protocols: { own: { lead: { least: "PT48H" }, readings: [{ after: "PT48H" }], ...protocol } },
});

describe("settings (counting.md 1, 4, 5, 8, 14, 18)", () => {
  test.each<[string, Record<string, unknown>, string, string]>([
    ["days for a lead", own({ lead: { least: "P2D" } }), "protocols.own.lead.least", "not-exact-hours"],
    ["months for a wear", own({ wear: "P1M" }), "protocols.own.wear", "not-exact-hours"],
    ["no duration at all", { lastWalkIn: "half an hour" }, "lastWalkIn", "not-a-duration"],
    [
      "a least above the most",
      own({ lead: { least: "PT49H", most: "PT48H" } }),
      "protocols.own.lead.least",
      "least-above-most",
    ],
    [
      "a lead from a removal that never comes",
      own({ lead: { least: "PT48H", from: "removal" } }),
      "protocols.own.wear",
      "removal-without-wear",
    ],
    ["no look that holds", own({ readings: [{ after: "PT49H" }] }), "protocols.own.readings", "no-holding-look"],
    [
      "protocols that disagree",
      { tests: [{ route: "in-salon", protocol: ["salon-48h", "wash-off-24h"] }] },
      "tests[0].protocol",
      "protocols-disagree",
    ],
    [
      "a protocol nobody knows",
      { tests: [{ route: "in-salon", protocol: "toString" }] },
      "tests[0].protocol",
      "unknown-protocol",
    ],
    [
      "a route twice",
      {
        tests: [
          { route: "in-salon", protocol: "salon-48h" },
          { route: "in-salon", protocol: "two-looks-48h" },
        ],
      },
      "tests[1].route",
      "route-twice",
    ],
    [
      "colour decanted and posted",
      { tests: [{ route: "home-kit", protocol: "home-kit-120h", kit: { ownColour: true } }] },
      "tests[0].kit.ownColour",
      "own-colour",
    ],
    [
      "a span that ends where it starts",
      { opening: { mon: ["09:00-09:00"] } },
      "opening.mon[0]",
      "span-ends-before-start",
    ],
    ["a night in one span", { opening: { mon: ["20:00-02:00"] } }, "opening.mon[0]", "span-ends-before-start"],
    ["25 o'clock", { opening: { mon: ["09:00-25:00"] } }, "opening.mon[0]", "not-a-span"],
    ["an opening that never opens", { opening: { mon: [], holiday: ["09:00-12:00"] } }, "opening", "opening-empty"],
    ["the 30th of February", { closed: ["2026-02-30"] }, "closed[0]", "not-dates"],
    ["dates in reverse", { post: { closed: ["2026-02-03/2026-02-01"] } }, "post.closed[0]", "dates-reversed"],
    [
      "a label's question that asks only for a test",
      { questions: [{ id: "scalp", text: "A sore scalp?", yes: "test-needed" }] },
      "questions[0].yes",
      "question-weakened",
    ],
    [
      "a label's question with a ground that reaches less far",
      { questions: [{ id: "past-reaction", text: "Ever a reaction?", yes: "do-not-colour", ground: "other" }] },
      "questions[0].ground",
      "question-weakened",
    ],
    [
      "a ground beside a question that asks only for a test",
      { questions: [{ id: "piercing", text: "A new piercing?", yes: "test-needed", ground: "other" }] },
      "questions[0].ground",
      "ground-misplaced",
    ],
    ["a collection at no time", { post: { lastCollection: "24:30" } }, "post.lastCollection", "not-a-time"],
  ])("refuses %s", (_what, given, at, code) => {
    const found = refusalsOf(given).find((each) => each.code === code);
    expect(found?.at).toBe(at);
    expect(found?.text).toContain(at);
    expect(found?.text).toContain(found?.limit);
    expect(found?.text).toContain(found?.remedy);
    if (found?.value) expect(found.text).toContain(found.value);
  });
  test("says why two days are not 48 hours (RFC 5545 §3.3.6)", () => {
    const text = refusalsOf(own({ lead: { least: "P2D" } }))[0]?.text;
    expect(text).toContain(
      "protocols.own.lead.least must be in exact hours, such as PT48H, not P2D: two days are 47 hours",
    );
    expect(text).toContain("PT48H if that many hours are meant");
  });
  test("names the source against posting the salon's own colour (trade protocol of January 2024)", () => {
    const given = { tests: [{ route: "home-kit", protocol: "home-kit-120h", kit: { ownColour: true } }] };
    expect(refusalsOf(given)[0]?.text).toContain("January 2024");
  });
  test("accepts the label's questions in the salon's own words, and questions of its own", () => {
    const questions = [
      { id: "under-16", text: "Is your sixteenth birthday still to come?", yes: "do-not-colour" },
      { id: "past-reaction", text: "Ever a reaction?", yes: "do-not-colour", ground: "past-reaction" },
      { id: "scarf", text: "Do you wear a scarf at work?", yes: "test-needed" },
      { id: "wound", text: "Is there a wound on your head?", yes: "do-not-colour", ground: "other" },
    ];
    expect(refusalsOf({ questions })).toEqual([]);
  });
  test("accepts a least that is the most: one instant", () => {
    expect(refusalsOf(own({ lead: { least: "PT48H", most: "PT48H" } }))).toEqual([]);
  });
});

describe("records (counting.md 23, 24, 30)", () => {
  const now = 1_800_000_000;
  const record = (kind: Fact["kind"], given: Partial<Fact> = {}): Fact => makeFact({ kind, at: now, ...given });
  const codes = (fact: Fact, known: readonly Fact[] = []): readonly string[] =>
    checkFact(fact, known, now).map((each) => each.code);
  test("an `at` may lie five minutes ahead and no more", () => {
    expect(codes(record("applied", { at: now + 300 }))).toEqual([]);
    expect(codes(record("applied", { at: now + 301 }))).toEqual(["at-in-the-future"]);
  });
  test("a kind without what it must say is refused", () => {
    expect(codes(record("read"))).toEqual(["outcome-missing"]);
    expect(codes(record("read", { outcome: "pass" }))).toEqual(["outcome-missing"]);
    expect(codes(record("screened", { outcome: "do-not-colour" }))).toEqual(["ground-missing"]);
    expect(codes(record("route"))).toEqual(["route-missing"]);
  });
  test("a client's link confirms and corrects nothing", () => {
    expect(codes(record("confirmed", { via: "client-link" }))).toEqual(["not-by-client-link"]);
    expect(codes(record("correction", { via: "client-link" }), [record("applied", { at: now - 9 })])).toEqual([
      "not-by-client-link",
    ]);
  });
  test("a correction must have something to correct, and a reason for what is not asked away", () => {
    const note = record("note", { id: "n1" });
    const young = record("screened", { id: "s1", at: now - 60, outcome: "do-not-colour", reason: "under-16" });
    expect(codes(record("correction", { corrects: "no such" }))).toEqual(["corrects-unknown"]);
    expect(codes(record("correction", { corrects: "n1" }), [note])).toEqual(["corrects-fixed"]);
    expect(codes(record("correction"), [note])).toEqual(["corrects-nothing"]);
    expect(codes(record("correction"), [young])).toEqual(["reason-missing"]);
    expect(codes(record("correction", { reason: "another client's form" }), [young])).toEqual([]);
  });
  test("a reaction is never refused for want of an application or for lateness", () => {
    expect(codes(record("reacted", { at: now - 400 * 86_400, booking: null, via: "client-link" }))).toEqual([]);
  });
});

test("UIDs are version 5 UUIDs, one a booking, kind and number (RFC 9562, appendix A.4)", () => {
  expect(uuid5("6ba7b810-9dad-11d1-80b4-00c04fd430c8", "www.example.com")).toBe("2ed6657d-e927-568b-95e1-2665a8aea6a2");
  const kinds = ["screening", "reading", "colour", "notice"] as const;
  const uids = ["a", "b", "1 a"].flatMap((booking) =>
    kinds.flatMap((kind) => [null, 1, 2].map((n) => eventUid("salon", booking, kind, n))),
  );
  expect(new Set(uids).size).toBe(uids.length);
});
