/**
 * No sequence of records makes a booking ready that must not be. Engine and door against a judge of the test's own
 * (record-judge.ts), written from counting.md 17, 18, 21, 23 to 25 and 27; what never gives way is counting.md 24.
 * `SEQUENCE_RUNS=20000` tries more and prints how many were ready.
 */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { countBack } from "../../src/plan/countBack.ts";
import { checkFact } from "../../src/plan/factCheck.ts";
import type { Fact, Plan } from "../../src/plan/types.ts";
import { BOOKING, bookingAt, makeFact } from "./record-facts.ts";
import { objectionsToReady } from "./record-judge.ts";
import { oneMore } from "./record-noise.ts";
import { SALONS } from "./record-salons.ts";
import { type Sequence, sequence } from "./record-stories.ts";

const RUNS = Number(process.env["SEQUENCE_RUNS"] ?? 2_000);
/** Of the sequences, at least so many must be ready at some moment, or the first property proves little. */
const READY_SHARE = 0.12;

const planOf = (told: Sequence, facts: readonly Fact[], now: number): Plan => {
  const { start, samePerson, undecidedAt, appointments, ahead, salon } = told;
  const booking = bookingAt(start);
  return countBack({ booking, facts, samePerson, ahead, appointments, undecidedAt, now }, salon.rules);
};
const isReady = (plan: Plan): boolean =>
  plan.standing === "ready" || (plan.standing === "past" && plan.why[0]?.code === "ready");
const isStopped = (plan: Plan): boolean =>
  plan.standing === "stop" || (plan.standing === "past" && plan.why[0]?.code === "stop");

const hasOthersTests = (told: Sequence, facts: readonly Fact[]): boolean =>
  told.ahead.length > 0 ||
  facts.some((fact) => fact.booking !== BOOKING && (fact.kind === "applied" || fact.kind === "read"));

/** What the door keeps, in the order in which it is told. */
const keptOf = (facts: readonly Fact[]): readonly Fact[] =>
  facts.reduce<readonly Fact[]>(
    (kept, fact) => (checkFact(fact, kept, fact.recorded).length === 0 ? [...kept, fact] : kept),
    [],
  );

test.each(["kept by the door", "as they come"])(
  "nothing speaks against a booking that is ready (records %s)",
  (which) => {
    const met = { all: 0, ready: 0, past: 0, onFile: 0, many: 0, heldBack: 0 };
    fc.assert(
      fc.property(sequence, (told) => {
        const facts = which === "as they come" ? told.facts : keptOf(told.facts);
        const { start, samePerson, undecidedAt } = told;
        const readyAt = told.nows.filter((now) => {
          const plan = planOf(told, facts, now);
          const question = { facts, booking: BOOKING, start, now, samePerson, undecidedAt };
          const objections = objectionsToReady(question, told.salon.judged);
          const ready = isReady(plan);
          if (ready) expect(objections).toEqual([]);
          // On file goes before the booking's own test (21): only without other bookings' tests does the judge know which.
          else if (objections.length === 0 && !hasOthersTests(told, facts)) expect(plan.why).toEqual("ready");
          if (objections.length === 1) met.heldBack++;
          if (ready && plan.route === "on-file") met.onFile++;
          if (ready && plan.standing === "past") met.past++;
          return ready;
        });
        met.all++;
        if (readyAt.length > 0) met.ready++;
        if (facts.length > 10) met.many++;
      }),
      { numRuns: RUNS },
    );
    if (process.env["SEQUENCE_RUNS"]) console.info(which, met);
    expect(met.ready / met.all).toBeGreaterThan(READY_SHARE);
    expect(Math.min(met.onFile, met.past, met.many, met.heldBack)).toBeGreaterThan(met.all * 0.02);
  },
);

/** Kinds that may lift a stop: a correction, a test put on after a look not sure, questions asked again. */
const LIFTING: readonly Fact["kind"][] = ["correction", "applied", "screened"];

test("a stop outlasts every further record but a correction, a new test and questions asked again", () => {
  let stopped = 0;
  fc.assert(
    fc.property(
      sequence.chain((told) => fc.tuple(fc.constant(told), oneMore(told.facts, told.start))),
      ([told, more]) => {
        if (LIFTING.includes(more.kind)) return;
        for (const now of told.nows.filter((each) => isStopped(planOf(told, told.facts, each)))) {
          stopped++;
          expect(isStopped(planOf(told, [...told.facts, more], now))).toBe(true);
        }
      },
    ),
    { numRuns: RUNS },
  );
  expect(stopped).toBeGreaterThan(RUNS * 0.1);
});

