/** What is said of a request that its door refuses: never in a library's words, and nothing of a person's. */
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { ERRORS_MAX } from "../../src/bounds.ts";
import type { RequestError } from "../../src/web/problems.ts";
import { check } from "../../src/web/readBody.ts";

const errorsOf = (value: unknown, schema: z.ZodType): readonly RequestError[] => {
  const read = check(value, schema);
  if (read.ok || read.fault.code !== "request-refused") throw new Error("the door let it through");
  return read.fault.errors;
};
const textOf = (value: unknown, schema: z.ZodType): string =>
  errorsOf({ field: value }, z.strictObject({ field: schema }))
    .map(({ text }) => text)
    .join(" | ");

describe("a field of another kind", () => {
  test.each<[unknown, z.ZodType, string]>([
    [undefined, z.string(), "field is missing: it must be text; add it."],
    [5, z.string(), "field must be text, not the number 5; write it as text, in quotation marks."],
    [null, z.string(), "field must be text, not null; write text, or leave the field out if it may be missing."],
    ["3", z.number(), 'field must be a number, not the text "3"; write it without quotation marks.'],
    ["three", z.number(), 'field must be a number, not the text "three"; write a number.'],
    ["", z.number(), "field must be a number, not empty; write a number."],
    [1.5, z.number().int(), "field must be a whole number, not the number 1.5; write one without a fraction."],
    [Infinity, z.number(), "field must be a number, not the number Infinity; write a number."],
    ["true", z.boolean(), 'field must be true or false, not the text "true"; write it without quotation marks.'],
    ["a", z.array(z.string()), 'field must be a list in square brackets, not the text "a"; put it in square brackets.'],
    [
      "ab",
      z.array(z.string()).max(1),
      'field must be a list in square brackets, not the text "ab"; put it in square brackets.',
    ],
    [
      {},
      z.array(z.string()),
      "field must be a list in square brackets, not an object; write a list in square brackets.",
    ],
    [[], z.strictObject({}), "field must be an object in braces, not an empty list; write an object in braces."],
    [
      ["a"],
      z.record(z.string(), z.string()),
      "field must be an object in braces, not a list; write an object in braces.",
    ],
    [
      true,
      z.union([z.string(), z.array(z.string())]),
      "field must be text, or a list in square brackets, not true; write one of these.",
    ],
  ])("%j", (value, schema, text) => {
    expect(textOf(value, schema)).toBe(text);
  });
});

describe("a field out of its bounds", () => {
  test.each<[unknown, z.ZodType, string]>([
    [
      "",
      z.string().min(1),
      "field must be text with something in it, not empty; write some, or leave the field out if it may be missing.",
    ],
    ["ab", z.string().min(3), "field must be text of at least 3 characters, not 2; write more."],
    ["abcd", z.string().max(3), "field must be text of at most 3 characters, not 4; shorten it."],
    [[], z.array(z.string()).min(1), "field must be a list with at least 1 entry, not an empty list; add one."],
    [["a"], z.array(z.string()).min(2), "field must be a list with at least 2 entries, not 1; add what is missing."],
    [["a", "b"], z.array(z.string()).max(1), "field must be a list with at most 1 entry, not 2; leave some out."],
    [0, z.number().min(1), "field must be 1 or more, not 0; write a larger number."],
    [0, z.number().positive(), "field must be more than 0, not 0; write a larger number."],
    [9, z.number().max(8), "field must be 8 or less, not 9; write a smaller number."],
    [9, z.number().lt(9), "field must be less than 9, not 9; write a smaller number."],
    ["0", z.coerce.number().min(1), "field must be 1 or more, not 0; write a larger number."],
    [1e300, z.number().int().max(60), "field must be 60 or less, not 1e+300; write a smaller number."],
    [9, z.number().multipleOf(5), "field must be a multiple of 5, not 9; write one."],
    ["c", z.enum(["a", "b"]), "field must be one of a, b, not c; write one of them."],
    ["c 1", z.enum(["a", "b"]), "field must be one of a, b, not c 1; write one of them."],
    ["c\n 1", z.enum(["a", "b"]), 'field must be one of a, b, not "c\\n 1"; write one of them.'],
    // Words in a field that is for a code may be about somebody, and are not said back.
    ["itchy red skin", z.enum(["a", "b"]), "field must be one of a, b; write one of them."],
    ["mara@example.com", z.enum(["a", "b"]), "field must be one of a, b; write one of them."],
    ["c", z.literal("a"), "field must be a, not c; write a."],
    [undefined, z.enum(["a", "b"]), "field is missing: it must be one of a, b; write one of them."],
    [null, z.enum(["a", "b"]), "field must be one of a, b, not null; write one of them."],
    [
      "gb",
      z.string().regex(/^[A-Z]{2}$/),
      "field must be written in another way, not gb; see the settings and calls in DEVELOPERS.md.",
    ],
    [
      "x",
      z.string().refine(() => false),
      "field must be written in another way, not x; see the settings and calls in DEVELOPERS.md.",
    ],
  ])("%j", (value, schema, text) => {
    expect(textOf(value, schema)).toBe(text);
  });
});

