/** The fields of the desk's larger forms: each with its label, a hint, and what is wrong with it. */
import type { Child, FC } from "hono/jsx";
import type { FormFaults } from "./formFaults.ts";
import { labelOf } from "./labels.ts";
import type { Typed } from "./rulesForm.ts";

/** A form as it is shown: what stands in its fields, and what is wrong with them. */
export interface FormShown {
  readonly typed: Typed;
  readonly faults: FormFaults;
}

interface FieldOf {
  readonly form: FormShown;
  readonly name: string;
  readonly label?: string;
  readonly hint?: Child;
}

export const fieldId = (name: string): string => `f-${name}`;

/** What describes a field: its hint, and its fault where there is one. */
const describedBy = ({ form, name, hint }: FieldOf): string | undefined => {
  const ids = [hint ? `${fieldId(name)}-hint` : null, form.faults.has(name) ? `${fieldId(name)}-fault` : null];
  return ids.filter((id) => id !== null).join(" ") || undefined;
};

const Around: FC<FieldOf & { children: Child }> = ({ form, name, label, hint, children }) => (
  <div class={form.faults.has(name) ? "rule-asked refused" : "rule-asked"}>
    <label for={fieldId(name)}>{label ?? labelOf(name)}</label>
    {children}
    <Below form={form} name={name} hint={hint} />
  </div>
);

/** The hint and the faults of a field. */
const Below: FC<FieldOf> = ({ form, name, hint }) => {
  const faults = form.faults.get(name);
  return (
    <>
      {faults ? (
        <p class="mark" id={`${fieldId(name)}-fault`}>
          {faults.join(" ").replace(/^./u, (first) => first.toUpperCase())}
        </p>
      ) : null}
      {hint ? (
        <p class="rule-hint" id={`${fieldId(name)}-hint`}>
          {hint}
        </p>
      ) : null}
    </>
  );
};

/** One line. */
export const TextField: FC<
  FieldOf & { mode?: "tel" | "email" | "numeric" | "decimal"; size?: number; list?: string }
> = ({ mode, size, list, ...field }) => (
  <Around {...field}>
    <input
      id={fieldId(field.name)}
      name={field.name}
      value={field.form.typed.get(field.name) ?? ""}
      inputmode={mode}
      size={size}
      list={list}
      autocomplete="off"
      class={size === undefined ? undefined : "short"}
      aria-describedby={describedBy(field)}
      aria-invalid={field.form.faults.has(field.name) ? "true" : undefined}
    />
  </Around>
);

/** Several lines. */
export const LongField: FC<FieldOf & { rows?: number; isCode?: boolean }> = ({
  rows = 4,
  isCode = false,
  ...field
}) => (
  <Around {...field}>
    <textarea
      id={fieldId(field.name)}
      name={field.name}
      rows={rows}
      class={isCode ? "code" : undefined}
      spellcheck={isCode ? false : undefined}
      aria-describedby={describedBy(field)}
      aria-invalid={field.form.faults.has(field.name) ? "true" : undefined}
    >
      {field.form.typed.get(field.name) ?? ""}
    </textarea>
  </Around>
);

/** One of a few. @param choices values and their words */
export const Choice: FC<FieldOf & { choices: readonly (readonly [value: string, words: string])[] }> = ({
  choices,
  ...field
}) => (
  <Around {...field}>
    <select
      id={fieldId(field.name)}
      name={field.name}
      aria-describedby={describedBy(field)}
      aria-invalid={field.form.faults.has(field.name) ? "true" : undefined}
    >
      {choices.map(([value, words]) => (
        <option value={value} selected={field.form.typed.get(field.name) === value}>
          {words}
        </option>
      ))}
    </select>
  </Around>
);

export interface TickChoice {
  readonly value: string;
  readonly words: Child;
  readonly more?: Child;
}

/**
 * Any of a few; that they were asked for is told by an empty one, since what is not ticked is not sent.
 * @param fold what the unticked ones are called, where they are folded away
 */
export const Ticks: FC<FieldOf & { choices: readonly TickChoice[]; isRow?: boolean; fold?: string }> = ({
  choices,
  isRow = false,
  fold,
  ...field
}) => {
  const { form, name, label, hint } = field;
  const ticked = new Set(form.typed.getAll(name).map(inOneLine));
  const isTicked = ({ value }: TickChoice): boolean => ticked.has(inOneLine(value));
  const open = fold === undefined ? choices : choices.filter(isTicked);
  const folded = choices.filter((choice) => !open.includes(choice));
  const box = (choice: TickChoice): Child => (
    <label class="rule-tick">
      <input
        type="checkbox"
        name={name}
        value={choice.value}
        checked={isTicked(choice)}
        id={`${fieldId(name)}-${choices.indexOf(choice)}`}
      />
      <span>
        {choice.words}
        {choice.more ? <span class="rule-more">{choice.more}</span> : null}
      </span>
    </label>
  );
  return (
    <fieldset
      class={form.faults.has(name) ? "rule-asked refused" : "rule-asked"}
      id={fieldId(name)}
      tabindex={-1}
      aria-describedby={describedBy(field)}
    >
      <legend>{label ?? labelOf(name)}</legend>
      <input type="hidden" name={name} value="" />
      <div class={isRow ? "rule-ticks row" : "rule-ticks"}>{open.map(box)}</div>
      {folded.length === 0 ? null : (
        <details open={open.length === 0 || form.faults.has(name)}>
          <summary>{fold}</summary>
          <div class="rule-ticks">{folded.map(box)}</div>
        </details>
      )}
      <Below form={form} name={name} hint={hint} />
    </fieldset>
  );
};

const inOneLine = (text: string): string => text.replace(/[\r\n]/g, "");

/** Yes or no. */
export const Tick: FC<FieldOf> = (field) => {
  const { form, name, label, hint } = field;
  return (
    <div class={form.faults.has(name) ? "rule-asked refused" : "rule-asked"}>
      <input type="hidden" name={name} value="" />
      <label class="rule-tick">
        <input
          type="checkbox"
          name={name}
          value="yes"
          id={fieldId(name)}
          checked={form.typed.getAll(name).includes("yes")}
          aria-describedby={describedBy(field)}
        />
        <span>{label ?? labelOf(name)}</span>
      </label>
      <Below form={form} name={name} hint={hint} />
    </div>
  );
};

/** What is wrong, above all else, each with a link to where it is mended. */
export const FaultList: FC<{
  heading: string;
  faults: readonly { readonly field: string | null; readonly text: string }[];
}> = ({ heading, faults }) => (
  <div class="faults">
    <h3>{heading}</h3>
    <ul>
      {faults.map(({ field, text }) => (
        <li>{field === null ? text : <a href={`#${fieldId(field)}`}>{text}</a>}</li>
      ))}
    </ul>
  </div>
);
