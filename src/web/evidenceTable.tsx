/** Every record of an appointment as a row: what, when, what it says, by which rule, told when and by whom. */
import type { FC } from "hono/jsx";
import type { EvidenceRecord } from "../salon/evidence.ts";
import { detailsOf, KIND_WORDS, laterWords, ruleWords, shortZoned, whoWords } from "./evidenceWords.ts";

interface Group {
  /** Null where nothing needs to stand above its records. */
  readonly title: string | null;
  readonly records: readonly EvidenceRecord[];
}

export const EvidenceTable: FC<{ groups: readonly Group[]; zone: string }> = ({ groups, zone }) => (
  <table class="records">
    <thead>
      <tr>
        {["Record", "When", "What it says", "Rule", "Told"].map((name) => (
          <th scope="col">{name}</th>
        ))}
      </tr>
    </thead>
    {groups
      .filter(({ records, title }) => records.length > 0 || title === groups[0]?.title)
      .map(({ title, records }) => (
        <tbody>
          {title === null ? null : (
            <tr>
              <th scope="rowgroup" colspan={5}>
                {title}
              </th>
            </tr>
          )}
          {records.length === 0 ? (
            <tr>
              <td colspan={5}>Nothing is recorded. Silence is not a clear result.</td>
            </tr>
          ) : (
            records.map((each) => <Row entry={each} zone={zone} />)
          )}
        </tbody>
      ))}
  </table>
);

const Row: FC<{ entry: EvidenceRecord; zone: string }> = ({ entry: { record, correctedBy, toldFor }, zone }) => {
  const there = record.circumstances.zone ?? zone;
  const moved = toldFor === null ? [] : [`For the appointment at ${shortZoned(toldFor, there)}`];
  return (
    <tr class={correctedBy === null ? undefined : "aside"}>
      <td>
        <strong>{KIND_WORDS[record.kind]}</strong> {record.id}
      </td>
      <td>
        {shortZoned(record.at, there)}
        {there === zone ? null : ` (${there})`}
      </td>
      <td class="detail">
        {correctedBy === null ? null : <em>Set aside by {correctedBy}. </em>}
        {[...detailsOf(record), ...moved].join(". ")}
      </td>
      <td>{ruleWords(record)}</td>
      <td>
        {laterWords(record)}
        {shortZoned(record.recorded, there)}, {whoWords(record)}
      </td>
    </tr>
  );
};
