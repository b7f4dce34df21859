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

/** `12-09T10:30` or `12-09T10:30:01` of 2026, UTC. */
const at = (text: string): Instant => parseInstant(`2026-${text}${text.length > 11 ? "" : ":00"}Z`) as Instant;

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

test("a correction after the colour takes no step back, and the code tells what stands (rules 23 and 24)", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "salon-48h" }] };
  const facts = [
    told("screened", "12-08T09:00", { id: "asked", outcome: "pass" }),
    told("applied", "12-08T10:00", { id: "on", route: "in-salon" }),
    told("read", "12-10T10:30", { outcome: "clear" }),
    told("confirmed", "12-10T11:00"),
  ];
  const statesAt = (now: string, since: readonly Fact[]): readonly string[] => {
    const plan = planOf(settings, "12-11T10:00", now, [...facts, ...since]);
    return [...plan.steps.map(({ state }) => state), plan.why[0]?.code ?? ""];
  };
  expect(statesAt("12-11T12:00", [])).toEqual(["done", "done", "done", "done", "ready"]);
  for (const corrects of ["asked", "on"]) {
    const correction = told("correction", "12-11T15:00", { corrects, reason: "another client's" });
    expect(statesAt("12-11T16:00", [correction])).toEqual(["done", "done", "done", "done", "not-ready"]);
  }
});

test("a corrected reaction asks for the look again, whichever booking it was told under (rules 23 and 24)", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "salon-48h" }] };
  const facts = [
    told("applied", "12-08T10:00", { route: "in-salon" }),
    told("read", "12-10T10:05", { outcome: "clear" }),
    told("reacted", "12-10T10:10", { id: "wrong", booking: "booking-0" }),
    told("correction", "12-10T11:00", { booking: "booking-0", corrects: "wrong", reason: "another client's" }),
  ];
  const stateOf = (plan: Plan): string | undefined => plan.steps.find(({ kind }) => kind === "reading")?.state;
  expect(stateOf(planOf(settings, "12-11T10:00", "12-10T11:30", facts))).toBe("planned");
  const again = [...facts, told("read", "12-10T11:05", { outcome: "clear" })];
  expect(stateOf(planOf(settings, "12-11T10:00", "12-10T11:30", again))).toBe("done");
});

test("a test put on in the very second of a not-sure look does not lift the stop, one put on a second later does (rule 23)", () => {
  const settings = { tests: [{ route: "in-salon", protocol: "salon-48h" }] };
  const unsure = told("read", "12-08T10:00", { id: "a", outcome: "not-sure" });
  const standingWith = (when: string): string =>
    planOf(settings, "12-11T10:00", "12-08T12:00", [unsure, told("applied", when, { id: "b", route: "in-salon" })])
      .standing;
  // Lifted, the screening is what is left to do: due on Wednesday 10:00, with the walk-in's own due (rules 16 and 20).
  expect([standingWith("12-08T10:00"), standingWith("12-08T10:00:01")]).toEqual(["stop", "due"]);
});

test("a screening with a margin stays in the client's hours where the search of 400 days ends (rules 7 and 16, law b)", () => {
  const settings = {
    tests: [{ route: "home-kit", protocol: "home-kit-120h", screening: { margin: "PT72H" } }],
    closed: ["2025-11-08/2026-12-11"],
  };
  // The last open second is 400 days less a day and a half before; 72 hours before it is Wednesday midnight: Tuesday 21:00.
  const plan = planOf(settings, "12-11T10:00", "11-24T10:00", [told("posted", "11-23T10:00")]);
  expect([dueOf(plan, "shipping"), dueOf(plan, "screening")]).toEqual(["2025-11-08T00:00:00Z", "2025-11-04T21:00:00Z"]);
});

test("a kit that cannot keep the walk-in within 400 days goes by rule 12 alone (rules 7, 12 and 13)", () => {
  const settings = {
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h" },
    ],
    closed: ["2025-11-09/2026-12-11"],
  };
  // The walk-in opened on Saturday 8 November 2025; a kit there by then left on Tuesday 4, before the search ends on the 6th.
  const plan = planOf(settings, "12-11T10:00", "11-24T10:00", [told("posted", "11-23T10:00")]);
  expect([dueOf(plan, "shipping"), dueOf(plan, "arrival")]).toEqual(["2025-11-09T00:00:00Z", "2026-12-05T18:00:00Z"]);
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
  const codesOf = (facts: readonly Fact[]): readonly string[] =>
    planOf(settings, "12-11T10:30", "12-10T10:30", facts).why.map(({ code }) => code);
  const foreign = told("applied", "12-10T10:00", { route: "home-kit" });
  expect(planOf(settings, "12-11T10:30", "12-10T10:30", [foreign]).applied).toBe(false);
  expect(codesOf([foreign])).toContain("route-not-offered");
  // The salon's own test that does not count is told beside it (rule 27), and one that does is not doubted.
  const tooLate = told("applied", "12-10T09:00", { route: "in-salon" });
  expect(codesOf([tooLate, foreign])).toEqual(expect.arrayContaining(["applied-too-late", "route-not-offered"]));
  expect(codesOf([told("applied", "12-08T10:00")])).not.toContain("route-not-offered");
});

test("a late plan changes again a second after each due that is still open, those of a kit left behind included", () => {
  const settings = {
    tests: [
      { route: "home-kit", protocol: "home-kit-120h" },
      { route: "in-salon", protocol: "salon-48h", screening: { margin: "PT72H" } },
    ],
  };
  const facts = [told("posted", "12-02T15:00", { route: "home-kit" })];
  // The walk-in's screening was due on Sunday 10:30, when the kit should have gone on; the walk-in itself is due on Wednesday.
  let plan = planOf(settings, "12-11T10:30", "12-07T10:30", facts);
  const changes: string[] = [];
  while (plan.next !== null && plan.next <= at("12-09T10:31")) {
    expect([plan.route, plan.standing]).toEqual(["in-salon", "late"]);
    changes.push(formatInstant(plan.next).slice(5));
    plan = planOf(settings, "12-11T10:30", formatInstant(plan.next).slice(5, -1), facts);
  }
  expect(changes).toEqual([
    "12-08T10:30:00Z", // the kit's removal opens, and three hours on is overdue
    "12-08T11:00:00Z", // its first look
    "12-08T13:30:01Z",
    "12-08T14:00:01Z",
    "12-09T00:00:00Z", // the day of the walk-in
    "12-09T10:30:01Z",
  ]);
});
