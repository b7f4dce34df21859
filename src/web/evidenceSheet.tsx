/** The evidence of one appointment as a sheet: first what an insurer asks, then every record it rests on. English, as the salon's own pages are. */
import type { FC } from "hono/jsx";
import type { Evidence } from "../salon/evidence.ts";
import { STRUCK } from "../salon/strikeNames.ts";
import { EvidenceFooter } from "./evidenceFooter.tsx";
import { EvidenceReactions } from "./evidenceReactions.tsx";
import { EvidenceSummary } from "./evidenceSummary.tsx";
import { EvidenceTable } from "./evidenceTable.tsx";
import { shownWords } from "./evidenceWords.ts";

export const EvidenceSheet: FC<{ evidence: Evidence }> = ({ evidence }) => {
  const { settings, records, foreign, earlier, stops } = evidence;
  return (
    <div class="sheet">
      <h1>
        {settings.name}
        {[settings.contact.address, settings.contact.phone].map((line) => (line === null ? null : `, ${line}`))}
      </h1>
      <h2>Skin test record</h2>
      <p class="small">Reference of the appointment: {shownWords(evidence.booking)}</p>
      <EvidenceSummary evidence={evidence} />
      <EvidenceReactions records={[...records, ...stops]} zone={settings.zone} />
      <h3>Every record</h3>
      <p class="small">
        Times are of {settings.zone}, with their offset from UTC; above to the minute, here as they are kept. Nothing
        here was changed after it was told: what was wrong is struck out and stands beside its correction.
        {JSON.stringify([records, earlier, stops]).includes(STRUCK)
          ? ` Where ${STRUCK} stands, somebody else was named who has been erased since.`
          : null}
      </p>
      <EvidenceTable
        zone={settings.zone}
        groups={[
          { title: "This appointment", records },
          { title: "The earlier test it rests on", records: earlier },
          { title: "Stops told under other appointments", records: stops },
        ]}
      />
      {foreign.length === 0 ? null : (
        <p class="small">
          Told of this appointment while the diary gave it to another client, and kept there:{" "}
          {foreign.map(({ id }) => id).join(", ")}. None of it counts as a test here; a stop among it stops this
          appointment too.
        </p>
      )}
      <EvidenceFooter evidence={evidence} />
    </div>
  );
};
