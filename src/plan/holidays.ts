/**
 * Public holidays, and the only door to date-holidays (loaded when first asked for: 239 KiB and 76 ms).
 * Gives plain data that can be stored. Never asks a clock, a host zone or a salon's zone: it reads date strings, and the
 * lengths of holidays of several days in UTC.
 */
import type { Settings } from "../settings.ts";
import { refusal } from "./refusal.ts";
import type { Refusal } from "./types.ts";
import { type Day, formatDay, HOUR, parseDay } from "../time/instant.ts";

export interface NamedDay {
  readonly day: Day;
  readonly name: string;
}

/** How well the place is known: `missing` where the data have regions and none is set, `unknown` where they lack it. */
export type PlaceState = "known" | "region-missing" | "region-unknown" | "country-unknown" | "no-country";

/** The public holidays of a place between two years, both included; days in order, one entry a day. */
export interface HolidayTable {
  readonly country: string | null;
  readonly region: string | null;
  readonly place: PlaceState;
  readonly fromYear: number;
  readonly toYear: number;
  /** Days that close the post. */
  readonly post: readonly NamedDay[];
  /** Days that close the salon. */
  readonly salon: readonly NamedDay[];
  /** The regions that the data know of the country. */
  readonly regions?: readonly string[];
}

type Holidays = InstanceType<typeof import("date-holidays")["default"]>;

/** No country's holidays: only the settings' own days. */
export const NO_HOLIDAYS: HolidayTable = {
  country: null,
  region: null,
  place: "no-country",
  fromYear: 1970,
  toYear: 2100,
  post: [],
  salon: [],
};

/** Country and region whose holidays a salon keeps: its settings' own, else the salon's country; never from the zone. */
export const holidayPlace = (
  settings: Settings,
): { readonly country: string | null; readonly region: string | null } => {
  if (settings.holidays === null) return { country: null, region: null };
  const country = settings.holidays?.country;
  return { country: country === undefined ? settings.country : country, region: settings.holidays?.region ?? null };
};

/**
 * The holidays of types `public` and `bank`, true days and substitutes alike (counting.md 6).
 * Without a region where the data have regions, any region's day closes the post and national days close the salon.
 * Source: npm date-holidays (data CC BY-SA 3.0); days that it lacks come by the settings' `holidays.add`.
 */
export const loadHolidays = async (
  country: string | null,
  region: string | null,
  fromYear: number,
  toYear: number,
): Promise<HolidayTable> => {
  if (country === null) return { ...NO_HOLIDAYS, region, fromYear, toYear };
  const { default: DateHolidays } = await import("date-holidays");
  const place = { country, region, fromYear, toYear };
  const inUtc = { timezone: "UTC" };
  if (!Object.hasOwn(new DateHolidays().getCountries(), country)) {
    return { ...place, place: "country-unknown", post: [], salon: [] };
  }
  const years = Array.from({ length: toYear - fromYear + 1 }, (_, index) => fromYear + index);
  const national = new DateHolidays(country, inUtc);
  const states = Object.keys(national.getStates(country) ?? {});
  const nationalDays = daysOf([national], years);
  const table = { ...place, regions: states };
  if (states.length === 0) {
    return { ...table, place: region === null ? "known" : "region-unknown", post: nationalDays, salon: nationalDays };
  }
  const path = region === null ? undefined : findRegion(national, country, states, region);
  if (path) {
    const [state, part] = path;
    const regional = part ? new DateHolidays(country, state, part, inUtc) : new DateHolidays(country, state, inUtc);
    const days = daysOf([regional], years);
    return { ...table, place: "known", post: days, salon: days };
  }
  const everywhere = [
    national,
    ...states.flatMap((name) => [
      new DateHolidays(country, name, inUtc),
      // Augsburg's 8 August, Milan's 7 December: some days off are of a part of a state only.
      ...partsOf(national, country, name).map((part) => new DateHolidays(country, name, part, inUtc)),
    ]),
  ];
  const state = region === null ? "region-missing" : "region-unknown";
  return { ...table, place: state, post: daysOf(everywhere, years), salon: nationalDays };
};

/**
 * What is wrong with a region that somebody writes now. Stored settings are not asked: newer data may call a region
 * otherwise, and a salon must wake all the same.
 */
export const refuseRegion = ({ country, region, place, regions = [] }: HolidayTable): readonly Refusal[] =>
  place !== "region-unknown" || regions.length === 0
    ? []
    : [
        refusal({
          code: "unknown-region",
          at: "holidays.region",
          value: region,
          limit: `one of ${regions.join(", ")}`,
          reason: `these are the regions of ${country} whose holidays are known`,
          remedy: "write one of them, or leave it out and add days in holidays.add",
        }),
      ];

const same = (name: string, other: string): boolean => name.toUpperCase() === other.toUpperCase();

const partsOf = (national: Holidays, country: string, state: string): readonly string[] =>
  Object.keys(national.getRegions(country, state) ?? {});

/** A region as the data name it: `SCT`, `GB-SCT`, or a part of a state, `BY-A`. */
const findRegion = (
  national: Holidays,
  country: string,
  states: readonly string[],
  region: string,
): readonly [string, string?] | undefined => {
  const written = region.startsWith(`${country}-`) ? region.slice(country.length + 1) : region;
  const whole = states.find((state) => same(state, written));
  if (whole) return [whole];
  const [head, tail] = written.split("-", 2);
  const state = states.find((name) => same(name, head ?? ""));
  const parts = state ? partsOf(national, country, state) : [];
  const part = parts.find((name) => same(name, tail ?? ""));
  return state && part ? [state, part] : undefined;
};

const daysOf = (sources: readonly Holidays[], years: readonly number[]): readonly NamedDay[] => {
  const names = new Map<Day, string>();
  for (const source of sources) {
    for (const year of years) {
      for (const holiday of source.getHolidays(year, "en")) {
        if (holiday.type !== "public" && holiday.type !== "bank") continue;
        const first = parseDay(holiday.date.slice(0, 10));
        if (first === undefined) throw new Error(`date-holidays gave a date that is none: ${holiday.date}`);
        const hours = (holiday.end.getTime() - holiday.start.getTime()) / 1000 / HOUR;
        for (let day = first; day < first + Math.max(1, Math.ceil(hours / 24)); day++) {
          if (!names.has(day)) names.set(day, holiday.name);
        }
      }
    }
  }
  return [...names]
    .map(([day, name]) => ({ day, name }))
    .toSorted((one, other) => one.day - other.day || byName(one, other));
};

const byName = (one: NamedDay, other: NamedDay): number => (one.name < other.name ? -1 : 1);

/** The table as lines of text, for a version stamp or a look at it: `2026-12-28 Boxing Day (substitute day)`. */
export const describeHolidays = (days: readonly NamedDay[]): readonly string[] =>
  days.map(({ day, name }) => `${formatDay(day)} ${name}`);
