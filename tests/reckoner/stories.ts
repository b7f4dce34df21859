/**
 * Random sequences of records for a random salon: a test posted, put on, taken off and looked at more or less when the
 * plan says, now and then an earlier one, a correction or something out of turn.
 * Never tells a record later than `now`.
 */
import * as fc from "fast-check";
import type { Scene } from "./cases.ts";
import { DAY_S, HOUR_S, type Moment, textOf } from "./moments.ts";
import { clockShift, type Test, testOf } from "./protocol.ts";
import type { ReckonInput, ReckonRecord } from "./types.ts";

type Drawn<A> = A extends fc.Arbitrary<infer T> ? T : never;
type Bare = Omit<ReckonRecord, "at" | "id"> & { readonly at: Moment };

const minutes = (min: number, max: number) => fc.integer({ min: min * 12, max: max * 12 }).map((fives) => fives * 300);
/** `percent` of the draws have it. */
const maybe = <T>(percent: number, arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> =>
  fc.oneof({ weight: percent, arbitrary }, { weight: 100 - percent, arbitrary: fc.constant(undefined) });
const via = fc.constantFrom<ReckonRecord["via"][]>("desk", "desk", "api", "client-link");
const seen = fc.constantFrom<ReckonRecord["outcome"][]>(
  "clear",
  "clear",
  "clear",
  "clear",
  "clear",
  "not-sure",
  "reaction",
);

/** Hours are told from the moment they hang on; negative is earlier. */
const thread = fc.record({
  which: fc.nat({ max: 1 }),
  posted: maybe(60, minutes(-14 * 24, 0)),
  again: maybe(10, minutes(12, 96)),
  arrived: maybe(60, minutes(-5 * 24, 6)),
  applied: maybe(75, fc.oneof(minutes(-60, 6), minutes(-40, 0), fc.constantFrom(0, 1, -1))),
  names: fc.boolean(),
  second: maybe(10, minutes(1, 60)),
  removed: maybe(50, fc.constantFrom(-1_200, -901, -900, 0, 0, 0, 60, 3_600, 30_000)),
  /** Every look is clear at its time. */
  tidy: fc.boolean(),
  reads: fc.array(fc.tuple(minutes(-1, 20), seen, via), { maxLength: 3 }),
  product: fc.constantFrom(undefined, "line A", "line B"),
  shade: fc.constantFrom(undefined, 4, 6, 9),
});
const screened = fc.tuple(
  fc.constantFrom<NonNullable<ReckonRecord["outcome"]>[]>(
    "pass",
    "pass",
    "pass",
    "pass",
    "test-needed",
    "do-not-colour",
  ),
  fc.constantFrom("under-16", "past-reaction", "other", "other"),
);
const extra = fc.record({
  kind: fc.constantFrom<ReckonRecord["kind"][]>(
    "screened",
    "screened",
    "confirmed",
    "route",
    "note",
    "correction",
    "read",
    "removed",
    "posted",
    "arrived",
    "reacted",
    "applied",
  ),
  hours: fc.oneof(minutes(-20 * 24, 24), minutes(-4 * 24, 4 * 24)),
  other: fc.boolean(),
  screened,
  outcome: seen,
  route: fc.constantFrom<NonNullable<ReckonRecord["route"]>[]>("in-salon", "home-kit"),
  via,
  reason: fc.constantFrom(undefined, "spoken to her"),
  target: fc.option(fc.nat({ max: 12 })),
});
/** What may be told, in times that hang on the booking. */
export const story = fc.record({
  own: maybe(75, thread),
  earlier: maybe(35, fc.tuple(thread, fc.integer({ min: 3, max: 420 }))),
  imported: maybe(
    15,
    fc.tuple(fc.integer({ min: 1, max: 420 }), fc.constantFrom<("in-salon" | "home-kit")[]>("in-salon", "home-kit")),
  ),
  screened: maybe(60, fc.tuple(minutes(-14 * 24, 0), screened)),
  confirmed: maybe(60, fc.tuple(minutes(-20, 0), via)),
  extras: fc.oneof(
    { weight: 1, arbitrary: fc.constant<Drawn<typeof extra>[]>([]) },
    { weight: 1, arbitrary: fc.array(extra, { maxLength: 5 }) },
  ),
});

export type Story = Drawn<typeof story>;

const threadOf = (test: Test, told: Story["own"] & object, start: Moment, booking: string | undefined): Bare[] => {
  const base = booking === undefined ? {} : { booking };
  const list: Bare[] = [];
  const last = start - test.least - clockShift(test);
  if (test.route === "home-kit") {
    if (told.posted !== undefined) list.push({ ...base, kind: "posted", at: last + told.posted });
    if (told.posted !== undefined && told.again !== undefined)
      list.push({ ...base, kind: "posted", at: last + told.posted + told.again });
    if (told.arrived !== undefined) list.push({ ...base, kind: "arrived", at: last + told.arrived });
  }
  if (told.applied === undefined) return list;
  const at = last + told.applied;
  const named = told.names ? { route: test.route } : {};
  const made = {
    ...(told.product === undefined ? {} : { product: told.product }),
    ...(told.shade === undefined ? {} : { shade: told.shade }),
  };
  list.push({ ...base, ...named, ...made, kind: "applied", at });
  if (told.second !== undefined) list.push({ ...base, ...named, kind: "applied", at: at + told.second });
  if (told.removed !== undefined)
    list.push({ ...base, kind: "removed", at: at + (test.wear ?? HOUR_S) + told.removed });
  if (told.tidy)
    for (const look of test.looks) list.push({ ...base, kind: "read", outcome: "clear", at: at + look.after + 60 });
  else
    for (const [index, [late, outcome, by]] of told.reads.entries()) {
      const look = test.looks[index % test.looks.length];
      const read = { ...base, kind: "read" as const, at: at + (look?.after ?? 0) + late };
      list.push({ ...read, ...(outcome ? { outcome } : {}), ...(by ? { via: by } : {}) });
    }
  return list;
};

const extraOf = (told: Story["extras"][number], start: Moment): Bare => {
  const plain = { kind: told.kind, at: start + told.hours, ...(told.other ? { booking: "colour-0" } : {}) };
  const by = told.via ? { via: told.via } : {};
  if (told.kind === "read") return { ...plain, ...by, ...(told.outcome ? { outcome: told.outcome } : {}) };
  if (told.kind === "screened") {
    const [outcome, reason] = told.screened;
    return { ...plain, outcome, ...(outcome === "do-not-colour" ? { reason } : {}) };
  }
  if (told.kind === "route") return { ...plain, route: told.route };
  // Of any kind, one that the salon does not offer included.
  if (told.kind === "applied" && told.reason) return { ...plain, ...by, route: told.route };
  if (told.kind === "correction") {
    const corrects = told.target === null ? null : `r${told.target}`;
    return { ...plain, via: "desk", corrects, ...(told.reason ? { reason: told.reason } : {}) };
  }
  return { ...plain, ...by };
};

/** The records of a story for a scene, as far as they have happened by `now`. */
export const tell = (scene: Scene, told: Story, now: Moment): ReckonRecord[] => {
  const tests = scene.settings.tests.map((each) => testOf(scene.settings, each));
  const pick = (which: number): Test => tests[which % tests.length] as Test;
  const { start } = scene;
  const list: Bare[] = told.own ? threadOf(pick(told.own.which), told.own, start, undefined) : [];
  if (told.earlier) {
    const [test, days] = told.earlier;
    list.push(...threadOf(pick(test.which), test, start - days * DAY_S, "colour-0"));
  }
  if (told.imported) {
    const [days, route] = told.imported;
    list.push({
      booking: "paper-card",
      kind: "read",
      outcome: "clear",
      route,
      at: start - days * DAY_S,
      product: "line A",
      shade: 4,
    });
  }
  if (told.screened) {
    const [shift, [outcome, reason]] = told.screened;
    list.push({ kind: "screened", at: start + shift, outcome, ...(outcome === "do-not-colour" ? { reason } : {}) });
  }
  if (told.confirmed) {
    const [shift, by] = told.confirmed;
    list.push({ kind: "confirmed", at: start + shift, ...(by ? { via: by } : {}) });
  }
  list.push(...told.extras.map((each) => extraOf(each, start)));
  return list
    .filter((record) => record.at <= now)
    .toSorted((left, right) => left.at - right.at)
    .map((record, index) => ({ ...record, id: `r${index}`, at: textOf(record.at) }));
};

/** A scene and a story as one question; the edges of `seen` are put to `edgesOf`, the instants of the plan without records. */
export const questionOf = (
  scene: Scene,
  told: Story,
  edgesOf: (input: ReckonInput) => readonly Moment[],
): ReckonInput => {
  const booking = { uid: "colour-1", start: textOf(scene.start) };
  const shared = { booking, settings: scene.settings, holidays: scene.holidays };
  let now: Moment;
  if ("seconds" in scene.seen) now = scene.start + scene.seen.seconds;
  else {
    const edges = edgesOf({ ...shared, records: [], now: textOf(scene.start - 40 * DAY_S) });
    now = (edges[scene.seen.edge % edges.length] ?? scene.start) + scene.seen.shift;
  }
  return { ...shared, records: tell(scene, told, now), now: textOf(now) };
};
