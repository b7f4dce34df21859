/**
 * Sequences of records for property tests: whole stories that would end ready, told to the second around every limit, then
 * disturbed; and records at random. Nothing here expects a result.
 */
import * as fc from "fast-check";
import type { Fact, TestAhead, TestAppointment } from "../../src/plan/types.ts";
import { type Bare, BOOKING, makeFact } from "./record-facts.ts";
import type { JudgedSalon } from "./record-judged.ts";
import { anything, bareOf, noise, slip, slipOf } from "./record-noise.ts";
import { SALONS } from "./record-salons.ts";

const HOUR_S = 3_600;
const DAY_S = 86_400;

/** Starts on weekdays; three lie within a week of a change of London's or Santiago's clocks. */
const STARTS = ["2026-10-29T10:30", "2026-12-11T10:30", "2026-03-30T12:00", "2026-09-07T14:00"].map(
  (text) => Date.parse(`${text}Z`) / 1000,
);

type Drawn<A> = A extends fc.Arbitrary<infer T> ? T : never;

const edge = fc.constantFrom(0, 0, 0, 0, 0, 1, -1, 60);
const slack = fc.oneof(fc.constantFrom(0, 0, 1, -1), fc.integer({ min: 0, max: 20 * HOUR_S }));
const rarely = <T>(arbitrary: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 6, arbitrary: fc.constant(undefined) }, { weight: 1, arbitrary });

/** One whole test, from its posting to its looks; hours hang on the start it is for. */
const thread = fc.record({
  which: fc.nat({ max: 1 }),
  slack,
  /** Put on about the first second of a window, not the last, where there is a greatest lead. */
  isFirst: fc.constantFrom(false, false, true),
  second: rarely(fc.integer({ min: 0, max: 60 * HOUR_S })),
  named: fc.boolean(),
  posted: fc.boolean(),
  removed: fc.constantFrom(undefined, 0, 0, 0, 60, -900, -901, 2 * HOUR_S),
  looks: fc.array(edge, { minLength: 4, maxLength: 4 }),
  spread: fc.constantFrom(0, 0, 0, 300, 600),
  product: fc.constantFrom("line A", "line A", null),
  shade: fc.constantFrom(6, 4, 6, 9, null),
});

const threadOf = (told: Drawn<typeof thread>, salon: JudgedSalon, start: number, booking: string): readonly Bare[] => {
  const test = salon.tests[told.which] ?? salon.tests[0];
  const wear = (test.wear ?? 0) * HOUR_S;
  const isWindow = told.isFirst && test.most !== null;
  const reach = test.least * HOUR_S + (test.from === "removal" ? wear : 0);
  const at = start - reach - (isWindow ? ((test.most ?? 0) - test.least) * HOUR_S + (told.looks[3] ?? 0) : told.slack);
  const { product, shade } = told;
  const removed = told.removed === undefined ? undefined : at + wear + told.removed;
  const isKit = test.route === "home-kit" && told.posted;
  const afterWear = (hours: number): number =>
    removed !== undefined && hours * HOUR_S >= wear ? Math.max(0, removed - at - wear) : 0;
  const looks = test.looks.filter((hours) => hours * HOUR_S <= reach);
  return [
    ...(isKit
      ? [
          { kind: "posted", at: at - 5 * DAY_S, booking } as const,
          { kind: "arrived", at: at - DAY_S, booking } as const,
        ]
      : []),
    { kind: "applied", at, booking, product, shade, route: told.named || test !== salon.tests[0] ? test.route : null },
    ...(told.second === undefined
      ? []
      : [{ kind: "applied", at: at + told.second, booking, route: test.route } as const]),
    ...(removed === undefined || test.wear === null ? [] : [{ kind: "removed", at: removed, booking } as const]),
    ...looks.map(
      (hours, index): Bare => ({
        kind: "read",
        outcome: "clear",
        booking,
        at: at + hours * HOUR_S + afterWear(hours) + (index < 3 ? told.spread : 0) + (told.looks[index] ?? 0),
      }),
    ),
  ];
};

const nearly = fc.record({
  own: fc.option(thread, { freq: 4 }),
  again: rarely(fc.tuple(thread, fc.integer({ min: -3 * DAY_S, max: 3 * DAY_S }))),
  earlier: fc.option(
    fc.tuple(
      thread,
      fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: fc.integer({ min: 10, max: 230 }) }),
    ),
    { freq: 2 },
  ),
  /** An earlier result alone, without its application. */
  imported: rarely(
    fc.record({
      days: fc.integer({ min: 3, max: 60 }),
      route: fc.constantFrom<Fact["route"][]>("in-salon", "home-kit"),
      outcome: fc.constantFrom<Fact["outcome"][]>("clear", "clear", "not-sure"),
    }),
  ),
  screened: fc.constantFrom<Fact["outcome"][]>("pass", "pass", "pass", "pass", "test-needed"),
  /** Null: in the second in which the test goes on. */
  screenedAt: fc.oneof(
    fc.constant(null),
    fc.integer({ min: -14 * DAY_S, max: -6 * DAY_S }),
    fc.integer({ min: -7 * DAY_S, max: -HOUR_S }),
  ),
  confirmed: fc.oneof(edge, fc.integer({ min: 0, max: 2 * HOUR_S })),
  via: fc.constantFrom<Fact["via"][]>("desk", "api", "desk", "client-link"),
  noise,
  slip: rarely(slip),
  /** Anything at the very second of another record, or the one before or after. */
  beside: fc.option(fc.tuple(anything, fc.nat({ max: 9 }), fc.constantFrom(0, 0, 0, 1, -1)), { freq: 3 }),
  dropped: rarely(fc.nat({ max: 9 })),
  doubled: rarely(fc.nat({ max: 9 })),
});

