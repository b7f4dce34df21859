/**
 * The laws of counting.md, a to i, over random salons and bookings around clock changes. Each law is checked by a second
 * reckoning written here, or by the engine against itself under a change that must not matter.
 */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { earliestStarts } from "../../src/plan/earliest.ts";
import type { Rules } from "../../src/plan/rules.ts";
import type { Fact, Plan, RouteName, Step } from "../../src/plan/types.ts";
import { parseDuration } from "../../src/time/duration.ts";
import { DAY_SECONDS, type Instant, MINUTE, midnight, parseDay, weekdayOf } from "../../src/time/instant.ts";
import { WEEKDAYS } from "../../src/settings.ts";
import {
  bookingAt,
  compile,
  factsAround,
  makeFact,
  nowAround,
  openStart,
  RUNS,
  type SettingsInput,
  salon,
  startIn,
} from "./plan-arbitraries.ts";

const check = <T>(arbitrary: fc.Arbitrary<T>, law: (given: T) => void, runs = RUNS): void => {
  fc.assert(fc.property(arbitrary, law), { numRuns: runs });
};

/** A salon, a start in it and a moment around that start. */
const cases = (isLimited = true) =>
  salon(isLimited).chain(({ input, rules }) =>
    startIn(rules.zone.name).chain((start) =>
      fc.record({
        input: fc.constant(input),
        rules: fc.constant(rules),
        start: fc.constant(start),
        now: nowAround(start),
      }),
    ),
  );

const planAt = (rules: Rules, start: Instant, now: Instant, facts: readonly Fact[] = []): Plan =>
  countBack({ booking: bookingAt(start), facts, samePerson: true, now }, rules);

/** The plan of one route, asked for by a record long before everything else. */
const planBy = (rules: Rules, start: Instant, route: RouteName): Plan => {
  const at = start - 400 * DAY_SECONDS;
  return planAt(rules, start, at, [makeFact({ kind: "route", at, route })]);
};
const stepOf = (given: Plan, kind: Step["kind"]): Step | undefined => given.steps.find((step) => step.kind === kind);
const seconds = (text: string): number => parseDuration(text) as number;

const covers = (ranges: readonly string[], day: number): boolean =>
  ranges.some((text) => {
    const [from, to] = text.split("/").map((each) => parseDay(each) as number);
    return from !== undefined && from <= day && day <= (to ?? from);
  });

/** Open stretches around an instant, reckoned anew: every span resolved, those that meet joined. */
const stretchesAround = (
  rules: Rules,
  input: SettingsInput,
  at: Instant,
  whose: "salon" | "client",
  daysEachWay = 5,
) => {
  const spansOn = (day: number): readonly string[] => {
    if (whose === "client") return [input.clientHours];
    if (covers(input.closed, day)) return [];
    const isHoliday = covers(input.holidays.add, day);
    if (!input.opening) return isHoliday ? [] : ["00:00-24:00"];
    const hours = input.opening as Record<string, string[]>;
    return hours[isHoliday ? "holiday" : (WEEKDAYS[weekdayOf(day) - 1] as string)] ?? [];
  };
  const minutes = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3));
  const found: { from: Instant; to: Instant }[] = [];
  const today = rules.zone.dayAt(at);
  for (let day = today - daysEachWay; day <= today + daysEachWay; day++) {
    for (const span of spansOn(day)) {
      const [from, to] = span.split("-").map((each) => rules.zone.firstReading(midnight(day) + minutes(each) * MINUTE));
      if ((from as number) < (to as number)) found.push({ from: from as number, to: to as number });
    }
  }
  return found
    .toSorted((one, other) => one.from - other.from)
    .reduce<{ from: Instant; to: Instant }[]>((joined, next) => {
      const last = joined.at(-1);
      if (last && next.from <= last.to) last.to = Math.max(last.to, next.to);
      else joined.push({ ...next });
      return joined;
    }, []);
};

test("law a: no application is due outside its window", () => {
  check(cases(), ({ rules, start }) => {
    for (const rule of rules.tests) {
      const given = planBy(rules, start, rule.route);
      if (given.route !== rule.route) continue;
      const { due } = stepOf(given, "application") as Step;
      const counted = rule.from === "removal" ? due + (rule.wear ?? 0) : due;
      expect(counted).toBeLessThanOrEqual(start - rule.least);
      if (rule.most !== null) expect(counted).toBeGreaterThanOrEqual(start - rule.most);
    }
  });
});

