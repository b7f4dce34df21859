/** Records in words, a row each: when it happened, what it was, what it says, who told it and when. */
import type { FC } from "hono/jsx";
import type { LogEntry } from "../../salon/recordList.ts";
import { detailsOf, KIND_WORDS, whoWords } from "../evidenceWords.ts";
import { minuteIn } from "../minuteIn.ts";
import { deskContext, refOf, type Signed } from "./desk.ts";
import { Their } from "./their.tsx";

export interface RecordGroup {
  /** Above the rows; null: nothing. */
  readonly title: string | null;
  readonly rows: readonly LogEntry[];
}

/** @param isOfAll whose each record is stands beside it */
export const ToldRows: FC<{ signed: Signed; groups: readonly RecordGroup[]; isOfAll?: boolean }> = ({
  signed,
  groups,
  isOfAll = false,
}) => {
  const columns = ["Happened", "What", ...(isOfAll ? ["Client"] : []), "What it says", "Told"];
  return (
    <table class="told-table">
      <thead>
        <tr>
          {columns.map((name) => (
            <th scope="col">{name}</th>
          ))}
        </tr>
      </thead>
      {groups.map(({ title, rows }) => (
        <tbody>
          {title === null ? null : (
            <tr>
              <th scope="rowgroup" colspan={columns.length}>
                <bdi>{title}</bdi>
              </th>
            </tr>
          )}
          {rows.map((entry) => (
            <Row signed={signed} entry={entry} isOfAll={isOfAll} />
          ))}
        </tbody>
      ))}
    </table>
  );
};

const Row: FC<{ signed: Signed; entry: LogEntry; isOfAll: boolean }> = ({ signed, entry, isOfAll }) => {
  const { record, person, correctedBy } = entry;
  const context = deskContext(signed);
  const [at, told] = [minuteIn(record.at, context), minuteIn(record.recorded, context)];
  return (
    <tr class={correctedBy === null ? undefined : "aside"}>
      <td>{at}</td>
      <td>
        <strong>{KIND_WORDS[record.kind]}</strong> <span class="small">{record.id}</span>
      </td>
      {isOfAll ? (
        <td>
          {record.client === null ? null : (
            <a href={`/desk/clients/${record.client}`}>
              <Their words={person?.name ?? record.client} />
            </a>
          )}
          {record.booking === null ? null : (
            <>
              {" "}
              <a class="small" href={`/desk/evidence/${refOf(signed, record.booking)}`}>
                evidence<span class="unseen"> that {record.id} is part of</span>
              </a>
            </>
          )}
        </td>
      ) : null}
      <td class="says">
        {correctedBy === null ? null : <em>Set aside by {correctedBy}. </em>}
        <bdi>{detailsOf(record).join(". ")}</bdi>
      </td>
      <td class="small">
        {whoWords(record)}
        {told === at ? "" : `, ${told}`}
      </td>
    </tr>
  );
};