const nearlyOf = (story: Drawn<typeof nearly>, salon: JudgedSalon, start: number): readonly Bare[] => {
  const own = story.own ? threadOf(story.own, salon, start, BOOKING) : [];
  const goesOn = own.find((each) => each.kind === "applied")?.at ?? start - 6 * DAY_S;
  const asked = story.screenedAt === null ? goesOn : start + story.screenedAt;
  const told: Bare[] = [{ kind: "screened", at: asked, outcome: story.screened }, ...own];
  if (story.again) told.push(...threadOf(story.again[0], salon, start + story.again[1], BOOKING));
  if (story.earlier) told.push(...threadOf(story.earlier[0], salon, start - story.earlier[1] * DAY_S, "booking-0"));
  const { imported, beside } = story;
  if (imported) {
    const { product, shade } = salon;
    const { outcome, route, days } = imported;
    told.push({ kind: "read", outcome, route, product, shade, booking: "booking-9", at: start - days * DAY_S });
  }
  const newest = Math.max(...told.map((each) => each.at));
  told.push({ kind: "confirmed", at: newest + story.confirmed, via: story.via });
  const kept = told.filter((_, index) => index !== story.dropped);
  const doubled = kept.filter((_, index) => index === story.doubled);
  const neighbour = beside && kept[beside[1] % kept.length];
  return [
    ...kept,
    ...doubled,
    ...(neighbour ? [{ ...bareOf(beside[0], start), at: neighbour.at + beside[2] }] : []),
    ...(story.slip ? slipOf(story.slip, start) : []),
    ...story.noise.map((each) => bareOf(each, start)),
  ];
};

/** Told in order of telling, with ids r0, r1, …; what names no booking is of the booking itself. */
const tell = (bare: readonly Bare[]): readonly Fact[] =>
  bare
    .map(({ toldAfter, ...each }) => ({ ...each, recorded: each.at + (toldAfter ?? 0) }))
    .toSorted((one, other) => one.recorded - other.recorded)
    .map((each, index) => makeFact({ booking: BOOKING, ...each, id: `r${index}` }));

export interface Sequence {
  readonly salon: (typeof SALONS)[number];
  readonly start: number;
  readonly samePerson: boolean;
  readonly facts: readonly Fact[];
  /** When answers came that a person has to decide on; null: none. */
  readonly undecidedAt: number | null;
  /** Tests entered in the diary: plans, never tests. */
  readonly appointments: readonly TestAppointment[];
  /** Tests of earlier bookings that are still to come: they cover for the time being, and make nothing ready. */
  readonly ahead: readonly TestAhead[];
  readonly nows: readonly number[];
}

/** A salon, a start, a sequence of records and moments at which to ask. */
export const sequence: fc.Arbitrary<Sequence> = fc
  .record({
    index: fc.nat({ max: SALONS.length - 1 }),
    start: fc.constantFrom(...STARTS),
    samePerson: fc.constantFrom(true, true, true, false),
    story: fc.oneof({ weight: 7, arbitrary: nearly }, { weight: 1, arbitrary: fc.array(anything, { maxLength: 25 }) }),
    when: fc.integer({ min: -10 * DAY_S, max: 3 * DAY_S }),
    undecided: rarely(fc.integer({ min: -10 * DAY_S, max: 0 })),
    booked: rarely(fc.integer({ min: -10 * DAY_S, max: 0 })),
    coming: rarely(fc.integer({ min: 1, max: 20 * DAY_S })),
  })
  .map(({ index, start, samePerson, story, when, undecided, booked, coming }) => {
    const salon = SALONS[index] as (typeof SALONS)[number];
    const bare = Array.isArray(story) ? story.map((each) => bareOf(each, start)) : nearlyOf(story, salon.judged, start);
    const facts = tell(bare);
    const before = facts.map((fact) => fact.at).filter((at) => at <= start);
    return {
      salon,
      start,
      samePerson,
      facts,
      undecidedAt: undecided === undefined ? null : start + undecided,
      appointments: booked === undefined ? [] : [{ start: start + booked, end: null }],
      ahead:
        coming === undefined
          ? []
          : salon.judged.tests.map(({ route }) => ({
              booking: "booking-0",
              start: start - coming,
              route,
              application: start - coming - 6 * DAY_S,
              product: salon.judged.product,
              shade: salon.judged.shade,
            })),
      nows: [...new Set([start + when, start, start + DAY_S, Math.max(start - DAY_S, ...before)])].toSorted(
        (a, b) => a - b,
      ),
    };
  });
