/** POST /api/count-back: the engine for one appointment. Nothing is stored; with a salon's key its own settings rule. */
import { Hono } from "hono";
import { COUNT_BACK_YEARS_MAX } from "../bounds.ts";
import { countBack } from "../plan/countBack.ts";
import { checkOutcome } from "../plan/factCheck.ts";
import { holidayPlace, loadHolidays, refuseRegion } from "../plan/holidays.ts";
import { compileRules } from "../plan/rules.ts";
import type { BookingFacts, Fact, Plan, Refusal } from "../plan/types.ts";
import { type Settings, settingsSchema } from "../settings.ts";
import { formatInstant, type Instant, parseInstant, parseWall, yearOf } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { salonOnly } from "./admit.ts";
import { type CountBackRequest, countBackRequest } from "./doors.ts";
import type { Service } from "./env.ts";
import { planJson } from "./planJson.ts";
import { problem, type RequestError } from "./problems.ts";
import { check, readJson } from "./readBody.ts";

export const countBackRoute = new Hono<Service>();

/** Routes tried where neither settings nor a key say which: the kit first, then the walk-in. */
const DEFAULT_TESTS = [
  { route: "home-kit", protocol: "home-kit-120h" },
  { route: "in-salon", protocol: "salon-48h" },
];
/** Under which the UIDs of a count-back are made. */
const NAMESPACE = "count-back";

countBackRoute.use("/count-back", async (c, next) =>
  c.req.header("authorization") === undefined ? next() : salonOnly(c, next),
);

countBackRoute.post("/count-back", async (c) => {
  const read = await readJson(c.req.raw, countBackRequest);
  if (!read.ok) return problem(read.fault);
  const request = read.value;
  const start = startOf(request);
  if (typeof start !== "number") return problem({ code: "request-refused", errors: [start] });
  const now = request.now ?? Math.floor(Date.now() / 1000);
  const tooFar = farError(start, now);
  if (tooFar) return problem({ code: "request-refused", errors: [tooFar] });
  const errors = request.records.flatMap((record, index) =>
    record.at > now + 300 ? [aheadError(index, record.at)] : [],
  );
  if (errors.length > 0) return problem({ code: "request-refused", errors });
  const refusals = factsOf(request).flatMap((fact, index) => outcomeRefusals(fact, index));
  if (refusals.length > 0) return problem({ code: "record-refused", refusals });
  const { salon } = c.var as Partial<Service["Variables"]>;
  if (salon && !request.settings) {
    const shown = await salon.settings(null);
    if (!shown.ok) return problem(shown.fault);
    const { settings } = shown.value;
    const booking = bookingOf(request, start, settings);
    if (!booking) return problem({ code: "request-refused", errors: [serviceError(settings)] });
    return c.json(planJson((await salon.countBack(booking, factsOf(request), now)) as Plan));
  }
  const zone = request.zone ?? "UTC";
  const checked = check({ name: "Count-back", zone, tests: DEFAULT_TESTS, ...request.settings }, settingsSchema);
  if (!checked.ok) return problem(checked.fault);
  const settings = checked.value;
  const booking = bookingOf(request, start, settings);
  if (!booking) return problem({ code: "request-refused", errors: [serviceError(settings)] });
  const { country, region } = holidayPlace(settings);
  const year = yearOf(Math.min(now, start));
  const lastYear = yearOf(Math.max(now, start));
  const holidays = await loadHolidays(country, region, year - 2, lastYear + 2);
  const compiled = compileRules(settings, holidays, NAMESPACE);
  const unfit = compiled.ok ? refuseRegion(holidays) : compiled.refusals;
  if (!compiled.ok || unfit.length > 0) return problem({ code: "settings-refused", refusals: unfit });
  return c.json(planJson(countBack({ booking, facts: factsOf(request), samePerson: true, now }, compiled.rules)));
});

/** The start: with an offset as it stands, without one in the request's own zone. */
const startOf = ({ start, zone }: CountBackRequest): Instant | RequestError => {
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

const farError = (start: Instant, now: Instant): RequestError | undefined => {
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

const aheadError = (index: number, at: Instant): RequestError => ({
  at: `records[${index}].at`,
  value: formatInstant(at),
  limit: "at most five minutes after now",
  remedy: "record what has happened, when it has",
  text: `records[${index}].at lies more than five minutes after now: record what has happened, when it has.`,
});

/** A do-not-colour without its ground stops all the same, so in a count-back it need not have one. */
const outcomeRefusals = (fact: Fact, index: number): readonly Refusal[] =>
  checkOutcome(fact)
    .filter(({ code }) => code !== "ground-missing")
    .map((refused) => ({
      ...refused,
      at: `records[${index}].${refused.at}`,
      text: `records[${index}].${refused.text}`,
    }));

const serviceError = (settings: Settings): RequestError => ({
  at: "service",
  value: null,
  limit: `one of ${settings.services.map(({ name }) => name).join(", ")}`,
  remedy: "name a service of the settings",
  text: `service must be one of ${settings.services.map(({ name }) => name).join(", ")}.`,
});

/** The booking asked about; undefined where its service is none of the settings'. */
const bookingOf = (
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
const factsOf = ({ records, uid }: CountBackRequest): Fact[] => {
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
