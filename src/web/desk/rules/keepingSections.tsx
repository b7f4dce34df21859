/** The rules' form: what is asked and shown, and how long what was told is kept. */
import type { FC } from "hono/jsx";
import { Choice, type FormShown, LongField, TextField } from "./fields.tsx";

export const QuestionsSection: FC<{ form: FormShown }> = ({ form }) => (
  <section class="card" aria-labelledby="questions">
    <h2 id="questions">Health questions and calendars</h2>
    <div class="rule-pair">
      <Choice
        form={form}
        name="show.clients"
        choices={[
          ["initials", "By their initials"],
          ["names", "By their names"],
        ]}
        hint="A calendar is often seen by others, on a wall or a shared telephone."
      />
      <Choice
        form={form}
        name="show.words"
        choices={[
          ["plain", "Say what to do"],
          ["discreet", "Say only that something is to be done"],
        ]}
        hint="What is written under the title is always plain."
      />
    </div>
    <details open={form.faults.has("questions")}>
      <summary>Health questions of your own</summary>
      <LongField
        form={form}
        name="questions"
        rows={8}
        isCode
        hint={
          <>
            The published label's warnings are always asked, in their own words. Blank: those and the usual ones.
            Otherwise a list in JSON that stands in place of the usual ones, as in <code>{QUESTION_EXAMPLE}</code>;{" "}
            <code>yes</code> is <code>test-needed</code> or <code>do-not-colour</code>.
          </>
        }
      />
    </details>
  </section>
);

const QUESTION_EXAMPLE =
  '[{"id": "new-piercing", "text": "Have you had a new piercing since your last test?", "yes": "test-needed", "source": "our insurer"}]';

export const KeepingSection: FC<{ form: FormShown }> = ({ form }) => (
  <section class="card" aria-labelledby="keeping">
    <h2 id="keeping">How long records are kept</h2>
    <div class="rule-pair">
      <TextField
        form={form}
        name="retention.evidence"
        size={14}
        hint="Consents, and appointments that rest on a test. As in 6 years. Trade bodies name six years at least."
      />
      <TextField
        form={form}
        name="retention.rest"
        size={14}
        hint="Answers to health questions, addresses, telephones. As in 2 years."
      />
    </div>
    <p class="rule-hint">
      What has been kept so long is let go and cannot be had again. A shorter time lets go at once.
    </p>
  </section>
);
