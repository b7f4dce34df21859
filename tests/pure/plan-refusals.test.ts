/** What settings and records are refused for, each with a sentence that names thing, value, limit and remedy. */
import { describe, expect, test } from "vitest";
import { checkFact } from "../../src/plan/factCheck.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Fact } from "../../src/plan/types.ts";
import { eventUid, uuid5 } from "../../src/plan/uid.ts";
import { settingsSchema } from "../../src/settings.ts";
import { makeFact } from "./plan-arbitraries.ts";
import { own, refusalsOf } from "./refused-settings.ts";

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
      "other words for a label's question: they could turn a yes into a no",
      { questions: [{ id: "under-16", text: "Are you 16 or older today?", yes: "do-not-colour" }] },
      "questions[0].id",
      "question-of-label",
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
  test("a fault of one protocol is said once, by its own field, however many tests name it", () => {
    const named = [
      { route: "in-salon", protocol: "own" },
      { route: "home-kit", protocol: ["own", "salon-48h"] },
    ];
    const found = refusalsOf({ ...own({ lead: { least: "PT48H", most: "PT24H" } }), tests: named });
    expect(found.map((each) => each.at)).toEqual(["protocols.own.lead.least"]);
    expect(found[0]?.text).toBe(
      "protocols.own.lead.least must be at most lead.most, PT24H, not PT48H: no test could be in time; shorten lead.least or lengthen lead.most.",
    );
    const unread = refusalsOf({
      ...own({ wear: "P1D" }),
      tests: [{ route: "in-salon", protocol: ["own", "salon-48h"] }],
    });
    expect(unread.map((each) => each.at)).toEqual(["protocols.own.wear"]);
  });
  test("two protocols of which one's least exceeds the other's most cannot hold together", () => {
    const [found] = refusalsOf({
      tests: [{ route: "in-salon", protocol: ["window-24-48h", "own"] }],
      protocols: { own: { lead: { least: "PT49H" }, readings: [{ after: "PT24H" }] } },
    });
    expect(found?.at).toBe("tests[0].protocol");
    expect(found?.text).toContain("own asks for at least PT49H, window-24-48h for at most PT48H");
  });
  test.each([
    ["opening", "20:00-02:00", "write 20:00-24:00 and, on the next day, 00:00-02:00"],
    ["opening", "20:00-00:00", "write 20:00-24:00"],
    ["opening", "24:00-02:00", "write 00:00-02:00 on the next day"],
    ["opening", "09:00-09:00", "write a later end, such as 09:00-17:30, or 00:00-24:00 for the whole day"],
    ["clientHours", "21:00-08:00", "write the earlier time first and at most 24:00 last, such as 08:00-21:00"],
    ["clientHours", "18:00-02:00", "write the earlier time first and at most 24:00 last, such as 08:00-21:00"],
  ])("%s of %s: %s", (field, span, remedy) => {
    const [found] = refusalsOf(field === "opening" ? { opening: { mon: [span] } } : { clientHours: span });
    expect([found?.code, found?.remedy]).toEqual(["span-ends-before-start", remedy]);
    expect(found?.text).toMatch(new RegExp(`^${field}.* must be .*, not ${span}: .*; .*\\.$`));
    if (field === "clientHours") expect(found?.text).not.toContain("next day");
  });
  test.each([
    [0, "transit-too-short", "nothing arrives on the day it is posted"],
    [-1, "transit-too-short", "nothing arrives on the day it is posted"],
    [0.5, "transit-too-short", "nothing arrives on the day it is posted"],
    [1.5, "transit-not-whole", "the post comes once a day"],
    [61, "transit-too-long", "is lost, not on its way"],
    [1e300, "transit-too-long", "is lost, not on its way"],
  ])("a post of %d days (counting.md 14)", (transit, code, reason) => {
    const found = refusalsOf({ post: { transit } });
    expect(found.map((each) => [each.at, each.code, each.value])).toEqual([["post.transit", code, String(transit)]]);
    expect(found[0]?.text).toContain("must be a whole number of days from 1 to 60");
    for (const part of [reason, "D+3"]) expect(found[0]?.text).toContain(part);
  });
  test("a post of 1 day and one of 60 are both believed", () => {
    for (const transit of [1, 60]) expect(refusalsOf({ post: { transit } })).toEqual([]);
  });
  test("names the source against posting the salon's own colour (trade protocol of January 2024)", () => {
    const given = { tests: [{ route: "home-kit", protocol: "home-kit-120h", kit: { ownColour: true } }] };
    expect(refusalsOf(given)[0]?.text).toContain("January 2024");
  });
  test("accepts questions of the salon's own", () => {
    const questions = [
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

describe("the source of a rule", () => {
  const sourceOf = (source: Record<string, unknown> | undefined) => {
    const settings = settingsSchema.parse({
      name: "A salon",
      zone: "Europe/London",
      ...own(source === undefined ? {} : { source }),
    });
    const compiled = compileRules(settings, NO_HOLIDAYS, "salon");
    return compiled.ok ? compiled.rules.tests[0]?.protocols[0]?.source : undefined;
  };
  test.each<[Record<string, unknown> | undefined, string]>([
    [undefined, "the salon's own rule, no source given"],
    [{}, "the salon's own rule, no source given"],
    [{ note: "" }, "the salon's own rule, no source given"],
    [{ year: 2020 }, "the salon's own rule, no source given"],
    [{ note: "our insurer" }, "our insurer"],
    [{ title: "A leaflet" }, "A leaflet"],
    [{ title: "A leaflet", year: 2020 }, "A leaflet, 2020"],
  ])("%j is told as %s", (source, told) => {
    expect(sourceOf(source)).toBe(told);
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
