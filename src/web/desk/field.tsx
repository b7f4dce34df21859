/** A labelled field of a form at the desk, with what is wrong with it, and the list of all that is wrong with a form. */
import type { Child, FC } from "hono/jsx";
import type { Refused } from "./readFields.ts";

interface FieldProps {
  /** Of the page: also the anchor of what is wrong. */
  readonly id: string;
  readonly name: string;
  readonly label: Child;
  readonly refused: Refused | null;
  readonly type?: string;
  readonly value?: string | null;
  readonly maxlength?: number;
  readonly autocomplete?: string;
  readonly required?: boolean;
  readonly max?: string;
  readonly min?: string;
}

export const Field: FC<FieldProps> = ({ id, name, label, refused, type = "text", value = null, ...more }) => {
  const fault = refused?.faults.get(name);
  return (
    <p class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        name={name}
        type={type}
        value={refused?.fields.get(name) ?? value ?? ""}
        autocomplete="off"
        aria-invalid={fault === undefined ? undefined : "true"}
        aria-describedby={fault === undefined ? undefined : `${id}-fault`}
        {...more}
      />
      {fault === undefined ? null : (
        <span class="mark" id={`${id}-fault`}>
          {fault}
        </span>
      )}
    </p>
  );
};

/** Said at once by a screen reader; each line leads to its field. */
export const Faults: FC<{ refused: Refused | null; idOf: (field: string) => string; heading?: string }> = ({
  refused,
  idOf,
  heading = "Nothing was saved yet.",
}) =>
  refused === null ? null : (
    <div class="faults" role="alert">
      <p>
        <strong>{heading}</strong>
      </p>
      <ul>
        {[...refused.faults].map(([at, text]) => (
          <li>
            <a href={`#${idOf(at)}`}>{text}</a>
          </li>
        ))}
      </ul>
    </div>
  );
