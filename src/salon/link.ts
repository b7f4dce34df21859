/**
 * Links and keys: addresses that cannot be guessed. A link is derived from salon, holder and generation and signed with
 * the service's secret, so nothing secret is stored and a wrong one is known before any salon is woken.
 * Never holds a name, a date or an address.
 */
import { createHash, createHmac, randomBytes, timingSafeEqual } from "node:crypto";

/** Whom a link is for: the salon's own feed, or one client by number. */
export interface LinkClaim {
  readonly salon: string;
  readonly holder: "salon-feed" | { readonly client: number };
  /** Renewing raises it; a lower one is revoked. */
  readonly generation: number;
}

/** 80 bits name a salon. */
const SALON_BYTES = 10;
/** 192 bits of HMAC-SHA-256: the contract asks for 160 at least. */
const SIGNATURE_BYTES = 24;
const KEY_SECRET_BYTES = 24;
const HOLDER_BYTES = 4;
const GENERATION_BYTES = 2;
const CLAIM_BYTES = SALON_BYTES + HOLDER_BYTES + GENERATION_BYTES;
/** The holder number of the salon's own feed; clients count from 1. */
const SALON_FEED = 0;

const sign = (purpose: string, body: Uint8Array, secret: string): Buffer =>
  createHmac("sha256", secret).update(`${purpose}\n`).update(body).digest().subarray(0, SIGNATURE_BYTES);

const isSigned = (purpose: string, body: Uint8Array, signature: Uint8Array, secret: string): boolean =>
  signature.length === SIGNATURE_BYTES && timingSafeEqual(signature, sign(purpose, body, secret));

/** Octets that nobody can guess: at random, or the same again for whoever asks the same thing twice. */
const newBytes = (count: number, purpose: string, again: Repeated | null): Buffer =>
  again === null
    ? randomBytes(count)
    : createHmac("sha256", again.secret).update(`${purpose}\n${again.once}`).digest().subarray(0, count);

/** What a request is known by that may be sent again, and the service's secret. */
export interface Repeated {
  readonly once: string;
  readonly secret: string;
}

/** A new salon's name: random, since nothing about the salon may be read from it. */
export const newSalonId = (again: Repeated | null = null): string =>
  newBytes(SALON_BYTES, "new salon", again).toString("hex");

/** The link's text, 54 characters that stand in an address as they are. */
export const makeLink = (claim: LinkClaim, secret: string): string => {
  const body = Buffer.alloc(CLAIM_BYTES);
  Buffer.from(claim.salon, "hex").copy(body);
  body.writeUInt32BE(claim.holder === "salon-feed" ? SALON_FEED : claim.holder.client, SALON_BYTES);
  body.writeUInt16BE(claim.generation, SALON_BYTES + HOLDER_BYTES);
  return Buffer.concat([body, sign("link", body, secret)]).toString("base64url");
};

/** What a link claims, or undefined where it was never given out by this service. */
export const readLink = (text: string, secret: string): LinkClaim | undefined => {
  const bytes = Buffer.from(text, "base64url");
  if (bytes.length !== CLAIM_BYTES + SIGNATURE_BYTES || bytes.toString("base64url") !== text) return undefined;
  const body = bytes.subarray(0, CLAIM_BYTES);
  if (!isSigned("link", body, bytes.subarray(CLAIM_BYTES), secret)) return undefined;
  const holder = body.readUInt32BE(SALON_BYTES);
  return {
    salon: body.subarray(0, SALON_BYTES).toString("hex"),
    holder: holder === SALON_FEED ? "salon-feed" : { client: holder },
    generation: body.readUInt16BE(SALON_BYTES + HOLDER_BYTES),
  };
};

/** A salon's bearer key. Shown once; the salon keeps `hashKey` of it. */
export const makeKey = (salon: string, secret: string, again: Repeated | null = null): string => {
  const body = Buffer.concat([Buffer.from(salon, "hex"), newBytes(KEY_SECRET_BYTES, "new key", again)]);
  return Buffer.concat([body, sign("key", body, secret)]).toString("base64url");
};

/** The salon a key was made for, or undefined where this service never made it. Whether it still holds, the salon says. */
export const salonOfKey = (key: string, secret: string): string | undefined => {
  const bytes = Buffer.from(key, "base64url");
  const bodyLength = SALON_BYTES + KEY_SECRET_BYTES;
  if (bytes.length !== bodyLength + SIGNATURE_BYTES || bytes.toString("base64url") !== key) return undefined;
  const body = bytes.subarray(0, bodyLength);
  if (!isSigned("key", body, bytes.subarray(bodyLength), secret)) return undefined;
  return body.subarray(0, SALON_BYTES).toString("hex");
};

/** What is stored of a key: SHA-256, since 192 random bits need no slow hash. */
export const hashKey = (key: string): string => createHash("sha256").update(key).digest("base64url");

/** Whether two secrets are one, in a time that tells nothing about where they differ. */
export const isSameSecret = (left: string, right: string): boolean =>
  timingSafeEqual(createHash("sha256").update(left).digest(), createHash("sha256").update(right).digest());
