/**
 * A salon's rules, compiled once from its settings: everything a count-back needs that is not about one booking.
 * Nothing here knows a booking, a record or the present moment.
 */
import { TRANSIT_MAX_DAYS } from "../bounds.ts";
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import { isCalendarPeriod } from "../time/calendar.ts";
import type { HolidayTable } from "./holidays.ts";
import { isOpen, nextOpening } from "./hours.ts";
import { readProtocol } from "./protocol.ts";
import { isOfLabel } from "./questions.ts";
import { refusal } from "./refusal.ts";
import { readSalonHours, type SalonHours } from "./salonHours.ts";
import type { Refusals } from "./spans.ts";
import { readTestRule, type TestRule } from "./testRule.ts";
import type { Refusal } from "./types.ts";

export type { Refusal } from "./types.ts";

export interface Rules extends SalonHours {
  readonly settings: Settings;
  readonly zone: Zone;
  /** In the salon's order of preference. */
  readonly tests: readonly TestRule[];
  readonly holidays: HolidayTable;
  /** How a time is said: as short as it can be beside its appointment, or each with its date and year, for paper. */
  readonly dates: "short" | "full";
  /** Under which UIDs are made. */
  readonly namespace: string;
  /** Whether the salon is open at an instant. */
  readonly isOpenAt: (at: Instant) => boolean;
  /** The instant itself where the salon is open then, else the next opening up to `limit`. */
  readonly nextOpening: (at: Instant, limit: Instant) => Instant | undefined;
}

export type Compiled =
  | { readonly ok: true; readonly rules: Rules }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

/**
 * Compiles settings, or says everything that is wrong with them (counting.md 1, 4, 5, 8, 14, 18).
 * `namespace` makes the UIDs of this salon's events; `holidays` covers the years the salon plans in.
 */
export const compileRules = (settings: Settings, holidays: HolidayTable, namespace: string): Compiled => {
  const zone = Zone.named(settings.zone);
  if (!zone) throw new Error(`settings passed their door with a zone nobody knows: ${settings.zone}`);
  const refusals: Refusals = [];
  for (const [name, written] of Object.entries(settings.protocols)) readProtocol(name, written, true, refusals);
  const tests = settings.tests.map((_, index) => readTestRule(settings, index, refusals));
  refuseRoutesTwice(settings, refusals);
  refuseOwnColour(settings, refusals);
  refuseTransit(settings, refusals);
  refuseRetention(settings, refusals);
  refuseQuestions(settings, refusals);
  const hours = readSalonHours(settings, zone, holidays, refusals);
  if (refusals.length > 0) return { ok: false, refusals };
  const salon = hours.handOver.hours;
  return {
    ok: true,
    rules: {
      ...hours,
      settings,
      zone,
      tests: tests.filter((test) => test !== undefined),
      holidays,
      dates: "short",
      namespace,
      isOpenAt: (at) => isOpen(salon, at),
      nextOpening: (at, limit) => nextOpening(salon, at, limit),
    },
  };
};

const refuseRoutesTwice = (settings: Settings, refusals: Refusals): void => {
  settings.tests.forEach((test, index) => {
    const first = settings.tests.findIndex((other) => other.route === test.route);
    if (first === index) return;
    refusals.push(
      refusal({
        code: "route-twice",
        at: `tests[${index}].route`,
        value: test.route,
        limit: "a route that no earlier test has",
        reason: `tests[${first}] is ${test.route} already`,
        remedy: "join their protocols in one list, or leave one out",
      }),
    );
  });
};

/** Source: harmonised UK professional protocol of January 2024 (NHBF, Hair & Barber Council and others). */
const refuseOwnColour = (settings: Settings, refusals: Refusals): void => {
  settings.tests.forEach((test, index) => {
    if (!test.kit.ownColour) return;
    refusals.push(
      refusal({
        code: "own-colour",
        at: `tests[${index}].kit.ownColour`,
        value: "true",
        limit: "false",
        reason:
          "colour decanted by the salon and posted for a test at home is not recommended, goes against best practice and may invalidate insurance (harmonised UK professional protocol, January 2024: NHBF, Hair & Barber Council and others)",
        remedy: "use a kit made for testing at home, or test in the salon",
      }),
    );
  });
};

const refuseTransit = ({ post: { transit } }: Settings, refusals: Refusals): void => {
  const isWhole = Number.isInteger(transit);
  if (isWhole && transit >= 1 && transit <= TRANSIT_MAX_DAYS) return;
  const [code, reason] =
    transit < 1
      ? ["transit-too-short", "nothing arrives on the day it is posted"]
      : isWhole
        ? ["transit-too-long", "what takes longer than that is lost, not on its way"]
        : ["transit-not-whole", "the post comes once a day"];
  refusals.push(
    refusal({
      code,
      at: "post.transit",
      value: String(transit),
      limit: `a whole number of days from 1 to ${TRANSIT_MAX_DAYS}`,
      reason,
      remedy: "write 1 for the next day, 3 for the universal service's D+3 (Directive 97/67/EC, Annex II)",
    }),
  );
};

const refuseRetention = (settings: Settings, refusals: Refusals): void => {
  for (const kind of ["evidence", "rest"] as const) {
    const value = settings.retention[kind];
    if (isCalendarPeriod(value)) continue;
    refusals.push(
      refusal({
        code: "not-a-period",
        at: `retention.${kind}`,
        value,
        limit: "a calendar period of years, months, weeks or days",
        reason: "records are kept to a date",
        remedy: "write one such as P6Y",
      }),
    );
  }
};

/** The label's questions are asked as they stand, whatever else a salon asks: other words could turn a yes into a no. */
const refuseQuestions = (settings: Settings, refusals: Refusals): void => {
  (settings.questions ?? []).forEach(({ id, yes, ground }, index) => {
    if (isOfLabel(id)) {
      refusals.push(
        refusal({
          code: "question-of-label",
          at: `questions[${index}].id`,
          value: id,
          limit: "an id of your own",
          reason:
            "this warning of the published label (Regulation (EC) No 1223/2009, Annex III) is always asked, in its own words",
          remedy: "leave it out, or ask your own question under another id",
        }),
      );
    } else if (ground !== undefined && yes !== "do-not-colour") {
      refusals.push(
        refusal({
          code: "ground-misplaced",
          at: `questions[${index}].ground`,
          value: ground,
          limit: "left out beside test-needed",
          reason: "a ground says why not to colour, and test-needed only asks for a test",
          remedy: "leave it out, or write do-not-colour",
        }),
      );
    }
  });
};
