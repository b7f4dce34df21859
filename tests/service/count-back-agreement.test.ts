/**
 * POST /api/count-back against the independent reckoning of counting.md (tests/reckoner, on TC39 Temporal): random salons,
 * colours, records and moments go over HTTP as an integrator sends them, and each answer is what the reckoning says to the
 * second. `VITE_COUNT_BACK_CASES=5000` asks more often, `VITE_COUNT_BACK_SEED=7` asks other questions (Vite hands only
 * names that begin so into workerd).
 */
import { reset } from "cloudflare:test";
import * as fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { afterEach, expect, test, vi } from "vitest";
import { scene } from "../reckoner/cases.ts";
import { type Moment, momentOf } from "../reckoner/moments.ts";
import { reckon } from "../reckoner/reckon.ts";
import { questionOf, story } from "../reckoner/stories.ts";
import type { Reckoned, ReckonInput } from "../reckoner/types.ts";
import { ask, createSalon, type PlanSeen, send, setClock } from "./client.ts";

const CASES = Number(process.env["VITE_COUNT_BACK_CASES"] ?? 300);
const SEED = Number(process.env["VITE_COUNT_BACK_SEED"] ?? 1);
/** Questions that are also put under a salon's key; each makes a salon. */
const KEYED_CASES = Math.min(CASES, 25);
/** Milliseconds a case may take, its shrinking included. */
const PATIENCE_PER_CASE_MS = 400;

afterEach(async () => {
  vi.useRealTimers();
  await reset();
});

/** Every instant of a plan at which something may turn. */
const edgesOf = (input: ReckonInput): Moment[] => {
  const { steps, routes } = reckon(input);
  const texts = [...steps.flatMap((step) => [step.opens, step.due]), ...routes.flatMap(({ until }) => until ?? [])];
  return texts.map(momentOf);
};

/** The contract has one place for single days off: `holidays.add`. */
const asSent = ({ holidays = [], settings, ...rest }: ReckonInput): ReckonInput => ({
  ...rest,
  settings: { ...settings, holidays: { add: [...(settings.holidays?.add ?? []), ...holidays] } },
});

const asked = fc.tuple(scene, story).map(([where, told]) => asSent(questionOf(where, told, edgesOf)));

/** How a start is written: with UTC's offset, with the zone's own, or as the local time that a diary would hold. */
const WAYS = ["utc", "offset", "local"] as const;

const startAs = (way: (typeof WAYS)[number], { booking, settings }: ReckonInput): string => {
  const at = Temporal.Instant.from(booking.start);
  const local = at.toZonedDateTimeISO(settings.zone);
  if (way === "utc") return booking.start;
  if (way === "offset") return local.toString({ timeZoneName: "never", smallestUnit: "second" });
  // The second pass of a repeated hour has no local writing (RFC 5545 §3.3.5).
  const isFirst = local.toPlainDateTime().toZonedDateTime(settings.zone, { disambiguation: "earlier" }).equals(local);
  return isFirst ? local.toPlainDateTime().toString() : booking.start;
};

/** The body of the call. The zone stands beside the start, where the contract has it; the name is the salon's own affair. */
const bodyOf = (question: ReckonInput, way: (typeof WAYS)[number] = "utc") => {
  const { name: _name, zone, ...settings } = question.settings;
  const { booking, records, now } = question;
  return { start: startAs(way, question), zone, now, settings, records, uid: booking.uid };
};

const post = (body: unknown): Promise<Response> =>
  send("/api/count-back", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });

const planOf = async (answer: Response): Promise<PlanSeen> => {
  const text = await answer.text();
  if (answer.status !== 200) throw new Error(`${answer.status} ${text}`);
  return JSON.parse(text) as PlanSeen;
};

const PAST_CODES: readonly string[] = ["stop", "ready", "not-ready"] satisfies Reckoned["pastCode"][];

/** An answer in the reckoning's form; `on-file` is also listed where it does not count, which rule 21 does not name. */
const reckonedForm = ({ route, standing, why, steps, routes, earliest }: PlanSeen) => ({
  route,
  standing,
  steps: steps.map(({ kind, n, opens, due, state }) => ({ kind, n, opens, due, state })),
  routes: routes
    .map(({ route: name, fits, until, firstDue, earliest: first }) => ({
      route: name,
      fits,
      until,
      firstDue,
      earliest: first,
    }))
    .filter((each) => each.route !== "on-file" || each.until !== null || each.fits),
  earliest,
  pastCode: standing === "past" ? (PAST_CODES.find((code) => code === why[0]?.code) ?? "none") : null,
});

const EVERYDAY = ["on-track", "due", "late", "no-time", "stop", "past", "in-salon", "home-kit", "on-file", null];

test(`POST /api/count-back answers ${CASES} random questions as an independent reckoning of counting.md does`, {
  timeout: 20_000 + CASES * PATIENCE_PER_CASE_MS,
}, async () => {
  const met = new Set<string | null>();
  await fc.assert(
    fc.asyncProperty(asked, fc.constantFrom(...WAYS), async (question, way) => {
      const expected = reckon(question);
      // No record of a story is refused at this door: planOf throws at anything but 200.
      const plan = await planOf(await post(bodyOf(question, way)));
      expect(reckonedForm(plan), JSON.stringify(question)).toEqual(expected);
      expect([plan.asOf, plan.booking.start, plan.booking.uid]).toEqual([
        question.now,
        question.booking.start,
        question.booking.uid,
      ]);
      met.add(expected.standing).add(expected.route);
    }),
    { numRuns: CASES, seed: SEED },
  );
  expect([...met]).toEqual(expect.arrayContaining(EVERYDAY));
});

/** UIDs are made under the salon, or under count-backs at large: all else must be one plan. */
const withoutUids = (plan: PlanSeen) => ({ ...plan, steps: plan.steps.map(({ uid: _uid, ...step }) => step) });

test(`a salon's key with its stored settings gives the plan that the same settings sent along give, ${KEYED_CASES} times`, async () => {
  const questions = fc.sample(asked, { numRuns: KEYED_CASES, seed: SEED });
  for (const question of questions) {
    setClock(question.now);
    const { key } = await createSalon(question.settings);
    const { settings: _settings, ...body } = bodyOf(question);
    const stored = await planOf(await ask(key, "POST", "/api/count-back", body));
    const sent = await planOf(await post(bodyOf(question)));
    expect(withoutUids(stored), JSON.stringify(question)).toEqual(withoutUids(sent));
    expect(reckonedForm(stored), JSON.stringify(question)).toEqual(reckon(question));
  }
});