test("law b: walk-ins and kit steps are at the last moment of a resolved stretch, hand-overs inside one", () => {
  check(cases(), ({ rules, input, start }) => {
    const stretches = (at: Instant, whose: "salon" | "client", before: number) =>
      stretchesAround(rules, input, at, whose).map(({ from, to }) => ({ from: from + 15 * MINUTE, to: to - before }));
    const lastIn = (at: Instant, whose: "salon" | "client", before: number): Instant =>
      Math.max(
        ...stretches(at, whose, before).map(({ from, to }) =>
          from <= Math.min(at, to) ? Math.min(at, to) : -Infinity,
        ),
      );
    for (const rule of rules.tests) {
      const given = planBy(rules, start, rule.route);
      if (given.route !== rule.route) continue;
      const application = stepOf(given, "application") as Step;
      const [shipping, screening] = [stepOf(given, "shipping"), stepOf(given, "screening") as Step];
      const latest = start - rule.reach;
      const isWalkIn = rule.route === "in-salon";
      // Rule 5: without hours there is no closing time for `lastWalkIn` to come before.
      const lastWalkIn = input.opening ? seconds(input.lastWalkIn) : 0;
      const expected = isWalkIn ? lastIn(latest, "salon", lastWalkIn) : lastIn(latest, "client", 0);
      // Farther back than the second reckoning looks, the due itself must still be such a moment.
      if (expected > latest - 3 * DAY_SECONDS) expect(application.due).toBe(expected);
      else
        expect(lastIn(application.due, isWalkIn ? "salon" : "client", isWalkIn ? lastWalkIn : 0)).toBe(application.due);
      if (shipping) expect(lastIn(shipping.due, "salon", 0)).toBe(shipping.due);
      const before = (shipping ?? application).due - rule.screening.margin;
      expect(screening.due).toBe(rule.screening.margin > 0 ? lastIn(before, "client", 0) : before);
    }
  });
});

/** When a kit handed over at an instant is there, day by day and without the engine's calendar. */
const simulatePost = (rules: Rules, input: SettingsInput, handedOver: Instant): Instant => {
  const { post } = input;
  const isShut = (day: number): boolean =>
    covers(post.closed, day) || (post.holidays && covers(input.holidays.add, day));
  const at = (day: number, time: string): Instant =>
    rules.zone.firstReading(midnight(day) + (Number(time.slice(0, 2)) * 60 + Number(time.slice(3))) * MINUTE);
  const works = (names: readonly string[], day: number): boolean =>
    names.includes(WEEKDAYS[weekdayOf(day) - 1] as string) && !isShut(day);
  let day = rules.zone.dayAt(handedOver) - 2;
  while (!works(post.collection, day) || at(day, post.lastCollection) < handedOver) day++;
  let left = post.transit;
  for (;;) {
    day++;
    left -= post.count === "calendar" || works(post.delivery, day) ? 1 : 0;
    if (left <= 0 && works(post.delivery, day)) return at(day, post.deliveredBy);
  }
};

test("law c: a kit handed over at its due arrives in time, and one collection later would not", () => {
  check(cases(), ({ rules, input, start }) => {
    const given = planBy(rules, start, "home-kit");
    if (given.route !== "home-kit") return;
    const [shipping, arrival] = [stepOf(given, "shipping"), stepOf(given, "arrival")];
    if (!shipping || !arrival) return;
    expect(simulatePost(rules, input, shipping.due)).toBeLessThanOrEqual(arrival.due);
    // The next moment the salon is open long enough: by then another, later collection takes the kit.
    const later = stretchesAround(rules, input, shipping.due, "salon", 40)
      .map(({ from, to }) => ({ from: Math.max(from + 15 * MINUTE, shipping.due + 1), to }))
      .find(({ from, to }) => from <= to);
    if (later) expect(simulatePost(rules, input, later.from)).toBeGreaterThan(arrival.due);
  });
});

test("law d: a route fits exactly from its earliest start on, where no lead is greatest", () => {
  const openCases = salon(false).chain(({ rules }) =>
    openStart(rules).chain((start) =>
      fc.record({ rules: fc.constant(rules), start: fc.constant(start), now: nowAround(start) }),
    ),
  );
  check(openCases, ({ rules, start, now }) => {
    if (now > start) return;
    const routes = planAt(rules, start, now).routes;
    for (const { route, start: earliest } of earliestStarts(rules, now)) {
      expect(routes.find((each) => each.route === route)?.fits).toBe(earliest !== null && earliest <= start);
      if (earliest === null) continue;
      expect(rules.isOpenAt(earliest)).toBe(true);
      expect(planAt(rules, earliest, now).routes.find((each) => each.route === route)?.fits).toBe(true);
      const before = earliest - MINUTE;
      if (before >= now)
        expect(
          planAt(rules, before, now).routes.find((each) => each.route === route)?.fits && rules.isOpenAt(before),
        ).toBe(false);
    }
  });
});

