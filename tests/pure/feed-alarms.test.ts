/**
 * Reminders (calendar-client behaviour: RFC 5545 §3.6.6, RFC 9074 §4; waking hours 08:00 to 21:00 are the default of the
 * settings). Times of the steps: CP1 to CP6, common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { clientEvents } from "../../src/feed/clientEvents.ts";
import { salonEvents } from "../../src/feed/salonEvents.ts";
import type { EventContent } from "../../src/feed/types.ts";
import { writeEvent } from "../../src/feed/writeEvent.ts";
import type { Plan, StepKind } from "../../src/plan/types.ts";
import { formatInstant, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { at, COLOUR, contextOf, homeSteps, planOf, PUT_ON, setDone, STAMPS, step } from "./feed-plans.ts";

const context = contextOf();

const find = (contents: readonly EventContent[], kind: string): EventContent =>
  contents.find((content) => content.kind === kind) as EventContent;

const momentsOf = ({ alarms, time }: EventContent): readonly string[] =>
  alarms.map(({ before }) => formatInstant(time.from - before));

const planned = (...steps: Parameters<typeof step>[]): Plan =>
  planOf(
    "on-track",
    steps.map((given) => step(...given)),
  );

const clientMoments = (plan: Plan, kind: StepKind | "colour"): readonly string[] =>
  momentsOf(find(clientEvents(plan, context), kind));

describe("36: a reminder before a deadline, at hours in which a client is awake", () => {
  test("the day before and the hour before, by the clock of the salon", () => {
    const plan = planned(["application", at("2026-12-04T08:00:00Z"), PUT_ON]);
    expect(clientMoments(plan, "application")).toEqual(["2026-12-05T10:30:00Z", "2026-12-06T09:30:00Z"]);
  });

  test("in the night it comes earlier, an hour before the evening's end, on both days", () => {
    const due = at("2026-12-06T05:30:00Z");
    const plan = planned(["application", at("2026-12-01T08:00:00Z"), due]);
    expect(clientMoments(plan, "application")).toEqual(["2026-12-04T20:00:00Z", "2026-12-05T20:00:00Z"]);
  });

  test("the day before also of what opens on its last day only, and of what opens and is due in one night", () => {
    const plan = planned(["application", at("2026-12-06T08:00:00Z"), PUT_ON]);
    expect(clientMoments(plan, "application")).toEqual(["2026-12-05T10:30:00Z", "2026-12-06T09:30:00Z"]);
    const night = planned(["application", at("2026-12-06T01:00:00Z"), at("2026-12-06T05:00:00Z")]);
    expect(clientMoments(night, "application")).toEqual(["2026-12-04T20:00:00Z", "2026-12-05T20:00:00Z"]);
  });

  test("what is done from a time on is told at its first waking moment, and an hour before it is due", () => {
    const opens = at("2026-12-08T03:00:00Z");
    const counted = { from: opens - 48 * HOUR, after: 48 * HOUR, recorded: true };
    const plan = planned(["removal", opens, opens + 9 * HOUR, { counted }]);
    expect(clientMoments(plan, "removal")).toEqual(["2026-12-08T08:00:00Z", "2026-12-08T11:00:00Z"]);
    const short = planned(["removal", opens, opens + 3 * HOUR, { counted }]);
    expect(clientMoments(short, "removal")).toEqual(["2026-12-07T20:00:00Z"]);
  });

  test("a change of the clocks between the two takes no hour away (IANA tzdata: London, 25 October 2026, 01:00 UTC)", () => {
    const due = at("2026-10-25T12:00:00Z");
    const plan = { ...planned(["application", at("2026-10-20T08:00:00Z"), due]), asOf: at("2026-10-20T08:00:00Z") };
    expect(clientMoments(plan, "application")).toEqual(["2026-10-24T12:00:00Z", "2026-10-25T11:00:00Z"]);
  });

  test("an appointment for the test is reminded of before it begins, not before it ends", () => {
    const begins = at("2026-12-09T10:00:00Z");
    const plan = planned(["application", begins, begins + 30 * MINUTE, { booked: { until: begins + 15 * MINUTE } }]);
    expect(clientMoments(plan, "application")).toEqual(["2026-12-08T10:00:00Z", "2026-12-09T09:00:00Z"]);
  });

  test("in the feed of whoever does the step alone", () => {
    const plan = planOf("on-track", homeSteps());
    const [client, salon] = [clientEvents(plan, context), salonEvents(plan, context)];
    const reminded = (contents: readonly EventContent[]): readonly string[] => [
      ...new Set(contents.filter(({ alarms }) => alarms.length > 0).map(({ kind }) => kind)),
    ];
    expect(reminded(client)).toEqual(["screening", "arrival", "application", "removal", "reading"]);
    expect(reminded(salon)).toEqual(["shipping", "result"]);
  });

  test("none of what is done, late, or called off", () => {
    const done = planOf("on-track", setDone(homeSteps(), "application"));
    expect(clientMoments(done, "application")).toEqual([]);
    const late = planOf("late", homeSteps(), { asOf: PUT_ON + HOUR });
    expect(clientMoments(late, "application")).toEqual([]);
    const stopped = clientEvents(planOf("stop", homeSteps()), context);
    expect(stopped.filter(({ alarms, kind }) => alarms.length > 0 && kind !== "colour")).toEqual([]);
  });

  test("of the appointment itself only where she is to telephone or to answer, and not once it has passed", () => {
    expect(clientMoments(planOf("on-track", homeSteps()), "colour")).toEqual([]);
    const both = [formatInstant(COLOUR - 24 * HOUR), formatInstant(COLOUR - 2 * HOUR)];
    for (const standing of ["stop", "no-time"] as const) {
      expect(clientMoments(planOf(standing, homeSteps()), "colour")).toEqual(both);
    }
    expect(clientMoments(planOf("late", homeSteps(), { asOf: PUT_ON + HOUR }), "colour")).toEqual(both);
    const stopped = planOf("past", homeSteps(), { asOf: COLOUR + HOUR, why: [{ code: "stop", text: "" }] });
    expect(clientMoments(stopped, "colour")).toEqual([]);
  });

  test("DISPLAY, DESCRIPTION, a UID that stays when the time moves, and a TRIGGER in exact hours", () => {
    const eventAt = (due: Instant): EventContent =>
      find(clientEvents(planned(["application", due - 48 * HOUR, due]), context), "application");
    const [first, moved] = [eventAt(PUT_ON), eventAt(PUT_ON + 26 * HOUR)];
    expect(moved.alarms.map(({ uid }) => uid)).toEqual(first.alarms.map(({ uid }) => uid));
    expect(new Set(first.alarms.map(({ uid }) => uid)).size).toBe(2);
    const text = writeEvent(first, STAMPS, null);
    const alarms = text.split("BEGIN:VALARM\r\n").slice(1);
    expect(alarms.map((alarm) => alarm.split("\r\n").slice(1, 5))).toEqual([
      ["ACTION:DISPLAY", `DESCRIPTION:${first.summary}`, "TRIGGER:-PT23H", "END:VALARM"],
      ["ACTION:DISPLAY", `DESCRIPTION:${first.summary}`, "TRIGGER:PT0S", "END:VALARM"],
    ]);
    expect(text.indexOf("BEGIN:VALARM")).toBeGreaterThan(text.indexOf("RELATED-TO"));
  });

  test("TRIGGER writes minutes and seconds, before and after the start (RFC 5545 §3.3.6)", () => {
    const triggerOf = (before: number): string =>
      /TRIGGER:(\S+)/.exec(
        writeEvent(
          { ...find(clientEvents(planOf("on-track", homeSteps()), context), "colour"), alarms: [{ uid: "a", before }] },
          STAMPS,
          null,
        ),
      )?.[1] ?? "";
    expect([90 * MINUTE, -5 * HOUR, HOUR + 1, 45, -MINUTE].map(triggerOf)).toEqual([
      "-PT1H30M",
      "PT5H",
      "-PT1H0M1S",
      "-PT45S",
      "PT1M",
    ]);
  });
});

describe("a discreet wording", () => {
  const discreet = contextOf({ show: { words: "discreet" } });
  const plans = [
    planOf("on-track", homeSteps()),
    planOf("late", homeSteps(), { asOf: PUT_ON + HOUR }),
    planOf("stop", homeSteps()),
    planOf("no-time", homeSteps()),
  ];

  test("names neither test nor kit, colour nor salon in what stands open in a client's calendar", () => {
    const summaries = plans.flatMap((plan) => clientEvents(plan, discreet)).map(({ summary }) => summary);
    expect(summaries).toContain("Put it on by Sun 10:30");
    expect(summaries).toContain("Your appointment, Fri 10:30");
    for (const summary of summaries) expect(summary).not.toMatch(/test|skin|kit|colou?r|hair|salon|Juniper|allerg/i);
  });

  test("says in its descriptions what the plain one says, and changes no word of the salon's", () => {
    for (const plan of plans) {
      const plain = clientEvents(plan, context).map(({ description }) => description);
      expect(clientEvents(plan, discreet).map(({ description }) => description)).toEqual(plain);
      expect(salonEvents(plan, discreet)).toEqual(salonEvents(plan, context));
    }
  });
});
