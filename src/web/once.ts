/** Reads an Idempotency-Key: which request this is, so that the same one sent twice is done once. */
import { createHash } from "node:crypto";
import type { Once } from "../salon/once.ts";
import type { RequestFault } from "./problems.ts";

const hash = (text: string): string => createHash("sha256").update(text).digest("base64url");

/** `once` null: the request does not say. */
export type OnceRead =
  | { readonly ok: true; readonly once: Once | null }
  | { readonly ok: false; readonly fault: RequestFault };

/**
 * @param scope whose request it is: a key means something in one place alone
 * @param value what is asked, as the door read it
 */
export const readOnce = (request: Request, scope: string, value: unknown): OnceRead => {
  const header = request.headers.get("idempotency-key");
  if (header === null) return { ok: true, once: null };
  if (!/^[\x21-\x7e]{1,255}$/.test(header)) return { ok: false, fault: { code: "idempotency-key-malformed" } };
  const path = new URL(request.url).pathname;
  const once = { key: hash(`${scope}\n${header}`), print: hash(`${request.method} ${path}\n${JSON.stringify(value)}`) };
  return { ok: true, once };
};
