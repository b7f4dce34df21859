/** What was told of one appointment, what was wrong set aside, and whatever else there is to record. */
import type { FC } from "hono/jsx";
import type { DeskBookingShown } from "../../salon/deskBooking.ts";
import { REACTION_HEADINGS } from "../../salon/types.ts";
import { EvidenceTable } from "../evidenceTable.tsx";
import { HEADING_WORDS, KIND_WORDS, OUTCOME_WORDS } from "../evidenceWords.ts";
import { refOf, type Signed } from "./desk.ts";
import { Fields } from "./press.tsx";
import { choiceOf } from "./recordForm.tsx";
import { timesOf } from "./times.ts";

export const BookingRecords: FC<{ signed: Signed; shown: DeskBookingShown }> = ({
  signed,
  shown: { booking, records },
}) => {
  const ref = refOf(signed, booking.uid);
  const { near, field } = timesOf(signed);
  const standing = records.filter(
    ({ record, correctedBy }) => correctedBy === null && record.kind !== "note" && record.kind !== "correction",
  );
  return (
    <section class="panel" aria-labelledby="records">
      <h2 id="records">What was told</h2>
      {records.length === 0 ? (
        <p>Nothing yet. Silence is not a clear result.</p>
      ) : (
        <EvidenceTable
          zone={signed.head.settings.zone}
          groups={[
            {
              title: null,
              records: records.map(({ record, correctedBy }) => ({ record, correctedBy, toldFor: null })),
            },
          ]}
        />
      )}
      {standing.length === 0 ? null : (
        <details>
          <summary>Something recorded is wrong</summary>
          <form method="post" action="/desk/records" class="fields">
            <Fields signed={signed} back={`${signed.here}#records`} />
            <input type="hidden" name="booking" value={ref} />
            <label>
              <span>Which</span>
              <select name="corrects">
                {standing.toReversed().map(({ record: { id, kind, outcome, at } }) => (
                  <option value={id}>
                    {id}: {KIND_WORDS[kind]}
                    {outcome === null ? "" : `, ${OUTCOME_WORDS[outcome] ?? outcome}`}, {near(at)}
                  </option>
                ))}
              </select>
            </label>
            <label>
              <span>Why it is set aside</span>
              <input name="reason" maxlength={2000} required autocomplete="off" />
            </label>
            <button type="submit" name="choice" value={choiceOf({ kind: "correction" })}>
              Set it aside
            </button>
            <p class="small">It stays on file, struck out, with this beside it.</p>
          </form>
        </details>
      )}
      <details>
        <summary>Write a note, or describe a reaction</summary>
        <form method="post" action="/desk/records" class="fields">
          <Fields signed={signed} back={`${signed.here}#records`} />
          <input type="hidden" name="booking" value={ref} />
          <label>
            <span>When (leave empty for now)</span>
            <input type="datetime-local" name="when" max={field(signed.head.now)} />
          </label>
          <label class="whole">
            <span>Note</span>
            <textarea name="note" rows={3} maxlength={2000}></textarea>
          </label>
          <label class="whole">
            <span>Where you keep a picture of it (a reference; pictures are not stored here)</span>
            <input name="photo" maxlength={2000} autocomplete="off" />
          </label>
          <details class="whole">
            <summary>What shows, under the headings of the UK form for serious undesirable effects</summary>
            <div class="fields">
              {REACTION_HEADINGS.map((heading) => (
                <label>
                  <span>{HEADING_WORDS[heading]}</span>
                  <input name={heading} maxlength={2000} autocomplete="off" />
                </label>
              ))}
            </div>
          </details>
          <div class="presses whole">
            <button type="submit" name="choice" value={choiceOf({ kind: "note" })}>
              Keep as a note
            </button>
            <button type="submit" name="choice" value={choiceOf({ kind: "reacted" })} class="alarm">
              Something shows
            </button>
          </div>
        </form>
      </details>
    </section>
  );
};
