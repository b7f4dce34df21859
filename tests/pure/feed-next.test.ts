import { describe, expect, test } from "vitest";
import { asksQuestions, nextToDo, stepLines } from "../../src/feed/nextToDo.ts";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { isUndecided } from "../../src/feed/openSteps.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import type { EventContent } from "../../src/feed/types.ts";
import type { Standing } from "../../src/plan/types.ts";
import { HOUR } from "../../src/time/instant.ts";
import { at, COLOUR, contextOf, fellOver, homeSteps, planOf, PUT_ON, salonSteps, setDone } from "./feed-plans.ts";

const context = contextOf();
const headline = (standing: Standing, steps = homeSteps(), asOf = at("2026-11-20T09:00:00Z")): string =>
  nextToDo(planOf(standing, steps, { asOf }), context).headline;

describe("the one next thing", () => {
  test("is the first of her steps that is not done", () => {
    expect(headline("on-track")).toBe("Answer the salon's questions by Thu 16:30");
    expect(headline("on-track", setDone(homeSteps(), "screening"))).toBe(
      "Your skin test kit should come by Sat 5 Dec, 18:00",
    );
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

describe("answers that wait for a person at the salon", () => {
  const why = [{ code: "person-decides", text: "" }];
  const waiting = planOf("due", homeSteps(), { why });

  test("are not asked for again: the next thing is to wait, with the telephone", () => {
    const { headline: words, detail, isQuestions } = nextToDo(waiting, context);
    expect([words, isQuestions]).toEqual(["The salon is looking at your answers", false]);
    expect(detail).toContain("telephone 020 7946 0000");
    expect(detail).toContain("Reported so far: questions answered.");
    expect([asksQuestions(waiting), isUndecided(waiting)]).toEqual([false, true]);
    expect(stepLines(waiting, context)[0]).toMatchObject({ kind: "screening", stateWords: "with the salon" });
  });

  test("still come after a test whose time has passed, and give way to a stop", () => {
    const late = planOf("late", homeSteps(), { why, asOf: PUT_ON + HOUR });
    expect(nextToDo(late, context).headline).toBe("Is your skin test on? Tell us here");
    expect(nextToDo(planOf("stop", homeSteps(), { why }), context).headline).toMatch(/^Please telephone/);
  });

  test("stand in both feeds as with the salon, late or not, without a word of what was answered", () => {
    for (const asOf of [waiting.asOf, COLOUR - 200 * HOUR]) {
      const plan = planOf("late", homeSteps(), { why, asOf });
      const screeningOf = (contents: readonly EventContent[]) => contents.find(({ kind }) => kind === "screening");
      const [hers, ours] = [screeningOf(clientEvents(plan, context)), screeningOf(salonEvents(plan, context))];
      expect(hers?.summary).toBe("The salon is looking at your answers");
      const isLate = (ours?.time.to ?? 0) < asOf;
      expect(ours?.summary).toMatch(/^Look at M\.T\.'s answers and decide/);
      expect(ours?.summary.endsWith("its time has passed")).toBe(isLate);
      // Whose turn it is, is reminded of it.
      expect([hers?.alarms.length, ours?.alarms.length]).toEqual([0, isLate ? 0 : 1]);
      expect(`${ours?.summary} ${ours?.description}`).not.toMatch(/not sure|reaction|allerg/i);
    }
  });

  test("hold back a test whose time is still to come", () => {
    const plan = planOf("due", setDone(salonSteps(), "screening"), { why });
    expect(nextToDo(plan, context).headline).toBe("The salon is looking at your answers");
    const application = clientEvents(plan, context).find(({ kind }) => kind === "application");
    expect(application?.summary).toBe(
      "Telephone Juniper Lane Colour Room before your skin test: your answers are being looked at (latest time Wed 10:30)",
    );
    expect(application?.description).not.toContain("Just walk in");
    const discreet = clientEvents(plan, { ...context, wording: "discreet" }).find(({ kind }) => kind === "application");
    expect(discreet?.summary).toBe("Please telephone before Wed 10:30: your answers are being looked at");
  });
});

describe("the salon's questions", () => {
  test("are the next thing until they are answered, late as well, and are asked for nowhere else", () => {
    const opened = planOf("due", homeSteps(), { asOf: at("2026-11-12T16:30:00Z") });
    expect([nextToDo(opened, context).isQuestions, asksQuestions(opened)]).toEqual([true, true]);
    // Before its time the way there is shown and not pressed upon her.
    const early = planOf("on-track", homeSteps(), { asOf: at("2026-11-12T16:29:59Z") });
    expect([nextToDo(early, context).isQuestions, asksQuestions(early)]).toEqual([false, true]);
    const late = planOf("late", homeSteps(), { asOf: at("2026-11-26T16:30:01Z") });
    expect([nextToDo(late, context).isQuestions, asksQuestions(late)]).toEqual([true, true]);
    expect(asksQuestions(planOf("due", setDone(homeSteps(), "screening")))).toBe(false);
    for (const standing of ["stop", "no-time", "cancelled"] as const) {
      expect(asksQuestions(planOf(standing, homeSteps()))).toBe(false);
      expect(nextToDo(planOf(standing, homeSteps()), context).isQuestions).toBe(false);
    }
  });
});

describe("every step in a line", () => {
  test("with its exact time, its date and its state", () => {
    const plan = planOf("due", setDone(homeSteps(), "screening"), { asOf: at("2026-11-27T10:00:00Z") });
    const lines = stepLines(plan, context);
    expect(lines.map(({ state }) => state)).toEqual(["done", "now", "open", "open", "open", "open", "open", "open"]);
    expect(lines[0]?.text).toBe("Answer the salon's questions by Thu 16:30");
    expect(lines[1]?.text).toBe("The salon posts your skin test kit by Fri 16:30");
    expect(lines[1]?.when).toBe("from Fri 27 Nov 2026, 09:00 to 16:30");
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
