/** Random bookings, moments and records for property tests. Nothing here expects a result. */
import * as fc from "fast-check";
import type { HolidayTable } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { BookingFacts, Fact, TestAppointment } from "../../src/plan/types.ts";
import { type Settings, settingsSchema } from "../../src/settings.ts";
import { DAY_SECONDS, HOUR, type Instant, MINUTE } from "../../src/time/instant.ts";
import { dayNumberOf } from "../reckoner/moments.ts";
import { windowOf } from "../reckoner/protocol.ts";
import { openMinuteFrom, type Place, testsOf } from "./law-calendar.ts";
import { daysOffAround, salonInput, type Wish } from "./plan-salons.ts";
import { startIn, zoneName } from "./plan-starts.ts";

/** Runs of a test over random plans that is none of the counted laws. */
export const RUNS = Number(process.env["PLAN_RUNS"] ?? 300);

/** When a booking is looked at: so long from its start, or at an instant of its plan or one second to either side. */
export type Seen = { readonly seconds: number } | { readonly edge: number; readonly shift: number };

const seen: fc.Arbitrary<Seen> = fc.oneof(
  {
    weight: 2,
    arbitrary: fc.integer({ min: -42 * DAY_SECONDS, max: 3 * DAY_SECONDS }).map((seconds) => ({ seconds })),
  },
  { weight: 1, arbitrary: fc.integer({ min: -8 * DAY_SECONDS, max: 0 }).map((seconds) => ({ seconds })) },
  { weight: 4, arbitrary: fc.record({ edge: fc.nat({ max: 59 }), shift: fc.constantFrom(-1, 0, 1) }) },
);

/** A salon, one booking of it and when that is looked at. */
export interface Scene extends Place {
  readonly rules: Rules;
  readonly start: Instant;
  readonly seen: Seen;
}

const tableOf = (dates: readonly string[]): HolidayTable => {
  const days = [...new Set(dates)].toSorted().map((date) => ({ day: dayNumberOf(date), name: "A day off" }));
  return { country: null, region: null, place: "no-country", fromYear: 2020, toYear: 2032, post: days, salon: days };
};

/** Compiles settings that have passed their door; undefined where they are refused. */
export const compileSettings = (settings: Settings, daysOff: readonly string[]): Rules | undefined => {
  const compiled = compileRules(settings, tableOf(daysOff), "salon-of-a-test");
  // A counter-example shows the settings; what is compiled from them would bury them.
  return compiled.ok ? Object.assign(compiled.rules, { [fc.toStringMethod]: () => "(compiled)" }) : undefined;
};

/** Compiles a salon as the service would; undefined where its settings are refused. */
export const compile = ({ input, daysOff }: Place): Rules | undefined =>
  compileSettings(settingsSchema.parse(input), daysOff);

/** Scenes whose settings the salon's rules accept. */
export const scenes = (wish: Wish = {}): fc.Arbitrary<Scene> =>
  zoneName
    .chain((zone) => startIn(zone).map((start) => ({ zone, start })))
    .chain(({ zone, start }) => {
      const day = Math.floor(start / DAY_SECONDS);
      return fc.record({
        input: salonInput(zone, day, wish),
        daysOff: daysOffAround(day),
        start: fc.oneof(fc.constant(start), fc.constant(start), fc.constantFrom(start + 1, start + 61)),
        seen,
      });
    })
    .map((each) => {
      const rules = compile(each);
      return rules && { ...each, rules };
    })
    .filter((each) => each !== undefined);

/** Scenes whose booking starts at a whole minute in opening hours. */
export const openScenes = (wish: Wish = {}): fc.Arbitrary<Scene> =>
  scenes(wish)
    .map((scene) => {
      const start = openMinuteFrom(scene, scene.start);
      return start === undefined ? undefined : { ...scene, start };
    })
    .filter((scene) => scene !== undefined);

/** A scene with records, and now and then with tests that stand in the diary. */
export interface ToldScene extends Scene {
  readonly facts: readonly Fact[];
  readonly appointments: readonly TestAppointment[];
}

