/**
 * Puts a question of the reckoning to the product's engine and brings the answer into the reckoning's form.
 * Never corrects an answer.
 */
import { countBack } from "../../src/plan/countBack.ts";
import type { HolidayTable } from "../../src/plan/holidays.ts";
import { compileRules } from "../../src/plan/rules.ts";
import type { Fact } from "../../src/plan/types.ts";
import { settingsSchema } from "../../src/settings.ts";
import { formatInstant, type Instant, parseDay, parseInstant } from "../../src/time/instant.ts";
import type { Reckoned, ReckonInput, ReckonRecord, ReckonSettings } from "./types.ts";

/** The given days as the holidays of a place that knows no others. */
const tableOf = (dates: readonly string[]): HolidayTable => {
  const days = [...new Set(dates)].toSorted().map((date) => ({ day: parseDay(date) as number, name: "A day off" }));
  return { country: null, region: null, place: "no-country", fromYear: 2020, toYear: 2032, post: days, salon: days };
};

const instantOf = (text: string): Instant => parseInstant(text) as Instant;

const factOf = (record: ReckonRecord, index: number, uid: string): Fact => ({
  id: record.id ?? `#${index}`,
  client: null,
  booking: record.booking ?? uid,
  kind: record.kind,
  at: instantOf(record.at),
  recorded: instantOf(record.at),
  outcome: record.outcome ?? null,
  route: record.route ?? null,
  by: null,
  via: record.via ?? "desk",
  product: record.product ?? null,
  shade: record.shade ?? null,
  batch: null,
  site: null,
  photo: null,
  reason: record.reason ?? null,
  note: null,
  corrects: record.corrects ?? null,
});

const PAST_CODES = ["stop", "ready", "not-ready"] as const;

/** The engine's answer, or the sentences with which it refuses the settings. */
export const askEngine = (input: ReckonInput): Reckoned | { readonly refused: readonly string[] } => {
  const settings = settingsSchema.parse(input.settings satisfies ReckonSettings);
  const compiled = compileRules(settings, tableOf(input.holidays ?? []), "salon-1");
  if (!compiled.ok) return { refused: compiled.refusals.map((each) => each.text) };
  const { uid, start } = input.booking;
  const service = settings.services[0]?.name ?? "";
  const booking = {
    uid,
    start: instantOf(start),
    end: null,
    summary: "",
    service,
    diary: null,
    client: null,
    cancelled: false,
  };
  const facts = input.records.map((record, index) => factOf(record, index, uid));
  const plan = countBack({ booking, facts, samePerson: true, now: instantOf(input.now) }, compiled.rules);
  const text = (instant: Instant | null): string | null => (instant === null ? null : formatInstant(instant));
  return {
    route: plan.route,
    standing: plan.standing,
    steps: plan.steps.map(({ kind, n, opens, due, state }) => ({
      kind,
      n,
      opens: formatInstant(opens),
      due: formatInstant(due),
      state,
    })),
    routes: plan.routes.map(({ route, fits, until, firstDue, earliest }) => ({
      route,
      fits,
      until: text(until),
      firstDue: text(firstDue),
      earliest: text(earliest),
    })),
    earliest: plan.earliest && { start: formatInstant(plan.earliest.start), route: plan.earliest.route },
    pastCode:
      plan.standing === "past" ? (PAST_CODES.find((code) => plan.why.some((why) => why.code === code)) ?? null) : null,
  };
};
