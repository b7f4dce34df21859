/** Random salons, bookings and records for property tests. Nothing here expects a result. */
import * as fc from "fast-check";
import { NO_HOLIDAYS } from "../../src/plan/holidays.ts";
import { compileRules, type Rules } from "../../src/plan/rules.ts";
import type { BookingFacts, Fact } from "../../src/plan/types.ts";
import { type Settings, settingsSchema, WEEKDAYS } from "../../src/settings.ts";
import { DAY_SECONDS, formatDay, HOUR, type Instant, MINUTE, parseInstant } from "../../src/time/instant.ts";
import { Zone } from "../../src/time/zone.ts";

/** Runs of each law; the one place where it is set. */
export const RUNS = Number(process.env["PLAN_RUNS"] ?? 300);

/** Zones that try the arithmetic: half-hour shifts, changes at midnight, a Ramadan clock, and none at all. */
export const ZONES = [
  "Europe/London",
  "America/New_York",
  "America/Los_Angeles",
  "Australia/Sydney",
  "Australia/Lord_Howe",
  "Pacific/Auckland",
  "America/St_Johns",
  "Africa/Cairo",
  "America/Santiago",
  "Africa/Casablanca",
  "Pacific/Apia",
  "Asia/Kolkata",
] as const;

const FIRST = parseInstant("2026-02-01T00:00:00Z") as Instant;
const LAST = parseInstant("2027-06-01T00:00:00Z") as Instant;

const clock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;

const span = (earliest: number, latest: number): fc.Arbitrary<string> =>
  fc
    .tuple(fc.integer({ min: earliest / 5, max: latest / 5 }), fc.integer({ min: earliest / 5, max: latest / 5 }))
    .filter(([from, to]) => from !== to)
    .map(([from, to]) => `${clock(Math.min(from, to) * 5)}-${clock(Math.max(from, to) * 5)}`);

const daySpans: fc.Arbitrary<string[]> = fc.oneof(
  { weight: 4, arbitrary: fc.constant<string[]>(["09:00-17:30"]) },
  { weight: 2, arbitrary: fc.constant<string[]>(["08:30-13:00", "14:00-16:00"]) },
  { weight: 1, arbitrary: fc.constant<string[]>(["20:00-24:00", "00:00-02:00"]) },
  { weight: 1, arbitrary: fc.constant<string[]>(["00:00-24:00"]) },
  { weight: 3, arbitrary: fc.array(span(0, 1440), { minLength: 1, maxLength: 3 }) },
  { weight: 3, arbitrary: fc.constant<string[]>([]) },
);

const opening = fc.option(
  fc
    .record(Object.fromEntries(WEEKDAYS.map((name) => [name, daySpans])))
    .filter((days) => Object.values(days).some((spans) => spans.length > 0)),
  { freq: 8 },
);

const length = (least: number, most: number): fc.Arbitrary<number> =>
  fc.oneof(
    fc.integer({ min: least, max: most }),
    fc.integer({ min: Math.ceil(least / 30), max: Math.floor(most / 30) }).map((n) => n * 30),
  );

/** A protocol of the salon's own, in minutes; always with a look that holds. */
const ownProtocol = (isLimited: boolean) =>
  fc
    .record({
      least: length(60, 200 * 60),
      extra: isLimited ? fc.option(length(0, 100 * 60), { freq: 2 }) : fc.constant(null),
      from: fc.constantFrom("application", "removal"),
      wear: fc.option(length(15, 60 * 60)),
      looks: fc.array(length(15, 200 * 60), { maxLength: 2 }),
      within: length(15, 600),
    })
    .map(({ least, extra, from, wear, looks, within }) => ({
      lead: {
        least: `PT${least}M`,
        most: isLimited && extra !== null ? `PT${least + extra}M` : null,
        from: wear === null ? "application" : from,
      },
      wear: wear === null ? null : `PT${wear}M`,
      readings: [{ after: `PT${least}M`, within: `PT${within}M` }, ...looks.map((after) => ({ after: `PT${after}M` }))],
      source: { note: "made up for a test" },
    }));

const presets = ["salon-48h", "salon-45min-48h", "home-kit-120h", "wash-off-24h", "two-looks-48h"];
const protocolName = (isLimited: boolean) =>
  fc.oneof(
    fc.constantFrom<string | string[]>(...presets, ...(isLimited ? ["window-24-48h"] : []), [
      "salon-48h",
      "two-looks-48h",
    ]),
    fc.constant("own"),
  );

const margin = fc.option(
  length(0, 72 * 60).map((minutes) => `PT${minutes}M`),
  { nil: undefined },
);
const testOf = (route: "in-salon" | "home-kit", isLimited: boolean) =>
  fc
    .record({ protocol: protocolName(isLimited), margin, onFile: fc.constantFrom("default", "any", null) })
    .map((each) => ({
      route,
      protocol: each.protocol,
      ...(each.onFile === "default" ? {} : { onFile: each.onFile === null ? null : { months: 6 } }),
      screening: each.margin === undefined ? {} : { margin: each.margin },
    }));

