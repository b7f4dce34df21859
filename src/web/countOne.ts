/**
 * One appointment counted back by settings that came with the request, for whoever asks: the call and the front door. Stores
 * nothing and asks no clock.
 */
import { COUNT_BACK_YEARS_MAX } from "../bounds.ts";
import { countBack } from "../plan/countBack.ts";
import { holidayPlace, loadHolidays, refuseRegion } from "../plan/holidays.ts";
import { compileRules, type Rules } from "../plan/rules.ts";
import type { BookingFacts, Fact, Plan } from "../plan/types.ts";
import { type Settings, settingsSchema } from "../settings.ts";
import { type Instant, parseInstant, parseWall, yearOf } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import type { CountBackRequest } from "./doors.ts";
import type { AnyFault, RequestError } from "./problems.ts";
import { check } from "./readBody.ts";

/** Routes tried where neither settings nor a key say which: the kit first, then the walk-in. */
const DEFAULT_TESTS = [
  { route: "home-kit", protocol: "home-kit-120h" },
  { route: "in-salon", protocol: "salon-48h" },
];
/** Under which the UIDs of a count-back are made. */
export const NAMESPACE = "count-back";

export interface Counted {
  readonly plan: Plan;
  readonly settings: Settings;
  readonly rules: Rules;
}

/** @param start of the colour, read and not too far from now */
export const countOne = async (
  request: CountBackRequest,
  start: Instant,
  now: Instant,
): Promise<{ readonly ok: true; readonly value: Counted } | { readonly ok: false; readonly fault: AnyFault }> => {
  const zone = request.zone ?? "UTC";
  const checked = check({ name: "Count-back", zone, tests: DEFAULT_TESTS, ...request.settings }, settingsSchema);
  if (!checked.ok) return checked;
  const settings = checked.value;
  const booking = bookingOf(request, start, settings);
  if (!booking) return { ok: false, fault: { code: "request-refused", errors: [serviceError(settings)] } };
  const { country, region } = holidayPlace(settings);
  const year = yearOf(Math.min(now, start));
  const lastYear = yearOf(Math.max(now, start));
  const holidays = await loadHolidays(country, region, year - 2, lastYear + 2);
  const compiled = compileRules(settings, holidays, NAMESPACE);
  const unfit = compiled.ok ? refuseRegion(holidays) : compiled.refusals;
  if (!compiled.ok || unfit.length > 0) return { ok: false, fault: { code: "settings-refused", refusals: unfit } };
  const { rules } = compiled;
  const plan = countBack({ booking, facts: factsOf(request), samePerson: true, now }, rules);
  return { ok: true, value: { plan, settings, rules } };
};

/** The start: with an offset as it stands, without one in the request's own zone. */
export const startOf = ({ start, zone }: Pick<CountBackRequest, "start" | "zone">): Instant | RequestError => {
  const instant = parseInstant(start);
  if (instant !== undefined) return instant;
  const wall = parseWall(start);
  const known = zone === undefined ? undefined : Zone.named(zone);
  if (wall !== undefined && known) return known.diaryReading(wall);
  const limit = "an instant with an offset, or a local time beside a zone";
  const remedy =
    wall === undefined
      ? "write one such as 2026-12-11T10:30:00Z"
      : zone === undefined
        ? "add an offset, or a zone such as Europe/London"
        : "correct the zone: no IANA time zone has this name";
  return {
    at: wall !== undefined && zone !== undefined ? "zone" : "start",
    value: start.slice(0, 40),
    limit,
    remedy,
    text: `start is ${start.slice(0, 40)}: it must be ${limit}; ${remedy}.`,
  };
};

/** Years that a count-back can be about: before and after, zones and holidays are nobody's knowledge. */
const [FIRST_YEAR, LAST_YEAR] = [1970, 2200];

/** Why a start is too far to be counted back; undefined: it is not. */
export const farError = (start: Instant, now: Instant): RequestError | undefined => {
  const years = [start, now].map(yearOf) as [number, number];
  const isKnown = years.every((year) => year >= FIRST_YEAR && year < LAST_YEAR);
  if (isKnown && Math.abs(years[0] - years[1]) <= COUNT_BACK_YEARS_MAX) return undefined;
  const limit = `between ${FIRST_YEAR} and ${LAST_YEAR}, and at most ${COUNT_BACK_YEARS_MAX} years from now`;
  return {
    at: "start",
    value: String(years[0]),
    limit,
    remedy: "give a nearer start",
    text: `start lies in the year ${years[0]} and now in ${years[1]}: start must be ${limit}; give a nearer start.`,
  };
};

export const serviceError = (settings: Settings): RequestError => ({
  at: "service",
  value: null,
  limit: `one of ${settings.services.map(({ name }) => name).join(", ")}`,
  remedy: "name a service of the settings",
  text: `service must be one of ${settings.services.map(({ name }) => name).join(", ")}.`,
});

/** The booking asked about; undefined where its service is none of the settings'. */
export const bookingOf = (
  { uid, service }: CountBackRequest,
  start: Instant,
  settings: Settings,
): BookingFacts | undefined => {
  const name = service ?? settings.services[0]?.name;
  if (!settings.services.some((each) => each.name === name) || name === undefined) return undefined;
  return {
    uid: uid ?? NAMESPACE,
    start,
    end: null,
    summary: name,
    service: name,
    diary: null,
    client: null,
    cancelled: false,
  };
};

/** Records absent of a booking, or naming this one, are this booking's; any other name is an earlier one's. */
export const factsOf = ({ records, uid }: CountBackRequest): Fact[] => {
  // Of one second the later in the list is the newer, whatever ids the caller gives.
  const numbered = new Map(records.map(({ id }, index) => [id, numberOf(index)]));
  return records.map(({ id: _id, booking, recorded, corrects, ...record }, index) => ({
    ...record,
    id: numberOf(index),
    client: null,
    booking: booking ?? uid ?? NAMESPACE,
    recorded: recorded ?? record.at,
    corrects: corrects === null ? null : (numbered.get(corrects) ?? NO_RECORD),
  }));
};

/** What a correction names that names no record of the request. */
const NO_RECORD = "none";

const numberOf = (index: number): string => `r${index + 1}`;
