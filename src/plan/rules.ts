/**
 * A salon's rules, compiled once from its settings: everything a count-back needs that is not about one booking.
 * Nothing here knows a booking, a record or the present moment.
 */
import type { Settings } from "../settings.ts";
import type { Instant } from "../time/instant.ts";
import { Zone } from "../time/zone.ts";
import type { HolidayTable } from "./holidays.ts";
import { isOpen, nextOpening } from "./hours.ts";
import { readProtocol } from "./protocol.ts";
import { labelQuestion } from "./questions.ts";
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

/** Calendar lengths, `P6Y`: how long records are kept is a matter of dates, not of hours. */
const CALENDAR_PERIOD = /^P(?=\d)(?:\d{1,3}Y)?(?:\d{1,4}M)?(?:\d{1,4}W)?(?:\d{1,5}D)?$/;

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
  refuseWeakenedQuestions(settings, refusals);
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

const refuseTransit = (settings: Settings, refusals: Refusals): void => {
  if (Number.isInteger(settings.post.transit) && settings.post.transit >= 1) return;
  refusals.push(
    refusal({
      code: "transit-too-short",
      at: "post.transit",
      value: String(settings.post.transit),
      limit: "a whole number of days, 1 or more",
      reason: "nothing arrives on the day it is posted",
      remedy: "write 1 for the next day, 3 for the universal service's D+3 (Directive 97/67/EC, Annex II)",
    }),
  );
};

const refuseRetention = (settings: Settings, refusals: Refusals): void => {
  for (const kind of ["evidence", "rest"] as const) {
    const value = settings.retention[kind];
    if (CALENDAR_PERIOD.test(value)) continue;
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

/** A salon may word the label's questions its own way; what a `yes` to them means, it may not change. */
const refuseWeakenedQuestions = (settings: Settings, refusals: Refusals): void => {
  (settings.questions ?? []).forEach(({ id, yes, ground }, index) => {
    const label = labelQuestion(id);
    if (label && yes !== label.yes) {
      refusals.push(
        refusal({
          code: "question-weakened",
          at: `questions[${index}].yes`,
          value: yes,
          limit: label.yes,
          reason: `${id} is a warning of the published label (Regulation (EC) No 1223/2009, Annex III)`,
          remedy: `write ${label.yes}, or ask your own question under another id`,
        }),
      );
      return;
    }
    if (ground === undefined || (label ? ground === label.ground : yes === "do-not-colour")) return;
    refusals.push(
      refusal({
        code: label ? "question-weakened" : "ground-misplaced",
        at: `questions[${index}].ground`,
        value: ground,
        limit: label?.ground ?? "left out beside test-needed",
        reason: label
          ? `${id} is a warning of the published label (Regulation (EC) No 1223/2009, Annex III)`
          : "a ground says why not to colour, and test-needed only asks for a test",
        remedy: label
          ? `write ${label.ground} or leave it out, or ask your own question under another id`
          : "leave it out, or write do-not-colour",
      }),
    );
  });
};
