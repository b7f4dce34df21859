/** The page of the salon's rules: one form, what it would change, and beneath it the salon's key and its calendar. */
import type { FC } from "hono/jsx";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { Fields } from "../press.tsx";
import { HoursSection, PostSection } from "./daySections.tsx";
import type { FormShown } from "./fields.tsx";
import { KeepingSection, QuestionsSection } from "./keepingSections.tsx";
import { Keys } from "./keys.tsx";
import { type Outcome, OutcomeShown } from "./outcome.tsx";
import type { ProtocolWords } from "./protocolWords.ts";
import { SalonSection, WordsSection } from "./salonSection.tsx";
import { TestSection } from "./testSection.tsx";

export interface RulesShown {
  readonly form: FormShown;
  /** Of the settings that the form was filled with. */
  readonly version: number;
  readonly protocols: readonly ProtocolWords[];
  readonly outcome: Outcome;
  /** Address of the salon's calendar. */
  readonly feed: string;
}

const PARTS = [
  ["salon", "The salon"],
  ["tests", "Skin tests"],
  ["words", "Titles"],
  ["hours", "Hours"],
  ["post", "Post"],
  ["questions", "Questions"],
  ["keeping", "Keeping"],
  ["changes", "Save"],
  ["keys", "Calendar and key"],
] as const;

export const RulesPage: FC<{ signed: Signed; shown: RulesShown }> = ({ signed, shown }) => {
  const { form, version, protocols, outcome, feed } = shown;
  return (
    <DeskPage title="Rules" place="rules" signed={signed}>
      <h1>Rules</h1>
      <nav aria-label="On this page" class="rule-parts">
        {PARTS.map(([id, words]) => (
          <a href={`#${id}`}>{words}</a>
        ))}
      </nav>
      <form method="post" action="/desk/rules#changes" class="rules" data-preview>
        <Fields signed={signed} />
        <input type="hidden" name="version" value={String(version)} />
        {/* Enter in a field shows what would change, and saves nothing. */}
        <button type="submit" name="do" value="preview" class="unseen" tabindex={-1} aria-hidden="true">
          Show what would change
        </button>
        <div class="rules-fields">
          <SalonSection form={form} />
          <TestSection form={form} protocols={protocols} />
          <WordsSection form={form} />
          <HoursSection form={form} />
          <PostSection form={form} />
          <QuestionsSection form={form} />
          <KeepingSection form={form} />
        </div>
        <aside class="rules-side">
          <div class="card">
            <OutcomeShown outcome={outcome} />
            <div class="buttons">
              <button type="submit" name="do" value="preview">
                Show what would change
              </button>
              <button type="submit" name="do" value="save" class="first">
                Save
              </button>
            </div>
            <p class="rule-hint">
              Diaries have <a href="/desk/diaries">a page of their own</a>. These are the rules of version {version};
              records name the version they were made under.
            </p>
          </div>
        </aside>
      </form>
      <Keys signed={signed} feed={feed} />
    </DeskPage>
  );
};
