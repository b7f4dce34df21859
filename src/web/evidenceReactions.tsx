/** What showed, under the headings of the form: those under which something was told, and in one line those under which nothing was. */
import type { FC } from "hono/jsx";
import { isReaction } from "../plan/ledger.ts";
import type { EvidenceRecord } from "../salon/evidence.ts";
import { reactionLines, shortZoned } from "./evidenceWords.ts";

export const EvidenceReactions: FC<{ records: readonly EvidenceRecord[]; zone: string }> = ({ records, zone }) => {
  const shown = records.filter(({ record }) => record.reaction !== null || isReaction(record));
  if (shown.length === 0) return null;
  return (
    <>
      <h3>What showed</h3>
      {shown.map((entry, place) => (
        <Reaction
          entry={entry}
          zone={zone}
          later={shown
            .slice(place + 1)
            .find((each) => isDescribed(each) && each.record.booking === entry.record.booking)}
        />
      ))}
    </>
  );
};

/** Whether it stands and is described. */
const isDescribed = ({ record, correctedBy }: EvidenceRecord): boolean =>
  correctedBy === null && record.reaction !== null;

interface Told {
  readonly entry: EvidenceRecord;
  readonly zone: string;
  /** What describes a reaction of the same appointment and was told after it. */
  readonly later: EvidenceRecord | undefined;
}

const Reaction: FC<Told> = ({ entry: { record, correctedBy }, zone, later }) => {
  const aside = correctedBy === null ? "" : `, set aside by ${correctedBy}`;
  const head = `${record.id}, ${shortZoned(record.at, record.circumstances.zone ?? zone)}${aside}`;
  const { told, untold } = record.reaction === null ? NOTHING : reactionLines(record.reaction);
  if (told.length === 0) {
    const where = later
      ? `described under the headings with ${later.record.id}`
      : "not described yet under the headings";
    return (
      <p>
        Record {head}: {where}
      </p>
    );
  }
  return (
    <>
      <dl class={correctedBy === null ? "facts" : "facts aside"}>
        <div class="whole">
          <dt>Record</dt>
          <dd>{head}</dd>
        </div>
        {told.map(([heading, words]) => (
          <div>
            <dt>{heading}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      {untold.length === 0 ? null : <p class="small">not told: {untold.join("; ")}</p>}
    </>
  );
};

/** Pressed, and not described. */
const NOTHING = { told: [], untold: [] } as const;
