/** What an insurer asks first of one appointment: client, test, looks, result, who confirmed. By the records that stand. */
import type { FC } from "hono/jsx";
import type { Evidence } from "../salon/evidence.ts";
import type { Recorded } from "../salon/types.ts";
import type { RecordKind } from "../plan/types.ts";
import { wholeMinute } from "../time/instant.ts";
import {
  between,
  OUTCOME_WORDS,
  ROUTE_WORDS,
  ruleLength,
  shortZoned,
  shownWords,
  STANDING_WORDS,
  whoWords,
} from "./evidenceWords.ts";

export const EvidenceSummary: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, client, appointment, plan } = evidence;
  const standing = evidence.records.filter(({ correctedBy }) => correctedBy === null).map(({ record }) => record);
  const earlier = evidence.earlier.filter(({ correctedBy }) => correctedBy === null).map(({ record }) => record);
  const hasOwn = standing.some(({ kind }) => kind === "applied" || kind === "read");
  const tested = hasOwn ? standing : earlier;
  const of = (kind: RecordKind, among: readonly Recorded[] = standing): readonly Recorded[] =>
    among.filter((record) => record.kind === kind);
  const applied = of("applied", tested).at(-1) ?? of("read", tested).at(-1);
  const when = (record: Recorded): string =>
    shortZoned(wholeMinute(record.at), record.circumstances.zone ?? settings.zone);
  const { start } = appointment ?? { start: null };
  const lead =
    applied?.kind === "applied" && start !== null && hasOwn && applied.at < start
      ? `The test went on ${between(applied.at, start)} before the appointment${leastOf(applied)}.`
      : null;
  const reacted = standing.filter(({ kind, outcome }) => kind === "reacted" || outcome === "reaction");
  const facts: readonly (readonly [string, readonly string[]])[] = [
    ["Client", [`${shownWords(client.name)} (${client.id})`]],
    [
      "Appointment",
      appointment === null
        ? ["no longer in the diary"]
        : [
            shortZoned(wholeMinute(appointment.start), settings.zone),
            ...(appointment.cancelledAt === null
              ? []
              : [`called off, known since ${shortZoned(appointment.cancelledAt, settings.zone)}`]),
          ],
    ],
    ["Service", appointment === null ? [] : [`${appointment.service} (diary ${appointment.diary})`]],
    [
      "Health questions",
      of("screened").map(
        (record) =>
          `${when(record)}: ${OUTCOME_WORDS[record.outcome ?? ""] ?? ""}${record.reason === null ? "" : ` (${shownWords(record.reason)})`}, ${whoWords(record)}`,
      ),
    ],
    ["Kind of test", applied?.route ? [`${ROUTE_WORDS[applied.route]}${hasOwn ? "" : ", an earlier one"}`] : []],
    ["Product", applied?.product ? [shownWords(applied.product)] : []],
    ["Depth of shade", applied?.shade ? [String(applied.shade)] : []],
    ["Batch", applied?.batch ? [shownWords(applied.batch)] : []],
    ["Site", applied?.site ? [shownWords(applied.site)] : []],
    ["Put on", of("applied", tested).map((record) => `${when(record)}, ${whoWords(record)}`)],
    ["Taken off", of("removed", tested).map((record) => `${when(record)}, ${whoWords(record)}`)],
    [
      "Looked at",
      of("read", tested).map(
        (record) => `${when(record)}: ${OUTCOME_WORDS[record.outcome ?? ""] ?? ""}, ${whoWords(record)}`,
      ),
    ],
    ["Something showed", reacted.map((record) => `${when(record)}, ${whoWords(record)}`)],
    ["Confirmed", of("confirmed").map((record) => `${when(record)}, ${whoWords(record)}`)],
  ];
  return (
    <>
      <dl class="facts">
        {facts.map(([label, lines]) => (
          <div>
            <dt>{label}</dt>
            <dd>{lines.length === 0 ? NOT_RECORDED : lines.map((line) => <p>{line}</p>)}</dd>
          </div>
        ))}
        {plan === null ? null : (
          <div class="whole">
            <dt>How it stands</dt>
            <dd>
              {lead === null ? null : `${lead} `}
              <strong>{STANDING_WORDS[plan.standing]}</strong> {plan.why.map(({ text }) => text).join(" ")}
            </dd>
          </div>
        )}
      </dl>
    </>
  );
};

/** What the rule of the application asks for, as it was when it was told. */
const leastOf = ({ circumstances: { rule } }: Recorded): string => {
  const least = ruleLength(rule?.duration);
  return least === null ? "" : `; the rule asks for at least ${least}`;
};

/** Silence is never a result. */
const NOT_RECORDED = "not recorded";