/** Tests in the diary: some keep the lead and some do not, and most lie near the last moment that does. */
const appointmentsFor = (scene: Scene): fc.Arbitrary<readonly TestAppointment[]> => {
  const walkIn = testsOf(scene).find(({ route }) => route === "in-salon");
  const last = walkIn ? windowOf(walkIn, scene.start).to : scene.start - 2 * DAY_SECONDS;
  const appointment = fc
    .record({
      from: fc.oneof(
        fc.integer({ min: -90, max: 15 }).map((minutes) => last + minutes * MINUTE),
        fc.integer({ min: 0, max: 10 * 96 }).map((quarters) => scene.start - quarters * 15 * MINUTE),
      ),
      length: fc.constantFrom(null, 0, 10 * MINUTE, 45 * MINUTE, 2 * HOUR),
    })
    .map(({ from, length }) => ({ start: from, end: length === null ? null : from + length }));
  return fc.oneof(
    { weight: 2, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.array(appointment, { minLength: 1, maxLength: 2 }) },
  );
};

export const toldScenes = (wish: Wish = {}): fc.Arbitrary<ToldScene> =>
  scenes(wish).chain((scene) =>
    fc.record({ facts: factsAround(scene.start), appointments: appointmentsFor(scene) }).map((told) => ({
      ...scene,
      ...told,
    })),
  );

export const bookingAt = (start: Instant, uid = "booking-1"): BookingFacts => ({
  uid,
  start,
  end: start + 2 * HOUR,
  summary: "Tint",
  service: "Colour",
  diary: "main",
  client: null,
  cancelled: false,
});

/** A record with nothing said but what is given. */
export const makeFact = (given: Partial<Fact> & Pick<Fact, "kind" | "at">): Fact => ({
  id: `${given.kind}-${given.at}`,
  client: null,
  booking: "booking-1",
  recorded: given.at,
  outcome: null,
  route: null,
  by: null,
  via: "desk",
  product: null,
  shade: null,
  batch: null,
  site: null,
  photo: null,
  reason: null,
  note: null,
  corrects: null,
  ...given,
});

/** Records around a start, of this booking, an earlier one and none. */
export const factsAround = (start: Instant): fc.Arbitrary<readonly Fact[]> =>
  fc
    .array(
      fc
        .record({
          kind: fc.constantFrom(
            "screened",
            "posted",
            "arrived",
            "applied",
            "applied",
            "removed",
            "read",
            "read",
            "reacted",
            "confirmed",
            "route",
            "note",
            "correction",
          ),
          // Half of them on whole quarters of a day before the start, so that some fall on one second or on a boundary.
          at: fc.oneof(
            fc.integer({ min: start - 30 * DAY_SECONDS, max: start + 3 * DAY_SECONDS }),
            fc.integer({ min: -12, max: 48 }).map((quarters) => start - quarters * 6 * HOUR),
          ),
          booking: fc.constantFrom("booking-1", "booking-1", "booking-1", "booking-0", null),
          read: fc.constantFrom("clear", "clear", "clear", "reaction", "not-sure"),
          screened: fc.constantFrom("pass", "pass", "test-needed", "do-not-colour"),
          ground: fc.constantFrom("under-16", "past-reaction", "other"),
          route: fc.constantFrom("in-salon", "home-kit", null),
          via: fc.constantFrom("desk", "api", "client-link"),
        })
        .map(({ kind, at, booking, read, screened, ground, route, via }) => ({
          kind,
          at,
          booking,
          via,
          outcome: kind === "read" ? read : kind === "screened" ? screened : null,
          route: kind === "applied" || kind === "route" || kind === "read" ? route : null,
          reason: kind === "correction" ? "wrong" : screened === "do-not-colour" ? ground : null,
        })),
      { maxLength: 8 },
    )
    .map((list) =>
      list.map((each, index) => makeFact({ ...(each as Partial<Fact> & Pick<Fact, "kind" | "at">), id: `r${index}` })),
    );
