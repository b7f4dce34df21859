/** The form of the front door: one appointment to be counted back from. It is filled with what was typed, and says what is wrong where it is. */
import type { Child, FC } from "hono/jsx";
import { KNOWN_COUNTRIES } from "../feed/emergency.ts";
import { Zone } from "../time/zone.ts";
import { type Field, FIELDS, type FrontForm } from "./frontForm.ts";
import { TESTS_OFFERED } from "./presetWords.ts";

const countryNames = new Intl.DisplayNames(["en-GB"], { type: "region" });
const COUNTRIES = KNOWN_COUNTRIES.map((code) => ({ code, name: countryNames.of(code) ?? code })).toSorted(
  (one, other) => (one.name < other.name ? -1 : 1),
);

const LABELS: Readonly<Record<Field, string>> = {
  date: "Day of the colour",
  time: "It starts at",
  test: "Which skin test",
  zone: "Time zone of the salon",
  country: "Country, for public holidays",
};

export const FrontFields: FC<{ form: FrontForm; heading: string }> = ({ form, heading }) => {
  const { typed, errors, note } = form;
  return (
    <form method="get" action="/" class="card ask" autocomplete="off">
      <h2>{heading}</h2>
      {errors.size === 0 ? null : (
        <div class="faults" role="alert">
          <h3>This could not be counted back yet</h3>
          <ul>
            {FIELDS.filter((field) => errors.has(field)).map((field) => (
              <li>
                <a href={`#${field}`}>{LABELS[field]}</a>
              </li>
            ))}
          </ul>
        </div>
      )}
      <div class="asked">
        <Labelled form={form} field="date">
          <input type="date" name="date" value={typed.date} required {...marks(form, "date")} />
        </Labelled>
        <Labelled form={form} field="time">
          <input type="time" name="time" value={typed.time} required {...marks(form, "time")} />
          {note === null ? null : (
            <p class="small" id="time-note">
              {note}
            </p>
          )}
        </Labelled>
        <Labelled form={form} field="test" isWhole>
          <select name="test" {...marks(form, "test")}>
            {TESTS_OFFERED.map(({ name, words }) => (
              <option value={name} selected={name === typed.test}>
                {words}
              </option>
            ))}
          </select>
        </Labelled>
        <Labelled form={form} field="zone">
          <input name="zone" value={typed.zone} list="zones" required maxlength={100} {...marks(form, "zone")} />
          <datalist id="zones">
            {Zone.listed().map((name) => (
              <option value={name} />
            ))}
          </datalist>
        </Labelled>
        <Labelled form={form} field="country">
          <select name="country" {...marks(form, "country")}>
            <option value="">none</option>
            {COUNTRIES.map(({ code, name }) => (
              <option value={code} selected={code === typed.country}>
                {name}
              </option>
            ))}
          </select>
        </Labelled>
      </div>
      <button type="submit" class="button first">
        Count back
      </button>
      <p class="small">
        Nothing of this is stored. It knows no opening hours: a salon's own are kept once it has a desk here.
      </p>
    </form>
  );
};

/** What a field carries besides its value. */
const marks = ({ errors, note }: FrontForm, field: Field) => {
  const isNoted = field === "time" && note !== null;
  return {
    id: field,
    "aria-invalid": errors.has(field) ? ("true" as const) : undefined,
    "aria-describedby": errors.has(field) ? `${field}-error` : isNoted ? "time-note" : undefined,
  };
};

const Labelled: FC<{ form: FrontForm; field: Field; isWhole?: boolean; children: Child }> = ({
  form: { errors },
  field,
  isWhole = false,
  children,
}) => (
  <div class={isWhole ? "whole" : undefined}>
    <label for={field}>{LABELS[field]}</label>
    {errors.has(field) ? (
      <p class="mark" id={`${field}-error`}>
        {errors.get(field)}
      </p>
    ) : null}
    {children}
  </div>
);
