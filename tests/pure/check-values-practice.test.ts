/**
 * Facts of the trade that nobody has published, counted back by hand: common practice, no source, every one of them. The
 * colour is on Friday 11 December 2026 at 10:30, in weeks without a change of the clocks.
 */
import { describe, expect, test } from "vitest";
import { HOUR } from "../../src/time/instant.ts";
import {
  clearTest,
  counts,
  dueIn,
  HOME_KIT,
  local,
  looksIn,
  opensIn,
  planFor,
  rulesOf,
  shown,
  WALK_IN,
} from "./check-values-salon.ts";
import { makeFact } from "./plan-arbitraries.ts";

const FRIDAY = "2026-12-11 10:30";

describe("common practice, no source", () => {
  const rules = rulesOf({ post: { transit: 7, count: "calendar" } });
  const plan = planFor(rules, FRIDAY);
  const walkIn = rulesOf({ tests: [WALK_IN] });

  test("CP1: a walk-in test for Friday 10:30 is on by Wednesday 10:30 to the second", () => {
    expect(dueIn(walkIn, planFor(walkIn, FRIDAY), "application")).toBe("2026-12-09 10:30");
    expect([counts(walkIn, FRIDAY, "2026-12-09 10:30"), counts(walkIn, FRIDAY, "2026-12-09 10:30:01")]).toEqual([
      true,
      false,
    ]);
  });
  test("CP10: a walk-in needs no appointment, so only open doors limit it", () => {
    const shut = rulesOf({ tests: [WALK_IN], opening: { mon: ["09:00-17:30"], fri: ["09:00-17:30"] } });
    const early = planFor(shut, FRIDAY);
    expect([opensIn(shut, early, "application"), dueIn(shut, early, "application")]).toEqual([
      "2026-12-07 09:00",
      "2026-12-07 17:00",
    ]);
  });
  test("CP2, CP3: a home kit is on by Sunday 10:30, five full days before, and off 48 hours later on Tuesday", () => {
    expect(dueIn(rules, plan, "application")).toBe("2026-12-06 10:30");
    expect(opensIn(rules, plan, "removal")).toBe("2026-12-08 10:30");
    const kit = rulesOf({ tests: [HOME_KIT] });
    expect([counts(kit, FRIDAY, "2026-12-06 10:30"), counts(kit, FRIDAY, "2026-12-06 10:30:01")]).toEqual([
      true,
      false,
    ]);
  });
  test("CP4, CP5: the first look is half an hour after it came off, the second two days after that", () => {
    expect(looksIn(rules, plan)).toEqual(["2026-12-08 11:00", "2026-12-10 10:30"]);
  });
  test("CP4: a salon that has it looked at daily adds Wednesday by a protocol of its own", () => {
    const daily = {
      lead: { least: "PT120H" },
      wear: "PT48H",
      readings: [{ after: "PT48H30M" }, { after: "PT72H" }, { after: "PT96H" }],
    };
    const own = rulesOf({ tests: [{ route: "home-kit", protocol: "daily" }], protocols: { daily } });
    expect(looksIn(own, planFor(own, FRIDAY))).toEqual(["2026-12-08 11:00", "2026-12-09 10:30", "2026-12-10 10:30"]);
  });
  test("CP6: a slow kit is in hand on Saturday 18:00 and leaves with the Friday 16:30 collection two weeks before", () => {
    expect(dueIn(rules, plan, "arrival")).toBe("2026-12-05 18:00");
    expect(dueIn(rules, plan, "shipping")).toBe("2026-11-27 16:30");
    expect(shown(rules, plan.routes[0]?.until as number)).toBe("2026-11-27 16:30");
    // Seven days after Friday 27 November is Friday 4 December; after Monday's collection, Monday 7 December: too late.
    const posted = (on: string): boolean | undefined =>
      planFor(rules, FRIDAY, [makeFact({ kind: "posted", at: local(rules, on) })], on).routes[0]?.fits;
    expect([posted("2026-11-27 16:30"), posted("2026-11-27 16:30:01")]).toEqual([true, false]);
  });
  test("CP7: the screening comes before the kit is sent, a day before it by default", () => {
    expect(dueIn(rules, plan, "screening")).toBe("2026-11-26 16:30");
    expect(plan.steps.map((step) => step.kind)).toEqual([
      "screening",
      "shipping",
      "arrival",
      "application",
      "removal",
      "reading",
      "reading",
      "result",
    ]);
  });
  test("CP7, CP8: an earlier clear home test leaves only the screening, repeated", () => {
    const later = planFor(rules, FRIDAY, clearTest(rules, "2026-06-01 10:00", [48.5 * HOUR, 96 * HOUR]));
    expect(later.route).toBe("on-file");
    expect(later.steps.map((step) => step.kind)).toEqual(["rescreening"]);
    // The last time one whole new test fits: the walk-in of CP1, asked at the counter.
    expect(dueIn(rules, later, "rescreening")).toBe("2026-12-09 10:30");
  });
  test.each([
    ["told by the client", { kind: "reacted" }],
    ["seen at a look", { kind: "read", outcome: "reaction" }],
    ["a look nobody is sure of", { kind: "read", outcome: "not-sure" }],
  ] as const)("CP9: anything that shows at the site stops the colour, %s", (_how, given) => {
    const on = makeFact({ kind: "applied", at: local(rules, "2026-12-06 10:00"), route: "home-kit" });
    const shows = makeFact({ at: local(rules, "2026-12-08 11:00"), ...given });
    const clear = makeFact({ kind: "read", at: local(rules, "2026-12-10 11:00"), outcome: "clear" });
    const stopped = planFor(rules, FRIDAY, [on, shows, clear], "2026-12-10 12:00");
    expect([stopped.standing, stopped.why[0]?.code]).toEqual(["stop", "stop"]);
    expect(planFor(rules, FRIDAY, [on, clear], "2026-12-10 12:00").standing).not.toBe("stop");
  });
});
