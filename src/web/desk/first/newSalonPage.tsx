/** The first visit's first page: the operator's key, and what a salon cannot be without. */
import type { FC } from "hono/jsx";
import { Page } from "../../layout.tsx";
import { DESK_STYLES_ADDRESS } from "../deskStyles.ts";
import { Choice, FaultList, type FormShown, TextField } from "../rules/fields.tsx";
import { type FormFault, sentenceOf } from "../rules/formFaults.ts";
import { CountryField, ZoneField } from "../rules/salonSection.tsx";
import { Steps } from "./steps.tsx";

export interface NewSalonShown {
  readonly form: FormShown;
  readonly faults: readonly FormFault[];
  /** Of this form: sent twice, it makes one salon. */
  readonly once: string;
  /** That the operator's key was given already; null: it is asked for. */
  readonly pass: string | null;
}

/** The field of the operator's key, as faults name it. */
export const OPERATOR_FIELD = "operator";

export const NewSalonPage: FC<{ shown: NewSalonShown }> = ({ shown: { form, faults, once, pass } }) => (
  <Page title="First visit – desk" language="en-GB" styles={[DESK_STYLES_ADDRESS]}>
    <h1>A new salon</h1>
    <Steps now="salon" />
    <form method="post" action="/desk/new" class="card first-visit">
      <h2>The salon</h2>
      {faults.length === 0 ? null : (
        <FaultList
          heading="No salon was made yet"
          faults={faults.map((fault) => ({
            field: fault.field,
            text: fault.field === OPERATOR_FIELD ? fault.text : sentenceOf(fault),
          }))}
        />
      )}
      <input type="hidden" name="once" value={once} />
      {pass === null ? (
        <div class={form.faults.has(OPERATOR_FIELD) ? "rule-asked refused" : "rule-asked"}>
          <label for={`f-${OPERATOR_FIELD}`}>The operator's key</label>
          <input
            id={`f-${OPERATOR_FIELD}`}
            name={OPERATOR_FIELD}
            type="password"
            autocomplete="off"
            required
            maxlength={500}
            aria-describedby={`f-${OPERATOR_FIELD}-hint`}
          />
          <p class="rule-hint" id={`f-${OPERATOR_FIELD}-hint`}>
            The OPERATOR_KEY that whoever runs this service has set. It is kept nowhere on this screen.
          </p>
        </div>
      ) : (
        <>
          <input type="hidden" name="pass" value={pass} />
          <p>The operator's key was right, and need not be given again.</p>
        </>
      )}
      <TextField form={form} name="name" />
      <div class="rule-pair">
        <ZoneField form={form} />
        <CountryField form={form} />
        <TextField form={form} name="contact.phone" mode="tel" hint="Clients are told to telephone it." />
        <Choice
          form={form}
          name="language"
          choices={[
            ["en-GB", "English (UK)"],
            ["en-US", "English (US)"],
          ]}
        />
      </div>
      <button type="submit" class="first">
        Make the salon
      </button>
      <p class="rule-hint">Its key is shown next, and its diary is read. Everything here can be changed later.</p>
    </form>
  </Page>
);