const tests = (isLimited: boolean) =>
  fc
    .tuple(
      testOf("in-salon", isLimited),
      testOf("home-kit", isLimited),
      fc.constantFrom("both", "turned", "first", "second"),
    )
    .map(([walkIn, kit, order]) =>
      order === "both" ? [walkIn, kit] : order === "turned" ? [kit, walkIn] : order === "first" ? [walkIn] : [kit],
    );

const someDates = fc.array(
  fc.tuple(fc.integer({ min: FIRST, max: LAST }), fc.integer({ min: 0, max: 9 })).map(([at, days]) => {
    const day = Math.floor(at / DAY_SECONDS);
    return `${formatDay(day)}/${formatDay(day + days)}`;
  }),
  { maxLength: 12 },
);

const weekdaySet = fc.subarray([...WEEKDAYS], { minLength: 1 });

/** Settings as they come in. `isLimited`: greatest leads may occur. */
export const settingsInput = (isLimited: boolean) =>
  fc
    .record({
      zone: fc.constantFrom(...ZONES),
      opening,
      holiday: fc.option(daySpans),
      lastWalkIn: fc.constantFrom("PT0M", "PT30M", "PT30M", "PT95M"),
      closed: someDates,
      add: someDates,
      clientHours: fc.oneof(
        fc.constant("08:00-21:00"),
        fc.constant("00:00-24:00"),
        fc.constant("09:00-24:00"),
        span(0, 1440),
      ),
      post: fc.record({
        collection: weekdaySet,
        delivery: weekdaySet,
        lastCollection: fc.constantFrom("16:30", "09:00", "00:00", "24:00"),
        deliveredBy: fc.constantFrom("18:00", "07:00", "24:00"),
        transit: fc.integer({ min: 1, max: 9 }),
        count: fc.constantFrom("delivery", "calendar"),
        closed: someDates,
        holidays: fc.boolean(),
      }),
      tests: tests(isLimited),
      own: ownProtocol(isLimited),
    })
    .filter(({ clientHours }) => clientHours.length > 0)
    .map((each) => ({
      name: "Salon of a test",
      zone: each.zone,
      tests: each.tests,
      protocols: { own: each.own },
      opening:
        each.opening === null ? null : { ...each.opening, ...(each.holiday === null ? {} : { holiday: each.holiday }) },
      lastWalkIn: each.lastWalkIn,
      closed: each.closed,
      holidays: { add: each.add },
      clientHours: each.clientHours,
      post: each.post,
    }));
export type SettingsInput = ReturnType<typeof settingsInput> extends fc.Arbitrary<infer T> ? T : never;

/** Compiles settings as a salon would; undefined where they are refused. */
export const compile = (input: unknown): Rules | undefined => {
  const compiled = compileRules(settingsSchema.parse(input) satisfies Settings, NO_HOLIDAYS, "salon-of-a-test");
  // A counterexample shows the settings; what is compiled from them would bury them.
  return compiled.ok ? Object.assign(compiled.rules, { [fc.toStringMethod]: () => "(compiled)" }) : undefined;
};

/** A salon that its rules accept. */
export const salon = (isLimited = true): fc.Arbitrary<{ readonly input: SettingsInput; readonly rules: Rules }> =>
  settingsInput(isLimited)
    .map((input) => ({ input, rules: compile(input) }))
    .filter((each): each is { input: SettingsInput; rules: Rules } => each.rules !== undefined);

/** A start in whole minutes, most often within nine days of a change of that zone's clocks. */
export const startIn = (zoneName: string): fc.Arbitrary<Instant> => {
  const changes = (Zone.named(zoneName) as Zone).changes(FIRST, LAST).map(({ at }) => at);
  const anywhere = fc.integer({ min: FIRST / MINUTE, max: LAST / MINUTE });
  if (changes.length === 0) return anywhere.map((minute) => minute * MINUTE);
  const near = fc
    .tuple(fc.constantFrom(...changes), fc.integer({ min: -9 * 1440, max: 9 * 1440 }))
    .map(([change, minutes]) => Math.floor(change / MINUTE) + minutes);
  return fc.oneof({ weight: 3, arbitrary: near }, { weight: 1, arbitrary: anywhere }).map((minute) => minute * MINUTE);
};

/** A start that lies in opening hours, where there is one within a month of a random moment. */
export const openStart = (rules: Rules): fc.Arbitrary<Instant> =>
  startIn(rules.zone.name)
    .map((at) => Math.ceil((rules.nextOpening(at, at + 400 * DAY_SECONDS) ?? at) / MINUTE) * MINUTE)
    .filter((at) => rules.isOpenAt(at));

/** Moments before a start, from six weeks before to three days after. */
export const nowAround = (start: Instant): fc.Arbitrary<Instant> =>
  fc.integer({ min: start - 42 * DAY_SECONDS, max: start + 3 * DAY_SECONDS });

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
