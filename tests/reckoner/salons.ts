/**
 * Random salons for the comparison with the engine: hours with breaks and nights, closed ranges, both counts of the
 * post, every preset and protocols of their own. Never gives settings that rules 1, 4, 5, 8 or 18 refuse.
 */
import * as fc from "fast-check";
import type { ReckonProtocol, ReckonSettings, ReckonTest, WeekdayKey } from "./types.ts";

const DAY = 86_400;

const clock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
const dateText = (day: number): string => new Date(day * DAY * 1_000).toISOString().slice(0, 10);
const length = (minutes: number): string =>
  minutes % 60 === 0 ? `PT${minutes / 60}H` : `PT${Math.floor(minutes / 60)}H${minutes % 60}M`;

const WEEKDAYS: readonly WeekdayKey[] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

const randomSpan = fc
  .tuple(fc.integer({ min: 0, max: 92 }), fc.integer({ min: 2, max: 48 }))
  .map(([from, quarters]) => `${clock(from * 15)}-${clock(Math.min(from + quarters, 96) * 15)}`);
const daySpans = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom<string[]>(["09:00-17:30"], ["10:00-19:00"], ["08:30-13:00", "14:00-16:00"]) },
  { weight: 2, arbitrary: fc.constantFrom<string[]>(["20:00-24:00"], ["00:00-02:00", "20:00-24:00"], ["00:00-24:00"]) },
  { weight: 2, arbitrary: fc.array(randomSpan, { minLength: 1, maxLength: 3 }) },
  { weight: 3, arbitrary: fc.constant<string[] | undefined>(undefined) },
);
type Present<T> = { [K in keyof T as undefined extends T[K] ? never : K]: T[K] } & {
  [K in keyof T as undefined extends T[K] ? K : never]?: Exclude<T[K], undefined>;
};
/** Fields that are undefined are left out, as in JSON. */
const present = <T extends object>(record: T): Present<T> =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as Present<T>;

const opening = fc.oneof(
  { weight: 1, arbitrary: fc.constant(null) },
  {
    weight: 6,
    arbitrary: fc
      .record({
        mon: daySpans,
        tue: daySpans,
        wed: daySpans,
        thu: daySpans,
        fri: daySpans,
        sat: daySpans,
        sun: daySpans,
        holiday: fc.option(fc.constantFrom<string[]>([], ["11:00-15:00"], ["22:00-24:00"]), { nil: undefined }),
      })
      .map(present)
      .filter((hours) => WEEKDAYS.some((day) => hours[day] !== undefined)),
  },
);

/** Dates and ranges from three weeks before a day to ten days after. */
const datesAround = (day: number, max: number) =>
  fc.array(
    fc
      .tuple(fc.integer({ min: -21, max: 10 }), fc.integer({ min: 0, max: 4 }))
      .map(([first, more]) =>
        more ? `${dateText(day + first)}/${dateText(day + first + more)}` : dateText(day + first),
      ),
    { maxLength: max },
  );
/** One range that shuts for so long that the 400 days of rule 7 end the search. */
const longAround = (day: number) =>
  fc
    .tuple(fc.integer({ min: -460, max: -380 }), fc.integer({ min: -30, max: 3 }))
    .map(([first, last]) => [`${dateText(day + first)}/${dateText(day + last)}`]);
const shutAround = (day: number) =>
  fc.oneof({ weight: 8, arbitrary: datesAround(day, 2) }, { weight: 1, arbitrary: longAround(day) });
export const singleDatesAround = (day: number, max: number) =>
  fc.array(
    fc.integer({ min: -21, max: 10 }).map((shift) => dateText(day + shift)),
    { maxLength: max },
  );

const ownProtocol: fc.Arbitrary<ReckonProtocol> = fc
  .record({
    least: fc.integer({ min: 10 * 4, max: 150 * 4 }),
    most: fc.option(fc.integer({ min: 0, max: 96 * 4 }), { freq: 2 }),
    fromRemoval: fc.boolean(),
    wear: fc.option(fc.integer({ min: 1, max: 40 }), { freq: 2 }),
    removeWithin: fc.constantFrom("PT15M", "PT3H", "PT1H30M"),
    holds: fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 1, maxLength: 2 }),
    late: fc.option(fc.integer({ min: 1, max: 400 }), { freq: 2 }),
    within: fc.constantFrom("PT3H", "PT45M", "PT20H"),
  })
  .map(({ least, most, fromRemoval, wear, removeWithin, holds, late, within }) => {
    const worn = wear === null ? null : Math.min(wear, least);
    const held = least + (fromRemoval && worn !== null ? worn : 0);
    const after = [
      ...holds.map((share) => Math.max(1, Math.floor(held * share))),
      ...(late === null ? [] : [held + late]),
    ];
    return {
      lead: {
        least: length(least * 15),
        most: most === null ? null : length((least + most) * 15),
        from: fromRemoval && worn !== null ? ("removal" as const) : ("application" as const),
      },
      wear: worn === null ? null : length(worn * 15),
      removeWithin,
      readings: after.map((quarters) => ({ after: length(quarters * 15), within })),
    };
  });

