/** The rules' form: who the salon is, and what titles in its diaries say. */
import type { FC } from "hono/jsx";
import { Choice, fieldId, type FormShown, LongField, TextField, Tick } from "./fields.tsx";
import { rowsOf } from "./serviceFields.ts";

/** Offered while a zone is typed; any other of the IANA database may be. */
const ZONES = [
  "Europe/London",
  "Europe/Dublin",
  "Europe/Paris",
  "Europe/Berlin",
  "America/New_York",
  "America/Chicago",
  "America/Denver",
  "America/Los_Angeles",
  "America/Toronto",
  "Australia/Sydney",
  "Australia/Perth",
  "Pacific/Auckland",
] as const;

export const ZoneField: FC<{ form: FormShown }> = ({ form }) => (
  <>
    <TextField
      form={form}
      name="zone"
      list="zones"
      hint="The clock on the salon's wall, as in Europe/London or America/New_York."
    />
    <datalist id="zones">
      {ZONES.map((zone) => (
        <option value={zone} />
      ))}
    </datalist>
  </>
);

export const CountryField: FC<{ form: FormShown }> = ({ form }) => (
  <TextField
    form={form}
    name="country"
    size={4}
    hint="Two letters: GB, IE, US. It decides the emergency number on every page, and public holidays."
  />
);

export const SalonSection: FC<{ form: FormShown }> = ({ form }) => (
  <section class="card" aria-labelledby="salon">
    <h2 id="salon">The salon</h2>
    <div class="rule-pair">
      <TextField form={form} name="name" />
      <TextField
        form={form}
        name="contact.phone"
        mode="tel"
        hint="Clients are told to telephone it. Without one they read “telephone the salon”."
      />
      <TextField form={form} name="contact.email" mode="email" />
      <CountryField form={form} />
      <ZoneField form={form} />
      <Choice
        form={form}
        name="language"
        choices={[
          ["en-GB", "English (UK): colour, 24-hour clock"],
          ["en-US", "English (US): color, 12-hour clock"],
        ]}
      />
      <LongField form={form} name="contact.address" rows={3} />
      <LongField
        form={form}
        name="staff"
        rows={3}
        hint="One name a line. They can say who is at this screen, and are never taken for clients."
      />
    </div>
  </section>
);

/** Empty rows below those that are filled. */
const ROOM_FOR_MORE = 2;

export const WordsSection: FC<{ form: FormShown }> = ({ form }) => {
  const rows = rowsOf(form.typed);
  const next = (rows.at(-1) ?? -1) + 1;
  const empty = Array.from({ length: ROOM_FOR_MORE }, (_, index) => next + index);
  return (
    <section class="card" aria-labelledby="words">
      <h2 id="words">What the diary's titles mean</h2>
      <p class="rule-hint">
        Whole words, one a line, capitals or not. A star at the end stands for any ending: root* finds “Roots” and “Root
        tint”. Colour goes before “no colour”. A title that matches nothing is asked about at the desk, never taken for
        no colour.
      </p>
      <div id={fieldId("services")} tabindex={-1}>
        {form.faults.get("services")?.map((fault) => (
          <p class="mark">Services {fault}</p>
        ))}
        {rows.map((row) => (
          <Service
            form={form}
            row={row}
            heading={form.typed.get(`service.${row}.name`) || `Service ${row + 1}`}
            isNew={false}
          />
        ))}
        <details class="more-rows">
          <summary>Add a service</summary>
          {empty.map((row) => (
            <Service form={form} row={row} heading={`Another service`} isNew />
          ))}
        </details>
      </div>
      <div class="rule-pair">
        <LongField
          form={form}
          name="testWords"
          rows={6}
          hint="Such an entry in the diary is a skin test's appointment."
        />
        <LongField
          form={form}
          name="notColour"
          rows={6}
          hint="Such an entry needs no test, unless a colour word stands there too."
        />
      </div>
      <details open={form.faults.has("clientFrom")}>
        <summary>Where a title names the client</summary>
        <LongField
          form={form}
          name="clientFrom"
          rows={4}
          hint={
            <>
              One way a line, tried in order: <code>attendee</code> is the invited guest,{" "}
              <code>{"{service} - {client}"}</code> a title such as “Root tint - Ann Brill”.
            </>
          }
        />
      </details>
    </section>
  );
};

const Service: FC<{ form: FormShown; row: number; heading: string; isNew: boolean }> = ({
  form,
  row,
  heading,
  isNew,
}) => (
  <fieldset class="rule-service">
    <legend>{heading}</legend>
    <div class="rule-pair">
      <div>
        <TextField form={form} name={`service.${row}.name`} />
        <TextField
          form={form}
          name={`service.${row}.product`}
          hint="The colour line used. Only needed where an earlier result counts for the same product alone."
        />
        <TextField
          form={form}
          name={`service.${row}.shade`}
          mode="decimal"
          size={4}
          hint="Depth from 1, darkest, to 10, lightest; only where shade counts."
        />
      </div>
      <LongField form={form} name={`service.${row}.words`} rows={isNew ? 4 : 10} />
    </div>
    {isNew ? null : <Tick form={form} name={`service.${row}.gone`} />}
  </fieldset>
);
