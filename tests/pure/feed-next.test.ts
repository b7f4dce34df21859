import { describe, expect, test } from "vitest";
import { nextToDo, stepLines } from "../../src/feed/nextToDo.ts";
import type { Standing } from "../../src/plan/types.ts";
import { HOUR } from "../../src/time/instant.ts";
import { at, contextOf, fellOver, homeSteps, planOf, PUT_ON, salonSteps, setDone } from "./feed-plans.ts";

const context = contextOf();
const headline = (standing: Standing, steps = homeSteps(), asOf = at("2026-11-20T09:00:00Z")): string =>
  nextToDo(planOf(standing, steps, { asOf }), context).headline;

describe("the one next thing", () => {
  test("is the first of her steps that is not done", () => {
    expect(headline("on-track")).toBe("Answer the salon's questions by Thu 16:30");
    expect(headline("on-track", setDone(homeSteps(), "screening"))).toBe("Your skin test kit should come by Sat 18:00");
  });

  test("is a question once the test's time has passed, before anything else that is late", () => {
    const { headline: question, detail } = nextToDo(planOf("late", homeSteps(), { asOf: PUT_ON + HOUR }), context);
    expect(question).toBe("Is your skin test on? Tell us here");
    expect(detail).toBe(
      "If it is on, say so and say since when. If it is not, telephone 020 7946 0000 before you put one on.\n\nNothing is reported so far.",
    );
  });

  test("is the telephone under a stop and where no time is left, and no test", () => {
    expect(headline("stop")).toBe("Please telephone Juniper Lane Colour Room about this appointment");
    expect(headline("no-time")).toMatch(/^Please telephone Juniper Lane Colour Room: no time is left/);
    const { detail } = nextToDo(planOf("stop", homeSteps()), context);
    expect(detail).not.toMatch(/put|kit|test/i);
  });

  test("is nothing when all is ready, and a clear test is still no promise", () => {
    const { headline: words, detail } = nextToDo(planOf("ready", setDone(homeSteps(true), "screening")), context);
    expect(words).toBe("Nothing more to do before your colour on Fri 11 Dec 2026, 10:30");
    expect(detail).toContain("A clear test does not mean that no reaction will happen.");
  });

  test("is nothing right now when all of hers is done", () => {
    const hers = setDone(salonSteps(), "screening", "application", "reading");
    const { headline: words, detail } = nextToDo(planOf("due", hers), context);
    expect(words).toBe("Nothing to do right now");
    expect(detail).toContain("Reported so far: questions answered, skin test put on, look 1 told.");
  });

  test("warns of a second test where a kit may be on", () => {
    const plan = { ...fellOver(), steps: setDone(salonSteps(), "screening") };
    expect(nextToDo(plan, context).headline).toContain("do not have a second test");
  });

  test("a cancelled or past appointment asks for nothing", () => {
    expect(headline("cancelled")).toBe("This appointment is cancelled");
    expect(headline("past")).toBe("Your colour at Juniper Lane Colour Room was on Fri 11 Dec 2026, 10:30");
  });
});

describe("every step in a line", () => {
  test("with its exact time, its date and its state", () => {
    const plan = planOf("due", setDone(homeSteps(), "screening"), { asOf: at("2026-11-27T10:00:00Z") });
    const lines = stepLines(plan, context);
    expect(lines.map(({ state }) => state)).toEqual(["done", "now", "open", "open", "open", "open", "open", "open"]);
    expect(lines[0]?.text).toBe("Answer the salon's questions by Thu 16:30");
    expect(lines[1]?.text).toBe("The salon posts your skin test kit by Fri 16:30");
    expect(lines[1]?.when).toBe("from Fri 27 Nov 2026, 09:00 to Fri 27 Nov 2026, 16:30");
    expect(lines[4]?.when).toBeNull();
    expect(lines[0]?.stateWords).toBe("done");
  });

  test("past its time it is not recorded yet, and keeps saying what it is", () => {
    const lines = stepLines(planOf("late", homeSteps(), { asOf: PUT_ON + 1 }), context);
    expect(lines[3]).toMatchObject({
      state: "asked",
      stateWords: "not recorded yet",
      text: "Put your skin test on by Sun 10:30",
    });
  });

  test("under a stop, and where no time is left, only what was done", () => {
    for (const standing of ["stop", "no-time"] as const) {
      expect(stepLines(planOf(standing, setDone(homeSteps(), "screening")), context).map(({ kind }) => kind)).toEqual([
        "screening",
      ]);
    }
    expect(stepLines(planOf("cancelled", homeSteps()), context)).toEqual([]);
  });

  test("a kit left behind stands after the plan's own steps", () => {
    expect(stepLines(fellOver(), context).map(({ kind }) => kind)).toEqual([
      "screening",
      "application",
      "reading",
      "result",
      "removal",
      "reading",
      "reading",
    ]);
  });
});
