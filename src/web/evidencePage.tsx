/**
 * The evidence of one appointment on one page, to print and to sign: first what an insurer asks, then every record it rests on.
 * English, as the salon's own pages are.
 */
import type { FC } from "hono/jsx";
import type { Evidence, EvidenceRecord } from "../salon/evidence.ts";
import { EvidenceFooter } from "./evidenceFooter.tsx";
import { EvidenceSummary } from "./evidenceSummary.tsx";
import { EvidenceTable } from "./evidenceTable.tsx";
import { reactionLines, shortZoned, shownWords } from "./evidenceWords.ts";
import { Page } from "./layout.tsx";

export const EvidencePage: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, records, foreign, earlier, stops } = evidence;
  return (
    <Page title="Skin test record" language="en-GB" isKept>
      <div class="sheet">
        <h1>
          {settings.name}
          {[settings.contact.address, settings.contact.phone].map((line) => (line === null ? null : `, ${line}`))}
        </h1>
        <h2>Skin test record</h2>
        <p class="small">Reference of the appointment: {shownWords(evidence.booking)}</p>
        <EvidenceSummary evidence={evidence} />
        <Reactions records={[...records, ...stops]} zone={settings.zone} />
        <h3>Every record</h3>
        <p class="small">
          Times are of {settings.zone}, with their offset from UTC; above to the minute, here as they are kept. Nothing
          here was changed after it was told: what was wrong is struck out and stands beside its correction.
        </p>
        <EvidenceTable
          zone={settings.zone}
          groups={[
            { title: "This appointment", records },
            { title: "The earlier test it rests on", records: earlier },
            { title: "Stops told under other appointments", records: stops },
            { title: "Told under another client's name, and not counted here", records: foreign },
          ]}
        />
        <EvidenceFooter evidence={evidence} />
      </div>
    </Page>
  );
};

/** What showed, under the headings of the form; nothing is said where nothing was told. */
const Reactions: FC<{ records: readonly EvidenceRecord[]; zone: string }> = ({ records, zone }) => {
  const told = records.filter(({ record }) => record.reaction !== null);
  if (told.length === 0) return null;
  return (
    <>
      <h3>What showed</h3>
      {told.map(({ record, correctedBy }) => (
        <dl class={correctedBy === null ? "facts" : "facts aside"}>
          <div class="whole">
            <dt>Record</dt>
            <dd>
              {record.id}, {shortZoned(record.at, record.circumstances.zone ?? zone)}
              {correctedBy === null ? "" : `, set aside by ${correctedBy}`}
            </dd>
          </div>
          {reactionLines(record.reaction).map(([heading, words]) => (
            <div>
              <dt>{heading}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      ))}
    </>
  );
};
