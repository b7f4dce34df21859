/**
 * Random salons for the laws of counting: breaks, nights over midnight, closed ranges, holidays with and without hours,
 * every preset, own protocols, both ways of counting transit. Dates that shut something lie around a given day, so that a
 * booking near that day meets them. Expects no result, and refuses nothing: compileRules does.
 */
import * as fc from "fast-check";
import { DAY_S, dayNumberOf } from "../reckoner/moments.ts";
import type { ReckonOpening, ReckonProtocol, ReckonSettings, ReckonTest, WeekdayKey } from "../reckoner/types.ts";

/** Settings as they come in, every field that the laws read written out. */
export interface SalonInput extends ReckonSettings {
  readonly protocols: { readonly [name: string]: ReckonProtocol };
  readonly opening: ReckonOpening | null;
  readonly lastWalkIn: string;
  readonly closed: readonly string[];
  readonly holidays: { readonly add: readonly string[] };
  readonly clientHours: string;
  readonly post: Required<NonNullable<ReckonSettings["post"]>>;
}

/** What a law may ask of the salons it is tried on. */
export interface Wish {
  /** Greatest leads may occur. */
  readonly isLimited?: boolean;
  readonly tests?: "any" | "with-kit" | "limited-only";
}

const WEEKDAYS: readonly WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

const clock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
const dateText = (day: number): string => new Date(day * DAY_S * 1_000).toISOString().slice(0, 10);

/** A span of at least fifteen minutes, in steps of five or to the minute. */
const span: fc.Arbitrary<string> = fc.oneof(
  fc.tuple(fc.integer({ min: 0, max: 285 }), fc.integer({ min: 3, max: 288 })).map(([from, length]) => {
    const until = Math.min(from + length, 288);
    return `${clock(from * 5)}-${clock(until * 5)}`;
  }),
  fc
    .tuple(fc.integer({ min: 0, max: 1_425 }), fc.integer({ min: 15, max: 700 }))
    .map(([from, length]) => `${clock(from)}-${clock(Math.min(from + length, 1_440))}`),
);

const daySpans: fc.Arbitrary<string[]> = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom<string[]>(["09:00-17:30"], ["10:00-19:00"]) },
  { weight: 2, arbitrary: fc.constantFrom<string[]>(["08:30-13:00", "14:00-16:00"], ["09:00-12:00", "12:00-18:00"]) },
  { weight: 1, arbitrary: fc.constant<string[]>(["20:00-24:00", "00:00-02:00"]) },
  // So short that it allows a walk-in only together with the evening before.
  { weight: 1, arbitrary: fc.constantFrom<string[]>(["00:00-24:00"], ["00:00-00:10"], ["23:40-24:00"]) },
  { weight: 3, arbitrary: fc.array(span, { minLength: 1, maxLength: 3 }) },
  { weight: 3, arbitrary: fc.constant<string[]>([]) },
);

const opening = fc.oneof(
  { weight: 1, arbitrary: fc.constant(null) },
  {
    weight: 8,
    arbitrary: fc
      .record({
        ...(Object.fromEntries(WEEKDAYS.map((day) => [day, daySpans])) as Record<WeekdayKey, typeof daySpans>),
        holiday: fc.oneof(daySpans, fc.constant<string[]>([])),
      })
      .filter((hours) => WEEKDAYS.some((day) => hours[day].length > 0)),
  },
);

const minutes = (least: number, most: number): fc.Arbitrary<number> =>
  fc.oneof(
    fc.integer({ min: least, max: most }),
    fc.integer({ min: Math.ceil(least / 30), max: Math.floor(most / 30) }).map((halves) => halves * 30),
  );

/** Two protocols of the salon's own that may stand on one test: they share `from` and `wear`. */
const ownProtocols = (isLimited: boolean) => {
  const one = fc.record({
    least: minutes(60, 200 * 60),
    extra: isLimited ? fc.option(minutes(0, 100 * 60), { freq: 2 }) : fc.constant(null),
    // At least one look holds the colour: its share of the lead.
    holds: fc.array(fc.double({ min: 0.02, max: 1, noNaN: true }), { minLength: 1, maxLength: 2 }),
    late: fc.option(minutes(15, 100 * 60), { freq: 2 }),
    within: minutes(15, 600),
    removeWithin: fc.constantFrom("PT15M", "PT3H", "PT20H"),
  });
  const shared = fc.record({
    from: fc.constantFrom("application" as const, "removal" as const),
    wear: fc.option(minutes(15, 60 * 60)),
  });
  return fc.tuple(shared, one, one).map(([{ from, wear }, ...both]): [ReckonProtocol, ReckonProtocol] => {
    const written = both.map(({ least, extra, holds, late, within, removeWithin }): ReckonProtocol => {
      const reach = least + (from === "removal" ? (wear ?? 0) : 0);
      return {
        lead: {
          least: `PT${least}M`,
          most: extra === null ? null : `PT${least + extra}M`,
          from: wear === null ? "application" : from,
        },
        wear: wear === null ? null : `PT${wear}M`,
        removeWithin,
        readings: [
          ...holds.map((share) => ({ after: `PT${Math.max(1, Math.floor(reach * share))}M`, within: `PT${within}M` })),
          ...(late === null ? [] : [{ after: `PT${reach + late}M` }]),
        ],
      };
    });
    return written as [ReckonProtocol, ReckonProtocol];
  });
};

