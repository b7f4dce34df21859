/**
 * Turns what zod finds wrong with a value into errors that a person can read: each names the field, what stood there where
 * that is no person's word, what it must be and what to do. It never decides what is wrong.
 */
import type * as z from "zod";
import { inSentence } from "../plan/refusal.ts";
import { limitWords } from "./limitWords.ts";
import type { RequestError } from "./problems.ts";
import { kindOf, QUOTE_MAX, quoteValue, WHOLE } from "./quoteValue.ts";

/**
 * Every issue as an error, one for each field: what is of a wrong kind is told no bounds, and of several bounds the last
 * is the schema's own.
 */
export const nameFaults = (issues: readonly z.core.$ZodIssue[], root: unknown): readonly RequestError[] => {
  const errors = new Map<string, RequestError>();
  const ofWrongKind = new Set(issues.filter(({ code }) => code === "invalid_type").map(({ path }) => pathOf(path)));
  for (const issue of issues) {
    if (issue.code !== "invalid_type" && ofWrongKind.has(pathOf(issue.path))) continue;
    for (const error of errorsOf(issue, root)) errors.set(error.at, error);
  }
  return [...errors.values()];
};

/** A field's name as it stands in an address; one that could not be told from the sentence around it, in quotation marks. */
const partOf = (part: PropertyKey): string => {
  const name = String(part).slice(0, QUOTE_MAX);
  // A sentence in place of a name may be about a person, and is not said back.
  if (/[\s@]/.test(name)) return '"…"';
  return /^[\p{L}\p{N}\p{S}_-]+$/u.test(name) ? name : JSON.stringify(name);
};

const pathOf = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, part) =>
      typeof part === "number" ? `${text}[${part}]` : text === "" ? partOf(part) : `${text}.${partOf(part)}`,
    "",
  );

const valueAt = (value: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (inner, part) => (typeof inner === "object" && inner !== null ? Reflect.get(inner, part) : undefined),
    value,
  );

const errorsOf = (issue: z.core.$ZodIssue, root: unknown): readonly RequestError[] => {
  if (issue.code === "unrecognized_keys") return issue.keys.map((key) => unknownField(pathOf([...issue.path, key])));
  if (issue.code === "invalid_union") {
    const meant = issue.errors.find((each) => each.length > 0 && !each.some(isOfOtherKind));
    if (meant) return meant.flatMap((inner) => errorsOf({ ...inner, path: [...issue.path, ...inner.path] }, root));
  }
  return [errorOf(issue, root)];
};

/** Whether a branch of a union is not what was meant, since already its kind is another. */
const isOfOtherKind = ({ code, path }: z.core.$ZodIssue): boolean =>
  path.length === 0 && (code === "invalid_type" || code === "invalid_value");

const unknownField = (at: string): RequestError => ({
  at,
  value: null,
  limit: "a field that this call knows",
  remedy: "leave it out or correct its spelling",
  text: `${at} is not a field of this call; leave it out or correct its spelling.`,
});

const errorOf = (issue: z.core.$ZodIssue, root: unknown): RequestError => {
  const at = pathOf(issue.path) || WHOLE;
  if (issue.code === "invalid_key") return nameRefused(at, issue);
  const found = valueAt(root, issue.path);
  const value = quoteValue(at, found);
  const { limit, remedy, tail } = limitWords(issue, found);
  if (found === undefined) {
    return { at, value, limit, remedy, text: `${at} is missing: it must be ${limit}${tail.replace(/^: /, "; ")}.` };
  }
  const stood = whatStood(issue, at, found);
  return { at, value, limit, remedy, text: `${at} must be ${limit}${stood === null ? "" : `, not ${stood}`}${tail}.` };
};

/** A field whose name is what is wrong. */
const nameRefused = (at: string, issue: z.core.$ZodIssue): RequestError => {
  const { limit } = limitWords(issue, "");
  const remedy = "give it another name";
  return { at, value: null, limit, remedy, text: `${at} must have a name that is ${limit}; ${remedy}.` };
};

/** What stood there, as the sentence has it after "not": its kind, its size or itself; null where it is not said. */
const whatStood = (issue: z.core.$ZodIssue, at: string, found: unknown): string | null => {
  if (typeof found === "string" && found.trim() === "") return "empty";
  if (issue.code === "invalid_type" || issue.code === "invalid_union") return kindOf(at, found);
  if (issue.code === "too_small" || issue.code === "too_big") {
    if (issue.origin === "string" && typeof found === "string") return String(found.length);
    if (Array.isArray(found)) return found.length === 0 ? kindOf(at, found) : String(found.length);
  }
  const value = quoteValue(at, found);
  if (typeof found === "string") return value === null ? null : inSentence(value);
  if (Array.isArray(found) && issue.code === "custom") return null;
  return typeof found === "number" ? value : kindOf(at, found);
};
