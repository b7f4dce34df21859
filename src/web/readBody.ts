/** Reads request bodies: bounded, as JSON, through a zod door. What is wrong comes back named, value, limit and remedy. */
import type * as z from "zod";
import { BODY_MAX_BYTES, ERRORS_MAX } from "../bounds.ts";
import type { RequestError, RequestFault } from "./problems.ts";

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

const isJsonType = (type: string | null): boolean =>
  type === null || /^(application\/json|[^;]+\+json|text\/plain)\s*(;|$)/i.test(type);

/** Reads a JSON body through a schema. */
export const readJson = async <Value>(request: Request, schema: z.ZodType<Value>): Promise<Read<Value>> => {
  const type = request.headers.get("content-type");
  const bytes = await readBytes(request, BODY_MAX_BYTES);
  if (!bytes) return { ok: false, fault: { code: "body-too-large" } };
  if (!isJsonType(type))
    return { ok: false, fault: { code: "wrong-type", type: type ?? "", wanted: "application/json" } };
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder("utf-8", { fatal: true, ignoreBOM: false }).decode(bytes));
  } catch {
    return { ok: false, fault: { code: "not-json" } };
  }
  return check(value, schema);
};

/** Whether a request brings a plain form, as a page without script sends it. */
export const isForm = (request: Request): boolean =>
  /^application\/x-www-form-urlencoded\s*(;|$)/i.test(request.headers.get("content-type") ?? "");

/** Reads a form's fields through a schema. */
export const readForm = async <Value>(request: Request, schema: z.ZodType<Value>): Promise<Read<Value>> => {
  const bytes = await readBytes(request, BODY_MAX_BYTES);
  if (!bytes) return { ok: false, fault: { code: "body-too-large" } };
  return check(Object.fromEntries(new URLSearchParams(new TextDecoder().decode(bytes))), schema);
};

/** Puts a value through a schema; every fault is named. */
export const check = <Value>(value: unknown, schema: z.ZodType<Value>): Read<Value> => {
  const parsed = schema.safeParse(value);
  if (parsed.success) return { ok: true, value: parsed.data };
  return {
    ok: false,
    fault: {
      code: "request-refused",
      errors: parsed.error.issues.flatMap((issue) => errorsOf(issue, value)).slice(0, ERRORS_MAX),
    },
  };
};

const pathOf = (path: readonly PropertyKey[]): string =>
  path.reduce<string>(
    (text, part) => (typeof part === "number" ? `${text}[${part}]` : text ? `${text}.${String(part)}` : String(part)),
    "",
  );

const valueAt = (value: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (inner, part) => (typeof inner === "object" && inner !== null ? Reflect.get(inner, part) : undefined),
    value,
  );

/** Characters of a value or a field's name that are quoted back. */
const QUOTE_MAX = 80;

/** Where a fault is of the whole body; that may hold anything. */
const WHOLE = "the body";

/** Words of people, addresses and keys are never quoted back. */
const PERSONAL =
  /(^|\.)(client|contact|diaries|name|phone|email|address|note|reason|by|site|photo|batch|url|summary|staff)(\[|$)/;

const quote = (at: string, value: unknown): string | null => {
  if (value === undefined || at === WHOLE || PERSONAL.test(at)) return null;
  const isPlain = typeof value === "string" || typeof value === "number" || typeof value === "boolean";
  return isPlain ? String(value).slice(0, QUOTE_MAX) : null;
};

const errorsOf = (issue: z.core.$ZodIssue, root: unknown): RequestError[] => {
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => {
      const at = pathOf([...issue.path, key.slice(0, QUOTE_MAX)]);
      return {
        at,
        value: null,
        limit: "a field that this call knows",
        remedy: "leave it out or correct its spelling",
        text: `${at} is not a field of this call; leave it out or correct its spelling.`,
      };
    });
  }
  const nested = issue.code === "invalid_union" ? (issue.errors.find((each) => each.length > 0) ?? []) : [];
  const at = pathOf(issue.path) || WHOLE;
  const found = valueAt(root, issue.path);
  const value = quote(at, found);
  const limit = (nested[0]?.message ?? issue.message).replace(/^Invalid input: /, "");
  const missing = found === undefined;
  const text = missing ? `${at} is missing: ${limit}.` : `${at}${value === null ? "" : ` is ${value}`}: ${limit}.`;
  return [{ at, value, limit, remedy: missing ? `give ${at}` : `correct ${at}`, text }];
};
