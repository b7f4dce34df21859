/** Reads what a form at the desk sent through a door, and says what is wrong with it by the form's own labels. */
import type * as z from "zod";
import { check } from "../readBody.ts";
import type { Pressed } from "./readPressed.ts";

/** What is wrong with a form, and what was typed into it, so that the form comes back as it was sent. */
export interface Refused {
  /** By field: the sentence that stands at it. */
  readonly faults: ReadonlyMap<string, string>;
  readonly fields: URLSearchParams;
}

export type FieldsRead<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly refused: Refused };

/** @param labels the form's fields with their labels; every other field is left out, and so is one that is empty */
export const readFields = <Value>(
  { fields }: Pressed,
  schema: z.ZodType<Value>,
  labels: Readonly<Record<string, string>>,
): FieldsRead<Value> => {
  const filled = Object.keys(labels).flatMap((name): [string, string][] => {
    const value = fields.get(name) ?? "";
    return value.trim() === "" ? [] : [[name, value]];
  });
  const read = check(Object.fromEntries(filled), schema);
  if (read.ok) return read;
  const errors = read.fault.code === "request-refused" ? read.fault.errors : [];
  return { ok: false, refused: refusedFields(fields, errors, labels) };
};

/** @param errors as the doors and the salon name them: each sentence begins with the field's name */
export const refusedFields = (
  fields: URLSearchParams,
  errors: readonly { readonly at: string; readonly text: string }[],
  labels: Readonly<Record<string, string>>,
): Refused => ({
  fields,
  faults: new Map(
    errors.map(({ at, text }) => {
      const label = labels[at];
      return [at, label !== undefined && text.startsWith(at) ? `${label}${text.slice(at.length)}` : text];
    }),
  ),
});
