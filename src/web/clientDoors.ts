/** The doors for what is asked about clients. Unknown fields are refused by name. */
import * as z from "zod";
import { NOTE_MAX, PAGE_DEFAULT, PAGE_MAX, TEXT_MAX } from "../bounds.ts";
import { CLIENT_STATES } from "../salon/clientList.ts";
import { REQUEST_KINDS } from "../salon/types.ts";
import { parseDay, type Day } from "../time/instant.ts";
import { optional, text } from "./fields.ts";

/** A client as a person writes her. */
export const newClient = z.strictObject({
  name: text.regex(/\p{L}/u, { error: "must be a name with a letter in it; write one such as Ann Brill" }),
  email: optional(
    text.regex(/^[^\s@]+@[^\s@]+$/, { error: "must be an e-mail address; write one such as ann@post.example" }),
  ),
  phone: optional(
    text.regex(/\d\D{0,3}\d\D{0,3}\d/, { error: "must be a telephone number; write one such as 01632 960001" }),
  ),
});

/** GET /api/salon/clients. */
export const clientsQuery = z.strictObject({
  q: optional(z.string().trim().max(TEXT_MAX)).transform((q) => (q === "" ? null : q)),
  state: optional(z.enum(CLIENT_STATES)),
  after: optional(
    z.string().regex(/^c\d{1,12}$/, { error: "must be the next of the page before; leave it out for the first" }),
  ),
  limit: z.coerce.number().int().min(1).max(PAGE_MAX).default(PAGE_DEFAULT),
});

const decider = {
  by: optional(text),
  via: z
    .enum(["desk", "api"])
    .nullish()
    .transform((via) => via ?? ("api" as const)),
  reason: optional(z.string().trim().max(NOTE_MAX)),
};

export const confirmRequest = z.strictObject(decider);
/** POST …/join and …/apart. */
export const otherRequest = z.strictObject({ ...decider, with: text });
export const splitRequest = z.strictObject({
  ...decider,
  bookings: z.array(z.string().min(1).max(1_000)).min(1).max(PAGE_MAX),
});

const day = z.string().transform((value, context): Day => {
  const found = parseDay(value);
  if (found !== undefined) return found;
  context.addIssue({ code: "custom", message: "must be a date such as 2026-12-09" });
  return z.NEVER;
});

/** POST …/requests: what a client has asked of the salon about her data. */
export const dataRequest = z.strictObject({ ...decider, what: z.enum(REQUEST_KINDS), received: day.optional() });

/** DELETE …/{id}: who says so stands in the body, since an address is written down in many places. */
export const eraseQuery = z.strictObject({ evidence: z.enum(["keep", "erase"]).default("keep") });
