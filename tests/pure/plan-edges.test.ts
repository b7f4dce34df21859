/**
 * Cases on which two reckonings of the rules once differed, worked by hand from the rule named beside each (counting.md).
 * The IANA database and the week's calendar are the only outside facts in them; trade numbers are the salon's own.
 */
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Fact, Plan } from "../../src/plan/types.ts";
import { eventUid } from "../../src/plan/uid.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatInstant, type Instant, parseInstant } from "../../src/time/instant.ts";
import { bookingAt, makeFact } from "./plan-arbitraries.ts";

const at = (text: string): Instant => parseInstant(`2026-${text}:00Z`) as Instant;

const planOf = (settings: Record<string, unknown>, start: string, now: string, facts: readonly Fact[] = []): Plan => {
  const parsed = settingsSchema.parse({ name: "Quillfen Colour Room", zone: "Europe/London", ...settings });
  const compiled = compileRules(parsed, NO_HOLIDAYS, "salon");
  if (!compiled.ok) throw new Error(compiled.refusals[0]?.text);
  return countBack({ booking: bookingAt(at(start)), facts, samePerson: true, now: at(now) }, compiled.rules);
};
const told = (kind: Fact["kind"], when: string, more: Partial<Fact> = {}): Fact =>
  makeFact({ kind, at: at(when), ...more });
const dueOf = (plan: Plan, kind: string): string | undefined => {
  const due = plan.steps.find((step) => step.kind === kind)?.due;
  return due === undefined ? undefined : formatInstant(due);
};

test("the screening keeps its margin where only a record gives the application its moment (rules 16 and 20)", () => {
  const settings = {
    tests: [{ route: "in-salon", protocol: "window-24-48h", screening: { margin: "PT12H" } }],
    opening: { fri: ["09:00-17:00"] },
  };
  // Applied Wednesday 20:00; less 12 hours is 08:00, before the client has been awake for a quarter of an hour: the evening before.
  const plan = planOf(settings, "12-11T10:00", "12-09T21:00", [told("applied", "12-09T20:00", { route: "in-salon" })]);
  expect([dueOf(plan, "screening"), dueOf(plan, "application")]).toEqual([
    "2026-12-08T21:00:00Z",
    "2026-12-09T20:00:00Z",
  ]);
});

test("shipping and arrival are counted back from a recorded application, never dated by what was posted (rules 12 to 15)", () => {
  const settings = {
    tests: [{ route: "home-kit", protocol: "own" }],
    protocols: { own: { lead: { least: "PT30H", most: "PT32H" }, readings: [{ after: "PT24H" }] } },
  };
  const facts = [
    told("posted", "12-04T10:00", { route: "home-kit" }),
    told("applied", "12-10T03:00", { route: "home-kit" }),
    told("posted", "12-10T11:00", { route: "home-kit" }),
  ];
  // Three delivery days, Monday to Saturday: Friday's collection is there on Tuesday, Saturday has none, Monday's on Thursday.
  const plan = planOf(settings, "12-11T10:00", "12-10T12:00", facts);
  expect([dueOf(plan, "shipping"), dueOf(plan, "arrival")]).toEqual(["2026-12-04T16:30:00Z", "2026-12-09T18:00:00Z"]);
});

test("a record after the colour undoes nothing that was done at it (rule 23)", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "wash-off-24h" }] };
  const facts = [told("applied", "12-10T10:00", { route: "in-salon" }), told("removed", "12-11T15:00")];
  const plan = planOf(settings, "12-11T10:00", "12-11T16:00", facts);
  expect(
    plan.steps.filter(({ kind }) => kind === "application" || kind === "removal").map(({ state }) => state),
  ).toEqual(["done", "done"]);
});

test("without opening hours there is no closing time to come before (rule 5)", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "salon-48h" }], closed: ["2026-12-29"] };
  expect(dueOf(planOf(settings, "12-31T10:00", "12-20T10:00"), "application")).toBe("2026-12-29T00:00:00Z");
});

test("removal and looks of a kit left behind stay the events they were, but where the walk-in's own look takes one", () => {
  const settings = {
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
  };
  const plan = planOf(settings, "12-11T10:30", "12-07T10:30", [told("posted", "12-02T15:00", { route: "home-kit" })]);
  expect(plan.route).toBe("in-salon");
  const uid = (kind: "removal" | "reading", n: number | null) => eventUid("salon", plan.booking.uid, kind, n);
  expect(plan.leftBehind.map((step) => step.uid)).toEqual([
    uid("removal", null),
    uid("reading", 51),
    uid("reading", 2),
  ]);
  expect(plan.steps.find(({ kind }) => kind === "reading")?.uid).toBe(uid("reading", 1));
});

test("a test of a kind that the salon does not offer is kept and said not to count", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "salon-48h" }] };
  const plan = planOf(settings, "12-11T10:30", "12-07T10:30", [told("applied", "12-05T10:00", { route: "home-kit" })]);
  expect(plan.applied).toBe(false);
  expect(plan.why.map(({ code }) => code)).toContain("route-not-offered");
});
