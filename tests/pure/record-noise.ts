/** Records at random, and slips that are corrected by naming nothing. Nothing here expects a result. */
import * as fc from "fast-check";
import type { Fact } from "../../src/plan/types.ts";
import { type Bare, BOOKING, makeFact } from "./record-facts.ts";

const HOUR_S = 3_600;
const DAY_S = 86_400;
type Drawn<A> = A extends fc.Arbitrary<infer T> ? T : never;

const via = fc.constantFrom<Fact["via"][]>("desk", "api", "desk", "client-link");

/** Anything at all, in seconds from the start. */
export const anything = fc.record({
  kind: fc.constantFrom<Fact["kind"][]>(
    ...(["screened", "posted", "arrived", "applied", "removed", "read", "read", "reacted"] as const),
    ...(["confirmed", "route", "note", "correction", "correction", "correction"] as const),
  ),
  at: fc.oneof(
    fc.integer({ min: -30 * DAY_S, max: 2 * DAY_S }),
    fc.integer({ min: -200 * HOUR_S, max: HOUR_S }),
    fc.integer({ min: -20, max: 2 }).map((quarters) => quarters * 6 * HOUR_S),
  ),
  toldAfter: fc.constantFrom(0, 0, 0, 60, 3 * HOUR_S, 3 * DAY_S),
  booking: fc.constantFrom(BOOKING, BOOKING, BOOKING, BOOKING, "booking-0", "booking-9", null),
  read: fc.constantFrom<Fact["outcome"][]>("clear", "clear", "reaction", "not-sure"),
  screened: fc.constantFrom<Fact["outcome"][]>("pass", "pass", "test-needed", "do-not-colour"),
  ground: fc.constantFrom("under-16", "past-reaction", "other"),
  route: fc.constantFrom<Fact["route"][]>("in-salon", "home-kit", "on-file", null),
  via,
  reason: fc.constantFrom(null, "wrong"),
  names: fc.option(fc.nat({ max: 24 })),
});

export const bareOf = (each: Drawn<typeof anything>, start: number): Bare => {
  const { kind, booking, toldAfter } = each;
  const outcome = kind === "read" ? each.read : kind === "screened" ? each.screened : null;
  const ground = outcome === "do-not-colour" ? each.ground : null;
  return {
    kind,
    booking,
    toldAfter,
    outcome,
    via: each.via,
    at: start + each.at,
    route: kind === "applied" || kind === "route" || kind === "read" ? each.route : null,
    reason: kind === "correction" ? each.reason : ground,
    corrects: kind === "correction" && each.names !== null ? `r${each.names}` : null,
  };
};

/** A slip, a stop and a correction that names nothing. Told at once, the correction means the stop; told late, the slip. */
export const slip = fc.record({
  kind: fc.constantFrom<Fact["kind"][]>("posted", "note", "route", "removed", "read"),
  at: fc.integer({ min: -60 * HOUR_S, max: HOUR_S }),
  gap: fc.integer({ min: 0, max: 2 * HOUR_S }),
  stop: fc.constantFrom<Partial<Fact> & Pick<Fact, "kind">>(
    { kind: "reacted" },
    { kind: "read", outcome: "reaction" },
    { kind: "read", outcome: "not-sure" },
    { kind: "screened", outcome: "do-not-colour", reason: "under-16" },
    { kind: "screened", outcome: "do-not-colour", reason: "past-reaction" },
    { kind: "screened", outcome: "do-not-colour", reason: "other" },
  ),
  late: fc.constantFrom(null, null, 0, 1, HOUR_S, 40 * HOUR_S),
  via,
  reason: fc.constantFrom(null, "wrong"),
});

export const slipOf = (
  { kind, at, gap, stop, late, reason, via: by }: Drawn<typeof slip>,
  start: number,
): readonly Bare[] => [
  { kind, at: start + at, route: kind === "route" ? "in-salon" : null, outcome: kind === "read" ? "clear" : null },
  { ...stop, at: start + at + Math.floor(gap / 2), toldAfter: late === null ? 0 : Math.ceil(gap / 2) + late },
  { kind: "correction", at: start + at + gap, reason, via: by },
];

/** None, one or two, or several of them. */
export const noise = fc.oneof(
  { weight: 2, arbitrary: fc.constant<Drawn<typeof anything>[]>([]) },
  { weight: 4, arbitrary: fc.array(anything, { minLength: 1, maxLength: 2 }) },
  { weight: 2, arbitrary: fc.array(anything, { minLength: 3, maxLength: 8 }) },
);

/** One more record, of any kind and time, told after all those that are there. */
export const oneMore = (facts: readonly Fact[], start: number): fc.Arbitrary<Fact> =>
  anything.map((each) => {
    const { toldAfter, ...bare } = bareOf(each, start);
    const told = Math.max(bare.at, ...facts.map((fact) => fact.recorded)) + (toldAfter ?? 0);
    return makeFact({ ...bare, recorded: told, id: `r${facts.length}` });
  });
