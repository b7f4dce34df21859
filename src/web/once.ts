/** Reads an Idempotency-Key: which request this is, so that the same one sent twice is done once. */
import { createHash } from "node:crypto";
import type { Once } from "../salon/once.ts";
import { isForm } from "./readBody.ts";
import type { RequestFault } from "./problems.ts";

const hash = (text: string): string => createHash("sha256").update(text).digest("base64url");

/** `once` null: the request does not say. */
export type OnceRead =
  | { readonly ok: true; readonly once: Once | null }
  | { readonly ok: false; readonly fault: RequestFault };

/** How long two presses of one button on one page count as one. */
const PRESS_SECONDS = 30;

/**
 * @param scope whose request it is: a key means something in one place alone
 * @param value what is asked, as the door read it
 */
export const readOnce = (request: Request, scope: string, value: unknown): OnceRead => {
  const header = request.headers.get("idempotency-key") ?? pressKey(request, value);
  if (header === null) return { ok: true, once: null };
  if (!/^[\x21-\x7e]{1,255}$/.test(header)) return { ok: false, fault: { code: "idempotency-key-malformed" } };
  const path = new URL(request.url).pathname;
  const once = { key: hash(`${scope}\n${header}`), print: hash(`${request.method} ${path}\n${JSON.stringify(value)}`) };
  return { ok: true, once };
};

/** A form that is sent twice within moments was pressed twice; null of what is no form. */
const pressKey = (request: Request, value: unknown): string | null =>
  isForm(request) ? hash(`${Math.floor(Date.now() / 1000 / PRESS_SECONDS)}\n${JSON.stringify(value)}`) : null;
