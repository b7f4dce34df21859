/**
 * The booking that DEVELOPERS.md works by hand: every instant of its table is the engine's. The table was reckoned by hand
 * from counting.md; its leads are the presets', its clock change is the IANA database's (25 October 2026, 01:00 UTC).
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { loadHolidays } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Plan, RouteName, StepKind } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { type Instant, parseInstant } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const page = readFileSync(new URL("../../DEVELOPERS.md", import.meta.url).pathname, "utf8").split(
  "## Working a booking by hand",
)[1];
const asked = JSON.parse(/-d '(\{[\s\S]*?\})'/.exec(page ?? "")?.[1] ?? "{}") as {
  readonly start: string;
  readonly zone: string;
  readonly now: string;
  readonly settings: Readonly<Record<string, unknown>>;
};

const settings = settingsSchema.parse({
  name: "By hand",
  zone: asked.zone,
  tests: [
    { route: "home-kit", protocol: "home-kit-120h" },
    { route: "in-salon", protocol: "salon-48h" },
  ],
  ...asked.settings,
});
const compiled = compileRules(settings, await loadHolidays("GB", "ENG", 2025, 2028), "by hand");
if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
const { rules } = compiled;
const at = (text: string): Instant => parseInstant(text) as Instant;
const COLOUR = at("2026-10-29T10:30:00Z");
const planAt = (now: string, facts: Parameters<typeof countBack>[0]["facts"] = []): Plan =>
  countBack({ booking: bookingAt(COLOUR), facts, samePerson: true, now: at(now) }, rules);

const plan = planAt(asked.now);
const step = (kind: StepKind, n: number | null = null) => plan.steps.find((each) => each.kind === kind && each.n === n);
const until = (route: RouteName) => plan.routes.find((each) => each.route === route)?.until;

/** The instants of a row's last column: `26 Oct 10:30, 13:30`, of October 2026 in UTC. */
const printed = (label: string): readonly Instant[] => {
  const row = (page ?? "").split("\n").find((line) => line.startsWith(`| ${label} `));
  const cell = row?.split("|").at(-2)?.trim() ?? "";
  const [, day, first, second] = /^(\d+) Oct (\d\d:\d\d)(?:, (\d\d:\d\d))?$/.exec(cell) ?? [];
  return [first, second].flatMap((time) => (time ? [at(`2026-10-${day}T${time}:00Z`)] : []));
};

const ROWS: readonly (readonly [string, readonly (Instant | null | undefined)[]])[] = [
  ["B", [plan.booking.start]],
  ["application due (10)", [step("application")?.due]],
  ["application opens (11)", [step("application")?.opens]],
  ["in hand (12)", [step("arrival")?.due]],
  ["shipping (15)", [step("shipping")?.due]],
  ["arrival", [step("arrival")?.due]],
  ["screening (16)", [step("screening")?.due]],
  ["removal (17)", [step("removal")?.opens, step("removal")?.due]],
  ["look 1 (18)", [step("reading", 1)?.opens, step("reading", 1)?.due]],
  ["look 2 (18)", [step("reading", 2)?.opens, step("reading", 2)?.due]],
  ["result (19)", [step("result")?.due]],
  ["home kit until (20)", [until("home-kit")]],
  ["walk-in until (20)", [until("in-salon")]],
];

test.each(ROWS)("%s stands on the page as the engine reckons it", (label, reckoned) => {
  expect(printed(label)).toEqual(reckoned);
});

test("the standings are those of the page, to the second", () => {
  const seen = (now: string): readonly (string | null)[] => [planAt(now).standing, planAt(now).route];
  expect(seen("2026-10-05T15:29:59Z")).toEqual(["on-track", "home-kit"]);
  expect(seen("2026-10-05T15:30:00Z")).toEqual(["due", "home-kit"]);
  expect(seen("2026-10-19T15:30:01Z")).toEqual(["late", "home-kit"]);
  expect(seen("2026-10-20T15:30:01Z")).toEqual(["due", "in-salon"]);
  expect(seen("2026-10-27T10:30:01Z")).toEqual(["late", "in-salon"]);
  expect(seen("2026-10-28T17:30:00Z")).toEqual(["late", "in-salon"]);
  expect(seen("2026-10-28T17:30:01Z")).toEqual(["no-time", null]);
  expect(planAt("2026-10-20T15:30:01Z").routes.find(({ route }) => route === "home-kit")?.earliest).toBe(
    at("2026-10-30T09:00:00Z"),
  );
});

test("a test put on early, and taken off late, moves what the page says", () => {
  const on = makeFact({ kind: "applied", at: at("2026-10-24T08:00:00Z"), route: "home-kit" });
  const off = makeFact({ kind: "removed", at: at("2026-10-26T08:10:00Z") });
  const opens = (given: Plan, kind: StepKind, n: number | null = null) =>
    given.steps.find((each) => each.kind === kind && each.n === n)?.opens;
  const early = planAt("2026-10-24T12:00:00Z", [on]);
  expect(opens(early, "removal")).toBe(at("2026-10-26T08:00:00Z"));
  expect([opens(early, "reading", 1), opens(early, "reading", 2)]).toEqual([
    at("2026-10-26T08:30:00Z"),
    at("2026-10-28T08:00:00Z"),
  ]);
  const late = planAt("2026-10-26T09:00:00Z", [on, off]);
  expect([opens(late, "reading", 1), opens(late, "reading", 2)]).toEqual([
    at("2026-10-26T08:40:00Z"),
    at("2026-10-28T08:00:00Z"),
  ]);
});
