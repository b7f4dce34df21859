/** Plans, records and reports as the outward contract writes them: instants as RFC 3339 in UTC. */
import type { EarliestStart } from "../plan/earliest.ts";
import type { Plan } from "../plan/types.ts";
import type { PlanBrief, PlanChange } from "../salon/previewSettings.ts";
import type { EntryShown } from "../salon/entries.ts";
import type { ScreeningShown } from "../salon/screenings.ts";
import type { DiaryReport, QuestionsShown, Recorded } from "../salon/types.ts";
import { formatDay, formatInstant, type Instant } from "../time/instant.ts";

const instant = (value: Instant | null): string | null => (value === null ? null : formatInstant(value));

export const planJson = (plan: Plan) => ({
  asOf: formatInstant(plan.asOf),
  booking: {
    uid: plan.booking.uid,
    start: formatInstant(plan.booking.start),
    end: instant(plan.booking.end),
    summary: plan.booking.summary,
    service: plan.booking.service,
    diary: plan.booking.diary,
    client: plan.booking.client,
  },
  route: plan.route,
  standing: plan.standing,
  why: plan.why,
  steps: plan.steps.map(({ uid, kind, n, who, opens, due, state, rule }) => ({
    uid,
    kind,
    n,
    who,
    opens: formatInstant(opens),
    due: formatInstant(due),
    state,
    rule,
  })),
  routes: plan.routes.map(({ route, fits, until, firstDue, earliest, why }) => ({
    route,
    fits,
    until: instant(until),
    firstDue: instant(firstDue),
    earliest: instant(earliest),
    why,
  })),
  earliest: plan.earliest && { start: formatInstant(plan.earliest.start), route: plan.earliest.route },
});

export const earliestJson = ({ route, start, why }: EarliestStart) => ({ route, start: instant(start), why });

/** A record with what stood around it when it was told: the same for ever, also once a correction has set it aside. */
export const factJson = ({ circumstances: { start, ...around }, isLeft: _isLeft, ...fact }: Recorded) => ({
  ...fact,
  at: formatInstant(fact.at),
  recorded: formatInstant(fact.recorded),
  ...around,
  appointmentStart: instant(start),
});

/** The questions as a client is asked them. */
export const questionsJson = ({ version, consent, questions }: QuestionsShown) => ({
  version,
  consent,
  questions: questions.map(({ id, text, yes, source }) => ({ id, text, yes, source })),
});

/** A set of answers beside the words that were answered. */
export const screeningJson = ({ at, withdrawn, questions, ...screening }: ScreeningShown) => ({
  ...screening,
  at: formatInstant(at),
  withdrawn: instant(withdrawn),
  questions: questions.map(({ id, text, yes, source }) => ({ id, text, yes, source })),
});

/** An entry of a diary, and what it was taken for. */
export const entryJson = ({ start, end, date, client, named: _named, ...entry }: EntryShown) => ({
  ...entry,
  start: instant(start),
  end: instant(end),
  date: date === null ? null : formatDay(date),
  client: client === null ? null : { name: client },
});

export const reportJson = ({ held, ...report }: DiaryReport) => ({
  ...report,
  at: formatInstant(report.at),
  held: held && { since: formatInstant(held.since), reason: held.why },
});

const briefJson = ({ firstDue, ...brief }: PlanBrief) => ({ ...brief, firstDue: instant(firstDue) });

/** `before` is null where it is no booking yet, `after` where it would be one no longer. */
export const changeJson = ({ booking, start, before, after, moved }: PlanChange) => ({
  booking,
  start: formatInstant(start),
  before: before && briefJson(before),
  after: after && briefJson(after),
  moved,
});