const PLAIN_PROTOCOLS: readonly (string | string[])[] = [
  "salon-48h",
  "salon-45min-48h",
  "home-kit-120h",
  "wash-off-24h",
  "two-looks-48h",
  ["salon-48h", "two-looks-48h"],
];
const OWN_PROTOCOLS: readonly (string | string[])[] = ["own", "own", ["own", "other"]];
const LIMITED_PROTOCOLS: readonly (string | string[])[] = ["window-24-48h", ["window-24-48h", "salon-48h"]];

const protocolName = ({ isLimited = true, tests = "any" }: Wish) =>
  fc.constantFrom<string | string[]>(
    ...(tests === "limited-only" ? [] : PLAIN_PROTOCOLS),
    ...OWN_PROTOCOLS,
    ...(isLimited ? LIMITED_PROTOCOLS : []),
  );

const margin = fc.option(
  minutes(0, 72 * 60).map((length) => `PT${length}M`),
  { nil: undefined },
);
const testOf = (route: ReckonTest["route"], wish: Wish) =>
  fc.record({ protocol: protocolName(wish), margin, onFile: fc.constantFrom("default", "any", null) }).map(
    (each): ReckonTest => ({
      route,
      protocol: each.protocol,
      ...(each.onFile === "default" ? {} : { onFile: each.onFile === null ? null : { months: 6 } }),
      screening: each.margin === undefined ? {} : { margin: each.margin },
    }),
  );

const tests = (wish: Wish) =>
  fc
    .tuple(
      testOf("in-salon", wish),
      testOf("home-kit", wish),
      wish.tests === "with-kit"
        ? fc.constantFrom("both", "turned", "turned", "second")
        : fc.constantFrom("both", "turned", "first", "second"),
    )
    .map(([walkIn, kit, order]) =>
      order === "both" ? [walkIn, kit] : order === "turned" ? [kit, walkIn] : order === "first" ? [walkIn] : [kit],
    );

/** Dates and ranges from four weeks before a day to two weeks after. */
const datesAround = (day: number, maxLength: number, longest: number) =>
  fc.array(
    fc
      .tuple(fc.integer({ min: -28, max: 14 }), fc.integer({ min: 0, max: longest }))
      .map(([first, more]) =>
        more ? `${dateText(day + first)}/${dateText(day + first + more)}` : dateText(day + first),
      ),
    { maxLength },
  );

/** Short closures, and now and then one so long that the 400 days of counting.md 7 end the search. */
const closures = (day: number) =>
  fc.oneof(
    { weight: 15, arbitrary: datesAround(day, 3, 6) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(fc.integer({ min: -460, max: -380 }), fc.integer({ min: -30, max: 3 }))
        .map(([first, last]) => [`${dateText(day + first)}/${dateText(day + last)}`]),
    },
  );

/** Post days: an office's, every day's, one single weekday's, any. */
const postDays = fc.oneof(
  { weight: 2, arbitrary: fc.constantFrom(WEEKDAYS.slice(0, 5), WEEKDAYS.slice(0, 6), [...WEEKDAYS]) },
  { weight: 1, arbitrary: fc.constantFrom(...WEEKDAYS).map((day) => [day]) },
  { weight: 2, arbitrary: fc.subarray([...WEEKDAYS], { minLength: 1 }) },
);
const timeOfDay = fc.integer({ min: 0, max: 288 }).map((fives) => clock(fives * 5));

const clientHours = fc.oneof(
  { weight: 3, arbitrary: fc.constant("08:00-21:00") },
  // The last ones fall, whole or in part, into hours that clocks skip or repeat.
  {
    weight: 3,
    arbitrary: fc.constantFrom(
      "00:00-24:00",
      "09:00-24:00",
      "23:45-24:00",
      "00:00-00:15",
      "02:10-02:25",
      "01:30-02:30",
    ),
  },
  { weight: 2, arbitrary: span },
);

/** Any salon of a zone whose closures, holidays and post holidays lie around `day`, days since 1970-01-01. */
export const salonInput = (zone: string, day: number, wish: Wish): fc.Arbitrary<SalonInput> =>
  fc
    .record({
      opening,
      lastWalkIn: fc.constantFrom("PT0M", "PT30M", "PT30M", "PT95M", "PT26H"),
      closed: closures(day),
      add: datesAround(day, 3, 1),
      clientHours,
      post: fc.record({
        collection: postDays,
        delivery: postDays,
        lastCollection: fc.oneof(fc.constantFrom("16:30", "09:00", "00:00", "24:00"), timeOfDay),
        deliveredBy: fc.oneof(fc.constantFrom("18:00", "07:00", "24:00", "02:30"), timeOfDay),
        transit: fc.integer({ min: 1, max: 9 }),
        count: fc.constantFrom("delivery" as const, "calendar" as const),
        closed: closures(day),
        holidays: fc.boolean(),
      }),
      tests: tests(wish),
      own: ownProtocols(wish.isLimited ?? true),
    })
    .map(({ own: [own, other], add, ...rest }) => ({
      name: "Salon of a test",
      zone,
      ...rest,
      protocols: { own, other },
      holidays: { add },
    }));

/** Public holidays of a country's data around a day, as dates. */
export const daysOffAround = (day: number): fc.Arbitrary<readonly string[]> =>
  fc.array(
    fc.integer({ min: -21, max: 7 }).map((shift) => dateText(day + shift)),
    { maxLength: 3 },
  );

/** Every single date of a list of dates and ranges. */
export const singleDates = (ranges: readonly string[]): readonly string[] =>
  ranges.flatMap((range) => {
    const [from = "", to = from] = range.split("/");
    const first = dayNumberOf(from);
    return Array.from({ length: dayNumberOf(to) - first + 1 }, (_, index) => dateText(first + index));
  });