const onFile = fc.option(
  fc.record({
    months: fc.constantFrom(null, 1, 6, 12),
    product: fc.constantFrom("same" as const, "any" as const, "any" as const),
    shade: fc.constantFrom("not-darker" as const, "any" as const, "any" as const),
  }),
);
const screening = fc
  .record({
    margin: fc.constantFrom(undefined, "PT0H", "PT12H30M", "PT24H", "PT72H"),
    opens: fc.constantFrom(undefined, "PT336H", "PT48H"),
  })
  .map((each) => present(each));

const testFor = (route: ReckonTest["route"], protocols: readonly (string | string[])[]) =>
  fc
    .record({
      protocol: fc.constantFrom(...protocols),
      onFile: fc.oneof(fc.constant(undefined), onFile),
      screening: fc.option(screening, { nil: undefined }),
    })
    .map((each): ReckonTest => ({ route, ...present(each) }));
const walkIn = testFor("in-salon", [
  "salon-48h",
  "salon-48h",
  "salon-45min-48h",
  "wash-off-24h",
  "window-24-48h",
  "two-looks-48h",
  "own-walk-in",
  "own-walk-in",
  ["window-24-48h", "salon-48h"],
  ["salon-48h", "two-looks-48h"],
]);
const homeKit = testFor("home-kit", [
  "home-kit-120h",
  "home-kit-120h",
  "home-kit-120h",
  "own-kit",
  "own-kit",
  "wash-off-24h",
]);
const tests = fc.oneof(
  fc.tuple(homeKit, walkIn),
  fc.tuple(walkIn, homeKit),
  walkIn.map((each) => [each]),
  homeKit.map((each) => [each]),
);

const weekdaysOf = (min: number) => fc.subarray([...WEEKDAYS], { minLength: min });
const timeOfDay = fc.integer({ min: 1, max: 95 }).map((quarters) => clock(quarters * 15));
const postOf = (day: number) =>
  fc.record(
    {
      collection: weekdaysOf(1),
      lastCollection: fc.oneof(fc.constant("16:30"), timeOfDay),
      delivery: weekdaysOf(1),
      deliveredBy: fc.oneof(fc.constant("18:00"), timeOfDay),
      transit: fc.integer({ min: 1, max: 7 }),
      count: fc.constantFrom("delivery" as const, "calendar" as const),
      closed: shutAround(day),
      holidays: fc.boolean(),
    },
    { requiredKeys: [] },
  );

/** Any salon in a zone; its closed days lie around `day`, days since 1970-01-01. */
export const salonIn = (zone: string, day: number): fc.Arbitrary<ReckonSettings> =>
  fc
    .record({
      tests,
      ownKit: ownProtocol,
      ownWalkIn: ownProtocol,
      opening,
      lastWalkIn: fc.constantFrom("PT30M", "PT30M", "PT0H", "PT45M", "PT2H"),
      closed: shutAround(day),
      added: singleDatesAround(day, 1),
      clientHours: fc.oneof(
        fc.constantFrom("08:00-21:00", "08:00-21:00", "00:00-24:00", "18:00-24:00", "00:00-03:00"),
        randomSpan,
      ),
      post: fc.option(postOf(day), { nil: undefined, freq: 3 }),
      product: fc.constantFrom(null, "line A"),
      shade: fc.constantFrom(null, 4, 6),
    })
    .map(({ ownKit, ownWalkIn, added, product, shade, ...rest }) => ({
      ...present(rest),
      name: "Juniper Lane Colour Room",
      zone,
      protocols: { "own-kit": ownKit, "own-walk-in": ownWalkIn },
      services: [{ name: "Permanent colour", words: ["tint"], product, shade }],
      holidays: { add: added },
    }));
