/** What came of a press on the rules' form: what would change, what was refused, or what changed meanwhile. */
import type { Child, FC } from "hono/jsx";
import type { SettingsPreview } from "../../../salon/previewSettings.ts";
import type { Settings } from "../../../settings.ts";
import { changeInWords, inNumbers } from "./changeWords.ts";
import { FaultList } from "./fields.tsx";
import { type FormFault, sentenceOf } from "./formFaults.ts";
import { fullLabelOf } from "./labels.ts";
import type { Merged } from "./mergeTyped.ts";

export type Outcome =
  | { readonly kind: "nothing" }
  | { readonly kind: "preview"; readonly preview: SettingsPreview; readonly settings: Settings }
  | { readonly kind: "refused"; readonly faults: readonly FormFault[] }
  | { readonly kind: "meanwhile"; readonly merged: Merged };

/** Changes that are listed one by one. */
const LISTED_MAX = 100;

/** Replaced as a whole where a script asks again while somebody types. */
export const OutcomeShown: FC<{ outcome: Outcome }> = ({ outcome }) => (
  <div id="changes" class="rule-changes" tabindex={-1} role="status">
    <h2>What would change</h2>
    {wordsOf(outcome)}
  </div>
);

const wordsOf = (outcome: Outcome): Child => {
  switch (outcome.kind) {
    case "nothing":
      return <p class="rule-hint">Change something, then see here which bookings would move before you save.</p>;
    case "refused":
      return (
        <FaultList
          heading="This cannot be saved as it is"
          faults={outcome.faults.map((fault) => ({ field: fault.field, text: sentenceOf(fault) }))}
        />
      );
    case "meanwhile":
      return <Meanwhile merged={outcome.merged} />;
    case "preview":
      return <Preview preview={outcome.preview} settings={outcome.settings} />;
  }
};

const named = (names: readonly string[]): string => names.map(fullLabelOf).join("; ");

const Meanwhile: FC<{ merged: Merged }> = ({ merged }) => (
  <div class="faults">
    <h3>Changed meanwhile, nothing was saved</h3>
    <p>Somebody saved other rules while this page was open. These fields show now what was saved there:</p>
    <ul>
      {merged.taken.map((name) => (
        <li>{fullLabelOf(name)}</li>
      ))}
      {merged.taken.length === 0 ? <li>none that this form holds beside what you changed too</li> : null}
    </ul>
    {merged.both.length === 0 ? null : (
      <p>Changed by both of you, and left as you typed it: {named(merged.both)}. Look whether that is still meant.</p>
    )}
    <p>All else that you typed is kept. Save again if it is right.</p>
  </div>
);

const Preview: FC<{ preview: SettingsPreview; settings: Settings }> = ({ preview, settings }) => {
  const numbers = inNumbers(preview);
  const listed = preview.changes.slice(0, LISTED_MAX);
  return (
    <>
      {numbers.length === 0 ? <p>Nothing would change for the bookings ahead.</p> : null}
      <ul class="rule-numbers">
        {numbers.map((text) => (
          <li>{text}</li>
        ))}
      </ul>
      {listed.length === 0 ? null : (
        <details open={listed.length <= 10}>
          <summary>Which bookings</summary>
          <ol class="rule-each">
            {listed.map((change) => {
              const words = changeInWords(change, settings);
              return (
                <li>
                  <strong>{words.client}</strong>, {words.service}, {words.start}
                  <span class="rule-was">Now: {words.before}</span>
                  <span class="rule-then">
                    Then: {words.after}
                    {words.moved === "" ? null : ` (moved: ${words.moved})`}
                  </span>
                </li>
              );
            })}
          </ol>
          {preview.changes.length > LISTED_MAX ? <p>and {preview.changes.length - LISTED_MAX} more.</p> : null}
        </details>
      )}
      <p class="rule-hint">
        Nothing is saved yet. Not counted here: names, telephone numbers and words on clients' pages and in calendars,
        which follow at once when you save.
      </p>
    </>
  );
};
