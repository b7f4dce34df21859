/** The first visit's third page: of all rules those that decide most. The rest have defaults. */
import type { FC } from "hono/jsx";
import { DeskPage } from "../frame.tsx";
import type { Signed } from "../desk.ts";
import { Fields } from "../press.tsx";
import { OpeningFields } from "../rules/daySections.tsx";
import { FaultList, type FormShown, LongField, TextField } from "../rules/fields.tsx";
import { type FormFault, sentenceOf } from "../rules/formFaults.ts";
import { ROUTE_NAMES } from "../rules/labels.ts";
import type { ProtocolWords } from "../rules/protocolWords.ts";
import { Protocols, TestOrder } from "../rules/testSection.tsx";
import { Steps } from "./steps.tsx";

export const FirstTestsPage: FC<{
  signed: Signed;
  form: FormShown;
  faults: readonly FormFault[];
  protocols: readonly ProtocolWords[];
  version: number;
}> = ({ signed, form, faults, protocols, version }) => (
  <DeskPage title="First visit" place={null} signed={signed}>
    <h1>A new salon</h1>
    <Steps now="tests" />
    <form method="post" action="/desk/new/tests" class="first-visit">
      <Fields signed={signed} />
      <input type="hidden" name="version" value={String(version)} />
      {faults.length === 0 ? null : (
        <FaultList
          heading="Nothing was saved yet"
          faults={faults.map((fault) => ({ field: fault.field, text: sentenceOf(fault) }))}
        />
      )}
      <section class="card" aria-labelledby="tests">
        <h2 id="tests">Skin tests</h2>
        <p class="rule-hint">
          No number here is a recommendation. The product's or kit's own instructions, your insurer and local rules win.
          A clear test does not mean that no reaction will happen.
        </p>
        <TestOrder form={form} />
        <fieldset class="rule-route route-in-salon">
          <legend>{ROUTE_NAMES["in-salon"]}</legend>
          <Protocols form={form} route="in-salon" protocols={protocols} />
        </fieldset>
        <fieldset class="rule-route route-home-kit">
          <legend>{ROUTE_NAMES["home-kit"]}</legend>
          <p class="rule-hint">
            Only a kit that is made for testing at home, never colour that the salon decants and posts.
          </p>
          <TextField form={form} name="test.home-kit.kit.name" />
          <LongField
            form={form}
            name="test.home-kit.kit.instructions"
            rows={2}
            hint="Shown to the client as you write them."
          />
          <Protocols form={form} route="home-kit" protocols={protocols} />
        </fieldset>
      </section>
      <section class="card" aria-labelledby="hours">
        <h2 id="hours">Hours</h2>
        <OpeningFields form={form} />
        <LongField
          form={form}
          name="closed"
          rows={3}
          hint="One day a line, 2026-12-24, or the first and the last, 2026-12-24 to 2027-01-02."
        />
      </section>
      <p class="rule-hint">
        Everything else has a default that you find under Rules: how the post goes, how long an earlier result counts,
        how long records are kept.
      </p>
      <p class="buttons">
        <button type="submit" class="first">
          Save and go on
        </button>
        <a class="button" href="/desk/new/feed">
          Leave it as it is
        </a>
      </p>
    </form>
  </DeskPage>
);
