/** Reads request bodies: bounded, as JSON, through a zod door. What is wrong comes back named, value, limit and remedy. */
import type * as z from "zod";
import { BODY_MAX_BYTES, ERRORS_MAX } from "../bounds.ts";
import { NO_WORDS } from "./limitWords.ts";
import { nameFaults } from "./nameFaults.ts";
import type { RequestFault } from "./problems.ts";

export type Read<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly fault: RequestFault };

/** A body's bytes, or undefined where there are more than `max`; the rest is read and dropped, so that an answer gets out. */
const readBytes = async (request: Request, max: number): Promise<Uint8Array | undefined> => {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of request.body ?? []) {
    length += chunk.byteLength;
    if (length <= max) chunks.push(chunk);
  }
  if (length > max) return undefined;
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.byteLength;
  }
  return bytes;
};

/** A body of text in UTF-8, without its byte order mark. */
export const readText = async (request: Request, type: RegExp, wanted: string, max: number): Promise<Read<string>> => {
  const given = request.headers.get("content-type");
  const bytes = await readBytes(request, max);
  if (!bytes) return { ok: false, fault: { code: "text-too-large", max } };
  if (given !== null && !type.test(given)) return { ok: false, fault: { code: "wrong-type", type: given, wanted } };
  try {
    return { ok: true, value: new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(bytes) };
  } catch {
    return { ok: false, fault: { code: "not-utf-8" } };
  }
};

const isJsonType = (type: string | null): boolean =>
  type === null || /^(application\/json|[^;]+\+json|text\/plain)\s*(;|$)/i.test(type);

/** Half of a character, which JSON can write and no file in UTF-8 can hold, becomes the mark for one that is lost. */
const wellFormed = (_key: string, value: unknown): unknown =>
  typeof value === "string" ? value.toWellFormed() : value;

/** Reads a JSON body through a schema. */
export const readJson = async <Value>(request: Request, schema: z.ZodType<Value>): Promise<Read<Value>> => {
  const type = request.headers.get("content-type");
  const bytes = await readBytes(request, BODY_MAX_BYTES);
  if (!bytes) return { ok: false, fault: { code: "body-too-large" } };
  if (!isJsonType(type))
    return { ok: false, fault: { code: "wrong-type", type: type ?? "", wanted: "application/json" } };
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(bytes), wellFormed);
  } catch {
    return { ok: false, fault: { code: "not-json" } };
  }
  return check(value, schema);
};

/** The same where a body may be left out: then it is an empty object. */
export const readJsonIfAny = async <Value>(request: Request, schema: z.ZodType<Value>): Promise<Read<Value>> =>
  request.body && request.headers.get("content-length") !== "0" ? readJson(request, schema) : check({}, schema);

/** Whether a request brings a plain form, as a page without script sends it. */
export const isForm = (request: Request): boolean =>
  /^application\/x-www-form-urlencoded\s*(;|$)/i.test(request.headers.get("content-type") ?? "");

/** Reads a form's fields through a schema. */
export const readForm = async <Value>(request: Request, schema: z.ZodType<Value>): Promise<Read<Value>> => {
  const bytes = await readBytes(request, BODY_MAX_BYTES);
  if (!bytes) return { ok: false, fault: { code: "body-too-large" } };
  return check(Object.fromEntries(new URLSearchParams(new TextDecoder().decode(bytes))), schema);
};

/**
 * Puts a value through a schema; every fault is named.
 * @param said what may be quoted of the value, where that is not the value itself
 */
export const check = <Value>(value: unknown, schema: z.ZodType<Value>, said = value): Read<Value> => {
  const parsed = schema.safeParse(value, { error: () => NO_WORDS });
  if (parsed.success) return { ok: true, value: parsed.data };
  return {
    ok: false,
    fault: {
      code: "request-refused",
      errors: nameFaults(parsed.error.issues, said).slice(0, ERRORS_MAX),
    },
  };
};
