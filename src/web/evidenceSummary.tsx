/** What an insurer asks first of one appointment: client, tests, looks, result, who confirmed. By the records that stand. */
import type { FC } from "hono/jsx";
import { isReaction } from "../plan/ledger.ts";
import type { RecordKind } from "../plan/types.ts";
import type { Evidence, EvidenceRecord } from "../salon/evidence.ts";
import { type ToldTest, toldTests } from "../salon/toldTests.ts";
import type { Recorded } from "../salon/types.ts";
import { type Instant, wholeMinute } from "../time/instant.ts";
import { type FactShown, Facts } from "./evidenceFacts.tsx";
import { EvidenceTest } from "./evidenceTest.tsx";
import {
  OUTCOME_WORDS,
  reasonWords,
  restsOnWords,
  shortZoned,
  shownWords,
  STANDING_WORDS,
  whoWords,
} from "./evidenceWords.ts";

export const EvidenceSummary: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, client, appointment } = evidence;
  const { zone } = settings;
  const when = (record: Recorded): string => shortZoned(wholeMinute(record.at), record.circumstances.zone ?? zone);
  const told = (record: Recorded): string => `${when(record)}, ${whoWords(record)}`;
  const factOf = (
    label: string,
    isMeant: (record: Recorded) => boolean,
    words: (record: Recorded) => string,
  ): FactShown => {
    const meant = evidence.records.filter(({ record }) => isMeant(record));
    const lines = meant.filter(({ correctedBy }) => correctedBy === null).map(({ record }) => words(record));
    return { label, lines, isSetAside: meant.length > 0 };
  };
  return (
    <>
      <Facts
        facts={[
          { label: "Client", lines: [`${shownWords(client.name)} (${client.id})`] },
          { label: "Appointment", lines: appointmentLines(evidence) },
          {
            label: "Service",
            lines: appointment === null ? [] : [`${appointment.service} (diary ${appointment.diary})`],
          },
          factOf("Health questions", is("screened"), (record) => {
            const reason = reasonWords(record);
            const outcome = OUTCOME_WORDS[record.outcome ?? ""] ?? "";
            return `${when(record)}: ${outcome}${reason === null ? "" : ` (${reason})`}, ${whoWords(record)}`;
          }),
        ]}
      />
      {testsShown(evidence).map(({ title, test, start }) => (
        <>
          {title === null ? null : <h3>{title}</h3>}
          <EvidenceTest test={test} zone={zone} start={start} />
        </>
      ))}
      <Facts facts={[factOf("Something showed", isReaction, told), factOf("Confirmed", is("confirmed"), told)]} />
      <Standing evidence={evidence} />
    </>
  );
};

const is =
  (kind: RecordKind) =>
  (record: Recorded): boolean =>
    record.kind === kind;

const appointmentLines = ({ appointment, settings: { zone } }: Evidence): readonly string[] => {
  if (appointment === null) return ["no longer in the diary"];
  const { start, cancelledAt } = appointment;
  return [
    shortZoned(wholeMinute(start), zone),
    ...(cancelledAt === null ? [] : [`called off, known since ${shortZoned(cancelledAt, zone)}`]),
  ];
};

interface TestShown {
  /** Null where there is no other. */
  readonly title: string | null;
  readonly test: ToldTest;
  readonly start: Instant | null;
}

const TEST_KINDS: ReadonlySet<RecordKind> = new Set(["applied", "removed", "read", "posted"]);
const isOfTest = ({ record }: EvidenceRecord): boolean => TEST_KINDS.has(record.kind);

/** The tests of the appointment itself, then the earlier one that it rests on. */
const testsShown = ({ records, earlier, restsOn, appointment }: Evidence): readonly TestShown[] => {
  const rested = restsOn === null ? [] : toldTests(earlier).filter((test) => isMadeOf(test, restsOn.record.id));
  const own = rested.length > 0 && !records.some(isOfTest) ? [] : toldTests(records);
  const start = appointment?.start ?? null;
  return [
    ...own.map((test, place) => ({
      title: own.length > 1 ? `Test ${place + 1} of ${own.length}` : rested.length > 0 ? "The test for it" : null,
      test,
      start,
    })),
    ...rested.map((test) => ({ title: "The earlier test it rests on", test, start: null })),
  ];
};

const isMadeOf = ({ applied, reads }: ToldTest, id: string): boolean =>
  applied?.id === id || reads.some((read) => read.id === id);

/** The plan's word on it, by whose settings, and what of the page is of today. */
const Standing: FC<{ evidence: Evidence }> = ({ evidence: { plan, restsOn, settings, version, isFixed, at } }) => (
  <dl class="facts">
    {restsOn === null ? null : (
      <div class="whole">
        <dt>Rests on</dt>
        <dd>{restsOnWords(restsOn, settings.zone, version)}</dd>
      </div>
    )}
    {plan === null ? null : (
      <div class="whole">
        <dt>How it stands</dt>
        <dd>
          <strong>{STANDING_WORDS[plan.standing]}</strong> {plan.why.map(({ text }) => text).join(" ")}
        </dd>
      </div>
    )}
    <div class="whole">
      <dt>By which rules</dt>
      <dd>
        Reckoned on {shortZoned(wholeMinute(at), settings.zone)} with version {version} of the salon's settings
        {isFixed ? ", which held when the appointment began" : ""}; each record names the version it was told under. The
        salon's name, address and zone are those of today.
      </dd>
    </div>
  </dl>
);