test("time alone lifts no stop", () => {
  let stopped = 0;
  fc.assert(
    fc.property(sequence, fc.integer({ min: 1, max: 500 * 86_400 }), (told, later) => {
      const newest = Math.max(told.start - 86_400 * 30, ...told.facts.map((fact) => fact.at));
      const now = Math.max(newest, told.nows[0] ?? newest);
      if (!isStopped(planOf(told, told.facts, now))) return;
      stopped++;
      expect(isStopped(planOf(told, told.facts, now + later))).toBe(true);
    }),
    { numRuns: RUNS },
  );
  expect(stopped).toBeGreaterThan(RUNS * 0.1);
});

test("a note is kept and changes nothing", () => {
  fc.assert(
    fc.property(
      sequence.chain((told) => fc.tuple(fc.constant(told), oneMore(told.facts, told.start))),
      ([told, more]) => {
        const now = told.nows.at(-1) ?? told.start;
        const note: Fact = { ...more, kind: "note", outcome: null, corrects: null, at: Math.min(more.at, now) };
        expect(checkFact({ ...note, recorded: now }, told.facts, now)).toEqual([]);
        expect(planOf(told, [...told.facts, note], now)).toEqual(planOf(told, told.facts, now));
      },
    ),
    { numRuns: RUNS },
  );
});

/** The colour of the cases below: Friday 11 December 2026, 10:30, at the first salon. */
const at = (text: string): number => Date.parse(`2026-${text.replace(" ", "T")}:00Z`) / 1000;
const caseOf = (
  facts: readonly Omit<Fact, "id">[],
  now: string,
): { readonly plan: Plan; readonly refused: unknown } => {
  const told = facts.map((fact, index) => ({ ...fact, id: `r${index}` }));
  const input = { booking: bookingAt(at("12-11 10:30")), samePerson: true, now: at(now) };
  const plan = countBack({ ...input, facts: told }, SALONS[0].rules);
  return { plan, refused: told.flatMap((fact, index) => checkFact(fact, told.slice(0, index), fact.recorded)) };
};
const fact = (kind: Fact["kind"], when: string, more: Partial<Fact> = {}): Fact =>
  makeFact({ kind, at: at(when), ...more });

test.each([
  ["a reaction", { kind: "reacted" }],
  ["a look not sure", { kind: "read", outcome: "not-sure" }],
  ["an under-16", { kind: "screened", outcome: "do-not-colour", reason: "under-16" }],
  ["a past reaction", { kind: "screened", outcome: "do-not-colour", reason: "past-reaction" }],
] satisfies [string, Partial<Fact> & Pick<Fact, "kind">][])(
  "a correction that names nothing never means %s that was told after it (counting.md 24)",
  (_what, stop) => {
    const facts = [
      fact("screened", "12-08 09:50", { outcome: "pass" }),
      fact("applied", "12-08 10:00", { route: "in-salon" }),
      fact("read", "12-10 10:10", { outcome: "clear" }),
      fact("confirmed", "12-10 10:20"),
      fact("posted", "12-10 10:30"),
      fact("correction", "12-10 10:45", { reason: "another client's kit" }),
      fact(stop.kind, "12-10 10:40", { ...stop, recorded: at("12-10 11:00") }),
    ];
    const { plan, refused } = caseOf(facts, "12-10 12:00");
    expect([plan.standing, refused]).toEqual(["stop", []]);
  },
);

test("a second removal makes no test count that came off too early (counting.md 17)", () => {
  const facts = [
    fact("screened", "12-05 09:00", { outcome: "pass" }),
    fact("applied", "12-05 10:00", { route: "home-kit" }),
    fact("removed", "12-05 12:00"),
    fact("removed", "12-07 10:00"),
    fact("read", "12-07 10:40", { outcome: "clear" }),
    fact("read", "12-09 10:10", { outcome: "clear" }),
    fact("confirmed", "12-09 11:00"),
  ];
  const { plan, refused } = caseOf(facts, "12-09 12:00");
  expect([plan.standing, plan.applied, refused]).toEqual(["no-time", false, []]);
  const { plan: corrected } = caseOf(
    [...facts.slice(0, 3), fact("correction", "12-05 12:05"), ...facts.slice(3)],
    "12-09 12:00",
  );
  expect(corrected.standing).toBe("ready");
});
