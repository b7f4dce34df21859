/**
 * Who is signed in at a salon's desk: a cookie that this service signed, tied to the salon's key, so that renewing the key signs
 * everybody out. Nothing of it is stored, and the key itself is in no cookie.
 */
import { createHmac, timingSafeEqual } from "node:crypto";
import type { Instant } from "../../time/instant.ts";

export interface Session {
  /** The salon's id, 20 hexadecimal digits. */
  readonly salon: string;
  /** `hashKey` of the key it was opened with. */
  readonly keyHash: string;
  readonly until: Instant;
}

const SALON_BYTES = 10;
const HASH_BYTES = 32;
const UNTIL_BYTES = 6;
const SIGNATURE_BYTES = 24;
const BODY_BYTES = SALON_BYTES + HASH_BYTES + UNTIL_BYTES;

const sign = (purpose: string, body: Uint8Array, secret: string): Buffer =>
  createHmac("sha256", secret).update(`${purpose}\n`).update(body).digest().subarray(0, SIGNATURE_BYTES);

/** The cookie's text. */
export const makeSession = ({ salon, keyHash, until }: Session, secret: string): string => {
  const body = Buffer.alloc(BODY_BYTES);
  Buffer.from(salon, "hex").copy(body);
  Buffer.from(keyHash, "base64url").copy(body, SALON_BYTES);
  body.writeUIntBE(until, SALON_BYTES + HASH_BYTES, UNTIL_BYTES);
  return Buffer.concat([body, sign("desk", body, secret)]).toString("base64url");
};

/** Undefined for what this service never signed, and for what has run out. */
export const readSession = (text: string, secret: string, now: Instant): Session | undefined => {
  const bytes = Buffer.from(text, "base64url");
  if (bytes.length !== BODY_BYTES + SIGNATURE_BYTES || bytes.toString("base64url") !== text) return undefined;
  const body = bytes.subarray(0, BODY_BYTES);
  if (!timingSafeEqual(bytes.subarray(BODY_BYTES), sign("desk", body, secret))) return undefined;
  const until = body.readUIntBE(SALON_BYTES + HASH_BYTES, UNTIL_BYTES);
  if (until <= now) return undefined;
  return {
    salon: body.subarray(0, SALON_BYTES).toString("hex"),
    keyHash: body.subarray(SALON_BYTES, SALON_BYTES + HASH_BYTES).toString("base64url"),
    until,
  };
};

/** What every form of this session carries: another site can send a form, but cannot know this. */
export const formToken = (session: string, secret: string): string =>
  sign("desk form", Buffer.from(session), secret).toString("base64url");

/** Whether a form came from a page of this session. */
export const isTokenOf = (token: string, session: string, secret: string): boolean => {
  const [given, own] = [Buffer.from(token), Buffer.from(formToken(session, secret))];
  return given.length === own.length && timingSafeEqual(given, own);
};
