import { describe, expect, test } from "vitest";
import { cancelContent } from "../../src/feed/cancelContent.ts";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { lookFrom, stepTime } from "../../src/feed/eventTime.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import type { EventContent } from "../../src/feed/types.ts";
import type { Plan, Standing } from "../../src/plan/types.ts";
import { HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";
import {
  at,
  COLOUR,
  contextOf,
  fellOver,
  homeSteps,
  planOf,
  PUT_ON,
  salonSteps,
  setDone,
  settingsOf,
  step,
  wornFrom,
} from "./feed-plans.ts";

const context = contextOf();
const london = Zone.named("Europe/London") as Zone;
const settings = settingsOf();
const kinds = (contents: readonly EventContent[]): readonly string[] => contents.map(({ kind }) => kind);
const standing = (contents: readonly EventContent[]): readonly EventContent[] =>
  contents.filter(({ cancelled }) => !cancelled);
const find = (contents: readonly EventContent[], kind: string): EventContent =>
  contents.find((content) => content.kind === kind) as EventContent;

describe("times of events", () => {
  const timeOf = (opens: Instant, due: Instant) => stepTime(step("screening", opens, due), settings, london);

  test("a step done by a time ends at its due and starts an hour before", () => {
    expect(timeOf(COLOUR - 9 * HOUR, COLOUR)).toEqual({ from: COLOUR - HOUR, to: COLOUR });
  });

  test("it starts when it opens if that is later, but at least fifteen minutes before its end", () => {
    expect(timeOf(COLOUR - 20 * MINUTE, COLOUR)).toEqual({ from: COLOUR - 20 * MINUTE, to: COLOUR });
    expect(timeOf(COLOUR - 5 * MINUTE, COLOUR)).toEqual({ from: COLOUR - 15 * MINUTE, to: COLOUR });
    expect(timeOf(COLOUR, COLOUR)).toEqual({ from: COLOUR - 15 * MINUTE, to: COLOUR });
  });

  test("a removal starts when it opens, at night too, and lasts fifteen minutes", () => {
    const night = at("2026-12-08T03:00:00Z");
    expect(stepTime(step("removal", night, night + 3 * HOUR), settings, london)).toEqual({
      from: night,
      to: night + 15 * MINUTE,
    });
  });

  test("a look starts in the client's hours, with fifteen minutes of that day left (counting.md 18)", () => {
    const look = (opens: string, due: string): Instant =>
      lookFrom(step("reading", at(opens), at(due), { n: 1 }), "08:00-21:00", london);
    expect(look("2026-12-08T11:00:00Z", "2026-12-08T14:00:00Z")).toBe(at("2026-12-08T11:00:00Z"));
    expect(look("2026-12-08T03:00:00Z", "2026-12-08T11:00:00Z")).toBe(at("2026-12-08T08:00:00Z"));
    expect(look("2026-12-08T20:45:00Z", "2026-12-08T21:00:00Z")).toBe(at("2026-12-08T20:45:00Z"));
    expect(look("2026-12-08T20:46:00Z", "2026-12-09T11:00:00Z")).toBe(at("2026-12-09T08:00:00Z"));
    // Capped by the result: no moment of the client's day is left, so it is shown from its opening.
    expect(look("2026-12-08T03:00:00Z", "2026-12-08T04:00:00Z")).toBe(at("2026-12-08T03:00:00Z"));
  });

  test("the appointment lasts as the diary says, or an hour", () => {
    const plan = planOf("on-track", salonSteps());
    const colourOf = (end: Instant | null) =>
      find(clientEvents({ ...plan, booking: { ...plan.booking, end } }, context), "colour").time;
    expect(colourOf(COLOUR + 2 * HOUR)).toEqual({ allDay: false, from: COLOUR, to: COLOUR + 2 * HOUR });
    expect(colourOf(null)).toEqual({ allDay: false, from: COLOUR, to: COLOUR + HOUR });
    expect(colourOf(COLOUR)).toEqual({ allDay: false, from: COLOUR, to: COLOUR + HOUR });
  });
});

describe("what each feed holds", () => {
  const plan = planOf("on-track", homeSteps());

  test("a client's: her steps and the appointment", () => {
    expect(kinds(clientEvents(plan, context))).toEqual([
      "screening",
      "arrival",
      "application",
      "removal",
      "reading",
      "reading",
      "colour",
    ]);
  });

  test("the salon's: every step, and no appointment", () => {
    expect(kinds(salonEvents(plan, context))).toEqual(plan.steps.map(({ kind }) => kind));
  });

  test("steps point to the appointment, the test by the rule's hours, what follows it by none", () => {
    const contents = clientEvents(plan, context);
    const { uid } = find(contents, "colour");
    expect(contents.slice(0, -1).map(({ before }) => before?.uid)).toEqual(Array.from({ length: 6 }, () => uid));
    expect(find(contents, "application").before?.gap).toBe("PT120H");
    expect(find(contents, "removal").before?.gap).toBeNull();
  });

  test("a look after the appointment does not have to be finished before it", () => {
    const late = step("reading", COLOUR + HOUR, COLOUR + 4 * HOUR, { n: 3 });
    expect(clientEvents(planOf("on-track", [late]), context)[0]?.before).toBeNull();
  });

  test("the same plan seen at another moment of the same standing says the same", () => {
    const later = { ...plan, asOf: plan.asOf + HOUR };
    expect(clientEvents(later, context)).toEqual(clientEvents(plan, context));
    expect(salonEvents(later, context)).toEqual(salonEvents(plan, context));
  });
});

describe("a step that shut days moved", () => {
  const text = "Fri 25 Dec (Christmas Day): no post. Posting the kit is due Wed 16:30 instead of Thu 16:30.";
  const moved = (asOf: number): Plan =>
    planOf("on-track", homeSteps(), { asOf, why: [{ code: "shipping-moved", text }] });

  test("says so in its own event, and no other does", () => {
    const told = salonEvents(moved(0), context).filter(({ description }) => description.includes(text));
    expect(kinds(told)).toEqual(["shipping"]);
    expect(clientEvents(moved(0), context).some(({ description }) => description.includes(text))).toBe(false);
  });

  test("is no longer explained once its time has passed: then it is asked about", () => {
    const { description } = find(salonEvents(moved(PUT_ON), context), "shipping");
    expect(description).not.toContain(text);
  });
});

describe("a test that nobody has recorded", () => {
  test("is asked about once its time has passed, never called missed (counting.md 22)", () => {
    const late = planOf("late", homeSteps(), { asOf: PUT_ON + 1 });
    const application = find(clientEvents(late, context), "application");
    expect(application.summary).toBe("Is your skin test on? Tell us here");
    expect(application.description).toContain("If it is not, telephone 020 7946 0000 before you put one on.");
    expect(find(clientEvents({ ...late, asOf: PUT_ON }, context), "application").summary).toBe(
      "Put your skin test on by Sun 10:30",
    );
    expect(find(clientEvents(late, contextOf({}, null)), "application").summary).toBe(
      "Is your skin test on? Tell the salon",
    );
    expect(find(salonEvents(late, context), "application").summary).toBe("Is M.T.'s skin test on? Ask and record");
  });

  test("leaves removal and looks conditional until it is recorded", () => {
    const removal = (recorded: boolean): string =>
      find(clientEvents(planOf("due", homeSteps(recorded)), context), "removal").summary;
    expect(removal(false)).toBe(
      "Take the skin test off 48 hours after you put it on (Tue 10:30 if that was Sun 10:30)",
    );
    expect(removal(true)).toBe("Take the skin test off from Tue 10:30, by Tue 13:30");
    const { description } = find(clientEvents(planOf("due", homeSteps()), context), "removal");
    expect(description).toContain("If it went on Sun 10:30: from Tue 8 Dec 2026, 10:30 to 13:30.");
    expect(description).not.toContain("When:");
  });

  test("once recorded is done, and no event asks for a second one", () => {
    const done = planOf("due", setDone(homeSteps(true), "screening", "arrival", "application"), {
      asOf: PUT_ON + HOUR,
    });
    expect(find(clientEvents(done, context), "application").summary).toBe("Done: Put your skin test on by Sun 10:30");
  });
});

describe("a stop", () => {
  const stopped = planOf("stop", setDone(homeSteps(), "screening", "arrival"));

  test("leaves a client one thing to do: telephone about the appointment", () => {
    const contents = clientEvents(stopped, context);
    expect(kinds(standing(contents))).toEqual(["colour"]);
    expect(find(contents, "colour").summary).toBe("Please telephone Juniper Lane Colour Room about this appointment");
  });

  test("makes every open step a tombstone that no longer tells what to do", () => {
    for (const contents of [clientEvents(stopped, context), salonEvents(stopped, context)]) {
      const tombstones = contents.filter(({ cancelled }) => cancelled);
      expect(tombstones.length).toBeGreaterThanOrEqual(4);
      for (const { summary, description } of tombstones) {
        expect(summary).toMatch(/^Cancelled: /);
        expect(description).not.toMatch(/Use the kit|Look at|When:|If it went on/);
      }
    }
  });

  test("calls off a kit that was left behind as well", () => {
    expect(kinds(standing(clientEvents({ ...fellOver(), standing: "stop" }, context)))).toEqual(["colour"]);
    expect(standing(salonEvents({ ...fellOver(), standing: "stop" }, context))).toEqual([]);
  });

  test("holds when the appointment has passed, and lifted brings the steps back as they were", () => {
    const past: Plan = { ...stopped, standing: "past", why: [{ code: "stop", text: "" }] };
    expect(kinds(standing(clientEvents(past, context)))).toEqual(["colour"]);
    const lifted: Plan = { ...stopped, standing: "on-track" };
    expect(clientEvents(lifted, context)).toEqual(clientEvents(planOf("on-track", stopped.steps), context));
    expect(standing(clientEvents(lifted, context))).toHaveLength(7);
  });
});

describe("other standings", () => {
  test("a cancelled booking: everything is called off, in words too", () => {
    for (const contents of [clientEvents, salonEvents].map((events) =>
      events(planOf("cancelled", homeSteps()), context),
    )) {
      expect(contents.length).toBeGreaterThanOrEqual(7);
      for (const { cancelled, summary } of contents) {
        expect(cancelled).toBe(true);
        expect(summary).toMatch(/^Cancelled: /);
      }
    }
  });

  test("no time left: the client is asked to telephone, the salon gets a notice over all the days left", () => {
    const until = at("2026-12-09T10:30:00Z");
    const route = {
      route: "in-salon",
      fits: false,
      until,
      firstDue: null,
      earliest: null,
      why: { code: "", text: "" },
    } as const;
    const plan = planOf("no-time", salonSteps(), { asOf: until + 30 * HOUR, routes: [route] });
    const contents = clientEvents(plan, context);
    expect(kinds(standing(contents))).toEqual(["colour"]);
    expect(find(contents, "colour").summary).toMatch(/^Please telephone Juniper Lane Colour Room: no time is left/);
    const notice = find(salonEvents(plan, context), "notice");
    expect(standing(salonEvents(plan, context))).toEqual([notice]);
    expect(notice.time).toEqual({ allDay: true, from: london.dayAt(until), to: london.dayAt(COLOUR) + 1 });
    expect(notice.summary).toBe(
      "No time left for a skin test: M.T., colour on Fri 11 Dec 2026, 10:30. Telephone the client",
    );
    expect(salonEvents({ ...plan, asOf: plan.asOf + 24 * HOUR }, context)).toEqual(salonEvents(plan, context));
  });

  test.each<Standing>(["on-track", "due", "late", "ready", "past"])("%s: nothing is called off", (each) => {
    const plan = planOf(each, homeSteps());
    expect(standing(clientEvents(plan, context))).toHaveLength(7);
    expect(standing(salonEvents(plan, context))).toHaveLength(each === "late" ? 9 : 8);
  });

  test("late: a notice at the top of each day says what to ask, from the day it was due to the day of the colour", () => {
    const plan = planOf("late", homeSteps(), { asOf: at("2026-11-27T17:00:00Z") });
    const notice = find(salonEvents(plan, context), "notice");
    expect(notice.summary).toBe(
      "Late: Has M.T. answered the screening questions? Ask and record (colour on Fri 11 Dec 2026, 10:30)",
    );
    expect(notice.time).toEqual({
      allDay: true,
      from: context.zone.dayAt(at("2026-11-26T16:30:00Z")),
      to: context.zone.dayAt(COLOUR) + 1,
    });
  });

  test("late: a name with braces in it is a name", () => {
    const plan = planOf("late", homeSteps(), { asOf: at("2026-11-27T17:00:00Z") });
    const named = { ...plan, booking: { ...plan.booking, client: { id: "c1", name: "{at} {nothing}" } } };
    const names = contextOf({ show: { clients: "names" } });
    expect(find(salonEvents(named, names), "notice").summary).toContain("Has {at} {nothing} answered");
  });
});

describe("a kit left behind", () => {
  test("keeps its removal and looks, in conditional words, beside the walk-in", () => {
    const contents = standing(clientEvents(fellOver(), context));
    expect(kinds(contents)).toEqual(["screening", "application", "reading", "removal", "reading", "reading", "colour"]);
    expect(find(contents, "removal").summary).toMatch(/^Take the skin test off 48 hours after you put it on \(/);
  });

  test("keeps them when no time is left, since it may be on", () => {
    expect(kinds(standing(clientEvents({ ...fellOver(), standing: "no-time" }, context)))).toContain("removal");
  });

  test("makes the walk-in say that no second test is to be worn", () => {
    const words = "If your kit is already on, tell us here; do not have a second test.";
    const application = find(clientEvents(fellOver(), context), "application");
    expect(application.summary).toBe(`Come in for your skin test by Wed 10:30. ${words}`);
    expect(application.description.startsWith(words)).toBe(true);
    expect(find(salonEvents(fellOver(), context), "application").description).toMatch(
      /^A kit was posted and may be on/,
    );
    const done = { ...fellOver(), steps: setDone(salonSteps(), "application") };
    expect(find(clientEvents(done, context), "application").summary).not.toContain(words);
  });
});

describe("a test that is on and does not count", () => {
  const fault = { code: "applied-too-late", text: "The test that went on Thu 10:30 does not count: that is too near." };
  const told = (each: Standing): Plan =>
    planOf(each, salonSteps(), { leftBehind: wornFrom(PUT_ON, true), why: [fault] });

  test("keeps its removal and looks, also where no time is left", () => {
    for (const each of ["due", "no-time"] as const) {
      const events = clientEvents(told(each), context);
      expect(find(events, "removal").summary).toBe("Take the skin test off from Tue 10:30, by Tue 13:30");
      expect(find(events, "removal").cancelled).toBe(false);
    }
  });

  test("makes the walk-in say that no second one is to be worn beside it, to both", () => {
    const { summary, description } = find(clientEvents(told("due"), context), "application");
    const words = "A test of yours that does not count is on already: telephone 020 7946 0000 before you have another.";
    expect(summary).toBe(`Come in for your skin test by Wed 10:30. ${words}`);
    expect(description.startsWith(words)).toBe(true);
    const salon = find(salonEvents(told("due"), context), "application").description;
    expect(salon).toMatch(/^A test that does not count is told to be on/);
    expect(salon).toContain(fault.text);
    const off = { ...told("due"), leftBehind: setDone(wornFrom(PUT_ON, true), "removal") };
    expect(find(clientEvents(off, context), "application").summary).toBe("Come in for your skin test by Wed 10:30");
  });

  test("where no time is left is not asked for again, and both hear why", () => {
    expect(find(clientEvents(told("no-time"), context), "colour").description).toContain("does not count");
    expect(find(clientEvents(told("no-time"), context), "colour").description).not.toContain("it may still count");
    expect(find(salonEvents(told("no-time"), context), "notice").description.startsWith(fault.text)).toBe(true);
  });
});

describe("a result", () => {
  const told = (each: Standing, more: Partial<Plan> = {}): EventContent =>
    find(
      salonEvents(planOf(each, setDone(homeSteps(true), "application", "reading", "result"), more), context),
      "result",
    );
  const past = { asOf: COLOUR + 1 };

  test("is done where somebody confirmed it, also once the appointment has passed", () => {
    expect(told("ready").task.done).toBe(true);
    expect(told("past", { ...past, why: [{ code: "ready", text: "" }] }).summary).toMatch(/^Done: /);
  });

  test("is never done where nobody did: it is asked for, and called off under a stop or where a new test is needed", () => {
    expect(told("due").summary).toMatch(
      /nobody has confirmed yet\. Confirm before the colour on Fri 11 Dec 2026, 10:30$/,
    );
    const unready = told("past", { ...past, why: [{ code: "not-ready", text: "" }] });
    expect([unready.summary, unready.task.done, unready.alarms]).toEqual([
      "M.T.: is the result recorded? Colour only if it is recorded and confirmed",
      false,
      [],
    ]);
    const stop = { why: [{ code: "stop", text: "" }] };
    const newTest = { alarm: { kind: "new-test", since: PUT_ON } } as const;
    for (const each of [told("stop", stop), told("past", { ...past, ...stop }), told("due", newTest)]) {
      expect([each.cancelled, each.task.done]).toEqual([true, false]);
    }
  });
});

describe("a stop that is told after the colour", () => {
  const told = COLOUR + 72 * HOUR;
  const plan = planOf("past", homeSteps(), {
    asOf: told,
    why: [{ code: "stop", text: "" }],
    alarm: { kind: "stop", since: told },
  });

  test("stands in the salon's calendar for a week from the day it was told, without what was told", () => {
    const notice = find(salonEvents(plan, context), "notice");
    expect(notice.summary).toBe("Telephone M.T. today about the colour on Fri 11 Dec 2026, 10:30");
    expect(notice.time).toEqual({ allDay: true, from: london.dayAt(told), to: london.dayAt(told) + 7 });
    expect(`${notice.summary} ${notice.description}`).not.toMatch(/reaction|allerg/i);
  });

  test("asks the client to telephone about a colour that was", () => {
    const { summary, description } = find(clientEvents(plan, context), "colour");
    expect(summary).toBe("Please telephone Juniper Lane Colour Room about your colour on Fri 11 Dec 2026, 10:30");
    expect(description).not.toContain("before you come");
  });

  test("asks nothing about another colour that was, before", () => {
    const { summary, description } = find(clientEvents({ ...plan, alarm: null }, context), "colour");
    expect(summary).toBe("Your colour at Juniper Lane Colour Room, Fri 10:30");
    expect(description).not.toContain("what was told");
  });
});

test("where nothing is recorded and nothing fits any more, her appointment asks whether the test is on", () => {
  const { summary } = find(clientEvents(planOf("late", homeSteps(), { asOf: PUT_ON + HOUR }), context), "colour");
  expect(summary).toBe(
    "Is your skin test on? Tell us here, or telephone Juniper Lane Colour Room before your colour, Fri 10:30",
  );
});

test("an appointment that the diary no longer tells clearly says that its time may be wrong, to both", () => {
  const plan = planOf("due", homeSteps(), { why: [{ code: "entry-unread", text: "" }] });
  expect(find(clientEvents(plan, context), "colour").description).toMatch(/^The salon's diary cannot be read/);
  for (const contents of [clientEvents(plan, context), salonEvents(plan, context)]) {
    expect(find(contents, "application").description).toMatch(/its time may be wrong/);
  }
});

test("what is done is not asked for again, and keeps what to look for", () => {
  const plan = planOf("due", setDone(homeSteps(true), "screening", "arrival", "application"));
  const { description } = find(clientEvents(plan, context), "application");
  expect(description).toMatch(/^This is recorded\. There is nothing more to do for it\./);
  expect(description).not.toMatch(/Use the kit|Leave it on|Your kit|When:/);
  expect(description).toContain("What to look for:");
});

test("a tombstone of a test's step still says what to do with one that is on, one of anything else does not", () => {
  const [screening, , application] = clientEvents(planOf("cancelled", homeSteps()), context);
  expect(application?.description).toMatch(
    /^If a skin test is on and nothing shows, take it off when its time is over/,
  );
  expect(application?.description).toContain("If something shows, at any time: take the test off");
  expect(screening?.description).toMatch(/^Trouble breathing/);
});

test("a test in the diary is not late while it is being put on", () => {
  const steps = salonSteps().map((each) =>
    each.kind === "application" ? { ...each, opens: each.due, booked: { until: each.due + HOUR / 4 } } : each,
  );
  const on = COLOUR - 48 * HOUR;
  const during = planOf("late", setDone(steps, "screening"), { asOf: on + 60 });
  expect(find(clientEvents(during, context), "application").summary).toBe(
    "Come to the salon for your skin test, Wed 10:30",
  );
  expect(salonEvents(during, context).some(({ kind }) => kind === "notice")).toBe(false);
  const after = { ...during, asOf: on + HOUR / 4 + 1 };
  expect(find(salonEvents(after, context), "notice").summary).toMatch(/^Late: Is M\.T\.'s skin test on\?/);
});

test("a tombstone keeps time and UID, and is its own tombstone", () => {
  const [event] = clientEvents(planOf("on-track", homeSteps()), context) as readonly [EventContent];
  const tombstone = cancelContent(event);
  expect([tombstone.uid, tombstone.time, tombstone.cancelled]).toEqual([event.uid, event.time, true]);
  expect(cancelContent(tombstone)).toEqual(tombstone);
});
