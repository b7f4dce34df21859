/** The rules' form: which tests there are, in which order, and the rules of each. */
import type { FC } from "hono/jsx";
import { Choice, type FormShown, LongField, TextField, Ticks } from "./fields.tsx";
import { ROUTE_NAMES } from "./labels.ts";
import type { ProtocolWords } from "./protocolWords.ts";
import { ORDERS, ROUTES, type Route } from "./testFields.ts";

/** What `/desk/new` asks too: the order and each way's protocol. */
export const TestOrder: FC<{ form: FormShown }> = ({ form }) => (
  <Choice
    form={form}
    name="tests"
    choices={Object.entries(ORDERS).map(([value, routes]) => [value, orderInWords(routes)])}
    hint="The first that still fits the time is planned. An earlier clear result comes before both where it counts."
  />
);

const orderInWords = (routes: readonly Route[]): string => {
  const [first = "in-salon", second] = routes;
  return second === undefined
    ? `${ROUTE_NAMES[first]} only`
    : `${ROUTE_NAMES[first]} first, then ${ROUTE_NAMES[second].toLowerCase()}`;
};

export const Protocols: FC<{ form: FormShown; route: Route; protocols: readonly ProtocolWords[] }> = ({
  form,
  route,
  protocols,
}) => (
  <Ticks
    form={form}
    name={`test.${route}.protocol`}
    choices={protocols.map(({ name, title, hours, source }) => ({
      value: name,
      words: title,
      more: (
        <>
          {hours} <em>Source: {source}.</em>
        </>
      ),
    }))}
    fold="Other protocols"
    hint="Tick the one that the product or kit and your insurer ask for. Where several are ticked, all must hold."
  />
);

export const TestSection: FC<{ form: FormShown; protocols: readonly ProtocolWords[] }> = ({ form, protocols }) => (
  <section class="card" aria-labelledby="tests">
    <h2 id="tests">Skin tests</h2>
    <p class="rule-hint">
      No number here is a recommendation. The product's or kit's own instructions, your insurer and local rules win. A
      clear test does not mean that no reaction will happen.
    </p>
    <TestOrder form={form} />
    {ROUTES.map((route) => (
      <TestOfRoute form={form} route={route} protocols={protocols} />
    ))}
    <details open={form.faults.has("protocols")}>
      <summary>Protocols of your own</summary>
      <LongField
        form={form}
        name="protocols"
        rows={8}
        isCode
        hint={
          <>
            In JSON, by name; each with where its numbers come from. Example: <code>{OWN_EXAMPLE}</code> Press “Show
            what would change” once, and it can be ticked above.
          </>
        }
      />
    </details>
  </section>
);

const OWN_EXAMPLE =
  '{"leaflet-72h": {"lead": {"least": "PT72H"}, "wear": "PT48H", "readings": [{"after": "PT48H"}, {"after": "PT72H"}], "source": {"title": "Our kit\'s leaflet", "year": 2026}}}';

const TestOfRoute: FC<{ form: FormShown; route: Route; protocols: readonly ProtocolWords[] }> = ({
  form,
  route,
  protocols,
}) => {
  const name = (field: string): string => `test.${route}.${field}`;
  const isKit = route === "home-kit";
  return (
    <fieldset class={`rule-route route-${route}`}>
      <legend>{ROUTE_NAMES[route]}</legend>
      {isKit ? (
        <>
          <p class="rule-hint">
            A kit that is made for testing at home. Colour decanted by the salon and posted is never planned: the UK
            professional protocol of January 2024 says that it goes against best practice and may invalidate insurance.
          </p>
          <div class="rule-pair">
            <TextField form={form} name={name("kit.name")} />
            <LongField
              form={form}
              name={name("kit.instructions")}
              rows={3}
              hint="Shown to the client as you write them."
            />
          </div>
        </>
      ) : null}
      <Protocols form={form} route={route} protocols={protocols} />
      <Choice
        form={form}
        name={name("onFile")}
        choices={[
          ["protocol", "As the protocol says: only the 120-hour home kit lets it count"],
          ["never", "Never counts again: every colour needs a new test"],
          ["terms", "Counts again, on the terms below"],
        ]}
        hint="Even where it counts, the questions are asked before every colour, and an answer can ask for a new test."
      />
      <div class="rule-trio rule-terms">
        <TextField form={form} name={name("onFile.months")} mode="numeric" size={4} hint="Blank: no end." />
        <Choice
          form={form}
          name={name("onFile.product")}
          choices={[
            ["any", "Any product"],
            ["same", "The same product"],
          ]}
        />
        <Choice
          form={form}
          name={name("onFile.shade")}
          choices={[
            ["any", "Any shade"],
            ["not-darker", "Not darker than tested"],
          ]}
        />
      </div>
      <div class="rule-pair">
        <TextField
          form={form}
          name={name("screening.margin")}
          size={12}
          hint={
            isKit
              ? "Before the kit is posted, in exact hours. Blank: 24 hours."
              : "Before the test goes on, in exact hours. Blank: none."
          }
        />
        <TextField
          form={form}
          name={name("screening.opens")}
          size={12}
          hint="So long before they are due. 336 hours are two weeks."
        />
      </div>
    </fieldset>
  );
};
