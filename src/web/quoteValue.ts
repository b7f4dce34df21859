/**
 * What of a value is said back to whom it came from: numbers, codes and times, but never words of people, addresses, links
 * or keys.
 */

/** Characters of a value or a field's name that are quoted back. */
export const QUOTE_MAX = 80;

/** Where a fault is of the whole body; that may hold anything. */
export const WHOLE = "the body";

/** Words of people, addresses and keys are never quoted back. */
const PERSONAL =
  /^reaction\b|(^|\.)(client\w*|q|words|contact|diaries|name|phone|email|address|note|reason|by|site|photo|batch|url|summary|staff)(\[|$)/;

/** Several words without a number, or an address: what a person says, in a field meant for a code or a time. */
const isSpoken = (text: string): boolean => text.includes("@") || (/\S\s+\S/.test(text) && !/\d/.test(text));

/** A value as it was written, cut short; null where it is none that may be quoted. */
export const quoteValue = (at: string, value: unknown): string | null => {
  if (value === undefined || at === WHOLE || PERSONAL.test(at)) return null;
  const isPlain = typeof value === "string" || typeof value === "number" || typeof value === "boolean";
  if (typeof value === "string" && isSpoken(value)) return null;
  return isPlain ? String(value).slice(0, QUOTE_MAX) : null;
};

/** What kind of thing stood there, and the thing itself where it may be quoted: `the number 5`, `a list`, `empty`. */
export const kindOf = (at: string, value: unknown): string => {
  const quoted = quoteValue(at, value);
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : "a list";
  if (typeof value === "string") {
    return value.trim() === "" ? "empty" : quoted === null ? "text" : `the text ${JSON.stringify(quoted)}`;
  }
  if (typeof value === "number") return quoted === null ? "a number" : `the number ${quoted}`;
  if (typeof value === "boolean") return quoted ?? "true or false";
  return value === null ? "null" : "an object";
};