describe("words of a schema's own", () => {
  const refused = (error: string) => z.string().refine(() => false, { error });
  test.each([
    ["must be two letters; write GB", "two letters", "write GB", "field must be two letters, not x; write GB."],
    ["two letters", "two letters", "write it so", "field must be two letters, not x; write it so."],
    ["must be false: to agree, answer", "false", "to agree, answer", "field must be false, not x: to agree, answer."],
    ["must be a: why so; do b", "a", "do b", "field must be a, not x: why so; do b."],
  ])("%s", (error, limit, remedy, text) => {
    expect(errorsOf({ field: "x" }, z.strictObject({ field: refused(error) }))).toEqual([
      { at: "field", value: "x", limit, remedy, text },
    ]);
  });
});

test("a union is told by the branch that was meant, entry by entry", () => {
  const names = z.union([z.string().min(1), z.array(z.string().min(1)).min(1)]);
  expect(textOf(["", 5], names)).toBe(
    "field[0] must be text with something in it, not empty; write some, or leave the field out if it may be missing. | field[1] must be text, not the number 5; write it as text, in quotation marks.",
  );
  expect(textOf([], names)).toBe("field must be a list with at least 1 entry, not an empty list; add one.");
});

test("every unknown field is named, and one that has no plain name stands in quotation marks", () => {
  const errors = errorsOf({ colour: 1, "a b": 2, "": 3 }, z.strictObject({}));
  expect(errors.map(({ at }) => at)).toEqual(["colour", '"…"', '""']);
  for (const { at, text } of errors) {
    expect(text).toBe(`${at} is not a field of this call; leave it out or correct its spelling.`);
  }
});

test("the name of a list's entry is refused as a name", () => {
  expect(textOf({ "": "x" }, z.record(z.string().min(1), z.string()))).toBe(
    'field."" must have a name that is text with something in it; give it another name.',
  );
});

test.each<[unknown, string]>([
  [null, "null"],
  [[], "an empty list"],
  ["hello", "text"],
  [5, "a number"],
])("a whole body of %j is not said back", (body, kind) => {
  expect(errorsOf(body, z.strictObject({}))).toEqual([
    {
      at: "the body",
      value: null,
      limit: "an object in braces",
      remedy: "write an object in braces",
      text: `the body must be an object in braces, not ${kind}; write an object in braces.`,
    },
  ]);
});

test("words of people, addresses and keys are never said back, whatever is wrong with them", () => {
  const secret = "Wren Tallis-Moor 07700 900123";
  for (const field of ["name", "phone", "email", "address", "note", "by", "client", "url", "staff", "site", "reason"]) {
    for (const schema of [
      z.number(),
      z.string().max(3),
      z.enum(["a"]),
      z.array(z.string()),
      z.string().refine(() => false),
    ]) {
      const [error] = errorsOf({ [field]: secret }, z.strictObject({ [field]: schema }));
      expect(error?.value).toBeNull();
      expect(JSON.stringify(error)).not.toMatch(/Wren|07700/);
    }
    const [error] = errorsOf({ [field]: 7_700_900_123 }, z.strictObject({ [field]: z.string() }));
    expect(JSON.stringify(error)).not.toContain("7700");
  }
});

test("no more faults are named than a person reads, each field once", () => {
  const many = Object.fromEntries(Array.from({ length: 60 }, (_, index) => [`field${index}`, index]));
  expect(errorsOf(many, z.strictObject({}))).toHaveLength(ERRORS_MAX);
});
