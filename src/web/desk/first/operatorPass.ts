/**
 * Says for an hour that the operator's key was given on this page, so that a form which comes back with a fault in another field
 * need not ask for it again. The key itself is in no page.
 */
import { createHmac } from "node:crypto";
import { isSameSecret } from "../../../salon/link.ts";
import { HOUR, type Instant } from "../../../time/instant.ts";

const sign = (until: Instant, { OPERATOR_KEY, LINK_SECRET }: Secrets): string =>
  createHmac("sha256", LINK_SECRET).update(`operator pass\n${OPERATOR_KEY}\n${until}`).digest("base64url");

interface Secrets {
  readonly OPERATOR_KEY: string;
  readonly LINK_SECRET: string;
}

export const makePass = (secrets: Secrets, now: Instant): string => {
  const until = now + HOUR;
  return `${until}.${sign(until, secrets)}`;
};

export const isPass = (text: string, secrets: Secrets, now: Instant): boolean => {
  const [, until, signature] = /^(\d{1,12})\.([\w-]{43})$/.exec(text) ?? [];
  if (until === undefined || signature === undefined || Number(until) <= now) return false;
  return isSameSecret(signature, sign(Number(until), secrets));
};