test("law d: with a greatest lead the earliest start is the first that fits, minute by minute", () => {
  check(
    cases(true),
    ({ rules, now }) => {
      for (const { route, start: earliest } of earliestStarts(rules, now)) {
        const fits = (at: Instant): boolean =>
          planAt(rules, at, now).routes.find((each) => each.route === route)?.fits ?? false;
        const end = earliest ?? now + 400 * DAY_SECONDS;
        if (earliest !== null) expect(fits(earliest)).toBe(true);
        // Every open quarter of an hour before it, and the minutes just before it.
        const from = Math.ceil(now / MINUTE) * MINUTE;
        const step = Math.max(15 * MINUTE, Math.floor((end - from) / 150 / MINUTE) * MINUTE);
        for (let at = from; at < end; at += step) if (rules.isOpenAt(at)) expect(fits(at)).toBe(false);
        for (let at = Math.max(from, end - 5 * MINUTE); at < end; at += MINUTE)
          if (rules.isOpenAt(at)) expect(fits(at)).toBe(false);
      }
    },
    Math.ceil(RUNS / 10),
  );
});

const withFacts = (isLimited = true) =>
  cases(isLimited).chain((each) => factsAround(each.start).map((facts) => ({ ...each, facts })));

test("law e: a later now never brings a route back", () => {
  check(
    fc.tuple(withFacts(), fc.integer({ min: 1, max: 20 * DAY_SECONDS })),
    ([{ rules, start, now, facts }, later]) => {
      const known = facts.filter((fact) => fact.at <= now);
      const [first, second] = [planAt(rules, start, now, known), planAt(rules, start, now + later, known)];
      for (const { route, fits } of second.routes) {
        if (fits) expect(first.routes.find((each) => each.route === route)?.fits).toBe(true);
      }
    },
  );
});

test("law f: a new holiday makes no step up to the removal later", () => {
  const before = ["screening", "shipping", "arrival", "application", "removal"];
  check(fc.tuple(cases(), fc.integer({ min: 0, max: 25 })), ([{ input, start }, daysBefore]) => {
    const plainOpening = input.opening ? { ...input.opening, holiday: [] } : null;
    const plain = { ...input, opening: plainOpening };
    const day = new Date((start - daysBefore * DAY_SECONDS) * 1000).toISOString().slice(0, 10);
    const without = compile(plain) as Rules;
    const withIt = compile({ ...plain, holidays: { add: [...input.holidays.add, day] } }) as Rules;
    for (const { route } of without.tests) {
      const [old, now] = [planBy(without, start, route), planBy(withIt, start, route)];
      if (old.route !== route || now.route !== route) continue;
      for (const step of now.steps.filter((each) => before.includes(each.kind))) {
        expect(step.due).toBeLessThanOrEqual((stepOf(old, step.kind) as Step).due);
      }
    }
  });
});

test("law g: moving a booking later moves no due of its route earlier, where no lead is greatest", () => {
  check(fc.tuple(cases(false), fc.integer({ min: 1, max: 20 * 1440 })), ([{ rules, start }, minutes]) => {
    for (const { route } of rules.tests) {
      const [old, moved] = [planBy(rules, start, route), planBy(rules, start + minutes * MINUTE, route)];
      if (old.route !== route || moved.route !== route) continue;
      old.steps.forEach((step, index) => {
        expect((moved.steps[index] as Step).due).toBeGreaterThanOrEqual(step.due);
      });
    }
  });
});

