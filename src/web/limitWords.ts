/**
 * Says in plain words what a field must be and what to do about it, for every issue that zod finds. The library's own
 * words never get out: they are for programmers. It never looks at who may read the value.
 */
import type * as z from "zod";

/** `limit` completes "… must be"; `tail` is the rest of the sentence, with `remedy`, an order to the reader, at its end. */
export interface LimitWords {
  readonly limit: string;
  readonly remedy: string;
  readonly tail: string;
}

/** Stands for the words of an issue where the schema has none of its own; never shown. */
export const NO_WORDS = "(no words)";

const TYPES: Readonly<Record<string, string>> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list in square brackets",
  object: "an object in braces",
  record: "an object in braces",
  null: "null",
};

const withRemedy = (limit: string, remedy: string): LimitWords => ({ limit, remedy, tail: `; ${remedy}` });

/** Words of a schema's own: `must be LIMIT: REASON; REMEDY`, of which only LIMIT must be there. */
const ownWords = (message: string): LimitWords => {
  const said = message.replace(/^must be /, "");
  const end = /[:;] /.exec(said)?.index;
  if (end === undefined) return withRemedy(said, "write it so");
  const tail = said.slice(end);
  return { limit: said.slice(0, end), remedy: tail.slice(2).split("; ").at(-1) ?? "", tail };
};

/** What an issue's field must be. `found` is what stands there. */
export const limitWords = (issue: z.core.$ZodIssue, found: unknown): LimitWords => {
  if (issue.message !== NO_WORDS) return ownWords(issue.message);
  switch (issue.code) {
    case "invalid_type": {
      const limit = TYPES[issue.expected] ?? "of another kind";
      return withRemedy(limit, remedyOfType(issue, found, limit));
    }
    case "invalid_value": {
      const values = issue.values.map(String);
      return values.length === 1
        ? withRemedy(values.join(), `write ${values.join()}`)
        : withRemedy(`one of ${values.join(", ")}`, "write one of them");
    }
    case "too_small":
      return tooSmall(issue.origin, Number(issue.minimum), issue.inclusive !== false);
    case "too_big":
      return tooBig(issue.origin, Number(issue.maximum), issue.inclusive !== false);
    case "not_multiple_of":
      return withRemedy(`a multiple of ${issue.divisor}`, "write one");
    case "invalid_union": {
      const limits = issue.errors.flatMap(([first]) => (first ? [limitWords(first, found).limit] : []));
      return withRemedy([...new Set(limits)].join(", or ") || "of another kind", "write one of these");
    }
    case "invalid_key": {
      const [first] = issue.issues;
      return first ? limitWords(first, found) : withRemedy("a field of another name", "give it another name");
    }
    case "invalid_format":
    case "invalid_element":
    case "unrecognized_keys":
    case "custom":
      return withRemedy("written in another way", "see the settings and calls in DEVELOPERS.md");
  }
};

const remedyOfType = ({ expected, path }: z.core.$ZodIssueInvalidType, found: unknown, limit: string): string => {
  if (found === undefined) return "add it";
  if (found === null && path.length > 0) return `write ${limit}, or leave the field out if it may be missing`;
  const isScalar = typeof found === "number" || typeof found === "boolean";
  if (expected === "string" && isScalar) return "write it as text, in quotation marks";
  if (expected === "int" && typeof found === "number") return "write one without a fraction";
  const isQuoted = typeof found === "string" && found.trim() !== "";
  if (isQuoted && (expected === "number" || expected === "int") && Number.isFinite(Number(found))) {
    return "write it without quotation marks";
  }
  if (isQuoted && expected === "boolean" && (found === "true" || found === "false")) {
    return "write it without quotation marks";
  }
  if (expected === "array" && (isQuoted || isScalar)) return "put it in square brackets";
  return `write ${limit}`;
};

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const tooSmall = (origin: string, least: number, isIncluded: boolean): LimitWords => {
  if (origin === "string") {
    return least === 1
      ? withRemedy("text with something in it", "write some, or leave the field out if it may be missing")
      : withRemedy(`text of at least ${least} characters`, "write more");
  }
  if (origin === "array") {
    return withRemedy(
      `a list with at least ${counted(least, "entry", "entries")}`,
      least === 1 ? "add one" : "add what is missing",
    );
  }
  const limit = isIncluded ? `${least} or more` : `more than ${least}`;
  return withRemedy(limit, "write a larger number");
};

const tooBig = (origin: string, most: number, isIncluded: boolean): LimitWords => {
  if (origin === "string")
    return withRemedy(`text of at most ${counted(most, "character", "characters")}`, "shorten it");
  if (origin === "array") {
    return withRemedy(`a list with at most ${counted(most, "entry", "entries")}`, "leave some out");
  }
  return withRemedy(isIncluded ? `${most} or less` : `less than ${most}`, "write a smaller number");
};