test("law h: steps follow one another, open before they are due, and know no now", () => {
  const order = ["screening", "shipping", "arrival", "application", "removal"];
  check(withFacts(), ({ rules, start, now, facts }) => {
    for (const { route } of rules.tests) {
      const given = planBy(rules, start, route);
      if (given.route !== route) continue;
      const dues = order.flatMap((kind) => stepOf(given, kind as Step["kind"])?.due ?? []);
      expect(dues).toEqual(dues.toSorted((one, other) => one - other));
    }
    const known = facts.filter((fact) => fact.at <= now);
    const [one, other] = [planAt(rules, start, now, known), planAt(rules, start, now + 3600, known)];
    for (const step of one.steps) {
      expect(step.opens).toBeLessThanOrEqual(step.due);
      if (step.kind !== "reading") expect(step.due).toBeLessThanOrEqual(Math.max(start, step.opens));
    }
    if (one.route !== other.route) return;
    expect(other.steps.map(({ due, opens }) => [opens, due])).toEqual(one.steps.map(({ due, opens }) => [opens, due]));
  });
});

/** The same settings with every object's keys in reverse. */
const turned = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(turned);
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(
    Object.entries(value)
      .toReversed()
      .map(([key, each]) => [key, turned(each)]),
  );
};

test("law i: the order of settings' keys and of the records changes nothing", () => {
  check(withFacts(), ({ rules, input, start, now, facts }) => {
    const same = compile(turned(input)) as Rules;
    const given = planAt(rules, start, now, facts);
    expect(planAt(same, start, now, facts)).toEqual(given);
    expect(planAt(rules, start, now, facts.toReversed())).toEqual(given);
  });
});

/**
 * A plan without what may change at any moment, and which of its steps have opened and are overdue: the feeds put a step
 * that is overdue as a question, whatever the standing.
 */
const lasting = ({ asOf, earliest: _earliest, routes, ...rest }: Plan) => ({
  ...rest,
  turned: rest.booking.cancelled
    ? []
    : [...rest.steps, ...rest.leftBehind].map(({ opens, due }) => [opens <= asOf, due < asOf]),
  routes: routes.map(({ earliest: _each, ...route }) => route),
});

test("nothing but earliest changes from one boundary of a plan to the next", () => {
  const given = fc.record({ given: withFacts(), isCancelled: fc.constantFrom(false, false, false, true) });
  check(
    given,
    ({ given: { rules, start, facts, now }, isCancelled }) => {
      const booking = { ...bookingAt(start), cancelled: isCancelled };
      const ahead = [
        {
          booking: "booking-0",
          start: start - 5 * DAY_SECONDS,
          route: "home-kit" as const,
          application: start - 12 * DAY_SECONDS,
          product: null,
          shade: null,
        },
      ];
      const at = (moment: Instant): Plan => countBack({ booking, facts, samePerson: true, ahead, now: moment }, rules);
      let moment: Instant = Math.min(now, start - 20 * DAY_SECONDS);
      for (;;) {
        const plan = at(moment);
        const end = plan.next ?? moment + 60 * DAY_SECONDS;
        expect(end).toBeGreaterThan(moment);
        expect(lasting(at(end - 1))).toEqual(lasting(plan));
        expect(lasting(at(Math.floor((moment + end) / 2)))).toEqual(lasting(plan));
        if (plan.next === null) return;
        moment = plan.next;
      }
    },
    Math.ceil(RUNS / 3),
  );
});

test("with records, the earliest start of a route is the first at which it would fit", () => {
  check(
    withFacts(),
    ({ rules, start, now, facts }) => {
      const known = facts.filter((fact) => fact.at <= now);
      const fitsAt = (at: Instant, route: RouteName): boolean =>
        planAt(rules, at, now, known).routes.find((each) => each.route === route)?.fits ?? false;
      for (const { route, earliest } of planAt(rules, start, now, known).routes) {
        if (earliest === null) continue;
        expect([earliest % MINUTE, earliest >= now, rules.isOpenAt(earliest)]).toEqual([0, true, true]);
        expect(fitsAt(earliest, route)).toBe(true);
        const step = Math.max(15, Math.floor((earliest - now) / MINUTE / 60)) * MINUTE;
        for (let at = earliest - MINUTE; at >= now; at -= step)
          if (rules.isOpenAt(at)) expect(fitsAt(at, route)).toBe(false);
      }
    },
    Math.ceil(RUNS / 2),
  );
});

test("a stop beats everything but the past and a cancelled booking", () => {
  check(withFacts(), ({ rules, start, now, facts }) => {
    const uncorrected = facts.filter((fact) => fact.kind !== "correction");
    const reacted = makeFact({ kind: "reacted", at: Math.min(now, start) - 60, id: "reaction", booking: "booking-0" });
    const given = planAt(rules, start, now, [...uncorrected, reacted]);
    expect(given.standing).toBe(now > start ? "past" : "stop");
    expect(given.why[0]?.code).toBe("stop");
  });
});
